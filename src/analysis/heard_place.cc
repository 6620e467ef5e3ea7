// Tested by heard_place_test.cc.
#include "analysis/heard_place.h"

#include <algorithm>
#include <cstdlib>
#include <limits>
#include <map>
#include <vector>

#include "analysis/heard_notes.h"

namespace analysis {

namespace {

constexpr HeardCosts kPlaceCosts;
constexpr float kNeverCosts = std::numeric_limits<float>::max() / 4;

// A note of the tune as the phrase meets it.
struct HeardStruck {
    int midi = 60;
    Begins begins = Begins::within;
    bool begins_bar = false;
    bool is_passing = false;
    std::int32_t bar = 0;
};

std::vector<HeardStruck> struck_notes(const tune::Outline& outline) {
    std::vector<HeardStruck> struck;
    struck.reserve(outline.notes.size());
    std::vector<std::uint32_t> lengths;
    visit_heard_notes(outline, [&](std::size_t note, std::size_t bar, Begins begins) {
        const tune::OutlineBar& written = outline.bars[bar];
        struck.push_back({outline.notes[note].midi, begins, note == written.first_note, false, written.number});
        const std::uint32_t until = note + 1 < outline.end_of(bar) ? outline.notes[note + 1].at : written.length;
        lengths.push_back(until > outline.notes[note].at ? until - outline.notes[note].at : 0);
    });
    // The time most notes take, the longer of two as frequent.
    std::map<std::uint32_t, std::size_t> counts;
    for (const std::uint32_t length : lengths) ++counts[length];
    const auto usual = std::max_element(counts.begin(), counts.end(),
                                        [](const auto& a, const auto& b) { return a.second <= b.second; });
    // Two thirds: the notes of a triplet of quavers among quavers.
    for (std::size_t note = 0; note < struck.size(); ++note)
        struck[note].is_passing = std::uint64_t{lengths[note]} * 10 <= std::uint64_t{usual->first} * 7;
    return struck;
}

float cost_to_begin(const HeardStruck& note) {
    switch (note.begins) {
        case Begins::tune:
            return 0;
        case Begins::part:
            return static_cast<float>(kPlaceCosts.part);
        case Begins::within:
            break;
    }
    return static_cast<float>(note.begins_bar ? kPlaceCosts.bar : kPlaceCosts.within);
}

int name_class_of(int midi) { return (midi % 12 + 12) % 12; }

float cost_of_pair(int heard, int midi) {
    const int apart = name_class_of(midi - heard);
    if (apart == 0) return 0;
    const bool is_near = std::min(apart, 12 - apart) <= 2;
    return static_cast<float>(is_near ? kPlaceCosts.neighbour : kPlaceCosts.wrong);
}

enum class NoteStep : std::uint8_t { begin, pair, only_heard, only_struck };

// The phrase in one key against the whole tune; kept between keys for its memory.
class PhraseAligned {
public:
    PhraseAligned(const Heard& heard, const std::vector<HeardStruck>& struck, bool at_start)
        : heard_(heard),
          struck_(struck),
          width_(struck.size() + 1),
          at_start_(at_start),
          costs_((heard.notes.size() + 1) * width_),
          steps_(costs_.size()) {}

