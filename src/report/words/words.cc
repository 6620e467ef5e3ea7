#include "report/words/words.h"

#include "music/pitch.h"
#include "tune/title.h"

namespace report {

std::vector<std::string> note_names(const music::NoteSet& notes, int fifths) {
    std::vector<std::string> names;
    for (const int midi : notes.midi_numbers()) names.push_back(music::to_string(music::spell_midi(midi, fifths)));
    return names;
}

std::string note_list(const music::NoteSet& notes, int fifths) {
    std::string list;
    for (const std::string& name : note_names(notes, fifths)) list += (list.empty() ? "" : " ") + name;
    return list.empty() ? "-" : list;
}

std::string notes_listed(const Notes& notes) {
    if (!notes.by_name) return note_list(notes.notes, notes.fifths);
    std::vector<std::string> names;
    for (std::string& name : note_names(notes.notes, notes.fifths)) {
        name.resize(name.find_first_of("-0123456789"));
        if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(std::move(name));
    }
    std::string list;
    for (const std::string& name : names) list += (list.empty() ? "" : " ") + name;
    return list.empty() ? "-" : list;
}

std::string note_or_dash(std::optional<int> midi, int fifths) {
    return midi ? music::to_string(music::spell_midi(*midi, fifths)) : "-";
}

std::string range_of(const music::NoteSet& notes, int fifths) {
    if (notes.empty()) return "-";
    return note_or_dash(notes.lowest(), fifths) + ".." + note_or_dash(notes.highest(), fifths);
}

namespace {

// `on the player's instrument`.
std::string reach_in_words(const answers::Reach& reach) {
    std::string words = reach.players > 1    ? "on every player's instrument"
                        : reach.players == 0 ? ""
                                             : "on the player's instrument";
    if (reach.instrument) words += words.empty() ? "on the instrument" : " and on that of --instrument";
    if (reach.grade) words += ", up to hardness " + std::to_string(*reach.grade);
    if (reach.fits) words += ", and among those of --fits";
    return words;
}

}  // namespace

void describe_out_of_reach(std::int64_t tunes, const answers::Reach& reach, Document& document) {
    if (tunes == 0 || !reach.is_given()) return;
    document.blocks.emplace_back(
        Paragraph{counted(tunes, "tune needs", "tunes need") + " a note that is not " + reach_in_words(reach) +
                  (tunes == 1 ? ", and stays out of the count." : ", and stay out of the count.")});
}

std::string rhythm_in_words(const tune::TuneRecord& record) {
    if (!record.rhythm) return "unknown";
    const tune::Basis basis = record.rhythm->basis;
    std::string words = record.rhythm->value + " (" +
                        (basis == tune::Basis::title ? "by its title" : std::string(tune::basis_token(basis)));
    if (basis == tune::Basis::stated && !record.rhythm_possible.empty())
        words += ", but " + record.meter + " is no meter for it";
    for (std::size_t at = 0; at < record.rhythm_possible.size(); ++at)
        words += (at == 0                                   ? "; "
                  : at + 1 == record.rhythm_possible.size() ? " or "
                                                            : ", ") +
                 record.rhythm_possible[at] + (at + 1 == record.rhythm_possible.size() ? " possible" : "");
    return words + ")";
}

std::string marked_rhythm(const std::string& rhythm, bool is_guessed) { return rhythm + (is_guessed ? " ?" : ""); }

bool is_rhythm_guessed(const tune::TuneRecord& record) { return record.rhythm && tune::is_guess(record.rhythm->basis); }

std::string rhythm_in_plural(const std::string& rhythm) {
    // Rhythm tokens are single English words or end in one.
    const bool hisses = rhythm.ends_with("z") || rhythm.ends_with("s") || rhythm.ends_with("x") ||
                        rhythm.ends_with("ch") || rhythm.ends_with("sh");
    return rhythm + (hisses ? "es" : "s");
}

std::string with_article(const std::string& rhythm) {
    const bool is_vowel = !rhythm.empty() && std::string_view("aeiou").find(rhythm.front()) != std::string_view::npos;
    return (is_vowel ? "an " : "a ") + rhythm;
}

std::string stated_key_in_words(const tune::TuneRecord& record) {
    if (!record.key_in_force) return record.key_stated;
    return *record.key_in_force + " (before the music: " + record.key_stated + ")";
}

std::string key_in_words(const tune::TuneRecord& record) {
    if (!record.key) return "-";
    if (record.key_decided) return music::to_string(*record.key);
    const std::string words = keys_in_words(record.key_candidates);
    return words.empty() ? music::to_string(*record.key) : words;
}

std::string keys_in_words(std::span<const music::Key> keys) {
    std::string words;
    for (std::size_t at = 0; at < keys.size(); ++at) {
        const bool same_tonic = at > 0 && keys[at - 1].tonic == keys[at].tonic;
        const bool last_of_tonic = at + 1 == keys.size() || !(keys[at + 1].tonic == keys[at].tonic);
        if (at > 0) words += !same_tonic ? "; or " : last_of_tonic ? " or " : ", ";
        words += same_tonic ? std::string(music::mode_token(keys[at].mode)) : music::to_string(keys[at]);
    }
    return words;
}

std::string counted(std::int64_t number, const std::string& one, const std::string& many) {
    return std::to_string(number) + " " + (number == 1 ? one : many);
}

double share_of(std::int64_t part, std::int64_t whole) {
    return whole == 0 ? 0 : static_cast<double>(part) / static_cast<double>(whole);
}

std::string scraps_in_words(std::int64_t number) {
    return counted(number, "scrap", "scraps") +
           " left aside (too short, broken off, or titled as a part); --scraps takes " + (number == 1 ? "it" : "them") +
           " in.";
}

std::string ended(std::string text) {
    constexpr std::string_view kEnds = ".!?";
    return !text.empty() && kEnds.find(text.back()) != std::string_view::npos ? text : text + ".";
}

}  // namespace report
