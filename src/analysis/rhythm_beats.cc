// One walk over the sounds, bar by bar. Tested by rhythm_beats_test.cc.
#include "analysis/rhythm_beats.h"

#include <array>
#include <utility>

#include "analysis/note_uses.h"

namespace analysis {

namespace {

using music::Duration;
using music::Sound;

class BeatWalk {
public:
    BeatWalk(const Duration& beat, Beats& beats) : beat_(beat), beats_(beats) {}

    void take(const Sound& sound) {
        if (!sound.at) return close();
        const bool begins =
            (sound.at->numerator() * beat_.denominator()) % (sound.at->denominator() * beat_.numerator()) == 0;
        if (begins) close();
        is_open_ = is_open_ || begins;
        if (is_open_ && count_ < lengths_.size())
            lengths_[count_++] = sound.length;
        else
            is_open_ = false;  // too many to be told apart, or not begun
    }

    void close() {
        if (std::exchange(is_open_, false)) count();
        count_ = 0;
    }

private:
    void count() {
        ++beats_.all;
        std::optional<Duration> filled = Duration();
        for (std::size_t index = 0; filled && index < count_; ++index) filled = sum(*filled, lengths_[index]);
        if (!filled || *filled != beat_ || count_ < 2) return;
        ++beats_.divided;
        if (count_ >= 4) ++beats_.runs;
        const Duration& first = lengths_[0];
        const auto is_share = [&](int of, int parts) { return product(beat_, Duration(of, parts)) == first; };
        if (is_share(2, 3))
            ++beats_.two_thirds_first;
        else if (count_ >= 3)
            ++beats_.threes;
        if (count_ == 3 && is_share(1, 2) && lengths_[2] < first && lengths_[1] < lengths_[2]) ++beats_.dotted_threes;
        bool are_equal = true;
        for (std::size_t index = 1; index < count_; ++index) are_equal = are_equal && lengths_[index] == first;
        if (are_equal)
            beats_.even += count_ != 3 ? 1 : 0;
        else if (count_ == 2)
            ++(lengths_[1] < first ? beats_.long_short : beats_.short_long);
    }

    Duration beat_;
    Beats& beats_;
    std::array<Duration, 8> lengths_;
    std::size_t count_ = 0;
    bool is_open_ = false;
};

// A short ending is none, though it stands after a repeat sign.
bool is_lead_in(const music::Melody& melody, std::size_t bar) {
    return melody.bars[bar].ending.empty() && is_pickup(melody, bar);
}

bool ends_part(const music::Melody& melody, std::size_t bar) {
    if (melody.bars[bar].repeat_closes || melody.bars[bar].thick_after || bar + 1 == melody.bars.size()) return true;
    return melody.bars[bar + 1].repeat_opens;
}

// Calls `take(bar, first, last)` for each bar, with its sounds.
template <typename Take>
void for_each_bar(const music::Melody& melody, Take take) {
    auto sound = melody.sounds.begin();
    for (std::size_t bar = 0; bar < melody.bars.size(); ++bar) {
        const auto first = sound;
        while (sound != melody.sounds.end() && sound->bar == bar) ++sound;
        take(bar, first, sound);
    }
}

}  // namespace

Beats count_beats(const music::Melody& melody, const Duration& beat) {
    Beats beats;
    BeatWalk walk(beat, beats);
    for_each_bar(melody, [&](std::size_t bar, auto sound, auto end) {
        walk.close();
        if (is_lead_in(melody, bar)) return;  // places in a pick-up count from its own beginning, not from a beat
        for (; sound != end; ++sound)
            if (sound->kind != Sound::Kind::grace) walk.take(*sound);
    });
    walk.close();
    return beats;
}

PartEnds count_part_ends(const music::Melody& melody, const Duration& beat) {
    PartEnds ends;
    const auto third = sum(beat, beat);
    for_each_bar(melody, [&](std::size_t bar, auto sound, auto end) {
        if (!ends_part(melody, bar) || is_lead_in(melody, bar)) return;
        bool opens = false, goes_on = false, closes = false;
        for (; sound != end; ++sound) {
            if (sound->kind != Sound::Kind::note || !sound->at) continue;
            if (*sound->at == Duration()) opens = sound->length == beat;
            if (*sound->at == beat) goes_on = true;
            if (sound->at == third) closes = !(sound->length < beat);
        }
        ++ends.all;
        if (opens && goes_on && closes) ++ends.on_three_beats;
    });
    return ends;
}

BarsOfThree count_bars_of_three(const music::Melody& melody, const Duration& beat) {
    BarsOfThree bars;
    for_each_bar(melody, [&](std::size_t bar, auto sound, auto end) {
        if (is_lead_in(melody, bar)) return;
        bool is_divided = false, has_weight = false;
        for (; sound != end; ++sound) {
            if (sound->kind != Sound::Kind::note || !sound->at) continue;
            if (*sound->at == Duration()) is_divided = sound->length < beat;
            if (*sound->at == beat) has_weight = !(sound->length < beat);
        }
        ++bars.all;
        if (is_divided && has_weight) ++bars.weight_on_second;
    });
    return bars;
}

}  // namespace analysis
