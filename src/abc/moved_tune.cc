// The tune is read twice at once, as it was and as it is being written, so that a sign stands where the new text needs
// one and by the very rules a reader goes by. Both readings are made by the standard's reach of accidentals and by that
// of print (one octave), so that the new text leaves no more to the reader's habit than the old one did. Tested by
// moved_test.cc and tests/outside/moved.cc.
#include "abc/moved_tune.h"

#include <algorithm>
#include <deque>
#include <functional>
#include <vector>

#include "abc/characters.h"
#include "abc/key_field.h"
#include "abc/moved_chord.h"
#include "abc/moved_key.h"
#include "abc/report_fault.h"
#include "abc/twin_reading.h"

namespace abc {

namespace {

constexpr int kMidiNotes = 128;
constexpr std::string_view kLoneH = "H";  // the German name of B, or a mark of somebody's own where no chords are
constexpr Interval kTone{2, 1, 2};

// Where the value of a field, or of a line that goes on with one, stands in the source.
base::Span value_place(const base::SourceFile& source, const Token& token) {
    std::uint32_t begin = token.where.begin + (token.is_inline ? 3 : 2);
    while (begin < token.where.end && is_blank(source.text()[begin])) ++begin;
    return {begin, begin + static_cast<std::uint32_t>(token.text.size())};
}

// `s:` and what goes on with it, or `U:`.
void move_quoted(const base::SourceFile& source, const Token& token, const Move& move, Edits& edits,
                 std::vector<LostChord>& lost) {
    const bool is_definition = token.kind == TokenKind::field && token.letter == 'U';
    std::vector<std::string> texts;
    edits.replace(value_place(source, token),
                  moved_quoted_chords(token.text, move.interval, move.fifths, is_definition ? "!nil!" : "*", texts));
    for (std::string& text : texts) lost.push_back({token.where, std::move(text)});
}

// Once a tune and text.
void report_lost(std::vector<LostChord> lost, base::Diagnostics& diagnostics) {
    for (std::size_t at = 0; at < lost.size(); ++at) {
        const auto is_same = [&](const LostChord& other) { return other.text == lost[at].text; };
        const auto self = lost.begin() + static_cast<std::ptrdiff_t>(at);
        if (std::any_of(lost.begin(), self, is_same)) continue;
        const auto times = std::count_if(self, lost.end(), is_same);
        report(diagnostics, code::kChordLeftOut, lost[at].where,
               "\"" + lost[at].text + "\" is no chord that is understood; taken out of the moved text" +
                   (times == 1 ? "" : ", " + std::to_string(times) + " times"));
    }
}

// `m:`. Where macros are written out it is of no use any more: moved as far as it can be, so that it goes on matching
// nothing else.
std::optional<Hindrance> move_definition(const base::SourceFile& source, const Token& token, const Move& move,
                                         MacroFate fate, Edits& edits, std::vector<LostChord>& lost) {
    const std::size_t edits_before = edits.size();
    const std::size_t lost_before = lost.size();
    auto hindrance = move_macro(source, value_place(source, token), move, edits, lost);
    if (!hindrance || fate == MacroFate::kept) return hindrance;
    lost.resize(lost_before);
    edits.forget_after(edits_before);
    return std::nullopt;
}

// Grace notes inside a chord are read behind it, as a Voice does, and so find the bar's signs as the chord leaves them.
std::vector<Token> in_reading_order(const std::vector<Token>& tokens) {
    std::vector<Token> ordered, graces;
    bool in_chord = false, in_grace = false, chord_is_grace = false;
    for (const Token& token : tokens) {
        if (token.kind == TokenKind::chord_open) {
            in_chord = true;
            chord_is_grace = in_grace;
        }
        if (token.kind == TokenKind::grace_open) in_grace = true;
        (in_chord && in_grace && !chord_is_grace ? graces : ordered).push_back(token);
        if (token.kind == TokenKind::grace_close) in_grace = false;
        if (token.kind == TokenKind::chord_close) {
            in_chord = false;
            ordered.insert(ordered.end(), graces.begin(), graces.end());
            graces.clear();
        }
    }
    ordered.insert(ordered.end(), graces.begin(), graces.end());
    return ordered;
}

class TuneMover {
public:
    TuneMover(const base::SourceFile& source, const Tokens& tokens, const Header& header,
              const music::StatedKey& macro_key, int semitones, MacroFate fate, Edits& edits,
              base::Diagnostics& diagnostics)
        : source_(source),
          macro_uses_(tokens.macro_uses),
          edits_in_uses_(tokens.macro_uses.size()),
          macro_fate_(fate),
          before_(in_reading_order(tokens.all)),
          after_(before_),
          header_move_(first_key(tokens), semitones),
          macro_move_(macro_key, semitones),
          semitones_(semitones),
          edits_(edits),
          diagnostics_(diagnostics),
          by_standard_(before_, after_, header, Reach::every_octave, unheard_),
          as_printed_(before_, after_, header, Reach::same_octave, unheard_) {}

