// Tested by tests/outside/pages_made.py.
#include "cli/command_words.h"

#include <algorithm>

namespace cli {

namespace {

std::vector<std::string> parted(std::string_view text, char sign) {
    std::vector<std::string> parts;
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t end = std::min(text.find(sign, begin), text.size());
        parts.emplace_back(text.substr(begin, end - begin));
        begin = end + 1;
    }
    return parts;
}

// `TEXT:{facts,melody,tokens}` as CLI11 writes the values a check allows, `home|any` as we do.
void read_type(const std::string& type, OptionWords& option) {
    const std::size_t set = type.find(":{");
    if (set != std::string::npos && type.ends_with("}")) {
        option.choices = parted(std::string_view(type).substr(set + 2, type.size() - set - 3), ',');
        for (const std::string& choice : option.choices) option.value += (option.value.empty() ? "" : "|") + choice;
        return;
    }
    option.value = type.substr(0, type.find('('));  // `TUNE(0x)`: how often, which the dots say
    if (option.value.find('|') == std::string::npos) return;
    for (std::string& choice : parted(option.value, '|'))
        if (std::none_of(choice.begin(), choice.end(), [](char c) { return c >= 'A' && c <= 'Z'; }))
            option.choices.push_back(std::move(choice));
}

OptionWords option_words(const CLI::Option& option) {
    OptionWords words;
    const bool is_word = !option.nonpositional();
    if (is_word) {
        words.names = {option.get_name(true)};
    } else {
        for (const std::string& name : option.get_snames()) words.names.push_back("-" + name);
        for (const std::string& name : option.get_lnames()) words.names.push_back("--" + name);
    }
    if (option.get_type_size_max() > 0) read_type(option.get_type_name(), words);
    if (is_word) words.names[0] = words.names[0].substr(0, words.names[0].find('('));
    words.is_required = option.get_required();
    words.may_repeat = option.get_expected_max() > 1;
    words.text = option.get_description();
    words.group = option.get_group();
    return words;
}

// `Example:  gamut ...` and the lines that go on with it; all other lines are notes.
void read_footer(const std::string& footer, CommandWords& command) {
    for (const std::string& line : parted(footer, '\n')) {
        const std::size_t at = line.find("gamut ");
        const std::string before = at == std::string::npos ? line : line.substr(0, at);
        const bool is_example =
            before == "Example:  " || before == "Try:  " ||
            (at != std::string::npos && at > 0 && before.find_first_not_of(' ') == std::string::npos);
        if (is_example)
            command.examples.push_back(line.substr(at));
        else if (!line.empty())
            command.notes.push_back(line);
    }
}

void read_app(const CLI::App& app, CommandWords& command) {
    command.text = app.get_description();
    // Options stand in groups, and so nameless commands: what is in them belongs to the command they are part of.
    for (const CLI::Option* option : app.get_options()) {
        if (option->get_group().empty()) continue;
        (option->nonpositional() ? command.options : command.words).push_back(option_words(*option));
    }
    for (const CLI::App* below : app.get_subcommands([](const CLI::App*) { return true; })) {
        if (below->get_group().empty()) continue;
        if (below->get_name().empty()) {
            CommandWords part;
            read_app(*below, part);
            command.options.insert(command.options.end(), part.options.begin(), part.options.end());
            continue;
        }
        CommandWords& words = command.below.emplace_back();
        words.typed = command.typed;
        words.typed.push_back(below->get_name());
        read_app(*below, words);
    }
    read_footer(app.get_footer(), command);
}

}  // namespace

std::string CommandWords::name() const {
    std::string name;
    for (const std::string& word : typed) name += (name.empty() ? "" : " ") + word;
    return name;
}

CommandWords command_words(const CLI::App& app) {
    CommandWords command;
    for (const CLI::App* at = &app; at != nullptr; at = at->get_parent())
        command.typed.insert(command.typed.begin(), at->get_name());
    read_app(app, command);
    return command;
}

std::string left_side(const OptionWords& option) {
    std::string text;
    for (const std::string& name : option.names) text += (text.empty() ? "" : ", ") + name;
    const bool is_word = !option.names.front().starts_with("-");
    if (!is_word && !option.value.empty()) text += " " + option.value;
    return text + (is_word && option.may_repeat ? "..." : "");
}

std::string synopsis_of(const CommandWords& command) {
    std::string text = command.name();
    for (const OptionWords& option : command.options)
        if (option.is_required) text += " " + left_side(option);
    text += " [OPTION]...";
    for (const OptionWords& word : command.words)
        text += " " + (word.is_required ? left_side(word) : "[" + left_side(word) + "]");
    if (!command.below.empty()) text += " COMMAND";
    return text;
}

}  // namespace cli
