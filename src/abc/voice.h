// One voice being built: tokens go in, a Melody comes out. ABC 2.1, sections 4, 7 and 11.3.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "abc/accidentals.h"
#include "abc/key_field.h"
#include "abc/token.h"
#include "base/diagnostics.h"
#include "music/melody.h"

namespace abc {

// What holds at a voice's start and may change within it.
struct VoiceState {
    Accidentals accidentals;
    music::StatedKey key;
    music::Meter meter;
    music::Duration unit{1, 8};
    int clef_octaves = 0;
    int octaves = 0;
    int semitones = 0;

    // In semitones, applied to the written pitch.
    int shift() const noexcept { return 12 * (clef_octaves + octaves) + semitones; }
    void apply(const Shift& change);
};

class Voice {
public:
    Voice(std::string id, const VoiceState& state, base::Diagnostics& diagnostics);

    const std::string& id() const noexcept { return id_; }
    void rename(std::string id) { id_ = std::move(id); }
    VoiceState& state() noexcept { return state_; }
    const VoiceState& state() const noexcept { return state_; }
    const music::Melody& so_far() const noexcept { return melody_; }

    // What a note would sound like at this point, by its sign, the tie before it, the bar's earlier signs or the
    // signature. `midi` may lie outside 0..127.
    struct Reading {
        int midi;
        std::int8_t accidental;
    };
    Reading reading_of(const Token& note) const;

    void take_note(const Token& token);
    void take_rest(const Token& token);
    void take_bar_rest(const Token& token);
    void open_chord(const Token& token);
    void close_chord(const Token& token);
    // Closes what a change of voice or layer leaves open; the scanner has reported it or will.
    void settle();
    void open_grace() noexcept { in_grace_ = true; }
    void close_grace() noexcept { in_grace_ = false; }
    void take_tie(const Token& token);
    void take_broken(const Token& token);
    void take_tuplet(const Token& token);
    void take_bar(const Token& token);
    void take_ending(const Token& token);

    void change_key(const KeyField& field);
    void change_meter(const music::Meter& meter);
    void mark_part(std::string label);
    void mark_order(music::OrderMark::Kind kind);

    // A layer over the current bar (`&`): starts where the bar starts, with an empty memory for accidentals.
    Voice layer_over_bar() const;

    // Places every sound in its bar and reports what never found its end. The voice is used up.
    music::Melody finish();

private:
    struct TiedHead {
        music::Pitch written;
        std::int16_t midi;
        std::int8_t accidental;
    };

    void add_head(const Token& token);
    void begin_sound(music::Sound::Kind kind, base::Span where);
    void end_sound(std::uint32_t numerator, std::uint32_t denominator);
    void add_graces_of_chord();
    void break_tie();
    void stretch_last(const music::Duration& factor);
    void open_bar(base::Span where);
    void fault(const Code& code, base::Span where, std::string message);

    std::string id_;
    VoiceState state_;
    base::Diagnostics* diagnostics_;
    music::Melody melody_;
    bool in_grace_ = false;
    bool in_chord_ = false;
    bool chord_is_grace_ = false;
    bool chord_has_note_ = false;  // also one outside the range
    std::vector<Token> graces_in_chord_;
    bool bar_has_time_ = false;                // a note or rest stands in the current bar
    std::optional<std::uint32_t> last_timed_;  // the last sound that is no grace note
    std::vector<TiedHead> open_ties_;          // from the last timed sound
    std::vector<TiedHead> next_ties_;          // gathered inside a chord
    std::vector<TiedHead> sound_heads_;        // heads of the sound being made or just made
    bool tie_is_open_ = false;
    base::Span tie_where_;
    std::optional<music::Duration> next_factor_;  // the second half of a broken pair
    base::Span broken_where_;
    unsigned tuplet_left_ = 0;
    music::Duration tuplet_factor_{1, 1};
    base::Span tuplet_where_;
    music::Duration chord_length_{1, 1};  // of its first note, in units
    base::Span chord_where_;
};

}  // namespace abc
