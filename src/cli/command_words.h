// What can be typed, as values: the one description that manual pages and completion are made from.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

namespace cli {

// An option, or a word that stands by itself: `TUNE`.
struct OptionWords {
    std::vector<std::string> names;    // `--on`, `--instrument`; one name for a word that stands by itself
    std::string value;                 // `NAME`, `home|any`; empty for an option that takes none
    std::vector<std::string> choices;  // the only values there are; empty: any
    bool is_required = false;
    bool may_repeat = false;  // or takes several
    std::string text;
    std::string group;  // heading it stands below
};

struct CommandWords {
    std::vector<std::string> typed;  // `gamut`, `player`, `add`
    std::string text;
    std::vector<OptionWords> words, options;
    std::vector<CommandWords> below;
    std::vector<std::string> notes;     // what else there is to say, a paragraph each
    std::vector<std::string> examples;  // commands

    std::string name() const;  // `gamut player add`
};

// Options and commands that are hidden are left out.
CommandWords command_words(const CLI::App& app);

// `gamut tunes [OPTION]...`
std::string synopsis_of(const CommandWords& command);

// `--on, --instrument NAME`, `TUNE...`
std::string left_side(const OptionWords& option);

}  // namespace cli
