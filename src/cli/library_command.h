// `gamut library` and the words below it.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "cli/commands.h"
#include "cli/terminal.h"

namespace cli {

class LibraryCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    void require_file() const;
    int back_up();
    int check();
    int restore();
    int salvage();
    int compact();
    int export_said();  // library_journal.cc, and so below
    int import_said();
    int said();
    int take_back();
    int rebuild();
    int erase();

    std::vector<std::pair<CLI::App*, int (LibraryCommand::*)()>> words_;
    std::string file_, name_, library_;
    std::size_t limit_ = 20;
    bool is_sure_ = false;
    Format format_;
};

}  // namespace cli
