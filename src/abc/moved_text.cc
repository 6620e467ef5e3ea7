// Tested by moved_test.cc.
#include "abc/moved_text.h"

#include <vector>

#include "abc/characters.h"
#include "abc/moved_chord.h"
#include "abc/music_line.h"

namespace abc {

std::optional<Token> moved_alone(const Token& note, const Interval& interval) {
    Token alone = note;
    const int step = music::kLetters * (note.octave - 4) + static_cast<int>(note.note) + interval.steps;
    const int octave = step >= 0 ? step / music::kLetters : (step - music::kLetters + 1) / music::kLetters;
    alone.note = static_cast<music::Letter>(step - music::kLetters * octave);
    alone.octave = static_cast<std::int8_t>(octave + 4);
    if (note.accidental != Token::kNoAccidental) {
        alone.accidental = moved(music::NoteName{note.note, note.accidental}, interval).accidental;
        if (alone.accidental < -2 || alone.accidental > 2) return std::nullopt;
    }
    return alone;
}

std::string moved_note_text(std::string_view note, const Token& moved) {
    const NoteText parts = parts_of_note(note);
    const int step = music::kLetters * (moved.octave - 4) + static_cast<int>(moved.note);
    std::string text;
    if (moved.accidental != Token::kNoAccidental) text = written_sign(moved.accidental);
    return text.append(parts.gap).append(moved_letter(parts.letter, step)).append(parts.length);
}

std::string_view in_place_of_lost(std::string_view behind) noexcept {
    const bool is_length =
        !behind.empty() && (is_digit(behind[0]) || std::string_view("/,'").find(behind[0]) != std::string_view::npos);
    return is_length ? " " : "";
}

std::optional<Hindrance> move_music_text(const base::SourceFile& source, base::Span where, const Move& move,
                                         Edits& edits, std::vector<LostChord>& lost) {
    std::vector<Token> tokens;
    base::Diagnostics unheard;  // reading reports them
    scan_music({source.text().substr(where.begin, where.end - where.begin), where.begin, nullptr}, {}, tokens, unheard);
    for (const Token& token : tokens) {
        if (token.kind == TokenKind::chord_symbol) {
            const std::uint32_t begin = token.where.begin + 1;
            if (auto chord = moved_chord(token.text, move.interval, move.fifths)) {
                edits.replace({begin, begin + static_cast<std::uint32_t>(token.text.size())}, std::move(*chord));
            } else {
                edits.replace(token.where, std::string(in_place_of_lost(source.text().substr(token.where.end))));
                lost.push_back({token.where, std::string(token.text)});
            }
        }
        if (token.kind != TokenKind::note) continue;
        if (parts_of_note(token.text).is_microtone())
            return Hindrance{token.where, "a quarter tone is no part of ABC 2.1 and is not moved"};
        const auto alone = moved_alone(token, move.interval);
        if (!alone) return Hindrance{token.where, "a note in a macro would need more than a double sign", true};
        edits.replace(token.where, moved_note_text(token.text, *alone));
    }
    return std::nullopt;
}

std::optional<Hindrance> move_macro(const base::SourceFile& source, base::Span where, const Move& move, Edits& edits,
                                    std::vector<LostChord>& lost) {
    const std::string_view text = source.text().substr(where.begin, where.end - where.begin);
    const auto equals = static_cast<std::uint32_t>(text.find('='));
    if (equals >= text.size()) return std::nullopt;
    if (auto hindrance = move_music_text(source, {where.begin, where.begin + equals}, move, edits, lost))
        return hindrance;
    return move_music_text(source, {where.begin + equals + 1, where.end}, move, edits, lost);
}

}  // namespace abc
