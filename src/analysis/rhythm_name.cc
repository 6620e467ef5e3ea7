// Tested by rhythm_name_test.cc, and on three published books by tests/rhythms.
#include "analysis/rhythm_name.h"

#include <algorithm>
#include <array>
#include <utility>

#include "analysis/rhythm_pattern.h"
#include "analysis/rhythm_title.h"
#include "analysis/rhythm_words.h"
#include "base/utf8.h"

namespace analysis {

namespace {

using music::Duration;
using tune::Basis;

// A song has a syllable for most of its notes; a rhyme or a chorus under a dance is less. Source: house choice.
bool is_sung(const tune::Setting& setting) {
    const auto notes = std::count_if(setting.melody.sounds.begin(), setting.melody.sounds.end(),
                                     [](const music::Sound& sound) { return sound.kind == music::Sound::Kind::note; });
    return notes > 0 && 3 * setting.sung_syllables >= notes;
}

bool begins_with_word(std::string_view text, std::string_view word) {
    return text.starts_with(word) &&
           (text.size() == word.size() || !(text[word.size()] >= 'a' && text[word.size()] <= 'z'));
}

// `Slow`, `"Very slow" "..."`, `Slowly and with feeling`: at the beginning, so that a tale of the tune does not count.
bool begins_slow(std::string_view text) {
    std::string folded = base::fold(text);
    std::string_view rest = folded;
    const auto skip = [&] { rest.remove_prefix(std::min(rest.find_first_not_of(" \t\"'([-:."), rest.size())); };
    skip();
    for (const std::string_view more : {"very", "rather", "quite", "played", "play"})
        if (begins_with_word(rest, more)) rest.remove_prefix(more.size()), skip();
    // Words of old editors for tunes that are sung or listened to. Source: common practice, no source; those of feeling
    // stand over 102 tunes of O'Neill's, of which R: calls seven an air and one a waltz, and none of the other books.
    constexpr std::array<std::string_view, 23> kSlow{
        "slow",       "slowly",     "lament",    "air",          "adagio",    "largo",           "larghetto",
        "lento",      "grave",      "tenderly",  "with feeling", "feelingly", "with expression", "expressively",
        "expressivo", "espressivo", "plaintive", "plaintively",  "mournful",  "mournfully",      "sad",
        "sadly",      "sorrowfully"};
    return std::any_of(kSlow.begin(), kSlow.end(), [&](std::string_view word) { return begins_with_word(rest, word); });
}

// Below what a first-year player dances it at. Source: house choice, by the paces of the trade in repertoire/pace.cc.
bool is_slow_tempo(const tune::Tempo& tempo, const music::Meter& meter) {
    constexpr int kFast = 1000;  // keeps the products below exact
    if (!tempo.beat || !tempo.beats_a_minute || *tempo.beats_a_minute > kFast) return false;
    Duration foot(1, 4);
    int slowest = 60;  // of `foot` a minute
    switch (meter_family(meter)) {
        case MeterFamily::six:
        case MeterFamily::nine:
        case MeterFamily::twelve:
            foot = {3, meter.unit};
            slowest = 55;
            break;
        case MeterFamily::three:
            foot = {1, meter.unit};
            slowest = 80;
            break;
        case MeterFamily::duple:
            foot = {meter.beats, 2 * meter.unit};
            slowest = 40;
            break;
        case MeterFamily::short_duple:
            foot = {meter.beats, 2 * meter.unit};
            break;
        case MeterFamily::three_minims:
        case MeterFamily::other:
            return false;
    }
    const Duration& beat = *tempo.beat;
    return std::int64_t{*tempo.beats_a_minute} * beat.numerator() * foot.denominator() <
           std::int64_t{slowest} * foot.numerator() * beat.denominator();
}

bool is_slow(const tune::Setting& setting) {
    if (setting.tempo && (begins_slow(setting.tempo->words) || is_slow_tempo(*setting.tempo, setting.meter)))
        return true;
    return std::any_of(setting.texts.begin(), setting.texts.end(),
                       [](const tune::HeaderText& text) { return text.letter == 'N' && begins_slow(text.text); });
}

std::vector<std::string> all_of(const std::optional<InferredRhythm>& inferred) {
    if (!inferred) return {};
    std::vector<std::string> kinds{inferred->token};
    kinds.insert(kinds.end(), inferred->also_possible.begin(), inferred->also_possible.end());
    return kinds;
}

FoundRhythm stated(std::string token, const tune::Setting& setting) {
    FoundRhythm found{tune::Finding<std::string>{rhythm_in_meter(std::move(token), setting.meter), Basis::stated}, {}};
    if (!rhythm_suits(found.rhythm->value, setting.meter))
        found.possible = all_of(infer_rhythm(setting.meter, setting.melody));
    return found;
}

std::optional<std::string> named_by_title(const tune::Setting& setting) {
    for (const std::string& title : setting.titles) {
        auto token = rhythm_of_title(title);
        if (!token) continue;
        *token = rhythm_in_meter(std::move(*token), setting.meter);
        if (rhythm_suits(*token, setting.meter)) return token;
    }
    return std::nullopt;
}

}  // namespace

FoundRhythm find_rhythm(const tune::Setting& setting) {
    if (setting.rhythm)
        if (std::string token = rhythm_token(*setting.rhythm); !token.empty()) return stated(std::move(token), setting);
    if (auto token = named_by_title(setting)) return {tune::Finding<std::string>{std::move(*token), Basis::title}, {}};
    if (is_sung(setting)) return {tune::Finding<std::string>{"air", Basis::computed}, {}};
    std::vector<std::string> kinds = all_of(infer_rhythm(setting.meter, setting.melody));
    if (is_slow(setting) && !setting.melody.heads.empty()) {
        std::erase(kinds, "air");
        kinds.insert(kinds.begin(), "air");
    }
    if (kinds.empty()) return {};
    FoundRhythm found{tune::Finding<std::string>{std::move(kinds.front()), Basis::computed}, {}};
    found.possible.assign(std::make_move_iterator(kinds.begin() + 1), std::make_move_iterator(kinds.end()));
    return found;
}

}  // namespace analysis
