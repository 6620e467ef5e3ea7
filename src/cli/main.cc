// Words in, an exit code out. The one place where a failure of the world becomes a sentence.
#include <algorithm>
#include <csignal>
#include <exception>
#include <memory>
#include <new>
#include <optional>
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
#include "cli/help_json.h"
#include "cli/misuse.h"
#include "cli/numbers_typed.h"
#include "cli/refusal_words.h"
#include "cli/terminal.h"
#include "cli/version.h"
#include "report/pages/fault.h"
#include "report/pages/program_page.h"

namespace {

using Commands = std::vector<std::pair<CLI::App*, std::unique_ptr<cli::Command>>>;

// What was typed of how the answer is wanted, whether or not the rest can be understood.
bool is_typed(int argc, char** argv, std::string_view option) {
    for (int at = 1; at < argc && std::string_view(argv[at]) != "--"; ++at)
        if (argv[at] == option) return true;
    return false;
}

report::Fault misused(const std::string& sentence) { return {"misused", "", sentence, cli::kMisused, {}, {}}; }
report::Fault failed(const std::string& sentence) { return {"failed", "", sentence, cli::kWorldFailed, {}, {}}; }

// On standard error in a sentence, and on standard output as JSON where that was asked for and nothing stands there.
int end_with(const report::Fault& fault, bool as_json) {
    cli::answer_here();
    cli::write_fault("gamut: " + base::printable(fault.message) + "\n");
    if (!as_json || cli::has_answered()) return fault.exit_code;
    try {
        cli::write_answer(report::as_json(fault));
    } catch (const cli::Unanswered&) {
        return cli::kWorldFailed;  // why there is no answer has been said
    }
    return fault.exit_code;
}

// What nothing came of, and was told on standard error alone.
int end_not_done(int exit_code) {
    cli::answer_here();
    constexpr std::string_view kName = "gamut: ";
    std::string said = cli::last_said();
    if (said.starts_with(kName)) said.erase(0, kName.size());
    while (!said.empty() && said.back() == '\n') said.pop_back();
    cli::write_answer(report::as_json(report::Fault{"not-done", "", said, exit_code, {}, {}}));
    return exit_code;
}

std::string so_far(const cli::Command* running) {
    return running != nullptr && running->has_kept() ? "what was changed is kept, but " : "";
}

// Whether a command comes behind it.
bool is_about_commands(std::string_view word) { return word == "help" || word == "complete"; }

// The command whose words were typed last: `player add` of `gamut player add --help`.
const CLI::App& typed_last(const CLI::App& program) {
    const CLI::App* last = &program;
    while (!last->get_subcommands().empty()) last = last->get_subcommands().back();
    return *last;
}

// Help and the version are answers.
int tell(const CLI::App& program, const CLI::ParseError& error, bool as_json) {
    if (error.get_exit_code() != 0) throw cli::Misuse(cli::sentence_of(program, error));
    if (as_json) {
        const bool is_version = dynamic_cast<const CLI::CallForVersion*>(&error) != nullptr;
        cli::write_answer(is_version ? report::version_as_json(cli::kRelease) : cli::help_as_json(typed_last(program)));
        return cli::kDone;
    }
    std::ostringstream help, faults;
    program.exit(error, help, faults);
    cli::write_answer(help.str());
    return cli::kDone;
}

// `running` is set before a command runs.
int answer(CLI::App& program, const Commands& commands, const std::optional<std::string>& output,
           const cli::Command*& running, int argc, char** argv, bool as_json) {
    try {
        program.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        return tell(program, error, as_json);
    }
    for (const auto& [words, command] : commands) {
        if (!*words) continue;
        if (output) cli::answer_into(*output);
        running = command.get();
        return command->run();
    }
    return cli::kMisused;
}

constexpr const char* kQuiet = "no remarks on standard error; only why there is no answer";

// To every command that has none below it.
void add_quiet(CLI::App& command, bool& is_quiet) {
    const auto below = command.get_subcommands([](const CLI::App*) { return true; });
    for (CLI::App* one : below) add_quiet(*one, is_quiet);
    if (below.empty()) command.add_flag("--quiet", is_quiet, kQuiet);
}

// To every command that can answer as a page of HTML and has no such option of its own.
void add_output(CLI::App& command, std::optional<std::string>& output) {
    for (CLI::App* below : command.get_subcommands([](const CLI::App*) { return true; })) add_output(*below, output);
    if (command.get_option_no_throw("--html") == nullptr || command.get_option_no_throw("--output") != nullptr) return;
    command.add_option("--output", output, "the answer into this new file, instead of to the terminal")
        ->type_name("FILE");
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
    bool is_quiet = is_typed(argc, argv, "--quiet");
    std::optional<std::string> output;
    Commands commands;
    for (const cli::CommandRow& row : cli::all_commands()) {
        CLI::App* const words = program.add_subcommand(row.name, row.help);
        commands.emplace_back(words, row.make());
        commands.back().second->add_to(*words);
        add_output(*words, output);
        add_quiet(*words, is_quiet);
    }
    program.add_flag("--quiet", is_quiet, kQuiet);
    const bool as_json = is_typed(argc, argv, "--json");
    if (is_quiet) cli::be_quiet();
    // Another word for one command: `gamut term`.
    static char syllabus[] = "syllabus";
    for (char** word : {argv + 1, argv + 2})
        if (word < argv + argc && std::string_view(*word) == "term" && (word == argv + 1 || is_about_commands(argv[1])))
            *word = syllabus;
    const std::string first = argc > 1 ? argv[1] : "";
    const bool is_known = std::any_of(commands.begin(), commands.end(),
                                      [&](const auto& command) { return command.first->get_name() == first; });
    if (!first.empty() && first[0] != '-' && first != "complete" && !is_known) {
        return end_with(misused(cli::no_such_command(program, first)), as_json);
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
        const int exit_code = answer(program, commands, output, running, argc, argv, as_json);
        if (exit_code != cli::kDone && as_json && !cli::has_answered()) return end_not_done(exit_code);
        cli::finish_answer();
        return exit_code;
    } catch (const answers::Refused& refused) {
        cli::tell_candidates(refused.refusal());
        return end_with(cli::fault_of(refused.refusal()), as_json);
    } catch (const cli::Misuse& misuse) {
        return end_with(misused(misuse.what()), as_json);
    } catch (const cli::Unanswered& unanswered) {
        return end_with(failed(so_far(running) + "the answer could not be written: " + unanswered.what()), false);
    } catch (const base::Failure& failure) {
        return end_with(failed(so_far(running) + failure.what()), as_json);
    } catch (const std::bad_alloc&) {
        return end_with(failed(so_far(running) + "there is not enough memory"), as_json);
    } catch (const std::exception& unexpected) {
        return end_with(failed(so_far(running) + "something went wrong that gamut did not expect: " +
                               unexpected.what() + "; gamut library check looks whether the library is sound"),
                        as_json);
    }
}
