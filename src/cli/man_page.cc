// Tested by tests/outside/pages_made.py.
#include "cli/man_page.h"

#include <algorithm>
#include <cctype>

#include "cli/version.h"
#include "guide/pages.h"

namespace cli {

namespace {

// Nothing in it is a sign of Markdown any more.
std::string plain(std::string_view text) {
    std::string escaped;
    for (const char c : text) {
        if (std::ispunct(static_cast<unsigned char>(c))) escaped += '\\';
        escaped += c;
    }
    return escaped;
}

std::string bold(std::string_view text) { return "**" + plain(text) + "**"; }

std::string page_name(const CommandWords& command) {
    std::string name;
    for (const std::string& word : command.typed) name += (name.empty() ? "" : "-") + word;
    return name;
}

// An entry of a list of definitions.
std::string entry(const std::string& left, const std::string& right) { return left + "\n:   " + right + "\n\n"; }

std::string options_of(const CommandWords& command, const std::string& level) {
    std::string text;
    for (const OptionWords& word : command.words) text += entry("*" + plain(left_side(word)) + "*", plain(word.text));
    std::vector<std::string> groups;
    for (const OptionWords& option : command.options)
        if (std::find(groups.begin(), groups.end(), option.group) == groups.end()) groups.push_back(option.group);
    for (const std::string& group : groups) {
        if (groups.size() > 1) text += level + " " + plain(group) + "\n\n";
        for (const OptionWords& option : command.options) {
            if (option.group != group) continue;
            std::string names;
            for (const std::string& name : option.names) names += (names.empty() ? "" : ", ") + bold(name);
            if (!option.value.empty()) names += " *" + plain(option.value) + "*";
            text += entry(names, plain(option.text) + (option.is_required ? " (has to be given)" : ""));
        }
    }
    return text;
}

std::string synopsis(const CommandWords& command) {
    const std::string name = command.name();
    return bold(name) + plain(synopsis_of(command).substr(name.size()));
}

std::string described(const CommandWords& command) {
    std::string text;
    for (const std::string& note : command.notes) text += plain(note) + "\n\n";
    return text;
}

std::string examples_of(const CommandWords& command) {
    std::string text;
    for (const std::string& example : command.examples) text += "    " + example + "\n";
    return text + "\n";
}

std::string guide_topics() {
    std::string text =
        "# GUIDE\n\n" + bold("gamut guide") + " shows these pages; all of them stand in *gamut\\-guide*(7).\n\n";
    for (const guide::Page& page : guide::pages())
        text += entry(bold("gamut guide " + std::string(page.topic)), plain(page.question));
    return text;
}

constexpr const char* kFacesOfTheWorld =
    "# FILES\n\n"
    "*~/.local/share/gamut/library.db*\n:   the library, unless **--library** or **GAMUT_LIBRARY** names another file; "
    "**XDG_DATA_HOME** is heeded\n\n"
    "# ENVIRONMENT\n\n"
    "**GAMUT_LIBRARY**\n:   the library file\n\n"
    "**COLUMNS**\n:   how wide answers are; else as wide as the terminal, else 80\n\n"
    "**NO_COLOR**\n:   no colours, whatever it says\n\n"
    "**GAMUT_TODAY**\n:   the day it is taken to be, such as 2027-01-12\n\n";

constexpr const char* kExitStatus =
    "# EXIT STATUS\n\n"
    "0\n:   all went well\n\n"
    "1\n:   some input was skipped, or nothing was found\n\n"
    "2\n:   the command was not understood\n\n"
    "3\n:   the disk or the library failed\n\n";

}  // namespace

std::string man_page(const CommandWords& command, const CommandWords& program) {
    const bool is_program = command.typed.size() == 1;
    std::string title = page_name(command);
    std::transform(title.begin(), title.end(), title.begin(), [](unsigned char c) { return std::toupper(c); });
    std::string text = "% " + title + "(1) " + kVersion + " | Tunes and notes\n\n";
    text += "# NAME\n\n" + plain(page_name(command)) + " - " + plain(command.text) + "\n\n";
    text += "# SYNOPSIS\n\n" + synopsis(command) + "\n\n";
    if (!command.notes.empty()) text += "# DESCRIPTION\n\n" + described(command);
    if (!command.below.empty()) text += "# COMMANDS\n\n";
    for (const CommandWords& below : command.below) {
        if (is_program) {
            text += entry("**" + plain(page_name(below)) + "**(1)", plain(below.text));
            continue;
        }
        text += "## " + plain(below.name()) + "\n\n" + plain(below.text) + "\n\n" + synopsis(below) + "\n\n" +
                options_of(below, "###");
        if (below.notes != command.notes) text += described(below);  // they have the command's where they say nothing
        if (below.examples != command.examples) text += examples_of(below);
    }
    text += "# OPTIONS\n\n" + options_of(command, "##");
    if (!command.examples.empty()) text += "# EXAMPLES\n\n" + examples_of(command);
    if (is_program) text += guide_topics() + kFacesOfTheWorld;
    text += kExitStatus;
    text += "# SEE ALSO\n\n";
    if (!is_program) text += "**gamut**(1), ";
    text += "**gamut-guide**(7)";
    if (is_program)
        for (const CommandWords& below : program.below) text += ", **" + plain(page_name(below)) + "**(1)";
    return text + "\n";
}

}  // namespace cli
