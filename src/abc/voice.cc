// Lengths are fixed as sounds arrive (unit x written x tuplet x broken rhythm); places in the bar are summed at the
// end, for a broken pair may still reach back over a bar line. Tested by voice_test.cc, the conformance table and two
// published collections.
#include "abc/voice.h"

#include <algorithm>
#include <array>
#include <utility>

#include "abc/bar_signs.h"
#include "abc/report_fault.h"

namespace abc {

namespace {

using music::Duration;
using music::Sound;

// Source: ABC 2.1, section 4.13. Zero where the value follows the meter.
constexpr std::array<unsigned, 10> kTupletTime{0, 0, 3, 2, 3, 0, 2, 0, 3, 0};
constexpr unsigned kMaxTupletNotes = 64;  // Source: house choice; longer ones are slips

unsigned tuplet_time(unsigned p, const music::Meter& meter) {
    if (p < kTupletTime.size() && kTupletTime[p] != 0) return kTupletTime[p];
    return meter.is_compound() ? 3 : 2;
}

}  // namespace

void VoiceState::apply(const Shift& change) {
    if (change.clef_octaves) clef_octaves = *change.clef_octaves;
    if (change.octaves) octaves = *change.octaves;
    if (change.semitones) semitones = *change.semitones;
}

Voice::Voice(std::string id, const VoiceState& state, base::Diagnostics& diagnostics)
    : id_(std::move(id)), state_(state), diagnostics_(&diagnostics) {
    melody_.keys.push_back({0, state.key, state.accidentals.signature});
    open_bar({});
}

void Voice::fault(const Code& code, base::Span where, std::string message) {
    report(*diagnostics_, code, where, std::move(message));
}

void Voice::open_bar(base::Span where) {
    music::Bar& bar = melody_.bars.emplace_back();
    bar.first_sound = static_cast<std::uint32_t>(melody_.sounds.size());
    bar.meter = state_.meter;
    bar.where = where;
    bar_has_time_ = false;
}

// --- sounds

void Voice::begin_sound(Sound::Kind kind, base::Span where) {
    Sound& sound = melody_.sounds.emplace_back();
    sound.kind = kind;
    sound.first_head = static_cast<std::uint32_t>(melody_.heads.size());
    sound.bar = static_cast<std::uint32_t>(melody_.bars.size() - 1);
    sound.where = where;
    if (kind != Sound::Kind::grace) {
        sound_heads_.clear();
        next_ties_.clear();
    }
}

// The sound just made lasts so many units, times what a tuplet and a broken pair make of it.
void Voice::end_sound(std::uint32_t numerator, std::uint32_t denominator) {
    Sound& sound = melody_.sounds.back();
    auto length = product(state_.unit, Duration(numerator, denominator));
    if (tuplet_left_ > 0) {
        if (length) length = product(*length, tuplet_factor_);
        --tuplet_left_;
    }
    if (next_factor_) {
        if (length) length = product(*length, *next_factor_);
        next_factor_.reset();
    }
    if (!length) {
        fault(code::kLengthsTooFine, sound.where, "a length too fine to count; read as one unit");
        length = state_.unit;
    }
    sound.length = *length;
    last_timed_ = static_cast<std::uint32_t>(melody_.sounds.size() - 1);
    bar_has_time_ = true;
    if (sound.kind == Sound::Kind::rest) break_tie();
    tie_is_open_ = false;
    open_ties_.clear();
    if (!next_ties_.empty()) {
        open_ties_.swap(next_ties_);
        tie_is_open_ = true;
    }
}

Voice::Reading Voice::reading_of(const Token& note) const {
    const bool is_signed = note.accidental != Token::kNoAccidental;
    if (tie_is_open_ && !in_grace_ && !is_signed)  // the held note keeps its sign over the bar line
        for (auto tied = open_ties_.rbegin(); tied != open_ties_.rend(); ++tied)
            if (tied->written.name.letter == note.note && tied->written.octave == note.octave)
                return {tied->midi, tied->accidental};
    const std::int8_t accidental = is_signed ? note.accidental : state_.accidentals.of(note.note, note.octave);
    return {music::Pitch{{note.note, accidental}, note.octave}.midi() + state_.shift(), accidental};
}

void Voice::add_head(const Token& token) {
    const bool is_grace = in_grace_;
    const auto [midi, accidental] = reading_of(token);
    if (token.accidental != Token::kNoAccidental) state_.accidentals.write(token.note, token.octave, token.accidental);
    bool is_tied = false;
    if (tie_is_open_ && !is_grace)
        for (const TiedHead& tied : open_ties_) is_tied = is_tied || tied.midi == midi;
    Sound& sound = melody_.sounds.back();
    if (midi < 0 || midi >= 128) {
        fault(code::kOutOfRange, token.where, "a note outside the MIDI range C-1 to G9; its time is kept as a rest");
        return;
    }
    if (sound.head_count == 255) {
        fault(code::kOutOfRange, token.where, "a chord of more than 255 notes; this one is left out");
        return;
    }
    ++sound.head_count;
    melody_.heads.push_back({static_cast<std::int16_t>(midi), {token.note, accidental}, is_tied});
    if (!is_grace)
        sound_heads_.push_back({{{token.note, accidental}, token.octave}, static_cast<std::int16_t>(midi), accidental});
}

void Voice::take_note(const Token& token) {
    if (in_chord_ && in_grace_ && !chord_is_grace_) {
        graces_in_chord_.push_back(token);  // they sound beside the chord: kept until it is closed
        return;
    }
    if (in_chord_ && !in_grace_) {
        if (!chord_has_note_) chord_length_ = Duration(token.numerator, token.denominator);
        chord_has_note_ = true;
        add_head(token);
        return;
    }
    if (in_grace_) {
        const bool joins_chord = in_chord_;
        if (!joins_chord) begin_sound(Sound::Kind::grace, token.where);
        add_head(token);
        if (!joins_chord && melody_.sounds.back().head_count == 0) melody_.sounds.pop_back();
        return;
    }
    begin_sound(Sound::Kind::note, token.where);
    add_head(token);
    if (melody_.sounds.back().head_count == 0) melody_.sounds.back().kind = Sound::Kind::rest;
    end_sound(token.numerator, token.denominator);
}

void Voice::take_rest(const Token& token) {
    if (in_grace_ || in_chord_) return;
    begin_sound(Sound::Kind::rest, token.where);
    end_sound(token.numerator, token.denominator);
}

void Voice::take_bar_rest(const Token& token) {
    if (in_grace_ || in_chord_) return;
    if (state_.meter.is_free()) {
        fault(code::kRestWithoutMeter, token.where, "a rest of whole bars needs a meter; left out");
        return;
    }
    begin_sound(Sound::Kind::rest, token.where);
    Sound& rest = melody_.sounds.back();
    rest.length = product(state_.meter.bar_length(), Duration(token.numerator, 1)).value_or(state_.meter.bar_length());
    last_timed_ = static_cast<std::uint32_t>(melody_.sounds.size() - 1);
    melody_.bars.back().unit_rests = token.numerator;
    bar_has_time_ = true;
    break_tie();
}

void Voice::break_tie() {
    if (tie_is_open_) fault(code::kLoneTie, tie_where_, "a tie that meets a rest; read as no tie");
    tie_is_open_ = false;
    open_ties_.clear();
}

void Voice::open_chord(const Token& token) {
    in_chord_ = true;
    chord_has_note_ = false;
    chord_length_ = Duration(1, 1);
    chord_where_ = token.where;
    chord_is_grace_ = in_grace_;
    begin_sound(in_grace_ ? Sound::Kind::grace : Sound::Kind::note, token.where);
}

void Voice::close_chord(const Token& token) {
    if (!in_chord_) return;
    in_chord_ = false;
    Sound& chord = melody_.sounds.back();
    chord.where.end = std::max(chord.where.end, token.where.end);
    if (chord.head_count == 0) {
        if (!chord_has_note_ || chord.kind == Sound::Kind::grace) {
            melody_.sounds.pop_back();
            return add_graces_of_chord();
        }
        chord.kind = Sound::Kind::rest;  // its notes lay outside the range; their time is kept
    }
    if (chord.kind == Sound::Kind::grace) return;
    const auto length = product(chord_length_, Duration(token.numerator, token.denominator));
    const Duration written = length.value_or(Duration(1, 1));
    end_sound(static_cast<std::uint32_t>(written.numerator()), static_cast<std::uint32_t>(written.denominator()));
    add_graces_of_chord();
}

void Voice::settle() {
    in_grace_ = false;
    Token end;
    end.where = chord_where_;
    close_chord(end);
}

void Voice::add_graces_of_chord() {
    const bool was_in_grace = in_grace_;
    in_grace_ = true;
    for (const Token& grace : std::exchange(graces_in_chord_, {})) take_note(grace);
    in_grace_ = was_in_grace;
}

// --- what binds sounds together

void Voice::take_tie(const Token& token) {
    if (in_grace_) return;
    if (in_chord_) {
        if (!sound_heads_.empty()) next_ties_.push_back(sound_heads_.back());
        tie_where_ = token.where;
        return;
    }
    if (!last_timed_ || melody_.sounds[*last_timed_].kind != Sound::Kind::note) {
        fault(code::kLoneTie, token.where, "a tie after no note; left out");
        return;
    }
    open_ties_ = sound_heads_;
    tie_is_open_ = true;
    tie_where_ = token.where;
}

void Voice::stretch_last(const Duration& factor) {
    Sound& last = melody_.sounds[*last_timed_];
    if (const auto length = product(last.length, factor))
        last.length = *length;
    else
        fault(code::kLengthsTooFine, last.where, "a length too fine to count; left as it is");
}

// `>`: first x 3/2, second x 1/2; each further sign halves the short one again. ABC 2.1, section 4.4.
void Voice::take_broken(const Token& token) {
    if (in_grace_ || in_chord_) return;
    if (!last_timed_ || token.text.size() > 6 || next_factor_) {
        fault(code::kLoneBroken, token.where,
              std::string(token.text.substr(0, 10)) + " has no note before it, or is too long; left out");
        return;
    }
    const auto parts = static_cast<std::int64_t>(std::uint64_t{1} << token.text.size());
    const Duration longer(2 * parts - 1, parts);
    const Duration shorter(1, parts);
    const bool first_is_long = token.text[0] == '>';
    stretch_last(first_is_long ? longer : shorter);
    next_factor_ = first_is_long ? shorter : longer;
    broken_where_ = token.where;
}

void Voice::take_tuplet(const Token& token) {
    const unsigned p = token.tuplet_p;
    const unsigned q = token.tuplet_q != 0 ? token.tuplet_q : tuplet_time(p, state_.meter);
    const unsigned r = token.tuplet_r != 0 ? token.tuplet_r : p;
    if (p < 2 || p > kMaxTupletNotes || q > kMaxTupletNotes || r > kMaxTupletNotes) {
        fault(code::kBadTuplet, token.where,
              std::string(token.text.substr(0, 20)) + " is no tuplet; left out, its notes keep their lengths");
        return;
    }
    if (p > 9 && token.tuplet_q == 0)
        fault(code::kBadTuplet, token.where,
              "ABC gives no time for so large a tuplet; read as in the time of " + std::to_string(q));
    if (tuplet_left_ > 0) fault(code::kShortTuplet, tuplet_where_, "a tuplet that another one cuts short; read so");
    tuplet_left_ = r;
    tuplet_factor_ = Duration(q, p);
    tuplet_where_ = token.where;
}

// --- bars

void Voice::take_bar(const Token& token) {
    state_.accidentals.forget_bar();
    const BarSigns signs = read_bar_signs(token.text);
    music::Bar& bar = melody_.bars.back();
    if (signs.closes) bar.repeat_closes = true;
    if (signs.is_thick) bar.thick_after = true;
    if (bar_has_time_) {
        open_bar(token.where);
    } else {
        // Nothing sounded yet: what this sign closes is the bar before.
        if (melody_.bars.size() > 1) {
            music::Bar& before = melody_.bars[melody_.bars.size() - 2];
            before.repeat_closes = before.repeat_closes || bar.repeat_closes;
            before.thick_after = before.thick_after || bar.thick_after;
        }
        bar.repeat_closes = false;
        bar.thick_after = false;
        bar.where = token.where;
    }
    if (signs.opens) melody_.bars.back().repeat_opens = true;
}

void Voice::take_ending(const Token& token) {
    if (bar_has_time_) open_bar(token.where);  // no bar sign before it: accidentals go on
    melody_.bars.back().ending = std::string(token.text);
}

// --- fields

void Voice::change_key(const KeyField& field) {
    state_.apply(field.shift);
    if (!field.key) return;
    state_.key = *field.key;
    state_.accidentals.signature = field.signature;  // signs of this bar hold on to the bar line, by the letter of 11.3
    const auto at = static_cast<std::uint32_t>(melody_.sounds.size());
    if (melody_.keys.back().before_sound == at) melody_.keys.pop_back();
    melody_.keys.push_back({at, *field.key, field.signature});
}

void Voice::change_meter(const music::Meter& meter) {
    state_.meter = meter;
    if (!bar_has_time_) melody_.bars.back().meter = meter;
}

void Voice::mark_part(std::string label) {
    melody_.parts.push_back({static_cast<std::uint32_t>(melody_.sounds.size()), std::move(label)});
}

void Voice::mark_order(music::OrderMark::Kind kind) {
    melody_.order.push_back(
        {kind, static_cast<std::uint32_t>(melody_.sounds.size()), static_cast<std::uint32_t>(melody_.bars.size() - 1)});
}

Voice Voice::layer_over_bar() const {
    Voice layer("&", state_, *diagnostics_);
    layer.state_.accidentals.forget_bar();
    return layer;
}

music::Melody Voice::finish() {
    if (tuplet_left_ > 0)
        fault(code::kShortTuplet, tuplet_where_, "a tuplet with fewer notes than it asks for; read so");
    if (next_factor_)
        fault(code::kLoneBroken, broken_where_, "no note after the broken rhythm; only the note before it is changed");
    if (!bar_has_time_ && melody_.bars.size() > 1 && melody_.bars.back().first_sound == melody_.sounds.size())
        melody_.bars.pop_back();
    std::size_t at = 0;
    for (std::size_t index = 0; index < melody_.bars.size(); ++index) {
        music::Bar& bar = melody_.bars[index];
        std::optional<Duration> elapsed = Duration();
        for (; at < melody_.sounds.size() && melody_.sounds[at].bar == index; ++at) {
            Sound& sound = melody_.sounds[at];
            sound.at = elapsed;
            if (elapsed && sound.kind != Sound::Kind::grace) elapsed = sum(*elapsed, sound.length);
        }
        bar.length = elapsed;
        const bool is_first = bar.where == base::Span{};  // no bar sign stands before it
        if (!elapsed)
            fault(code::kLengthsTooFine, is_first ? melody_.sounds[bar.first_sound].where : bar.where,
                  "lengths too fine to add up; this bar's length is left open");
    }
    return std::move(melody_);
}

}  // namespace abc
