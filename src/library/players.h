// Writing down what players say: who they are, and what happened to their tunes. Reading it: library.h.
#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "collection/player_record.h"
#include "tune/player.h"

namespace library {

// Something that was said of a tune and is taken back.
struct TakenBack {
    tune::TuneId tune;              // as above
    std::string said;               // the token of an event, `wished`, `unwished`, `unwanted` or `allowed`
    std::optional<base::Date> day;  // of an event

    friend bool operator==(const TakenBack&, const TakenBack&) = default;
};

// One change: nothing is kept until commit(), and nothing at all when it goes out of scope without. Every function
// throws base::Failure when the file cannot be written, and for an id that no player or tune has (any longer). As with
// Marks, no Library on the same file may be open meanwhile.
class Players {
public:
    // The text of a term, and what it is from now on.
    using InTerm = std::function<std::string(const std::string& text)>;
    using WithoutNames =
        std::function<std::string(const std::string& text, const std::vector<tune::PlayerName>& names)>;

    // `day`: on which it is said, for the journal. Makes nothing. Throws Failure as Marks::change does.
    static Players change(const std::filesystem::path& file, std::optional<base::Date> day = std::nullopt);

    Players(Players&&) noexcept;
    Players& operator=(Players&&) = delete;
    ~Players();

    // By the folded name; the tunes are not asked for.
    std::optional<tune::Player> named(const tune::PlayerName& name) const;
    // What is kept of one tune, as it stands within this change.
    tune::PlayerTune said_of(tune::PlayerId player, tune::TuneId tune) const;

    // The id of `player` does not matter. Nothing when there is one of that name already.
    std::optional<tune::PlayerId> add(const tune::Player& player);
    // `name` is nobody else's. Every term that `in_term` changes goes on with the text it gives, past and present, said
    // in one with the new name; the names of those terms, in order.
    std::vector<std::string> rename(tune::PlayerId player, const tune::PlayerName& name, const InTerm& in_term = {});
    void set_instrument(tune::PlayerId player, const std::string& instrument);
    void set_notes(tune::PlayerId player, const std::optional<music::NoteSet>& notes);
    void add_notes(tune::PlayerId player, const music::NoteSet& notes);
    // Of those that were said; where none were, that stays so.
    void drop_notes(tune::PlayerId player, const music::NoteSet& notes);
    // With all that was said of tunes: the words are erased from the journal, where a gap that is declared stays. So
    // are the words of every term, past and present, that `in_term` changes: it is given the text of a term and all
    // names the player ever had that are nobody else's now, and gives the text without them; where there is none, terms
    // stay as they are. Those names.
    std::vector<tune::PlayerName> remove(tune::PlayerId player, const WithoutNames& in_term = {});

    // From now on the class `name` is these players, and no others; none is there twice, and at least one is named.
    void set_class(const tune::PlayerName& name, const std::vector<tune::PlayerId>& players);
    // False where there is none.
    bool remove_class(const tune::PlayerName& name);

    // What is said of a player's tunes with one Players is taken back as one. Each of these is false, and nothing is
    // changed, where it was said already: for an event, where it is the last of that tune and day.
    bool record(tune::PlayerId player, tune::TuneId tune, const tune::DatedEvent& event);
    bool wish(tune::PlayerId player, tune::TuneId tune, bool is_wished);
    bool exclude(tune::PlayerId player, tune::TuneId tune, const std::optional<std::string>& reason);
    // The same before all others of that tune and day, whatever they are.
    void record_before(tune::PlayerId player, tune::TuneId tune, const tune::DatedEvent& event);

    // Brings back what stood before the last change of what this player said of tunes, whatever it was; what that was,
    // in the order it was said. Done again, the change before. Empty when there is nothing to take back.
    std::vector<TakenBack> take_back(tune::PlayerId player);

    void commit();  // once, as the last call

private:
    class Change;
    explicit Players(std::unique_ptr<Change> change);

    std::unique_ptr<Change> change_;
};

}  // namespace library
