// Tested by moved_key_test.cc.
#include "abc/moved_key.h"

#include <algorithm>

#include "abc/characters.h"
#include "abc/edits.h"
#include "abc/interval.h"
#include "abc/key_field.h"

namespace abc {

namespace {

using music::Letter;
using music::NoteName;
using Kind = music::StatedKey::Kind;

// The pipes' own scale is A to a with C and F sharp. Source: common practice, no source.
constexpr NoteName kPipesTonic{Letter::A, 0};

Letter letter_named(char c) { return static_cast<Letter>(((is_upper(c) ? c - 'A' : c - 'a') + 5) % music::kLetters); }
char letter_text(Letter letter, bool is_capital) {
    return (is_capital ? "CDEFGAB" : "cdefgab")[static_cast<std::size_t>(letter)];
}

class KeyMover {
public:
    KeyMover(std::string_view text, const KeyField& field, int semitones)
        : text_(text), field_(field), interval_(interval_of(*field.key, semitones)) {}

    std::optional<MovedKey> move() {
        MovedKey moved_key;
        moved_key.was_pipes = field_.key->kind == Kind::highland_pipes;
        if (moved_key.was_pipes)
            edits_.replace(field_.words.tonic, music::to_string(moved(kPipesTonic, interval_)) + "mix");
        else if (field_.words.in_german)
            edits_.replace({field_.words.tonic.begin, std::max(field_.words.tonic.end, field_.words.mode.end)},
                           in_the_standards_words());
        else if (field_.words.tonic != base::Span{})
            edits_.replace(field_.words.tonic, music::to_string(moved(field_.key->key.tonic, interval_)));
        for (const base::Span place : field_.words.accidentals)
            if (!move_accidental(place)) return std::nullopt;
        const bool is_a_list = field_.key->kind == Kind::explicit_accidentals ||
                               (field_.key->kind == Kind::none && !field_.words.accidentals.empty());
        if (is_a_list && !add_missing()) return std::nullopt;
        moved_key.text = edits_.applied_to(text_);
        return moved_key;
    }

private:
    std::string_view words_at(base::Span place) const { return text_.substr(place.begin, place.end - place.begin); }
    NoteName moved_letter_of_signature(Letter letter) const {
        return moved({letter, field_.signature[static_cast<std::size_t>(letter)]}, interval_);
    }

    std::string in_the_standards_words() const {
        std::string text = music::to_string(moved(field_.key->key.tonic, interval_));
        if (field_.key->kind == Kind::explicit_accidentals) return text + " exp";
        const music::Mode mode = field_.key->key.mode;
        if (mode == music::Mode::minor) return text + "m";
        return mode == music::Mode::major ? text : text + std::string(music::mode_token(mode).substr(0, 3));
    }

    bool move_accidental(base::Span place) {
        const std::string_view word = words_at(place);
        const char written = word.back();
        const NoteName name = moved_letter_of_signature(letter_named(written));
        if (name.accidental < -2 || name.accidental > 2) return false;
        edits_.replace(place, std::string(written_sign(name.accidental)) + letter_text(name.letter, is_upper(written)));
        return true;
    }

    // Letters that were natural without a word and are not so in the new place.
    bool add_missing() {
        std::string added;
        for (int place = 0; place < music::kLetters; ++place) {  // sharps as they are printed, flats the other way
            const Letter letter = music::name_at_fifths(interval_.fifths < 0 ? 5 - place : place - 1).letter;
            const auto is_listed = [&](base::Span word) { return letter_named(text_[word.end - 1]) == old_of(letter); };
            if (std::any_of(field_.words.accidentals.begin(), field_.words.accidentals.end(), is_listed)) continue;
            const NoteName name = moved_letter_of_signature(old_of(letter));
            if (name.accidental < -2 || name.accidental > 2) return false;
            if (name.accidental != 0)
                added += " " + std::string(written_sign(name.accidental)) + letter_text(letter, false);
        }
        std::uint32_t end = field_.words.mode.end;
        for (const base::Span word : field_.words.accidentals) end = std::max(end, word.end);
        edits_.replace({end, end}, added);
        return true;
    }
    Letter old_of(Letter letter) const {
        const int step = static_cast<int>(letter) - interval_.steps;
        return static_cast<Letter>(((step % music::kLetters) + music::kLetters) % music::kLetters);
    }

    std::string_view text_;
    const KeyField& field_;
    Interval interval_;
    Edits edits_;
};

}  // namespace

std::optional<MovedKey> moved_key(std::string_view text, int semitones) {
    const KeyField field = read_key_field(text);
    if (!field.key || semitones % 12 == 0) return MovedKey{std::string(text), false};
    return KeyMover(text, field, semitones).move();
}

}  // namespace abc