    std::optional<Hindrance> move() {
        for (std::size_t index = 0; index < before_.size(); ++index)
            if (auto hindrance = move_token(index)) return hindrance;
        auto hindrance = move_macro_uses();
        if (!hindrance) report_lost(std::move(lost_), diagnostics_);
        return hindrance;
    }

private:
    std::optional<Hindrance> move_macro_uses() {
        for (std::size_t at = 0; at < macro_uses_.size(); ++at) {
            const MacroUse& use = macro_uses_[at];
            if (macro_fate_ == MacroFate::written_out)
                edits_.replace(use.where, edits_in_uses_[at].applied_to(use.text));
            else if (auto hindrance = move_music_text(source_, use.where, macro_move_, edits_, lost_))
                return hindrance;
        }
        if (macro_fate_ == MacroFate::written_out && !macro_uses_.empty())
            report(diagnostics_, code::kMacroWrittenOut, macro_uses_.front().where,
                   "macros would not mean the same in the new key; what they stand for is written in their place");
        return std::nullopt;
    }

    std::optional<Hindrance> move_token(std::size_t index) {
        const Token& token = before_[index];
        std::optional<Hindrance> hindrance;
        if (token.kind == TokenKind::note) return move_note(index);
        if (token.kind == TokenKind::field) hindrance = move_field(index);
        if (token.kind == TokenKind::continued && symbol_line_goes_on_)
            move_quoted(source_, token, move_here(token), edits_, lost_);
        else if (token.kind != TokenKind::comment && token.kind != TokenKind::directive)
            symbol_line_goes_on_ = token.kind == TokenKind::field && token.letter == 's';
        if (token.kind == TokenKind::chord_symbol) move_chord_symbol(token);
        by_standard_.take_both(index);
        as_printed_.take_both(index);
        return hindrance;
    }

    Move move_here(const Token& token) {
        return token.in_body ? Move(by_standard_.state_before().key, semitones_) : header_move_;
    }

    // The macro that put the token there, by its place in the list.
    std::optional<std::size_t> use_behind(const Token& token) const {
        const auto use = std::lower_bound(macro_uses_.begin(), macro_uses_.end(), token.where.begin,
                                          [](const MacroUse& one, std::uint32_t at) { return one.where.begin < at; });
        if (use == macro_uses_.end() || use->where.begin != token.where.begin) return std::nullopt;
        return static_cast<std::size_t>(use - macro_uses_.begin());
    }

    // Writes over a part of the music, wherever that came from. False where half of it is a macro's.
    bool write_over(const Token& token, std::string_view part, std::string text) {
        if (const auto at = use_behind(token)) {
            const std::string_view whole = macro_uses_[*at].text;
            const std::less_equal<const char*> in_order;
            if (!in_order(whole.data(), part.data()) ||
                !in_order(part.data() + part.size(), whole.data() + whole.size()))
                return false;
            const auto begin = static_cast<std::uint32_t>(part.data() - whole.data());
            edits_in_uses_[*at].replace({begin, begin + static_cast<std::uint32_t>(part.size())}, std::move(text));
            return true;
        }
        const bool is_quoted = token.kind == TokenKind::chord_symbol;
        const std::uint32_t begin = token.where.begin + (is_quoted ? 1 : 0);
        if (source_.text().substr(begin, part.size()) != part) return false;
        edits_.replace({begin, begin + static_cast<std::uint32_t>(part.size())}, std::move(text));
        return true;
    }

