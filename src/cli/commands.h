// The commands: what each takes and does, and the table of them all.
#pragma once

#include <CLI/CLI.hpp>
#include <memory>
#include <span>

namespace cli {

// `add_to` gives the command its options; `run` answers with an exit code. Both may throw Misuse and
// answers::Refused, `run` also base::Failure and Unanswered.
class Command {
public:
    virtual ~Command() = default;
    virtual void add_to(CLI::App& command) = 0;
    virtual int run() = 0;

    // Whether the library has been changed: what fails after that has not undone it, and must not read as if it had.
    bool has_kept() const noexcept { return has_kept_; }

protected:
    bool has_kept_ = false;
};

struct CommandRow {
    const char* name;
    const char* help;  // a line of `gamut --help`
    std::unique_ptr<Command> (*make)();
};

std::span<const CommandRow> all_commands();  // in the order of `gamut --help`

// Each is made in the file of its name.
std::unique_ptr<Command> check_command();
std::unique_ptr<Command> drill_command();
std::unique_ptr<Command> evening_command();
std::unique_ptr<Command> handout_command();
std::unique_ptr<Command> guide_command();
std::unique_ptr<Command> help_command();
std::unique_ptr<Command> import_command();
std::unique_ptr<Command> instrument_command();
std::unique_ptr<Command> library_command();
std::unique_ptr<Command> mark_command();
std::unique_ptr<Command> next_command();
std::unique_ptr<Command> notes_command();
std::unique_ptr<Command> page_command();
std::unique_ptr<Command> path_command();
std::unique_ptr<Command> player_command();
std::unique_ptr<Command> read_command();
std::unique_ptr<Command> same_command();
std::unique_ptr<Command> syllabus_command();
std::unique_ptr<Command> together_command();
std::unique_ptr<Command> tune_command();
std::unique_ptr<Command> tunebook_command();
std::unique_ptr<Command> tunes_command();

}  // namespace cli
