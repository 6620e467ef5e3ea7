// Tested by tests/golden/program/misused.test.
#include "cli/misuse.h"

#include <algorithm>
#include <string_view>
#include <vector>

#include "cli/nearest_word.h"
#include "cli/numbers_typed.h"

namespace cli {

namespace {

// The command that was typed, down to its last word: `player add`.
struct Typed {
    const CLI::App* app;
    std::string words;

    std::string help() const { return "gamut " + words + " --help"; }
};

Typed typed_in(const CLI::App& program) {
    Typed typed{&program, {}};
    while (!typed.app->get_subcommands().empty()) {
        typed.app = typed.app->get_subcommands().front();
        typed.words += (typed.words.empty() ? "" : " ") + typed.app->get_name();
    }
    return typed;
}

std::vector<std::string> options_of(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::Option* option : app.get_options())
        for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
    return names;
}

std::vector<std::string> words_below(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::App* below : app.get_subcommands([](const CLI::App*) { return true; }))
        names.push_back(below->get_name());
    return names;
}

std::string sentence_of_extras(const CLI::App& program) {
    const Typed typed = typed_in(program);
    const std::vector<std::string> extras = program.remaining(true);
    const auto option =
        std::find_if(extras.begin(), extras.end(), [](const auto& one) { return one.starts_with("-"); });
    const std::string& wrong = option != extras.end() ? *option : extras.front();
    const std::string lists = "; " + typed.help() + " lists them";
    if (wrong.starts_with("-")) {
        const std::string name = wrong.substr(0, wrong.find('='));
        if (const auto known = options_of(*typed.app); std::find(known.begin(), known.end(), name) != known.end())
            return name + " stands behind the command: gamut " + typed.words + " " + name;
        return typed.words + " has no option " + name + hint(nearest_word(options_of(*typed.app), name)) + lists;
    }
    if (const std::vector<std::string> below = words_below(*typed.app); !below.empty())
        return "there is no \"" + typed.words + " " + wrong + "\"" + hint(nearest_word(below, wrong)) + lists;
    const auto known = options_of(*typed.app);
    const bool takes_title = std::find(known.begin(), known.end(), "--title") != known.end();
    return typed.words + ": \"" + wrong + "\" is one word too many; " +
           (takes_title ? "for a title: --title \"" + wrong + "\", or gamut tune \"" + wrong + "\""
                        : std::string("a title of several words stands in quotes"));
}

std::string sentence_of_required(const CLI::App& program, const std::string& text) {
    const Typed typed = typed_in(program);
    constexpr std::string_view kRequired = " is required";  // Source: CLI11, Error.hpp, RequiredError
    if (!text.ends_with(kRequired)) return text;
    const std::string what = text.substr(0, text.size() - kRequired.size());
    if (what == "A subcommand" && typed.app == &program)
        return "what would you like to know? gamut --help lists what one can ask; gamut import FOLDER comes first";
    if (what == "A subcommand") {
        std::string list;
        for (const std::string& word : words_below(*typed.app)) list += (list.empty() ? "" : ", ") + word;
        return "say what: gamut " + typed.words + " " + words_below(*typed.app).front() + ", or one of these: " + list;
    }
    return typed.words + " needs " + what + "; " + typed.help() + " tells more";
}

// `--kind: 1 required KIND missing`, `TUNE: At Most 2 required but received 3`. Source: CLI11, Error.hpp.
std::string sentence_of_number(const std::string& text) {
    constexpr std::string_view kOne = ": 1 required ", kMissing = " missing";
    constexpr std::string_view kMost = ": At Most ", kReceived = " required but received ";
    const std::size_t one = text.find(kOne), most = text.find(kMost), received = text.find(kReceived);
    if (one != std::string::npos && text.ends_with(kMissing))
        return text.substr(0, one) + " needs " +
               text.substr(one + kOne.size(), text.size() - kMissing.size() - one - kOne.size());
    if (most != std::string::npos && received != std::string::npos)
        return text.substr(0, most) + ": at most " + text.substr(most + kMost.size(), received - most - kMost.size()) +
               ", not " + text.substr(received + kReceived.size());
    return text;
}

// `--json excludes --csv`, `--at-start requires --goes`. Source: CLI11, Error.hpp.
std::string sentence_of_two(const std::string& text, std::string_view between, std::string_view ours,
                            std::string_view end) {
    const std::size_t at = text.find(between);
    if (at == std::string::npos) return text;
    return text.substr(0, at) + std::string(ours) + text.substr(at + between.size()) + std::string(end);
}

}  // namespace

std::string sentence_of(const CLI::App& program, const CLI::ParseError& error) {
    const std::string text = error.what();
    if (const auto* conversion = dynamic_cast<const CLI::ConversionError*>(&error)) return sentence_of(*conversion);
    if (dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr && !program.remaining(true).empty())
        return sentence_of_extras(program);
    if (dynamic_cast<const CLI::RequiredError*>(&error) != nullptr) return sentence_of_required(program, text);
    if (dynamic_cast<const CLI::ArgumentMismatch*>(&error) != nullptr) return sentence_of_number(text);
    if (dynamic_cast<const CLI::ExcludesError*>(&error) != nullptr)
        return sentence_of_two(text, " excludes ", " and ", " cannot be given together");
    if (dynamic_cast<const CLI::RequiresError*>(&error) != nullptr)
        return sentence_of_two(text, " requires ", " goes with ", "");
    return text;
}

}  // namespace cli
