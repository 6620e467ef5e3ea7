// `gamut help`: what --help says, and for building the package also as a manual page.
#include <memory>
#include <string>
#include <vector>

#include "cli/command_words.h"
#include "cli/commands.h"
#include "cli/help_json.h"
#include "cli/man_page.h"
#include "cli/nearest_word.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"

namespace cli {

namespace {

class HelpCommand : public Command {
public:
    void add_to(CLI::App& command) override {
        program_ = command.get_parent();
        command.add_option("COMMAND", words_, "such as path, or player add; without it, the commands there are");
        add_format_without_csv(command, format_);
        command.add_flag("--as-markdown", as_markdown_, "as a manual page in Markdown")->group("");
        command.footer("Example:  gamut help player add");
    }

    int run() override {
        const CLI::App* asked = program_;
        for (const std::string& word : words_) asked = below(*asked, word);
        if (format_.json) {
            write_answer(help_as_json(*asked));
            return kDone;
        }
        const CommandWords words = command_words(*asked);
        const std::string help = asked->get_formatter()->make_help(asked, words.name(), CLI::AppFormatMode::Normal);
        if (as_markdown_)
            write_answer(man_page(words, command_words(*program_)));
        else if (format_.html)
            write_document(format_, {{report::Title{words.name()}, report::Example{help}}});
        else
            write_answer(help);
        return kDone;
    }

private:
    static const CLI::App* below(const CLI::App& app, const std::string& word) {
        std::vector<std::string> names;
        for (const CLI::App* one : app.get_subcommands([](const CLI::App*) { return true; })) {
            if (one->check_name(word)) return one;
            names.push_back(one->get_name());
        }
        throw Misuse("there is no command \"" + word + "\"" + hint(nearest_word(names, word)) +
                     "; gamut help lists them");
    }

    const CLI::App* program_ = nullptr;
    std::vector<std::string> words_;
    Format format_;
    bool as_markdown_ = false;
};

}  // namespace

std::unique_ptr<Command> help_command() { return std::make_unique<HelpCommand>(); }

}  // namespace cli