    // --- fields

    std::optional<Hindrance> move_field(std::size_t index) {
        const Token& token = before_[index];
        if (token.letter == 'K') return move_key(index);
        if (token.letter == 'm' && !token.is_inline)
            return move_definition(source_, token, macro_move_, macro_fate_, edits_, lost_);
        if (token.letter == 's' || token.letter == 'U') move_quoted(source_, token, move_here(token), edits_, lost_);
        return std::nullopt;
    }

    std::optional<Hindrance> move_key(std::size_t index) {
        const Token& token = before_[index];
        if (const std::string unknown = read_key_field(token.text).not_understood; !unknown.empty())
            return Hindrance{token.where, "\"" + unknown + "\" in this key is not understood"};
        auto key = moved_key(token.text, semitones_);
        if (!key) return Hindrance{token.where, "an accidental of this key would need more than a double sign"};
        if (key->was_pipes)
            report(diagnostics_, code::kPipesMoved, token.where,
                   "highland pipes stand in one key alone; moved, they are written as " + key->text);
        edits_.replace(value_place(source_, token), key->text);
        after_[index].text = texts_.emplace_back(std::move(key->text));
        return std::nullopt;
    }

    void move_chord_symbol(const Token& token) {
        const Move move = move_here(token);
        if (auto chord = moved_chord(token.text, move.interval, move.fifths)) {
            write_over(token, token.text, std::move(*chord));
            return;
        }
        if (token.text == kLoneH && !has_chords()) return;
        lost_.push_back({token.where, std::string(token.text)});
        if (const auto at = use_behind(token))
            take_out_of_use(*at, token.text);
        else
            edits_.replace(token.where, std::string(in_place_of_lost(source_.text().substr(token.where.end))));
    }
    // Whether any other chord symbol of the tune is moved.
    bool has_chords() {
        if (!has_chords_)
            has_chords_ = std::any_of(before_.begin(), before_.end(), [](const Token& token) {
                const auto chord =
                    token.kind == TokenKind::chord_symbol ? moved_chord(token.text, kTone, 0) : std::nullopt;
                return chord && *chord != token.text;
            });
        return *has_chords_;
    }
    // A quoted text that a macro put there, with its quotes.
    void take_out_of_use(std::size_t use, std::string_view text) {
        const std::string_view whole = macro_uses_[use].text;
        const std::less<const char*> before;
        if (!before(whole.data(), text.data()) || before(whole.data() + whole.size(), text.data() + text.size()))
            return;
        const auto begin = static_cast<std::size_t>(text.data() - whole.data()) - 1;
        const std::size_t end = std::min(begin + text.size() + 2, whole.size());
        edits_in_uses_[use].replace({static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(end)},
                                    std::string(in_place_of_lost(whole.substr(end))));
    }

    // --- notes

