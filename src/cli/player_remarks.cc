#include "cli/player_remarks.h"

#include <algorithm>
#include <tuple>

#include "answers/player_named.h"
#include "cli/shell_word.h"
#include "cli/terminal.h"
#include "instruments/instrument.h"
#include "report/words/words.h"

namespace cli {

namespace {

// Source: house choice; a remark stays a sentence.
constexpr std::size_t kMostTunesNamed = 3;

std::string notes_in_words(const music::NoteSet& notes) {
    std::string words;
    for (const int midi : notes.midi_numbers())
        words += (words.empty() ? "" : " ") + music::to_string(music::spell_midi(midi));
    return words;
}

std::string title_of(const collection::Collection& library, tune::TuneId id) {
    const auto record = library.tune_by_id(id);
    return record ? tune::title_of(*record) : "(no title)";
}

// As TITLES of a command: the title where it means this tune alone, else the id.
std::string name_of(const collection::Collection& library, tune::TuneId id) {
    const std::string title = title_of(library, id);
    const bool is_clear = title.find(';') == std::string::npos && library.tunes_titled(title).size() == 1;
    return is_clear ? title : std::to_string(id.value);
}

// What the instrument lacks of the setting of which it lacks least.
music::NoteSet least_lacking(const collection::Collection& library, tune::TuneId id, const music::NoteSet& reach) {
    std::optional<music::NoteSet> least;
    for (const tune::TuneRecord& setting : library.settings_of(id)) {
        const music::NoteSet lacking = setting.needed.without(reach);
        if (!least || lacking.size() < least->size()) least = lacking;
    }
    return least.value_or(music::NoteSet());
}

std::string first_few(const std::vector<std::string>& titles) {
    std::string named;
    for (std::size_t at = 0; at < std::min(titles.size(), kMostTunesNamed); ++at)
        named += (at > 0 ? "; " : "") + titles[at];
    if (titles.size() > kMostTunesNamed) named += "; and " + std::to_string(titles.size() - kMostTunesNamed) + " more";
    return named;
}

}  // namespace

std::optional<tune::DatedEvent> later_state(const tune::PlayerTune& said, base::Date day) {
    const auto last = std::find_if(said.events.rbegin(), said.events.rend(),
                                   [](const tune::DatedEvent& dated) { return tune::says_state(dated.event); });
    return last != said.events.rend() && last->day > day ? std::optional(*last) : std::nullopt;
}

std::string still_learnt(const collection::PlayerRecord& player, const collection::Collection& library,
                         const std::vector<tune::TuneId>& played_well) {
    std::string titles, names;
    std::size_t count = 0;
    for (const tune::PlayerTune& tune : player.tunes) {
        if (tune::state_of(tune) != tune::TuneState::learning ||
            std::find(played_well.begin(), played_well.end(), tune.tune) == played_well.end())
            continue;
        titles += (count > 0 ? "; " : "") + title_of(library, tune.tune);
        names += (count > 0 ? "; " : "") + name_of(library, tune.tune);
        ++count;
    }
    if (count == 0) return {};
    const std::string& name = player.player.name.text;
    const bool is_word =
        name.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz") == std::string::npos;
    return " Still being learnt: " + titles + "; gamut player tune " + (is_word ? name : shell_word(name)) + " known " +
           shell_word(names) + (count == 1 ? " says that it holds." : " says that they hold.");
}

void tell_still_to_come(base::Date day) {
    if (day > today()) write_notice("gamut: " + base::to_string(day) + " is still to come; recorded all the same\n");
}

void tell_out_of_reach(const collection::PlayerRecord& player, const collection::Collection& library,
                       const std::vector<tune::TuneId>& known) {
    const instruments::Instrument* instrument = answers::known_instrument_of(player.player);
    if (instrument == nullptr) return;
    std::string lacks;
    for (const tune::TuneId id : known) {
        const music::NoteSet lacking = least_lacking(library, id, instrument->note_set());
        if (!lacking.empty())
            lacks += (lacks.empty() ? "no " : "; no ") + notes_in_words(lacking) + " for " + title_of(library, id);
    }
    if (!lacks.empty()) write_notice("gamut: " + instrument->title + " has " + lacks + "; recorded all the same\n");
}

void tell_not_dropped(const collection::PlayerRecord& player, const collection::Collection& library,
                      const music::NoteSet& dropped) {
    const music::NoteSet stay = answers::notes_of(library, player) & dropped;
    if (stay.empty()) return;
    std::vector<std::string> titles;
    for (const tune::PlayerTune& tune : player.tunes) {
        const collection::PlayerRecord alone{player.player, {tune}};
        if (!(answers::notes_of(library, alone) & stay).empty()) titles.push_back(title_of(library, tune.tune));
    }
    const std::string& name = player.player.name.text;
    write_notice("gamut: " + notes_in_words(stay) + (stay.size() == 1 ? " stays: " : " stay: ") + name + " knows " +
                 first_few(titles) + (titles.size() == 1 ? ", which has " : ", which have ") +
                 (stay.size() == 1 ? "it" : "them") + "\n");
}

}  // namespace cli
