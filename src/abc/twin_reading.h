// A tune read as it stands and as it is being rewritten, step by step.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "abc/tune_reader.h"

namespace abc {

// Both texts token by token, where accidentals reach as far as `reach` says unless the tune says otherwise. The tokens
// outlive it; those after may be changed until they are taken.
class TwinReading {
public:
    TwinReading(const std::vector<Token>& before, const std::vector<Token>& after, const Header& header, Reach reach,
                base::Diagnostics& unheard)
        : before_(before, with_reach(header, reach), unheard), after_(after, with_reach(header, reach), unheard) {}

    // MIDI number; nothing where no head was made of the note, for it lies outside the range.
    std::optional<int> take_note_before(std::size_t index) {
        const std::size_t heads = before_.voice().so_far().heads.size();
        before_.take(index);
        const auto& now = before_.voice().so_far().heads;
        return now.size() > heads ? std::optional<int>(now.back().midi) : std::nullopt;
    }
    void take_after(std::size_t index) { after_.take(index); }
    void take_both(std::size_t index) {
        before_.take(index);
        after_.take(index);
    }

    const VoiceState& state_before() { return before_.voice().state(); }
    const VoiceState& state_after() { return after_.voice().state(); }
    int midi_after(const Token& note) { return after_.voice().reading_of(note).midi; }

private:
    static Header with_reach(Header header, Reach reach) {
        if (header.reach == Reach::every_octave) header.reach = reach;
        return header;
    }

    TuneReader before_;
    TuneReader after_;
};

}  // namespace abc