    std::optional<Hindrance> move_note(std::size_t index) {
        const Token token = before_[index];
        symbol_line_goes_on_ = false;
        if (parts_of_note(token.text).is_microtone())
            return Hindrance{token.where, "a quarter tone is no part of ABC 2.1 and is not moved"};
        const auto sounding = by_standard_.take_note_before(index);
        const auto printed = as_printed_.take_note_before(index);
        if (!sounding)
            return Hindrance{
                token.where,
                "a note that is not read, for it lies outside the MIDI range or in a chord too large, is not moved"};
        const int target = *sounding + semitones_;
        if (target < 0 || target >= kMidiNotes)
            return Hindrance{token.where, "a note would leave the MIDI range C-1 to G9"};
        const std::optional<int> printed_target = printed ? std::optional<int>(*printed + semitones_) : std::nullopt;
        const Move move(by_standard_.state_before().key, semitones_);
        if (use_behind(token) && macro_fate_ == MacroFate::kept) {
            const auto alone = moved_alone(token, macro_move_.interval);
            if (!alone || by_standard_.midi_after(*alone) != target)
                return Hindrance{token.where, "a macro does not mean the same in the new key", true};
            after_[index] = *alone;
        } else {
            after_[index] = placed(token, move, target);
            Token plain = after_[index];
            plain.accidental = Token::kNoAccidental;
            const bool needs_none = token.accidental == Token::kNoAccidental &&
                                    by_standard_.midi_after(plain) == target &&
                                    (!printed_target || as_printed_.midi_after(plain) == *printed_target);
            if (needs_none) after_[index] = plain;
            if (!write_over(token, token.text, moved_note_text(token.text, after_[index])))
                return Hindrance{token.where, "a note half inside a macro is not moved; write out its notes first"};
        }
        by_standard_.take_after(index);
        as_printed_.take_after(index);
        return std::nullopt;
    }

    // The letter as far away as the keys are, with the sign that makes it sound `target`; another letter where that
    // would be more than a double sign.
    Token placed(const Token& token, const Move& move, int target) {
        Token note = token;
        note.accidental = Token::kNoAccidental;
        note = *moved_alone(note, move.interval);
        const int written = target - by_standard_.state_after().shift();
        const int accidental = written - music::Pitch{{note.note, 0}, note.octave}.midi();
        if (accidental >= -2 && accidental <= 2) {
            note.accidental = static_cast<std::int8_t>(accidental);
            return note;
        }
        const music::Pitch plainer = music::spell_midi(written, move.fifths);
        note.note = plainer.name.letter;
        note.octave = plainer.octave;
        note.accidental = plainer.name.accidental;
        return note;
    }

    const base::SourceFile& source_;
    const std::vector<MacroUse>& macro_uses_;
    std::vector<Edits> edits_in_uses_;  // of the text each macro stands for
    MacroFate macro_fate_;
    const std::vector<Token> before_;
    std::vector<Token> after_;
    std::deque<std::string> texts_;  // of the new keys
    Move header_move_;
    Move macro_move_;
    int semitones_;
    Edits& edits_;
    base::Diagnostics& diagnostics_;
    base::Diagnostics unheard_;  // what reading has to say is told where the tune is read
    TwinReading by_standard_;
    TwinReading as_printed_;
    std::vector<LostChord> lost_;
    std::optional<bool> has_chords_;
    bool symbol_line_goes_on_ = false;
};

}  // namespace

music::StatedKey first_key(const Tokens& tokens) {
    const auto field = std::find_if(tokens.all.begin(), tokens.all.end(), [](const Token& token) {
        return token.kind == TokenKind::field && token.letter == 'K';
    });
    return field == tokens.all.end() ? music::StatedKey{}
                                     : read_key_field(field->text).key.value_or(music::StatedKey{});
}

std::optional<Hindrance> move_file_header(const base::SourceFile& source, const Tokens& tokens,
                                          const music::StatedKey& key, int semitones, MacroFate fate, Edits& edits,
                                          base::Diagnostics& diagnostics) {
    const Move move(key, semitones);
    std::vector<LostChord> lost;
    for (const Token& token : tokens.all) {
        if (token.kind != TokenKind::field) continue;
        if (token.letter == 'U') move_quoted(source, token, move, edits, lost);
        if (token.letter != 'm') continue;
        if (auto hindrance = move_definition(source, token, move, fate, edits, lost)) return hindrance;
    }
    report_lost(std::move(lost), diagnostics);
    return std::nullopt;
}

std::optional<Hindrance> move_tune(const base::SourceFile& source, const Tokens& tokens, const Header& header,
                                   const music::StatedKey& macro_key, int semitones, MacroFate fate, Edits& edits,
                                   base::Diagnostics& diagnostics) {
    return TuneMover(source, tokens, header, macro_key, semitones, fate, edits, diagnostics).move();
}

}  // namespace abc
