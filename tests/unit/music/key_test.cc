#include "music/key.h"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <string>

using music::Key;
using music::Mode;

namespace {

// Every signature and the seven keys that have it, from seven sharps to seven flats, in the order of kTableModes.
// Source: ABC standard 2.1, section 3.1.14, the table of key signatures.
constexpr std::array<Mode, 7> kTableModes{Mode::major,    Mode::minor,  Mode::mixolydian, Mode::dorian,
                                          Mode::phrygian, Mode::lydian, Mode::locrian};

struct Row {
    int fifths;
    std::array<const char*, 7> tonics;
};

constexpr std::array<Row, 15> kTable{{{7, {"C#", "A#", "G#", "D#", "E#", "F#", "B#"}},
                                      {6, {"F#", "D#", "C#", "G#", "A#", "B", "E#"}},
                                      {5, {"B", "G#", "F#", "C#", "D#", "E", "A#"}},
                                      {4, {"E", "C#", "B", "F#", "G#", "A", "D#"}},
                                      {3, {"A", "F#", "E", "B", "C#", "D", "G#"}},
                                      {2, {"D", "B", "A", "E", "F#", "G", "C#"}},
                                      {1, {"G", "E", "D", "A", "B", "C", "F#"}},
                                      {0, {"C", "A", "G", "D", "E", "F", "B"}},
                                      {-1, {"F", "D", "C", "G", "A", "Bb", "E"}},
                                      {-2, {"Bb", "G", "F", "C", "D", "Eb", "A"}},
                                      {-3, {"Eb", "C", "Bb", "F", "G", "Ab", "D"}},
                                      {-4, {"Ab", "F", "Eb", "Bb", "C", "Db", "G"}},
                                      {-5, {"Db", "Bb", "Ab", "Eb", "F", "Gb", "C"}},
                                      {-6, {"Gb", "Eb", "Db", "Ab", "Bb", "Cb", "F"}},
                                      {-7, {"Cb", "Ab", "Gb", "Db", "Eb", "Fb", "Bb"}}}};

// The letters that carry a sharp or a flat, in the order they are written on the stave.
// Source: common practice, no source.
constexpr const char* kOrderOfSharps = "FCGDAEB";

int accidental_of(const music::Signature& signature, char letter) {
    return signature[std::string("CDEFGAB").find(letter)];
}

}  // namespace

TEST_CASE("key: every key of the standard's table has its signature", "[music][key]") {
    int keys = 0;
    for (const Row& row : kTable)
        for (std::size_t column = 0; column < kTableModes.size(); ++column) {
            const Key key{*music::parse_note_name(row.tonics[column]), kTableModes[column]};
            CAPTURE(music::to_string(key));
            CHECK(key.signature_fifths() == row.fifths);
            ++keys;
        }
    CHECK(keys == 105);
}

TEST_CASE("key: sharps come in the order F C G D A E B, flats the other way round", "[music][key]") {
    for (const Row& row : kTable) {
        const music::Signature signature = music::signature_of_fifths(row.fifths);
        for (int place = 0; place < 7; ++place) {
            const int expected = place < row.fifths ? 1 : 6 - place < -row.fifths ? -1 : 0;
            CAPTURE(row.fifths, place);
            CHECK(accidental_of(signature, kOrderOfSharps[place]) == expected);
        }
    }
}

TEST_CASE("key: D dorian has no signature", "[music][key]") {
    CHECK(Key{*music::parse_note_name("D"), Mode::dorian}.signature_fifths() == 0);
    CHECK(music::signature_of_fifths(0) == music::Signature{});
}

TEST_CASE("key: beyond seven signs letters are sharpened or flattened twice", "[music][key]") {
    // Source: common practice, no source.
    const Key g_sharp_major{*music::parse_note_name("G#"), Mode::major};
    CHECK(g_sharp_major.signature_fifths() == 8);
    CHECK(accidental_of(music::signature_of_fifths(8), 'F') == 2);
    CHECK(accidental_of(music::signature_of_fifths(8), 'C') == 1);
    const Key f_flat_major{*music::parse_note_name("Fb"), Mode::major};
    CHECK(f_flat_major.signature_fifths() == -8);
    CHECK(accidental_of(music::signature_of_fifths(-8), 'B') == -2);
    CHECK(accidental_of(music::signature_of_fifths(-8), 'E') == -1);
}

TEST_CASE("key: the degrees of a mode are the letters of its signature", "[music][key]") {
    for (const Row& row : kTable)
        for (std::size_t column = 0; column < kTableModes.size(); ++column) {
            const auto tonic = *music::parse_note_name(row.tonics[column]);
            const music::Signature signature = music::signature_of_fifths(row.fifths);
            const auto& degrees = music::mode_semitones(kTableModes[column]);
            for (std::size_t degree = 0; degree < 7; ++degree) {
                const auto letter = (static_cast<std::size_t>(tonic.letter) + degree) % 7;
                const music::NoteName name{static_cast<music::Letter>(letter), signature[letter]};
                CHECK((name.pitch_class() - tonic.pitch_class() + 24) % 12 == degrees[degree]);
            }
        }
}

