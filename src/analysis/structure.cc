// Bars become numbers (shapes) that are equal for equal bars; parts, phrases and bars that come again are found by
// those. Every step is linear in the bars or sorts them. Tested by structure_test.cc.
#include "analysis/structure.h"

#include <xxhash.h>

#include <algorithm>
#include <limits>
#include <string>
#include <unordered_set>
#include <utility>

#include "analysis/note_uses.h"
#include "analysis/phrase_plan.h"
#include "analysis/sections.h"

namespace analysis {

namespace {

using music::Bar;
using music::Duration;
using music::Melody;
using music::Sound;

// Of a tune without signs, and of most parts. Source: common practice, no source.
constexpr std::uint32_t kUsualPart = 8;

std::uint32_t sounds_end(const Melody& melody, std::size_t bar) {
    return bar + 1 < melody.bars.size() ? melody.bars[bar + 1].first_sound
                                        : static_cast<std::uint32_t>(melody.sounds.size());
}

std::vector<std::uint64_t> shapes_of(const Melody& melody) {
    std::vector<std::uint64_t> shapes;
    shapes.reserve(melody.bars.size());
    std::vector<std::int64_t> shape;
    for (std::size_t bar = 0; bar < melody.bars.size(); ++bar) {
        shape.clear();
        for (std::uint32_t at = melody.bars[bar].first_sound; at < sounds_end(melody, bar); ++at) {
            const Sound& sound = melody.sounds[at];
            if (sound.kind == Sound::Kind::grace) continue;
            for (std::uint32_t head = 0; head < sound.head_count; ++head) {
                const music::NoteHead& note = melody.heads[sound.first_head + head];
                shape.push_back(note.midi * 2 + (note.is_tied ? 1 : 0));
            }
            shape.push_back(-(sound.length.numerator() << 31) - sound.length.denominator());
        }
        shapes.push_back(XXH3_64bits(shape.data(), shape.size() * sizeof(std::int64_t)));
    }
    return shapes;
}

std::vector<PlayedBar> played_once(const Melody& melody, const tune::Part& part) {
    std::vector<PlayedBar> played;
    const auto play = [&](std::uint32_t begin, std::uint32_t end) {
        for (std::uint32_t index = begin; index < end; ++index) {
            const Bar& bar = melody.bars[index];
            if (is_empty_bar(bar)) continue;
            PlayedBar& one = played.emplace_back(PlayedBar{index, bar.unit_rests});
            if (played.size() < 2 || !is_short_bar(bar)) continue;
            const PlayedBar& before = played[played.size() - 2];
            const Bar& other = melody.bars[before.bar];
            if (before.count == 0 || !is_short_bar(other)) continue;
            if (sum(*other.length, *bar.length) == bar.meter.bar_length()) one.count = 0;
        }
    };
    play(part.bars_begin + (part.pickup ? 1 : 0), part.first_ending);
    play(part.last_ending, part.bars_end);
    return played;
}

void measure(const Melody& melody, std::span<const int> numbers, tune::Part& part, std::vector<PlayedBar>& played) {
    const Bar& first = melody.bars[part.bars_begin];
    if (part.bars_end > part.bars_begin + 1 && is_short_bar(first) && first.ending.empty()) part.pickup = first.length;
    part.sounds_begin = first.first_sound;
    part.sounds_end = sounds_end(melody, part.bars_end - 1);
    part.first_bar = numbers[part.bars_begin + (part.pickup ? 1 : 0)];
    part.last_bar = numbers[part.bars_end - 1] + static_cast<int>(melody.bars[part.bars_end - 1].unit_rests) - 1;
    played = played_once(melody, part);
    std::int64_t bars = 0;
    for (const PlayedBar& one : played) bars += one.count;
    part.bars = static_cast<int>(std::min<std::int64_t>(bars, std::numeric_limits<int>::max()));
}

// Every eight bars a part, when two of these are the same. The last may lack what a pick-up takes from it.
bool is_written_out(const Melody& melody, std::span<const PlayedBar> played, std::span<const std::uint64_t> shapes) {
    if (played.size() < 2 * kUsualPart || played.size() % kUsualPart != 0) return false;
    if (std::any_of(played.begin(), played.end(), [](const PlayedBar& one) { return one.count != 1; })) return false;
    std::vector<std::uint64_t> openings;
    for (std::size_t begin = 0; begin < played.size(); begin += kUsualPart)
        openings.push_back(XXH3_64bits(&shapes[played[begin].bar], (kUsualPart - 1) * sizeof(std::uint64_t)));
    const std::vector<std::uint32_t> first = first_equals(openings);
    for (std::size_t part = 0; part < openings.size(); ++part) {
        const std::uint32_t last = played[part * kUsualPart + kUsualPart - 1].bar;
        const std::uint32_t other = played[first[part] * kUsualPart + kUsualPart - 1].bar;
        const bool ends_tune = part + 1 == openings.size();
        if (first[part] < part && (shapes[last] == shapes[other] || (ends_tune && begins_alike(melody, last, other))))
            return true;
    }
    return false;
}

void split_written_out(std::vector<Section>& sections, std::span<const PlayedBar> played) {
    const tune::Part whole = sections.front().part;
    sections.clear();
    for (std::size_t begin = 0; begin < played.size(); begin += kUsualPart) {
        tune::Part part;
        part.bars_begin = begin == 0 ? whole.bars_begin : played[begin].bar;
        part.bars_end = part.first_ending = part.last_ending =
            begin + kUsualPart < played.size() ? played[begin + kUsualPart].bar : whole.bars_end;
        sections.push_back({part, false, false, true});
    }
}

// Two numbers for each part: equal to one of an earlier part where the music is the same.
void add_keys(const tune::Part& part, std::span<const PlayedBar> played, std::span<const std::uint64_t> shapes,
              std::vector<std::uint64_t>& keys) {
    // Below four bars all but the last would be too little to go by.
    const std::size_t opening = part.bars < 4 ? played.size() : played.size() - 1;
    const auto body = static_cast<std::size_t>(
        std::count_if(played.begin(), played.end(), [&](const PlayedBar& one) { return one.bar < part.first_ending; }));
    for (const std::size_t bars : {opening, body > 0 ? std::min(body, opening) : opening}) {
        std::vector<std::uint64_t> key{static_cast<std::uint64_t>(part.bars), bars};
        for (std::size_t index = 0; index < bars; ++index) key.push_back(shapes[played[index].bar]);
        keys.push_back(XXH3_64bits(key.data(), key.size() * sizeof(std::uint64_t)));
    }
}

void label(std::vector<tune::Part>& parts, std::span<const std::uint64_t> keys) {
    std::unordered_set<std::string> taken;
    for (const tune::Part& part : parts)
        if (!part.label.empty()) taken.insert(part.label);
    const std::vector<std::uint32_t> first = first_equals(keys);
    std::size_t letters = 0;
    for (std::size_t index = 0; index < parts.size(); ++index) {
        if (!parts[index].label.empty()) continue;
        const std::size_t same = std::min(first[2 * index], first[2 * index + 1]) / 2;
        if (same < index) {
            parts[index].label = parts[same].label;
            continue;
        }
        do parts[index].label = letter_name(letters++, 'A');
        while (taken.contains(parts[index].label));
    }
}

void find_like_bars(const Melody& melody, std::vector<std::uint64_t> shapes, tune::Structure& found) {
    int apart = 0;
    for (std::size_t bar = 0; bar < shapes.size(); ++bar) {
        const bool is_lead = is_pickup(melody, bar) && melody.bars[bar].ending.empty();
        if (!is_lead && !is_empty_bar(melody.bars[bar])) continue;
        shapes[bar] = bar;  // like no other
        ++apart;
    }
    found.like = first_equals(shapes);
    for (std::uint32_t bar = 0; bar < found.like.size(); ++bar) found.different_bars += found.like[bar] == bar ? 1 : 0;
    found.different_bars -= apart;
}

}  // namespace

tune::Structure find_structure(const Melody& melody, std::span<const int> numbers) {
    tune::Structure found;
    const std::vector<std::uint64_t> shapes = shapes_of(melody);
    find_like_bars(melody, shapes, found);
    std::vector<Section> sections = find_sections(melody);
    std::vector<std::vector<PlayedBar>> played(sections.size());
    for (std::size_t index = 0; index < sections.size(); ++index)
        measure(melody, numbers, sections[index].part, played[index]);
    if (sections.size() == 1 && !sections.front().has_sign && is_written_out(melody, played.front(), shapes)) {
        split_written_out(sections, played.front());
        played.assign(sections.size(), {});
        for (std::size_t index = 0; index < sections.size(); ++index)
            measure(melody, numbers, sections[index].part, played[index]);
    }
    std::vector<std::uint64_t> keys;
    int shortest = std::numeric_limits<int>::max();
    for (std::size_t index = 0; index < sections.size(); ++index) {
        tune::Part& part = found.parts.emplace_back(std::move(sections[index].part));
        part.phrases = plan_phrases(melody, {&played[index], 1}, phrase_bars(part.bars), shapes, numbers);
        shortest = std::min(shortest, phrase_bars(part.bars));
        add_keys(part, played[index], shapes, keys);
    }
    label(found.parts, keys);
    if (found.parts.size() == 1)
        found.phrases = found.parts.front().phrases;
    else if (!found.parts.empty())
        found.phrases = plan_phrases(melody, played, shortest, shapes, numbers);
    return found;
}

music::Melody melody_of(const Melody& melody, const tune::Part& part) {
    Melody alone;
    alone.sounds.assign(melody.sounds.begin() + part.sounds_begin, melody.sounds.begin() + part.sounds_end);
    if (!alone.sounds.empty()) {
        const std::uint32_t first_head = alone.sounds.front().first_head;
        const std::uint32_t heads_end = alone.sounds.back().first_head + alone.sounds.back().head_count;
        alone.heads.assign(melody.heads.begin() + first_head, melody.heads.begin() + heads_end);
        for (Sound& sound : alone.sounds) {
            sound.first_head -= first_head;
            sound.bar -= part.bars_begin;
        }
    }
    alone.bars.assign(melody.bars.begin() + part.bars_begin, melody.bars.begin() + part.bars_end);
    for (Bar& bar : alone.bars) bar.first_sound -= part.sounds_begin;
    for (const music::KeyChange& key : melody.keys) {
        if (key.before_sound >= part.sounds_end && key.before_sound > part.sounds_begin) break;
        const bool holds_at_start = key.before_sound <= part.sounds_begin;
        if (holds_at_start) alone.keys.clear();
        alone.keys.push_back(key);
        alone.keys.back().before_sound = holds_at_start ? 0 : key.before_sound - part.sounds_begin;
    }
    return alone;
}

std::vector<std::vector<int>> equal_bars(const tune::Structure& structure, std::span<const int> numbers) {
    constexpr std::size_t kNone = std::numeric_limits<std::size_t>::max();
    std::vector<std::size_t> group_of(structure.like.size(), kNone);  // of the first bar of each
    std::vector<std::vector<int>> groups;
    for (std::size_t bar = 0; bar < structure.like.size(); ++bar) {
        const std::size_t first = structure.like[bar];
        if (first == bar) continue;
        if (group_of[first] == kNone) {
            group_of[first] = groups.size();
            groups.push_back({numbers[first]});
        }
        groups[group_of[first]].push_back(numbers[bar]);
    }
    std::sort(groups.begin(), groups.end());
    return groups;
}

}  // namespace analysis
