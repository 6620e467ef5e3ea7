// `gamut player` and the words below it.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "answers/refusal.h"
#include "cli/commands.h"
#include "cli/terminal.h"
#include "music/note_set.h"
#include "tune/player.h"

namespace cli {

class PlayerCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    CLI::App* word(CLI::App& parent, const char* name, const char* help, int (PlayerCommand::*run)());
    int add();
    int change();
    int remove();
    int list();
    int show();
    int notes();
    music::NoteSet notes(answers::Part part, const std::string& text, const tune::Player& player) const;
    int tune();
    int played();
    int class_of_players();
    int take_back();
    int history();
    int write();
    int read();

    std::vector<std::pair<CLI::App*, int (PlayerCommand::*)()>> words_;
    std::string name_, titles_, what_, file_read_;
    std::vector<std::string> names_, added_, dropped_;
    std::optional<std::string> new_name_, instrument_, notes_, more_, less_, knows_, shaky_, because_, on_;
    bool from_tunes_ = false, is_sure_ = false, removes_ = false;
    std::string library_;
    Format format_;
};

}  // namespace cli
