// Writing down what players say: who they are, and what happened to their tunes. Reading it: library.h.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "tune/player.h"

namespace library {

// All that is kept of one player.
struct PlayerRecord {
    tune::Player player;
    // Ascending by tune: the tune (family) they belong to now. What was said of several settings that have become one
    // tune is put together.
    std::vector<tune::PlayerTune> tunes;

    friend bool operator==(const PlayerRecord&, const PlayerRecord&) = default;
};

// One change: nothing is kept until commit(), and nothing at all when it goes out of scope without. Every function
// throws base::Failure when the file cannot be written, and for an id that no player or tune has. As with Marks, no
// Library on the same file may be open meanwhile.
class Players {
public:
    // Makes nothing. Throws Failure as Marks::change does.
    static Players change(const std::filesystem::path& file);

    Players(Players&&) noexcept;
    Players& operator=(Players&&) = delete;
    ~Players();

    // The id of `player` does not matter. Nothing when there is one of that name already.
    std::optional<tune::PlayerId> add(const tune::Player& player);
    // Name, instrument and notes as in `player`. Its new name must be nobody else's.
    void set(const tune::Player& player);
    // With all that was said of tunes.
    void remove(tune::PlayerId player);

    // Unless it is the last that was said of that tune and day.
    void record(tune::PlayerId player, tune::TuneId tune, const tune::DatedEvent& event);
    // Takes back the events of the change of this player made last; what they were.
    std::vector<tune::PlayerTune> take_back(tune::PlayerId player);
    void wish(tune::PlayerId player, tune::TuneId tune, bool is_wished);
    void exclude(tune::PlayerId player, tune::TuneId tune, const std::optional<std::string>& reason);

    void commit();  // once, as the last call

private:
    class Change;
    explicit Players(std::unique_ptr<Change> change);

    std::unique_ptr<Change> change_;
};

}  // namespace library
