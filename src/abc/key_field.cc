// Tonic by letter and accidental, mode by its first three letters, then accidentals, then clef words; what is left over
// is reported and dropped. Tested by key_field_test.cc and the conformance table.
#include "abc/key_field.h"

#include <algorithm>
#include <array>
#include <charconv>

#include "abc/characters.h"
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
};

std::optional<WrittenMode> take_mode(std::string_view& text) {
    const std::string_view spaced = trim(text);
    std::size_t letters = letters_at(spaced);
    if (letters == 0 || (letters < spaced.size() && spaced[letters] == '=')) return std::nullopt;
    const std::string_view word = spaced.substr(0, letters);
    const auto mode = music::parse_mode(word);
    if (!mode) return std::nullopt;
    if (word.size() == 2) return std::nullopt;
    while (letters < spaced.size() && spaced[letters] == '-') letters += 1 + letters_at(spaced.substr(letters + 1));
    text = spaced.substr(letters);
    const std::string head = lowered(word.substr(0, 3));
    return WrittenMode{*mode, head == "ion" ? "ionian" : head == "aeo" ? "aeolian" : music::mode_token(*mode)};
}

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

// Highland pipes: F and C sharp, G natural. ABC 2.1, section 3.1.14; HP prints none of them and sounds the same (common
// practice).
KeyField pipes() {
    KeyField field;
    field.key = StatedKey{StatedKey::Kind::highland_pipes, {}, "major"};
    field.signature = music::signature_of_fifths(2);
    return field;
}

void read_tonic_and_mode(std::string_view whole, std::string_view& rest, const Tonic& tonic, KeyField& field) {
    const std::string_view spaced = trim(rest);
    const std::size_t letters = letters_at(spaced);
    if (lowered(spaced.substr(0, letters)) == "exp") {
        field.key = StatedKey{StatedKey::Kind::explicit_accidentals, {tonic.name, music::Mode::major}, "major"};
        rest = spaced.substr(letters);
        field.words.mode = place_in(whole, spaced.substr(0, letters));
        return;
    }
    const std::string_view before = rest;
    const auto mode = take_mode(rest).value_or(WrittenMode{});
    field.words.mode = place_taken(whole, before, rest);
    field.key = StatedKey{StatedKey::Kind::tonic_and_mode, {tonic.name, mode.mode}, mode.name};
    const int fifths = field.key->key.signature_fifths();
    field.signature = music::signature_of_fifths(fifths);
    if (fifths > 7 || fifths < -7)
        field.faults.push_back({code::kOddKey, "K: " + music::to_string(*field.key) +
                                                   " needs more than seven signs; read with double sharps or flats"});
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
    if (name == "middle" || name == "m" || name == "stafflines") return true;
    if (name != "octave" && name != "transpose" && name != "t") return false;
    if (const auto number = whole_number(value)) (name == "octave" ? shift.octaves : shift.semitones) = *number;
    return true;
}

KeyField read_key_field(std::string_view text) {
    std::string_view rest = trim(text);
    KeyField field;
    if (rest == "Hp" || rest == "HP" || rest.starts_with("Hp ") || rest.starts_with("HP ")) {
        field = pipes();
        field.words.tonic = place_in(text, rest.substr(0, 2));
        rest = trim(rest.substr(2));
    } else if (std::string_view first = rest;
               lowered(take_word(first)) == "none" || lowered(rest.substr(0, rest.find(' '))) == "exp") {
        field.key = StatedKey{};
        field.words.mode = place_taken(text, rest, first);
        rest = first;
    } else if (const auto tonic = take_tonic(rest)) {
        field.words.tonic = place_taken(text, trim(text), rest);
        if (tonic->is_odd)
            field.faults.push_back({code::kOddKey, "K: " + std::string(trim(text)) +
                                                       " is not how a key is written; read as tonic " +
                                                       music::to_string(tonic->name)});
        read_tonic_and_mode(text, rest, *tonic, field);
    } else if (rest.empty()) {
        field.key = StatedKey{};
    }
    while (take_accidental(text, rest, field)) {
        if (!field.key) field.key = StatedKey{};
    }
    std::string dropped;
    while (!rest.empty()) {
        const std::string_view word = take_word(rest);
        std::string_view accidentals = word;
        if (read_clef_word(word, field.shift)) continue;
        if (take_accidental(text, accidentals, field)) {
            while (take_accidental(text, accidentals, field)) {
            }
            if (!field.key) field.key = StatedKey{};
            if (accidentals.empty()) continue;
        }
        if (word.find('=') != std::string_view::npos) continue;  // a specifier of later standards: skipped, section 7.1
        dropped += (dropped.empty() ? "" : " ") + std::string(word);
    }
    const bool says_nothing = !field.key && !field.shift.clef_octaves && !field.shift.octaves && !field.shift.semitones;
    if (!dropped.empty() && says_nothing)
        field.faults.push_back(
            {code::kUnknownKey,
             "\"" + std::string(trim(text)) +
                 "\" is no key; left out, so the key stays as it was (none at the start of a tune)"});
    else if (!dropped.empty())
        field.faults.push_back({code::kWordsAfterKey, "words after the key left out: " + dropped});
    return field;
}

}  // namespace abc
