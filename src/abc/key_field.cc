// Tonic by letter and accidental, mode by its first three letters, then accidentals and clef words in any order;
// nothing is passed over in silence. A sign of an accidental begins a new word wherever it stands. Tested by
// key_field_test.cc and the conformance table.
#include "abc/key_field.h"

#include <algorithm>
#include <array>
#include <charconv>

#include "abc/characters.h"
#include "abc/german_key.h"
#include "base/utf8.h"

namespace abc {

namespace {

using music::Letter;
using music::StatedKey;

constexpr std::array<std::string_view, 10> kClefNames{"treble", "alto",    "tenor",        "bass",     "perc",
                                                      "none",   "soprano", "mezzosoprano", "baritone", "C"};

std::optional<int> whole_number(std::string_view text) {
    if (!text.empty() && text.front() == '+') text.remove_prefix(1);
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    // Ten octaves is more than MIDI holds; larger numbers are slips.
    if (error != std::errc() || end != text.data() + text.size() || value > 120 || value < -120) return std::nullopt;
    return value;
}

bool is_clef_name(std::string_view word) {
    return std::find(kClefNames.begin(), kClefNames.end(), word) != kClefNames.end() ||
           (word.size() == 2 && (word[0] == 'G' || word[0] == 'F' || word[0] == 'C') && is_digit(word[1]));
}

// `bass`, `treble-8`, `alto1+8`.
bool read_clef(std::string_view word, Shift& shift) {
    std::optional<int> octaves;
    if (word.size() > 2 && (word.ends_with("+8") || word.ends_with("-8"))) {
        octaves = word[word.size() - 2] == '+' ? 1 : -1;
        word.remove_suffix(2);
    }
    if (!is_clef_name(word)) {
        if (word.empty() || !is_digit(word.back())) return false;
        word.remove_suffix(1);  // the line it sits on
        if (!is_clef_name(word)) return false;
    }
    shift.clef_octaves = octaves.value_or(0);
    return true;
}

Letter letter_of(char c) {
    const char upper = is_lower(c) ? static_cast<char>(c - 'a' + 'A') : c;
    return static_cast<Letter>((upper - 'C' + 7) % 7);
}

std::string lowered(std::string_view text) { return base::fold(text); }

// Letters at the start of `text`.
std::size_t letters_at(std::string_view text) {
    std::size_t size = 0;
    while (size < text.size() && is_letter(text[size])) ++size;
    return size;
}

struct Tonic {
    music::NoteName name;
    bool is_odd = false;  // readable, yet not as the standard writes it
};

// Takes `G`, `F#`, `Bb`, and what is clear though not standard: `g`, `Bflat`, `F sharp`, the Unicode signs.
std::optional<Tonic> take_tonic(std::string_view& text) {
    if (text.empty() || !is_note_letter(text[0])) return std::nullopt;
    Tonic tonic{{letter_of(text[0]), 0}, is_lower(text[0])};
    std::string_view rest = text.substr(1);
    const std::string_view spaced = trim(rest);
    const std::string word = lowered(spaced.substr(0, letters_at(spaced)));
    if (rest.starts_with("#"))
        tonic.name.accidental = 1, rest.remove_prefix(1);
    else if (rest.starts_with("\u266F"))
        tonic.name.accidental = 1, tonic.is_odd = true, rest.remove_prefix(3);
    else if (rest.starts_with("\u266D"))
        tonic.name.accidental = -1, tonic.is_odd = true, rest.remove_prefix(3);
    else if (word == "sharp")
        tonic.name.accidental = 1, tonic.is_odd = true, rest = spaced.substr(5);
    else if (word == "flat")
        tonic.name.accidental = -1, tonic.is_odd = true, rest = spaced.substr(4);
    else if (rest.starts_with("b"))
        tonic.name.accidental = -1, rest.remove_prefix(1);
    // A lower-case word that only begins like a note (`bass`, `clef=...`) is no tonic.
    if (tonic.is_odd && is_lower(text[0])) {
        const std::size_t letters = letters_at(rest);
        const bool is_mode = letters == 0 || music::parse_mode(rest.substr(0, letters)).has_value();
        if (!is_mode || (letters < rest.size() && rest[letters] == '=')) return std::nullopt;
    }
    text = rest;
    return tonic;
}

struct WrittenMode {
    music::Mode mode = music::Mode::major;
    std::string_view name = "major";
    bool is_odd = false;  // behind a hyphen, or in German
    bool is_german = false;
};

std::optional<WrittenMode> take_mode(std::string_view& text) {
    std::string_view spaced = trim(text);
    const bool is_apart = spaced.data() != text.data();
    const bool has_hyphen = spaced.starts_with('-');
    if (has_hyphen) spaced.remove_prefix(1);
    std::size_t letters = letters_at(spaced);
    const std::string_view word = spaced.substr(0, letters);
    if (const auto german = german_mode(word)) {
        text = spaced.substr(letters);
        return WrittenMode{*german, music::mode_token(*german), true, true};
    }
    const auto mode = music::parse_mode(word);
    const bool is_middle = word.size() == 1 && is_apart && letters < spaced.size() && spaced[letters] == '=';  // `m=B`
    if (!mode || is_middle) return std::nullopt;
    while (letters < spaced.size() && spaced[letters] == '-') letters += 1 + letters_at(spaced.substr(letters + 1));
    text = spaced.substr(letters);
    const std::string head = lowered(word.substr(0, 3));
    return WrittenMode{*mode,
                       head == "ion"   ? "ionian"
                       : head == "aeo" ? "aeolian"
                                       : music::mode_token(*mode),
                       has_hyphen};
}

bool is_sign(char c) { return c == '^' || c == '_' || c == '='; }

base::Span place_in(std::string_view whole, std::string_view part) {
    const auto begin = static_cast<std::uint32_t>(part.data() - whole.data());
    return {begin, begin + static_cast<std::uint32_t>(part.size())};
}

// What was taken off the front of `before`, of which `after` is left; without blanks around it.
base::Span place_taken(std::string_view whole, std::string_view before, std::string_view after) {
    return place_in(whole, trim(before.substr(0, static_cast<std::size_t>(after.data() - before.data()))));
}

// `^f`, `=B`, `__e`, also run together. Returns false where the text is something else. `text` is part of `whole`.
bool take_accidental(std::string_view whole, std::string_view& text, KeyField& field) {
    std::string_view rest = trim(text);
    int accidental = 0;
    if (rest.starts_with("^^"))
        accidental = 2, rest.remove_prefix(2);
    else if (rest.starts_with("__"))
        accidental = -2, rest.remove_prefix(2);
    else if (rest.starts_with("^"))
        accidental = 1, rest.remove_prefix(1);
    else if (rest.starts_with("_"))
        accidental = -1, rest.remove_prefix(1);
    else if (rest.starts_with("="))
        rest.remove_prefix(1);
    else
        return false;
    if (rest.empty() || !is_note_letter(rest[0])) return false;
    field.signature[static_cast<std::size_t>(letter_of(rest[0]))] = static_cast<std::int8_t>(accidental);
    rest.remove_prefix(1);
    field.words.accidentals.push_back(place_taken(whole, text, rest));
    text = rest;
    return true;
}

// Where a list of accidentals begins that goes on to the word's end: 4 in `trio^f=c`, and nowhere in `my_book`.
std::size_t accidentals_in(std::string_view word) {
    for (std::size_t at = 1; at < word.size(); ++at) {
        if (!is_sign(word[at])) continue;
        std::string_view list = word.substr(at);
        KeyField unused;
        while (take_accidental(list, list, unused)) {
        }
        if (list.empty()) return at;
        while (at + 1 < word.size() && is_sign(word[at + 1])) ++at;
    }
    return std::string_view::npos;
}

// The next word of a key: up to a blank, with a quoted value whole.
std::string_view take_key_word(std::string_view& text) {
    text = trim(text);
    std::size_t end = 0;
    for (bool in_quotes = false; end < text.size() && (in_quotes || !is_blank(text[end])); ++end)
        if (text[end] == '"') in_quotes = !in_quotes;
    const std::string_view word = text.substr(0, end);
    text = trim(text.substr(end));
    return word;
}

// `name=value` that this standard (sections 4.6, 7.1) knows to say nothing of pitch.
constexpr std::array<std::string_view, 8> kPrintedOnly{"middle",  "m",   "stafflines", "name",
                                                       "subname", "snm", "nm",         "stem"};
// Of later drafts and of programs; a value of theirs may look like an accidental.
constexpr std::array<std::string_view, 5> kNotesOfPrograms{"sound", "score", "shift", "instrument", "style"};

template <std::size_t kSize>
bool is_among(const std::array<std::string_view, kSize>& names, std::string_view name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

// Highland pipes: F and C sharp, G natural. ABC 2.1, section 3.1.14; HP prints none of them and sounds the same (common
// practice).
KeyField pipes() {
    KeyField field;
    field.key = StatedKey{StatedKey::Kind::highland_pipes, {}, "major"};
    field.signature = music::signature_of_fifths(2);
    return field;
}

// Takes the key of a tonic from `rest`.
void read_tonic_and_mode(std::string_view whole, std::string_view& rest, const Tonic& tonic,
                         const std::optional<GermanTonic>& german, KeyField& field) {
    field.words.in_german = german.has_value();
    const std::string_view spaced = trim(rest);
    const std::size_t letters = letters_at(spaced);
    bool is_odd = tonic.is_odd;
    if (lowered(spaced.substr(0, letters)) == "exp") {
        field.key = StatedKey{StatedKey::Kind::explicit_accidentals, {tonic.name, music::Mode::major}, "major"};
        rest = spaced.substr(letters);
        field.words.mode = place_in(whole, spaced.substr(0, letters));
    } else {
        const std::string_view before = rest;
        const auto written = take_mode(rest);
        WrittenMode mode = written.value_or(WrittenMode{});
        if (!written && german && german->is_small) mode = WrittenMode{music::Mode::minor, "minor"};
        field.words.mode = place_taken(whole, before, rest);
        field.words.in_german = field.words.in_german || mode.is_german;
        is_odd = is_odd || mode.is_odd;
        field.key = StatedKey{StatedKey::Kind::tonic_and_mode, {tonic.name, mode.mode}, mode.name};
        const int fifths = field.key->key.signature_fifths();
        field.signature = music::signature_of_fifths(fifths);
        if (fifths > 7 || fifths < -7)
            field.faults.push_back(
                {code::kOddKey, "K: " + music::to_string(*field.key) +
                                    " needs more than seven signs; read with double sharps or flats"});
    }
    if (is_odd)
        field.faults.push_back({code::kOddKey, "K: " + std::string(trim(whole)) +
                                                   " is not how a key is written; read as " +
                                                   music::to_string(*field.key)});
    const bool is_glued = !rest.empty() && is_letter(rest[0]) && field.words.mode.begin == field.words.mode.end;
    std::string_view after = rest;
    const std::string_view word = is_glued ? take_key_word(after) : std::string_view();
    const std::string_view letters_glued = word.substr(0, letters_at(word));
    Shift unused;
    if (!is_glued || (letters_glued != "m" && read_clef_word(word, unused))) return;
    field.not_understood = letters_glued;
    field.faults.push_back(
        {code::kOddKey,
         "K: " + std::string(letters_glued) + " is glued to " + music::to_string(tonic.name) +
             " and is no mode; read as " + music::to_string(*field.key) +
             (letters_glued == "n" ? ". If the m beside it is meant, write " + music::to_string(tonic.name) + "m"
                                   : "")});
    rest.remove_prefix(letters_glued.size());
}

// One word behind the key: accidentals, a clef or a specifier. Returns what nothing is known of.
std::string_view take_other_word(std::string_view& rest, KeyField& field) {
    std::string_view after = rest;
    std::string_view word = take_key_word(after);
    const std::string_view name = word.substr(0, std::min(word.size(), word.find('=')));
    const std::string small = lowered(name);
    const bool has_value = name.size() < word.size() && !name.empty();
    const bool is_ours = read_clef_word(word, field.shift);
    const bool is_foreign = has_value && is_among(kNotesOfPrograms, small);
    if (!is_ours && !is_foreign)
        if (const std::size_t signs = accidentals_in(word); signs < word.size()) {
            rest.remove_prefix(static_cast<std::size_t>(word.data() - rest.data()) + signs);
            return word.substr(0, signs);
        }
    rest = after;
    if (is_ours) {
        const std::string_view value = has_value ? word.substr(name.size() + 1) : std::string_view();
        const bool wants_number = small == "octave" || small == "transpose" || small == "t";
        Shift unused;
        if ((wants_number && has_value && !whole_number(value)) ||
            (small == "clef" && has_value && !read_clef(value, unused)))
            field.faults.push_back({code::kUnknownSpecifier, "K: " + std::string(word.substr(0, 40)) +
                                                                 " says nothing that is understood; left out"});
        return {};
    }
    if (!has_value || letters_at(name) < name.size()) return word;
    field.faults.push_back(
        {code::kUnknownSpecifier, "K: " + std::string(word.substr(0, 40)) + " is a word of other programs; left out"});
    return {};
}

}  // namespace

bool read_clef_word(std::string_view word, Shift& shift) {
    const std::size_t equals = word.find('=');
    if (equals == std::string_view::npos) return read_clef(word, shift);
    const std::string name = lowered(word.substr(0, equals));
    const std::string_view value = word.substr(equals + 1);
    if (name == "clef") {
        if (!read_clef(value, shift) && (value.ends_with("+8") || value.ends_with("-8")))
            shift.clef_octaves = value[value.size() - 2] == '+' ? 1 : -1;
        return true;
    }
    if (is_among(kPrintedOnly, name)) return true;
    if (name != "octave" && name != "transpose" && name != "t") return false;
    if (const auto number = whole_number(value)) (name == "octave" ? shift.octaves : shift.semitones) = *number;
    return true;
}

KeyField read_key_field(std::string_view text) {
    std::string_view rest = trim(text);
    KeyField field;
    const std::string first = lowered(rest.substr(0, letters_at(rest)));
    if ((rest.starts_with("Hp") || rest.starts_with("HP")) && first.size() == 2) {
        field = pipes();
        field.words.tonic = place_in(text, rest.substr(0, 2));
        rest.remove_prefix(2);
    } else if ((first == "none" || first == "exp") && !rest.substr(first.size()).starts_with("=")) {
        field.key = StatedKey{};
        field.words.mode = place_in(text, rest.substr(0, first.size()));
        rest.remove_prefix(first.size());
    } else if (const auto german = take_german_tonic(rest)) {
        field.words.tonic = place_taken(text, trim(text), rest);
        read_tonic_and_mode(text, rest, Tonic{german->name, true}, german, field);
    } else if (const auto tonic = take_tonic(rest)) {
        field.words.tonic = place_taken(text, trim(text), rest);
        read_tonic_and_mode(text, rest, *tonic, std::nullopt, field);
    } else if (rest.empty()) {
        field.key = StatedKey{};
    }
    std::string dropped;
    while (!trim(rest).empty()) {
        if (take_accidental(text, rest, field)) {
            if (!field.key) field.key = StatedKey{};
            continue;
        }
        const std::string_view unknown = take_other_word(rest, field);
        if (!unknown.empty()) dropped += (dropped.empty() ? "" : " ") + std::string(unknown);
    }
    const bool says_nothing = !field.key && !field.shift.clef_octaves && !field.shift.octaves && !field.shift.semitones;
    if (!dropped.empty() && says_nothing) {
        field.not_understood = trim(text);
        field.faults.push_back(
            {code::kUnknownKey,
             "\"" + std::string(trim(text)) +
                 "\" is no key; left out, so the key stays as it was (none at the start of a tune)"});
    } else if (!dropped.empty()) {
        field.faults.push_back({code::kWordsAfterKey, "words after the key left out: " + dropped});
    }
    return field;
}

}  // namespace abc
