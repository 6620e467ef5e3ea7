// Finding is done by bar_sums, repeat_marks, key_label and part_lengths; this file puts it into words.
// Tested by oddities_test.cc, and read by eye on two published collections.
#include "analysis/oddities.h"

#include <algorithm>
#include <array>
#include <numeric>
#include <optional>
#include <string>

#include "analysis/bar_sums.h"
#include "analysis/key_label.h"
#include "analysis/note_uses.h"
#include "analysis/part_lengths.h"
#include "analysis/repeat_marks.h"
#include "analysis/rhythm_words.h"

namespace analysis {

namespace {

using base::Severity;
using music::Duration;
using tune::Oddity;
using tune::OddityKind;

// Where no line is to blame: one that is missing, or of a header that says nothing.
base::Span place_of_header(const tune::Setting& setting) { return {setting.where.begin, setting.where.begin}; }

// From its first sound to its last.
base::Span place_of_bar(const music::Melody& melody, std::uint32_t index) {
    const std::size_t first = melody.bars[index].first_sound;
    const std::size_t end = index + 1 < melody.bars.size() ? melody.bars[index + 1].first_sound : melody.sounds.size();
    if (first >= end) return melody.bars[index].where;
    return {melody.sounds[first].where.begin,
            std::max(melody.sounds[first].where.end, melody.sounds[end - 1].where.end)};
}

std::string count_of(std::size_t number, const std::string& one, const std::string& many) {
    return std::to_string(number) + " " + (number == 1 ? one : many);
}

// What more of a kind there is, in words for one and for many.
struct More {
    const char* one;
    const char* many;
};

// The first kMaxTold in full, the others counted at the place of the next.
template <typename Fault, typename Tell>
void tell_first(const std::vector<Fault>& faults, const Tell& tell, const More& more, std::vector<Oddity>& oddities) {
    const std::size_t told = std::min(faults.size(), kMaxTold);
    for (std::size_t at = 0; at < told; ++at) oddities.push_back(tell(faults[at]));
    if (told == faults.size()) return;
    Oddity rest = tell(faults[told]);
    rest.message = "From here on " + count_of(faults.size() - told, more.one, more.many) + ".";
    rest.advice = "Mend these first, then look again.";
    oddities.push_back(std::move(rest));
}

// --- bars

// `5/8`, in the unit of the meter or a finer one.
std::string in_parts(const Duration& length, std::int64_t parts) {
    return std::to_string(length.numerator() * (parts / length.denominator())) + "/" + std::to_string(parts);
}

struct LengthWords {
    std::string is;
    std::string due;
};

LengthWords compare(const Duration& length, const music::Meter& meter) {
    const std::int64_t parts = std::lcm(length.denominator(), std::int64_t{meter.unit});
    return {in_parts(length, parts), in_parts(meter.bar_length(), parts)};
}

// As a player counts; a pick-up has no number of its own.
std::string bar_name(const music::Melody& melody, std::uint32_t bar, const std::vector<int>& numbers) {
    const std::string number = std::to_string(numbers[bar]);
    return is_pickup(melody, bar) ? "The pick-up after bar " + number : "Bar " + number;
}

Oddity bar_oddity(const music::Melody& melody, const OddBar& odd, const std::vector<int>& numbers) {
    const music::Bar& bar = melody.bars[odd.bar];
    const LengthWords words = compare(*bar.length, bar.meter);
    const std::string name = bar_name(melody, odd.bar, numbers);
    const bool may_be_harmless = odd.at_edge && *bar.length < bar.meter.bar_length();
    Oddity oddity{OddityKind::bar_length,
                  may_be_harmless ? Severity::remark : Severity::warning,
                  place_of_bar(melody, odd.bar),
                  {},
                  {}};
    switch (odd.likely) {
        case OddBar::Likely::line_missing:
            oddity.message = name + " has " + words.is + ", which is two bars of " + words.due + ".";
            oddity.advice = "A bar line is probably missing.";
            return oddity;
        case OddBar::Likely::line_too_many:
            oddity.message = name + " has " + words.is + ", and with the next it makes one bar of " + words.due + ".";
            oddity.advice = "A bar line is probably one too many.";
            return oddity;
        case OddBar::Likely::line_misplaced:
            oddity.message = name + " has " + words.is + ", and with the next it makes two bars of " + words.due + ".";
            oddity.advice = "The bar line between them probably stands in the wrong place.";
            return oddity;
        case OddBar::Likely::note_length:
            break;
    }
    oddity.message = name + " has " + words.is + " where " + words.due + " are due" +
                     (!may_be_harmless             ? "."
                      : is_pickup(melody, odd.bar) ? ", and no last bar makes room for it."
                                                   : ", and no pick-up makes it up.");
    oddity.advice = may_be_harmless ? "Add the rest or the pick-up that is missing, so that others can count along."
                                    : "Count it again; a note length is wrong, or a note too many or too few.";
    return oddity;
}

Oddity misfit_oddity(const music::Melody& melody, const MeterMisfit& misfit) {
    Oddity oddity{OddityKind::bar_length, Severity::warning, place_of_bar(melody, misfit.first_bar), {}, {}};
    const std::string how_many = misfit.misfits == misfit.bars
                                     ? "All " + std::to_string(misfit.bars) + " bars"
                                     : std::to_string(misfit.misfits) + " of " + std::to_string(misfit.bars) + " bars";
    if (!misfit.length) {
        oddity.message = how_many + " do not add up to " + to_string(misfit.meter) + ".";
        oddity.advice = "M: or L: may be wrong, or the notes are written in free time: then M:none says so.";
        return oddity;
    }
    const LengthWords words = compare(*misfit.length, misfit.meter);
    oddity.message = how_many + " do not add up to " + to_string(misfit.meter) + "; most have " + words.is + " where " +
                     words.due + " are due.";
    const auto half = product(misfit.meter.bar_length(), Duration(1, 2));
    const auto twice = product(misfit.meter.bar_length(), Duration(2, 1));
    oddity.advice = misfit.length == half || misfit.length == twice
                        ? "Change M: or L:, one of them is probably out by half."
                        : "M: is probably wrong; write the meter the bars have.";
    return oddity;
}

void add_bars(const tune::Setting& setting, std::vector<Oddity>& oddities) {
    const music::Melody& melody = setting.melody;
    const BarSums sums = add_up_bars(melody);
    if (sums.odd.empty() && sums.misfits.empty()) return;
    const std::vector<int> numbers = number_bars(melody);
    tell_first(
        sums.misfits, [&](const MeterMisfit& misfit) { return misfit_oddity(melody, misfit); },
        {"more meter does not fit its bars", "more meters do not fit their bars"}, oddities);
    tell_first(
        sums.odd, [&](const OddBar& odd) { return bar_oddity(melody, odd, numbers); },
        {"more bar does not add up", "more bars do not add up"}, oddities);
}

// --- repeats and parts

Oddity repeat_oddity(const music::Melody& melody, const RepeatFault& fault) {
    Oddity oddity{OddityKind::open_repeat, Severity::warning, place_of_bar(melody, fault.bar), {}, {}};
    switch (fault.kind) {
        case RepeatFault::Kind::never_closed:
            oddity.message = "A repeat opens here and is never closed.";
            oddity.advice = "Write :| at the end of the part, or a plain bar line here if it is played once.";
            break;
        case RepeatFault::Kind::first_ending_alone:
            oddity.message = "A first ending stands here, and no second one follows.";
            oddity.advice = "Mark the second ending, :|2, or take the 1 away if there is only one.";
            break;
        case RepeatFault::Kind::later_ending_alone:
            oddity.message =
                "Ending " + melody.bars[fault.bar].ending + " stands here, and no first one comes before it.";
            oddity.advice = "Mark the first ending, |1, or take the number away if there is only one.";
            break;
    }
    return oddity;
}

Oddity part_oddity(const music::Melody& melody, const PartLength& part, const std::string& rhythm) {
    return {OddityKind::part_length, Severity::remark, place_of_bar(melody, part.first_bar),
            "The part that begins here has " + count_of(static_cast<std::size_t>(part.bars), "bar", "bars") +
                ", unusual for a " + rhythm + ".",
            std::string(tune::oddity_advice(OddityKind::part_length))};
}

void add_repeats(const tune::Setting& setting, std::vector<Oddity>& oddities) {
    tell_first(
        find_repeat_faults(setting.melody),
        [&](const RepeatFault& fault) { return repeat_oddity(setting.melody, fault); },
        {"more repeat or ending lacks its other half", "more repeats and endings lack their other half"}, oddities);
}

void add_parts(const tune::Setting& setting, const tune::TuneFacts& facts, std::vector<Oddity>& oddities) {
    if (!facts.rhythm || facts.rhythm->basis != tune::Basis::stated || !has_even_parts(facts.rhythm->value)) return;
    std::vector<PartLength> parts = measure_parts(setting.melody);
    // Less than a phrase is no part: an ending without its number, or a tag.
    std::erase_if(parts, [](const PartLength& part) {
        return part.bars < kBarsOfPhrase || part.bars % kBarsOfPhrase == 0 || part.repeated_bars % kBarsOfPhrase == 0;
    });
    tell_first(
        parts, [&](const PartLength& part) { return part_oddity(setting.melody, part, facts.rhythm->value); },
        {"more part is of an unusual length", "more parts are of an unusual length"}, oddities);
}

// --- the header

bool is_meter(const music::Meter& meter, int beats, int unit) { return meter.beats == beats && meter.unit == unit; }

// A 9/8 jig is a slip jig and a 12/8 one a slide, both called jigs in old books; flings and their kin are printed in
// 2/4 with notes of half the length. Source: common practice, no source; measured on Ryan's, where 21 of 37 jigs that
// are not in 6/8 are in 9/8.
bool goes_by_another_name(std::string_view rhythm, const music::Meter& meter) {
    if (rhythm == "jig" || rhythm == "single jig") return is_meter(meter, 9, 8) || is_meter(meter, 12, 8);
    const bool is_fling = rhythm == "highland fling" || rhythm == "schottische" || rhythm == "barndance";
    return is_fling && is_meter(meter, 2, 4);
}

// Source: common practice, no source.
std::string dances_in(const music::Meter& meter) {
    if (is_meter(meter, 4, 4) || is_meter(meter, 2, 2)) return "a reel, a hornpipe or a strathspey";
    if (is_meter(meter, 2, 4)) return "a polka, a reel or a hornpipe";
    if (is_meter(meter, 6, 8)) return "a jig, a slide or a march";
    if (is_meter(meter, 9, 8)) return "a slip jig";
    if (is_meter(meter, 12, 8)) return "a slide or a jig";
    if (is_meter(meter, 3, 4)) return "a waltz, a mazurka or an air";
    if (is_meter(meter, 3, 2)) return "a triple hornpipe";
    return "another dance";
}

std::string meters_of(std::string_view rhythm) {
    std::string words;
    using music::Meter;
    constexpr std::array<Meter, 8> kMeters{{{Meter::Kind::fraction, 6, 8},
                                            {Meter::Kind::fraction, 9, 8},
                                            {Meter::Kind::fraction, 12, 8},
                                            {Meter::Kind::fraction, 2, 4},
                                            {Meter::Kind::fraction, 3, 4},
                                            {Meter::Kind::fraction, 4, 4},
                                            {Meter::Kind::fraction, 2, 2},
                                            {Meter::Kind::fraction, 3, 2}}};
    for (const Meter& meter : kMeters) {
        if (!rhythm_suits(rhythm, meter) && !goes_by_another_name(rhythm, meter)) continue;
        words += (words.empty() ? "M:" : " or M:") + to_string(meter);
    }
    return words;
}

// Nobody can tell from here which is meant, so both are said.
std::optional<Oddity> rhythm_oddity(const tune::Setting& setting, const tune::TuneFacts& facts) {
    if (!facts.rhythm || facts.rhythm->basis != tune::Basis::stated) return std::nullopt;
    const std::string& rhythm = facts.rhythm->value;
    if (rhythm_suits(rhythm, setting.meter) || goes_by_another_name(rhythm, setting.meter)) return std::nullopt;
    return Oddity{OddityKind::rhythm_meter, Severity::remark, setting.rhythm_where.value_or(place_of_header(setting)),
                  "R: says " + rhythm + ", and M: says " + to_string(setting.meter) + ". Which is meant?",
                  "If it is a " + rhythm + ", write " + meters_of(rhythm) + "; if M: is right, R: may be " +
                      dances_in(setting.meter) + ", or the dance only goes by that name."};
}

void add_header(const tune::Setting& setting, const tune::TuneFacts& facts, std::vector<Oddity>& oddities) {
    if (auto key = find_key_label_oddity(setting, facts)) oddities.push_back(std::move(*key));
    if (!setting.meter_is_stated && facts.note_count > 0)
        oddities.push_back({OddityKind::missing_field, Severity::remark, place_of_header(setting),
                            "There is no M: line, so the tune counts as free of meter.",
                            "Write the meter, M:6/8, or M:none if it is free."});
    if (auto odd = rhythm_oddity(setting, facts)) oddities.push_back(std::move(*odd));
}

}  // namespace

std::vector<Oddity> find_oddities(const tune::Setting& setting, const tune::TuneFacts& facts) {
    std::vector<Oddity> oddities;
    add_header(setting, facts, oddities);
    const std::size_t whole_tune = oddities.size();
    add_bars(setting, oddities);
    if (oddities.size() == whole_tune)
        add_parts(setting, facts, oddities);  // bars that do not add up cannot be counted
    add_repeats(setting, oddities);
    std::stable_sort(oddities.begin() + static_cast<std::ptrdiff_t>(whole_tune), oddities.end(),
                     [](const Oddity& a, const Oddity& b) { return a.where.begin < b.where.begin; });
    return oddities;
}

}  // namespace analysis