TEST_CASE("mode: the first three letters count, in any case, and m alone is minor", "[music][key]") {
    // Source: ABC standard 2.1, section 3.1.14.
    struct Word {
        const char* text;
        Mode mode;
    };
    for (const Word& word : {Word{"major", Mode::major},
                             {"MAJ", Mode::major},
                             {"ion", Mode::major},
                             {"Ionian", Mode::major},
                             {"minor", Mode::minor},
                             {"Min", Mode::minor},
                             {"m", Mode::minor},
                             {"M", Mode::minor},
                             {"aeolian", Mode::minor},
                             {"AEO", Mode::minor},
                             {"mixolydian", Mode::mixolydian},
                             {"Mix", Mode::mixolydian},
                             {"dor", Mode::dorian},
                             {"DORIAN", Mode::dorian},
                             {"phr", Mode::phrygian},
                             {"Phrygian", Mode::phrygian},
                             {"lyd", Mode::lydian},
                             {"loc", Mode::locrian},
                             {"locrish", Mode::locrian}}) {
        CAPTURE(word.text);
        CHECK(music::parse_mode(word.text) == word.mode);
    }
    for (const char* text : {"", "ma", "mi", "d", "do", "exp", "none", "x", "mod", "dia"}) {
        CAPTURE(text);
        CHECK_FALSE(music::parse_mode(text));
    }
}

TEST_CASE("mode: every token is read back", "[music][key]") {
    for (const Mode mode : music::kModes) CHECK(music::parse_mode(music::mode_token(mode)) == mode);
    CHECK(music::mode_token(Mode::minor) == "minor");
    CHECK(music::mode_token(Mode::mixolydian) == "mixolydian");
}

TEST_CASE("stated key: what is printed is read back", "[music][key]") {
    using music::StatedKey;
    std::vector<StatedKey> keys{StatedKey{}, {StatedKey::Kind::highland_pipes, {}, "major"}};
    for (const Row& row : kTable)
        for (std::size_t column = 0; column < 7; ++column) {
            const auto tonic = *music::parse_note_name(row.tonics[column]);
            const Mode mode = kTableModes[column];
            keys.push_back({StatedKey::Kind::tonic_and_mode, {tonic, mode}, music::mode_token(mode)});
            if (mode == Mode::major) keys.push_back({StatedKey::Kind::tonic_and_mode, {tonic, mode}, "ionian"});
            if (mode == Mode::minor) keys.push_back({StatedKey::Kind::tonic_and_mode, {tonic, mode}, "aeolian"});
            if (mode == Mode::major) keys.push_back({StatedKey::Kind::explicit_accidentals, {tonic, mode}, "major"});
        }
    for (const StatedKey& key : keys) {
        CAPTURE(music::to_string(key));
        CHECK(music::parse_stated_key(music::to_string(key)) == key);
    }
}

TEST_CASE("stated key: ionian and aeolian keep their names", "[music][key]") {
    CHECK(music::to_string(*music::parse_stated_key("D ionian")) == "D ionian");
    CHECK(music::to_string(*music::parse_stated_key("A aeolian")) == "A aeolian");
    CHECK(music::to_string(*music::parse_stated_key("A explicit")) == "A explicit");
    for (const char* text : {"", "D", "H major", "D sideways", "highland"}) {
        CAPTURE(text);
        CHECK_FALSE(music::parse_stated_key(text));
    }
}

TEST_CASE("a key is moved by semitones and spelled with the fewest signs", "[music]") {
    const auto moved = [](std::string_view tonic, music::Mode mode, int semitones) {
        return music::to_string(music::moved({*music::parse_note_name(tonic), mode}, semitones));
    };
    CHECK(moved("D", music::Mode::major, 5) == "G major");
    CHECK(moved("D", music::Mode::major, -12) == "D major");
    CHECK(moved("A", music::Mode::dorian, 1) == "Bb dorian");
    CHECK(moved("C", music::Mode::major, 6) == "F# major");
    CHECK(moved("F", music::Mode::major, 1) == "Gb major");
    CHECK(moved("G", music::Mode::major, -6) == "Db major");
    for (const music::Mode mode : music::kModes)
        for (int semitones = -24; semitones <= 24; ++semitones) {
            const music::Key key = music::moved({{music::Letter::E, -1}, mode}, semitones);
            CHECK(key.tonic.pitch_class() == (3 + semitones + 24) % 12);
            CHECK(std::abs(key.signature_fifths()) <= 6);
        }
}

TEST_CASE("key: as a person writes one", "[music][key]") {
    const auto read = [](const char* written) {
        const auto key = music::parse_key(written);
        return key ? music::to_string(*key) : std::string("none");
    };
    CHECK(read("G") == "G major");
    CHECK(read("Em") == "E minor");
    CHECK(read("E minor") == "E minor");
    CHECK(read(" A:dorian ") == "A dorian");
    CHECK(read("Ador") == "A dorian");
    CHECK(read("F#m") == "F# minor");
    CHECK(read("Bb") == "Bb major");
    CHECK(read("bbmix") == "Bb mixolydian");
    CHECK(read("E♭ major") == "Eb major");
    CHECK(read("GM") == "G major");
    for (const char* none : {"", " ", "H", "E often", "Em7", "minor", "12"}) CHECK(read(none) == "none");
}
