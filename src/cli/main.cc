// Words in, an exit code out. The one place where a failure of the world becomes a sentence.
#include <algorithm>
#include <csignal>
#include <memory>
#include <new>
#include <utility>
#include <vector>

#include "base/failure.h"
#include "base/utf8.h"
#include "cli/commands.h"
#include "cli/numbers_typed.h"
#include "cli/version.h"

int main(int argc, char** argv) {
    std::signal(SIGPIPE, SIG_IGN);  // a closed pipe is met where the answer is written
    std::signal(SIGXFSZ, SIG_IGN);  // a file too large is a failed write, not the end
    CLI::App program("Which of my tunes can I play with the notes I have, and which note should I learn next?",
                     "gamut");
    program.set_version_flag("--version", cli::kVersion);
    program.require_subcommand(1);
    program.footer("Try:  gamut import sample-library\n      gamut path --have \"G:major&D:major A3..B5\"");
    std::vector<std::pair<CLI::App*, std::unique_ptr<cli::Command>>> commands;
    const auto add = [&](std::unique_ptr<cli::Command> command) {
        CLI::App* const words = command->add_to(program);
        commands.emplace_back(words, std::move(command));
    };
    add(std::make_unique<cli::ReadCommand>());
    add(std::make_unique<cli::ImportCommand>());
    add(std::make_unique<cli::TunesCommand>());
    add(std::make_unique<cli::TuneCommand>());
    add(std::make_unique<cli::TunebookCommand>());
    add(std::make_unique<cli::NextCommand>());
    add(std::make_unique<cli::EveningCommand>());
    add(std::make_unique<cli::InstrumentCommand>());
    add(std::make_unique<cli::TogetherCommand>());
    add(std::make_unique<cli::DrillCommand>());
    add(std::make_unique<cli::CheckCommand>());
    add(std::make_unique<cli::SameCommand>());
    add(std::make_unique<cli::MarkCommand>());
    add(std::make_unique<cli::PlayerCommand>());
    add(std::make_unique<cli::NotesCommand>());
    add(std::make_unique<cli::PathCommand>());
    add(std::make_unique<cli::SyllabusCommand>());
    const std::string first = argc > 1 ? argv[1] : "";
    const bool is_known = std::any_of(commands.begin(), commands.end(),
                                      [&](const auto& command) { return command.first->get_name() == first; });
    if (!first.empty() && first[0] != '-' && !is_known) {
        cli::write_notice("gamut: there is no command \"" + first + "\"; gamut --help lists them\n");
        return cli::kMisused;
    }
    cli::expect_numbers(program);
    try {
        program.parse(argc, argv);
        for (const auto& [words, command] : commands)
            if (*words) return command->run();
        return cli::kMisused;
    } catch (const CLI::ConversionError& error) {
        cli::write_notice("gamut: " + base::printable(cli::sentence_of(error)) + "\n");
        return cli::kMisused;
    } catch (const CLI::ParseError& error) {
        const bool is_help = error.get_exit_code() == 0;
        program.exit(error);
        return is_help ? cli::kDone : cli::kMisused;
    } catch (const cli::Misuse& misuse) {
        cli::write_notice("gamut: " + base::printable(misuse.what()) + "\n");
        return cli::kMisused;
    } catch (const base::Failure& failure) {
        cli::write_notice("gamut: " + base::printable(failure.what()) + "\n");
        return cli::kWorldFailed;
    } catch (const std::bad_alloc&) {
        cli::write_notice("gamut: not enough memory\n");
        return cli::kWorldFailed;
    }
}
