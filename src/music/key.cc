#include "music/key.h"

namespace music {

namespace {

constexpr std::array<std::string_view, 7> kModeTokens{"major",      "dorian", "phrygian", "lydian",
                                                      "mixolydian", "minor",  "locrian"};

// Fifths the signature moves from the tonic's own. Source: reading rules of ABC 2.1, section 3.1.14.
constexpr std::array<int, 7> kModeFifths{0, -2, -4, 1, -1, -3, -5};

constexpr std::array<std::array<int, 7>, 7> kModeSemitones{{{0, 2, 4, 5, 7, 9, 11},
                                                            {0, 2, 3, 5, 7, 9, 10},
                                                            {0, 1, 3, 5, 7, 8, 10},
                                                            {0, 2, 4, 6, 7, 9, 11},
                                                            {0, 2, 4, 5, 7, 9, 10},
                                                            {0, 2, 3, 5, 7, 8, 10},
                                                            {0, 1, 3, 5, 6, 8, 10}}};

}  // namespace

std::string_view mode_token(Mode mode) noexcept { return kModeTokens[static_cast<std::size_t>(mode)]; }

std::optional<Mode> parse_mode(std::string_view text) {
    std::string head;
    for (const char c : text.substr(0, 3)) head += static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
    if (head == "m") return Mode::minor;
    if (head == "ion") return Mode::major;
    if (head == "aeo") return Mode::minor;
    if (head.size() < 3) return std::nullopt;
    for (const Mode mode : kModes)
        if (mode_token(mode).substr(0, 3) == head) return mode;
    return std::nullopt;
}

const std::array<int, 7>& mode_semitones(Mode mode) noexcept { return kModeSemitones[static_cast<std::size_t>(mode)]; }

int Key::signature_fifths() const noexcept {
    return fifths_above_c(tonic) + kModeFifths[static_cast<std::size_t>(mode)];
}

std::optional<Key> parse_key(std::string_view written) {
    const auto is_blank = [](char c) { return c == ' ' || c == '\t' || c == ':'; };
    while (!written.empty() && is_blank(written.back())) written.remove_suffix(1);
    while (!written.empty() && is_blank(written.front())) written.remove_prefix(1);
    // The longest beginning that is a note name, of those behind which a mode stands: "Bb", not "B" and "b".
    for (std::size_t end = std::min<std::size_t>(written.size(), 4); end > 0; --end) {
        const auto tonic = parse_note_name(written.substr(0, end));
        if (!tonic) continue;
        std::string_view word = written.substr(end);
        while (!word.empty() && is_blank(word.front())) word.remove_prefix(1);
        if (word.empty()) return Key{*tonic, Mode::major};
        // `m` and `M` alone are told apart by nobody but chord symbols, which mean major by the latter.
        if (word == "M") return Key{*tonic, Mode::major};
        if (const auto mode = parse_mode(word)) return Key{*tonic, *mode};
    }
    return std::nullopt;
}

std::string to_string(const Key& key) { return to_string(key.tonic) + " " + std::string(mode_token(key.mode)); }

int moved_fifths(int fifths, int semitones) noexcept {
    const int sharps = ((fifths + 7 * semitones) % 12 + 12) % 12;  // a semitone up is seven fifths up
    return sharps > 6 || (sharps == 6 && fifths < 0) ? sharps - 12 : sharps;
}

Key moved(const Key& key, int semitones) noexcept {
    const int fifths = moved_fifths(key.signature_fifths(), semitones);
    return {name_at_fifths(fifths - kModeFifths[static_cast<std::size_t>(key.mode)]), key.mode};
}

Signature signature_of_fifths(int fifths) noexcept {
    Signature signature{};
    for (int at = 0; at < kLetters; ++at) {
        // The letter at place `at` of F C G D A E B is sharpened by every 7th sharp from at + 1, flattened from the
        // other end.
        const NoteName natural = name_at_fifths(at - 1);
        int accidental = 0;
        for (int sharps = at + 1; sharps <= fifths; sharps += kLetters) ++accidental;
        for (int flats = kLetters - at; flats <= -fifths; flats += kLetters) --accidental;
        signature[static_cast<std::size_t>(natural.letter)] = static_cast<std::int8_t>(accidental);
    }
    return signature;
}

std::string to_string(const StatedKey& key) {
    switch (key.kind) {
        case StatedKey::Kind::none:
            return "none";
        case StatedKey::Kind::highland_pipes:
            return "highland-pipes";
        case StatedKey::Kind::explicit_accidentals:
            return to_string(key.key.tonic) + " explicit";
        case StatedKey::Kind::tonic_and_mode:
            return to_string(key.key.tonic) + " " + std::string(key.written_mode);
    }
    return "none";
}

std::optional<StatedKey> parse_stated_key(std::string_view text) {
    if (text == "none") return StatedKey{};
    if (text == "highland-pipes") return StatedKey{StatedKey::Kind::highland_pipes, {}, "major"};
    const std::size_t blank = text.find(' ');
    if (blank == std::string_view::npos) return std::nullopt;
    const auto tonic = parse_note_name(text.substr(0, blank));
    if (!tonic) return std::nullopt;
    const std::string_view word = text.substr(blank + 1);
    if (word == "explicit") return StatedKey{StatedKey::Kind::explicit_accidentals, {*tonic, Mode::major}, "major"};
    const auto mode = parse_mode(word);
    if (!mode) return std::nullopt;
    const std::string_view written = word == "ionian" ? "ionian" : word == "aeolian" ? "aeolian" : mode_token(*mode);
    return StatedKey{StatedKey::Kind::tonic_and_mode, {*tonic, *mode}, written};
}

std::optional<Key> key_stated_in(std::string_view text) {
    const auto stated = parse_stated_key(text);
    if (!stated || stated->kind != StatedKey::Kind::tonic_and_mode) return std::nullopt;
    return stated->key;
}

}  // namespace music
