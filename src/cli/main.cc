// Words in, an exit code out. The one place where a failure of the world becomes a sentence.
#include <algorithm>
#include <csignal>
#include <exception>
#include <memory>
#include <new>
#include <sstream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "answers/refusal.h"
#include "base/failure.h"
#include "base/utf8.h"
#include "cli/commands.h"
#include "cli/complete.h"
#include "cli/first_words.h"
#include "cli/help.h"
#include "cli/misuse.h"
#include "cli/numbers_typed.h"
#include "cli/refusal_words.h"
#include "cli/terminal.h"
#include "cli/version.h"

namespace {

using Commands = std::vector<std::pair<CLI::App*, std::unique_ptr<cli::Command>>>;

int end_with(const std::string& sentence, int exit_code) {
    cli::write_notice("gamut: " + base::printable(sentence) + "\n");
    return exit_code;
}

std::string so_far(const cli::Command* running) {
    return running != nullptr && running->has_kept() ? "what was changed is kept, but " : "";
}

// Whether a command comes behind it.
bool is_about_commands(std::string_view word) { return word == "help" || word == "complete"; }

// Help is an answer.
int tell(const CLI::App& program, const CLI::ParseError& error) {
    if (error.get_exit_code() != 0) throw cli::Misuse(cli::sentence_of(program, error));
    std::ostringstream help, faults;
    program.exit(error, help, faults);
    cli::write_answer(help.str());
    return cli::kDone;
}

// `running` is set before a command runs.
int answer(CLI::App& program, const Commands& commands, const cli::Command*& running, int argc, char** argv) {
    try {
        program.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        return tell(program, error);
    }
    for (const auto& [words, command] : commands) {
        if (!*words) continue;
        running = command.get();
        return command->run();
    }
    return cli::kMisused;
}

}  // namespace

int main(int argc, char** argv) {
    cli::keep_standard_streams();
    std::signal(SIGPIPE, SIG_IGN);  // a closed pipe is met where the answer is written
    std::signal(SIGXFSZ, SIG_IGN);  // a file too large is a failed write, not the end
    CLI::App program("Which of my tunes can I play with the notes I have, and which note should I learn next?",
                     "gamut");
    program.set_version_flag("--version", cli::kVersion);
    program.formatter(cli::help_for(cli::page_of_terminal().width_chars));  // the commands take it over
    program.require_subcommand(1);
    program.footer("Try:  gamut import sample-library\n      gamut path --have \"G:major&D:major A3..B5\"");
    Commands commands;
    for (const cli::CommandRow& row : cli::all_commands()) {
        CLI::App* const words = program.add_subcommand(row.name, row.help);
        commands.emplace_back(words, row.make());
        commands.back().second->add_to(*words);
    }
    // Another word for one command: `gamut term`.
    static char syllabus[] = "syllabus";
    for (char** word : {argv + 1, argv + 2})
        if (word < argv + argc && std::string_view(*word) == "term" && (word == argv + 1 || is_about_commands(argv[1])))
            *word = syllabus;
    const std::string first = argc > 1 ? argv[1] : "";
    const bool is_known = std::any_of(commands.begin(), commands.end(),
                                      [&](const auto& command) { return command.first->get_name() == first; });
    if (!first.empty() && first[0] != '-' && first != "complete" && !is_known) {
        return end_with(cli::no_such_command(program, first), cli::kMisused);
    }
    const cli::Command* running = nullptr;
    try {
        if (argc == 1) {
            cli::write_answer(cli::first_words(cli::page_of_terminal().width_chars));
            return cli::kDone;
        }
        if (first == "complete") {  // for the shells alone
            cli::write_answer(cli::complete(program, {argv + 2, argv + argc}));
            return cli::kDone;
        }
        cli::expect_numbers(program);
        return answer(program, commands, running, argc, argv);
    } catch (const answers::Refused& refused) {
        return cli::tell(refused.refusal());
    } catch (const cli::Misuse& misuse) {
        return end_with(misuse.what(), cli::kMisused);
    } catch (const cli::Unanswered& unanswered) {
        return end_with(so_far(running) + "the answer could not be written: " + unanswered.what(), cli::kWorldFailed);
    } catch (const base::Failure& failure) {
        return end_with(so_far(running) + failure.what(), cli::kWorldFailed);
    } catch (const std::bad_alloc&) {
        return end_with(so_far(running) + "there is not enough memory", cli::kWorldFailed);
    } catch (const std::exception& unexpected) {
        return end_with(so_far(running) + "something went wrong that gamut did not expect: " + unexpected.what() +
                            "; gamut library check looks whether the library is sound",
                        cli::kWorldFailed);
    }
}