    // Where it costs less than `most`.
    std::optional<HeardPlace> find(int key, double most) {
        fill(key);
        const std::size_t last = heard_.notes.size() * width_;
        const auto end = std::min_element(costs_.begin() + static_cast<std::ptrdiff_t>(last), costs_.end());
        const double key_cost = key == 0 ? 0 : kPlaceCosts.another_key;
        if (static_cast<double>(*end) + key_cost >= most) return std::nullopt;
        HeardPlace place = trace(key, static_cast<std::size_t>(end - costs_.begin()) - last);
        place.cost += static_cast<double>(*end) + key_cost;
        return place;
    }

private:
    float only_heard(std::size_t note) const {
        const bool again = note > 0 && name_class_of(heard_.notes[note] - heard_.notes[note - 1]) == 0;
        return static_cast<float>(again ? kPlaceCosts.repeated : kPlaceCosts.left_out);
    }
    float only_struck(std::size_t note) const {
        const bool again = note > 0 && name_class_of(struck_[note].midi - struck_[note - 1].midi) == 0;
        return static_cast<float>(again                      ? kPlaceCosts.repeated
                                  : struck_[note].is_passing ? kPlaceCosts.passing
                                                             : kPlaceCosts.left_out);
    }
    void fill(int key) {
        for (std::size_t at = 0; at < width_; ++at) {
            const bool may_begin = at < struck_.size() && (!at_start_ || struck_[at].begins == Begins::tune);
            costs_[at] = may_begin ? cost_to_begin(struck_[at]) : kNeverCosts;
            steps_[at] = NoteStep::begin;
        }
        for (std::size_t note = 0; note < heard_.notes.size(); ++note) {
            const float* before = &costs_[note * width_];
            float* now = &costs_[(note + 1) * width_];
            NoteStep* steps = &steps_[(note + 1) * width_];
            const float left_out = only_heard(note);
            now[0] = kNeverCosts;
            steps[0] = NoteStep::only_heard;
            for (std::size_t at = 0; at < struck_.size(); ++at) {
                float best = before[at] + cost_of_pair(heard_.notes[note] + key, struck_[at].midi);
                NoteStep step = NoteStep::pair;
                // A phrase begins and ends with a note of the tune.
                if (note > 0 && before[at + 1] + left_out < best) {
                    best = before[at + 1] + left_out;
                    step = NoteStep::only_heard;
                }
                if (now[at] + struck_costs_at(at) < best) {
                    best = now[at] + struck_costs_at(at);
                    step = NoteStep::only_struck;
                }
                now[at + 1] = best;
                steps[at + 1] = step;
            }
        }
    }
    float struck_costs_at(std::size_t at) {
        while (struck_costs_.size() <= at) struck_costs_.push_back(only_struck(struck_costs_.size()));
        return struck_costs_[at];
    }
    // Back from the end: the errors, the octaves and the first note. Its cost is that of the octaves.
    HeardPlace trace(int key, std::size_t at) const {
        HeardPlace place;
        std::size_t note = heard_.notes.size();
        std::optional<int> octave;
        while (note > 0) {
            const NoteStep step = steps_[note * width_ + at];
            if (step == NoteStep::pair) {
                const int apart = struck_[at - 1].midi - heard_.notes[note - 1] - key;
                if (name_class_of(apart) != 0) {
                    ++place.hit.errors;
                } else if (heard_.tells_octaves) {
                    if (octave && *octave != apart) place.cost += kPlaceCosts.octave;
                    octave = apart;
                }
                --note;
                --at;
            } else if (step == NoteStep::only_heard) {
                if (only_heard(note - 1) > static_cast<float>(kPlaceCosts.repeated)) ++place.hit.errors;
                --note;
            } else {
                if (only_struck(at - 1) > static_cast<float>(kPlaceCosts.repeated)) ++place.hit.errors;
                --at;
            }
        }
        const HeardStruck& first = struck_[std::min(at, struck_.size() - 1)];
        place.hit.begins = first.begins;
        place.hit.bar = first.bar;
        place.hit.semitones = key > 6 ? key - 12 : key;
        return place;
    }

    const Heard& heard_;
    const std::vector<HeardStruck>& struck_;
    std::size_t width_;
    bool at_start_;
    std::vector<float> costs_;  // row after row, one for each note of the phrase and one before them
    std::vector<NoteStep> steps_;
    std::vector<float> struck_costs_;
};

}  // namespace

bool better(const HeardPlace& a, const HeardPlace& b) noexcept {
    if (a.cost != b.cost) return a.cost < b.cost;
    return better(a.hit, b.hit);
}

std::optional<HeardPlace> find_place(const Heard& heard, const tune::Outline& outline, bool at_start) {
    const std::vector<HeardStruck> struck = struck_notes(outline);
    if (struck.empty() || heard.notes.empty()) return std::nullopt;
    PhraseAligned alignment(heard, struck, at_start);
    std::optional<HeardPlace> best;
    for (int key = 0; key < 12; ++key) {
        const auto place = alignment.find(key, best ? best->cost : static_cast<double>(kNeverCosts));
        if (place && (!best || better(*place, *best))) best = place;
    }
    return best;
}

}  // namespace analysis
