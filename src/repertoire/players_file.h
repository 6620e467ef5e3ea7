// Players on paper: what `gamut player export` writes and `gamut player import` reads, JSON as in schema/output.md.
#pragma once

#include <optional>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "tune/player.h"

namespace repertoire {

// A tune named so that another library finds it too.
struct FiledTune {
    std::string title;                  // the first; empty when it has none
    std::string file;                   // as shown
    std::optional<std::string> number;  // X:
    tune::PlayerTune said;              // its id is that of the library it was written from

    friend bool operator==(const FiledTune&, const FiledTune&) = default;
};

struct FiledPlayer {
    tune::Player player;  // its id does not matter
    std::vector<FiledTune> tunes;

    friend bool operator==(const FiledPlayer&, const FiledPlayer&) = default;
};

// What is wrong with a file of players, and where in it, in one sentence.
class PlayersFileFault : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

// Ends in a line end. Text that is not UTF-8 becomes U+FFFD.
std::string write_players(std::span<const FiledPlayer> players);

// Reads all or nothing: throws PlayersFileFault for what is no such file, names a player twice, or was written by a
// later version. Members it does not know are passed over.
std::vector<FiledPlayer> read_players(std::string_view text);

}  // namespace repertoire
