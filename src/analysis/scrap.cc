#include "analysis/scrap.h"

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "analysis/part_lengths.h"
#include "tune/title.h"

namespace analysis {

namespace {

constexpr std::array<std::string_view, 8> kNoTitles{"missing title", "title missing", "no title",      "without title",
                                                    "untitled",      "title unknown", "unknown title", "title"};
constexpr std::array<std::string_view, 5> kPieces{"part", "half", "strain", "turn", "ending"};
constexpr std::array<std::string_view, 22> kWhich{
    "1st",   "2nd",  "3rd",   "4th",         "5th",       "6th", "first", "second", "third", "fourth", "fifth",
    "sixth", "last", "other", "alternative", "alternate", "alt", "a",     "b",      "c",     "d",      "e"};
constexpr std::array<std::string_view, 18> kCounted{"1",    "2",    "3",   "4", "5", "6", "one", "two", "three",
                                                    "four", "five", "six", "a", "b", "c", "d",   "ii",  "iii"};
constexpr std::array<std::string_view, 3> kRemnants{"fragment", "incomplete", "unfinished"};

template <std::size_t n>
bool is_one_of(std::string_view word, const std::array<std::string_view, n>& words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

std::vector<std::string> title_words(std::string_view text) {
    std::vector<std::string> words;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(' '), text.size());
        if (end > 0) words.emplace_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return words;
}

int bars_played(const tune::Structure& structure) {
    int played = 0;
    for (std::size_t at = 0; at < structure.parts.size(); ++at) {
        const tune::Part& part = structure.parts[at];
        played += part.bars;
        if (part.repeat_from)
            for (std::size_t again = *part.repeat_from; again <= at; ++again) played += structure.parts[again].bars;
    }
    return played;
}

std::uint32_t end_of(const music::Melody& melody, std::size_t bar) {
    return bar + 1 < melody.bars.size() ? melody.bars[bar + 1].first_sound
                                        : static_cast<std::uint32_t>(melody.sounds.size());
}

bool are_together(const music::Duration& a, const std::optional<music::Duration>& b, const music::Duration& whole) {
    return b && sum(a, *b) == whole;
}

// The last note of a tune is held, and a dance has whole phrases: music that stops in the middle of a bar, without a
// sign that closes it, breaks off where neither holds; so does a part that lacks bars the others have. A last bar that
// makes up for a pick-up is whole.
bool breaks_off(const music::Melody& melody, const tune::TuneFacts& facts) {
    std::size_t last = melody.bars.size();
    while (last > 0 && end_of(melody, last - 1) == melody.bars[last - 1].first_sound) --last;
    if (last == 0 || facts.structure.parts.empty()) return false;
    --last;
    for (std::size_t at = last; at < melody.bars.size(); ++at)
        if (melody.bars[at].thick_after || melody.bars[at].repeat_closes) return false;
    const music::Bar& bar = melody.bars[last];
    if (bar.meter.is_free() || !bar.length) return false;

    const auto& parts = facts.structure.parts;
    const bool has_whole_phrases = parts.back().bars % kBarsOfPhrase == 0;
    const music::Duration whole = bar.meter.bar_length();
    if (*bar.length < whole && !are_together(*bar.length, parts.front().pickup, whole) &&
        !are_together(*bar.length, parts.back().pickup, whole)) {
        const music::Sound& end = melody.sounds.back();
        const bool is_held = end.kind != music::Sound::Kind::note || !(end.length < music::Duration(1, 4));
        return !is_held || !has_whole_phrases;
    }
    const bool others_are_whole = std::all_of(
        parts.begin(), parts.end() - 1, [](const tune::Part& part) { return part.bars % (2 * kBarsOfPhrase) == 0; });
    return parts.size() > 1 && others_are_whole && !has_whole_phrases && facts.rhythm &&
           has_even_parts(facts.rhythm->value);
}

bool has_few_bars(const tune::Setting& setting, const tune::TuneFacts& facts) {
    const bool is_free = std::all_of(setting.melody.bars.begin(), setting.melody.bars.end(),
                                     [](const music::Bar& bar) { return bar.meter.is_free(); });
    return is_free ? facts.note_count < kFewestNotesInFreeTime : bars_played(facts.structure) < kFewestBars;
}

}  // namespace

bool is_title_of_scrap(std::string_view title) {
    const std::string folded = tune::fold_title(title);
    if (is_one_of(folded, kNoTitles)) return true;
    const std::vector<std::string> words = title_words(folded);
    if (words.empty()) return false;
    if (is_one_of(words.back(), kRemnants)) return true;
    if (words.size() < 2) return false;
    const std::string& before = words[words.size() - 2];
    return (is_one_of(words.back(), kPieces) && is_one_of(before, kWhich)) ||
           (before == "part" && is_one_of(words.back(), kCounted));
}

std::optional<tune::Scrap> find_scrap(const tune::Setting& setting, const tune::TuneFacts& facts) {
    if (facts.note_count == 0) return std::nullopt;
    if (has_few_bars(setting, facts)) return tune::Scrap::few_bars;
    if (breaks_off(setting.melody, facts)) return tune::Scrap::breaks_off;
    if (!setting.titles.empty() && is_title_of_scrap(setting.titles.front())) return tune::Scrap::title;
    return std::nullopt;
}

}  // namespace analysis
