// Tested by fold_test.cc. rebuild_test.cc of the library holds it against tables changed one saying at a time.
#include "people/fold.h"

#include <algorithm>
#include <map>
#include <unordered_map>
#include <unordered_set>
#include <utility>
#include <vector>

#include "people/last_go.h"
#include "tune/tag.h"
#include "tune/title.h"

namespace people {

namespace {

class Fold {
public:
    explicit Fold(const TuneHere& here) : here_(here) {}

    void take(const Entry& entry) {
        entry_ = &entry;
        std::visit(*this, entry.saying.words);
    }
    Kept finish() { return std::move(kept_); }

    void operator()(const TagGiven& said) {
        const TuneNumber tune = number_of(said.tune);
        const std::string folded = tune::fold_tag(said.tag);
        if (tune == 0 || folded.empty()) return;
        if (!kept_.tunes_tagged.emplace(tune, folded).second) return;
        if (++times_tagged_[folded] == 1) kept_.tags[folded] = said.tag;
    }
    void operator()(const TagTaken& said) {
        for (const TuneNumber tune : all_of(said)) {
            if (kept_.tunes_tagged.erase({tune, said.tag}) == 0) continue;
            if (--times_tagged_[said.tag] == 0) kept_.tags.erase(said.tag);
        }
    }
    void operator()(const CountSaid& said) { put(kept_.counts, said, said.times); }
    void operator()(const RhythmSaid& said) {
        put(kept_.rhythms, said, said.rhythm ? std::optional(KeptRhythm{*said.rhythm, entry_->rank}) : std::nullopt);
    }
    void operator()(const KeySaid& said) {
        put(kept_.keys, said, said.key ? std::optional(KeptKey{*said.key, entry_->rank}) : std::nullopt);
    }
    void operator()(const AliasSaid& said) {
        const TuneNumber tune = number_of(said.tune);
        const std::string folded = tune::fold_title(said.alias);
        if (tune != 0 && !folded.empty()) kept_.aliases[folded] = {said.alias, tune};
    }
    void operator()(const AliasGone& said) { kept_.aliases.erase(said.folded); }
    void operator()(const SameSaid& said) {
        const TuneNumber one = number_of(said.one);
        const TuneNumber other = number_of(said.other);
        if (one == 0 || other == 0 || one == other) return;
        kept_.verdicts[std::minmax(one, other)] = {said.is_same, entry_->rank};
    }

    void operator()(const PlayerAdded& said) {
        const std::string folded = tune::fold_player_name(said.name);
        for (auto& [number, player] : kept_.players) {
            if (player.folded != folded) continue;
            kept_.player_seals[entry_->seal] = number;
            if (!player.instrument) player.instrument = said.instrument;
            if (!player.notes) player.notes = said.notes;
            return;
        }
        kept_.player_seals[entry_->seal] = entry_->number;
        kept_.players[entry_->number] = {said.name, folded, said.instrument, said.notes};
    }
    void operator()(const PlayerChanged& said) {
        KeptPlayer* player = player_of(said.player);
        if (player == nullptr) return;
        if (said.instrument) player->instrument = said.instrument;
        if (!said.name) return;
        const std::string folded = tune::fold_player_name(*said.name);
        for (const auto& [number, other] : kept_.players)
            if (&other != player && other.folded == folded) return;
        player->name = *said.name;
        player->folded = folded;
    }
    void operator()(const NotesSaid& said) {
        KeptPlayer* player = player_of(said.player);
        if (player == nullptr) return;
        if (said.change == NotesChange::are)
            player->notes = said.notes;
        else if (said.change == NotesChange::more)
            player->notes = player->notes.value_or(music::NoteSet()) | *said.notes;
        else if (player->notes)
            player->notes = player->notes->without(*said.notes);
    }
    void operator()(const PlayerGone& said) {
        const auto found = kept_.player_seals.find(said.player);
        if (found == kept_.player_seals.end()) return;
        const PlayerNumber player = found->second;
        kept_.players.erase(player);
        std::erase_if(kept_.events, [player](const auto& event) { return event.second.player == player; });
        std::erase_if(kept_.wishes, [player](const auto& wish) { return wish.first == player; });
        std::erase_if(kept_.exclusions, [player](const auto& one) { return one.first.first == player; });
        for (auto& [folded, one] : kept_.classes) one.players.erase(player);
        std::erase_if(kept_.classes, [](const auto& one) { return one.second.players.empty(); });
        std::erase_if(kept_.player_seals, [player](const auto& one) { return one.second == player; });
    }
    void operator()(const Happened& said) {
        const PlayerNumber player = player_number(said.player);
        const TuneNumber tune = number_of(said.tune);
        if (player == 0 || tune == 0) return;
        KeptEvent event{player, tune, said.what, std::nullopt};
        if (said.is_first) {
            std::vector<TuneNumber> among = numbers_of(said.among);
            among.push_back(tune);
            for (const std::int64_t rank : of_day_[{player, said.what.day}]) {
                const auto other = kept_.events.find(rank);
                if (other == kept_.events.end()) continue;
                if (std::find(among.begin(), among.end(), other->second.tune) == among.end()) continue;
                const std::int64_t place = other->second.place.value_or(rank) - 1;
                event.place = std::min(event.place.value_or(place), place);
            }
        }
        kept_.events[entry_->rank] = event;
        of_day_[{player, said.what.day}].push_back(entry_->rank);
    }
    void operator()(const WishSaid& said) {
        const PlayerNumber player = player_number(said.player);
        if (player == 0) return;
        for (const TuneNumber tune : all_of(said)) kept_.wishes.erase({player, tune});
        if (const TuneNumber tune = number_of(said.tune); tune != 0 && said.is_wished)
            kept_.wishes.emplace(player, tune);
    }
    void operator()(const ExclusionSaid& said) {
        const PlayerNumber player = player_number(said.player);
        if (player == 0) return;
        for (const TuneNumber tune : all_of(said)) kept_.exclusions.erase({player, tune});
        if (const TuneNumber tune = number_of(said.tune); tune != 0 && said.reason)
            kept_.exclusions[{player, tune}] = *said.reason;
    }

