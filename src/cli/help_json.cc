#include "cli/help_json.h"

#include <vector>

#include "cli/command_words.h"
#include "report/pages/program_page.h"

namespace cli {

namespace {

std::vector<report::TypedWord> typed_words(const std::vector<OptionWords>& options) {
    std::vector<report::TypedWord> words;
    for (const OptionWords& option : options)
        words.push_back({option.names, option.value, option.choices, option.is_required, option.may_repeat, option.text,
                         option.group});
    return words;
}

}  // namespace

std::string help_as_json(const CLI::App& command) {
    const CommandWords words = command_words(command);
    report::HelpPage page{words.name(), words.text,    typed_words(words.words), typed_words(words.options), {},
                          words.notes,  words.examples};
    for (const CommandWords& below : words.below) page.commands.emplace_back(below.typed.back(), below.text);
    return report::as_json(page);
}

}  // namespace cli
