// What the program tells of itself, for a program that asks: which it is, what can be typed, the guide.
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace report {

struct TypedWord {
    std::vector<std::string> names;    // `--on`, `--instrument`; of a word that stands by itself one, `TUNE`
    std::string value;                 // `NAME`; empty where it takes none
    std::vector<std::string> choices;  // the only values there are; empty: any
    bool is_required = false;
    bool may_repeat = false;
    std::string text;
    std::string group;  // heading it stands below
};

struct HelpPage {
    std::string command;  // `gamut player add`
    std::string text;
    std::vector<TypedWord> words, options;
    std::vector<std::pair<std::string, std::string>> commands;  // below it: word and line
    std::vector<std::string> notes, examples;
};

struct GuideTopic {
    std::string topic, question;
    std::string markdown{};  // the page; empty in a list
};

std::string version_as_json(const std::string& release);  // `0.1.0`
std::string as_json(const HelpPage& page);
std::string as_json(const std::vector<GuideTopic>& topics);  // the list
std::string as_json(const GuideTopic& page);

}  // namespace report