    void operator()(const ClassSaid& said) {
        const std::string folded = tune::fold_player_name(said.name);
        KeptClass one{said.name, {}};
        for (const Seal& seal : said.members)
            if (const PlayerNumber player = player_number(seal); player != 0) one.players.insert(player);
        if (one.players.empty())
            kept_.classes.erase(folded);
        else
            kept_.classes[folded] = std::move(one);
    }
    void operator()(const ClassGone& said) { kept_.classes.erase(said.folded); }

    void operator()(const TermSaid& said) {
        const auto [at, is_new] = kept_.terms.try_emplace(said.folded, KeptTerm{said.name, said.text, std::nullopt});
        if (is_new) return;
        KeptTerm& term = at->second;
        term.before = said.is_restated ? std::nullopt : std::optional(std::move(term.text));
        term.name = said.name;
        term.text = said.text;
    }
    void operator()(const TermGone& said) { kept_.terms.erase(said.folded); }
    void operator()(const TakenBack&) {}
    void operator()(const Erased&) {}

private:
    TuneNumber number_of(const NamedTune& tune) const {
        return entry_->is_from_elsewhere ? here_(tune).value : tune.id.value;
    }
    std::vector<TuneNumber> numbers_of(const NamedTunes& tunes) const {
        std::vector<TuneNumber> numbers;
        for (const NamedTune& tune : tunes)
            if (const TuneNumber number = number_of(tune); number != 0) numbers.push_back(number);
        return numbers;
    }
    template <typename Said>
    std::vector<TuneNumber> all_of(const Said& said) const {
        std::vector<TuneNumber> numbers = numbers_of(said.instead_of);
        if (const TuneNumber tune = number_of(said.tune); tune != 0) numbers.push_back(tune);
        return numbers;
    }
    // From now on `value` is what is kept of the tunes together.
    template <typename Values, typename Said, typename Value>
    void put(Values& values, const Said& said, const std::optional<Value>& value) {
        for (const TuneNumber tune : all_of(said)) values.erase(tune);
        if (const TuneNumber tune = number_of(said.tune); tune != 0 && value) values[tune] = *value;
    }
    PlayerNumber player_number(const Seal& seal) const {
        const auto found = kept_.player_seals.find(seal);
        return found == kept_.player_seals.end() ? 0 : found->second;
    }
    KeptPlayer* player_of(const Seal& seal) {
        const auto found = kept_.players.find(player_number(seal));
        return found == kept_.players.end() ? nullptr : &found->second;
    }

    const TuneHere& here_;
    const Entry* entry_ = nullptr;
    Kept kept_;
    std::unordered_map<std::string, std::int64_t> times_tagged_;
    std::map<std::pair<PlayerNumber, base::Date>, std::vector<std::int64_t>> of_day_;  // ranks of events
};

}  // namespace

Kept fold(std::span<const Entry> entries, const TuneHere& here) {
    const std::unordered_set<Seal> undone = undone_in(entries);
    Fold fold(here);
    for (const Entry& entry : entries)
        if (!undone.contains(entry.seal)) fold.take(entry);
    return fold.finish();
}

}  // namespace people
