#include "variation.h"

#include <utility>

#include "analysis/note_uses.h"
#include "analysis/rhythm_words.h"

namespace rhythms {

namespace {

using analysis::MeterFamily;
using music::Duration;
using music::Meter;
using Written = std::optional<tune::Setting>;

Meter fraction(int beats, int unit) {
    return {Meter::Kind::fraction, static_cast<std::uint16_t>(beats), static_cast<std::uint16_t>(unit)};
}

bool has_one_meter(const tune::Setting& setting) {
    for (const music::Bar& bar : setting.melody.bars)
        if (!(bar.meter == setting.meter)) return false;
    return true;
}

bool scale(std::optional<Duration>& length, const Duration& by) {
    if (!length) return true;
    length = product(*length, by);
    return length.has_value();
}

Written scaled(const tune::Setting& setting, const Meter& meter, const Duration& by) {
    if (!has_one_meter(setting)) return std::nullopt;
    tune::Setting written = setting;
    written.meter = meter;
    if (written.tempo && !scale(written.tempo->beat, by)) return std::nullopt;
    for (music::Bar& bar : written.melody.bars) {
        bar.meter = meter;
        if (!scale(bar.length, by)) return std::nullopt;
    }
    for (music::Sound& sound : written.melody.sounds) {
        const auto length = product(sound.length, by);
        if (!length || !scale(sound.at, by)) return std::nullopt;
        sound.length = *length;
    }
    return written;
}

// 4/4 in quavers as 2/4 in semiquavers.
Written in_two_four(const tune::Setting& setting) {
    if (!(setting.meter.bar_length() == Duration(1, 1)) || setting.meter.beats > 4) return std::nullopt;
    return scaled(setting, fraction(2, 4), {1, 2});
}

Written in_four_four(const tune::Setting& setting) {
    if (setting.meter.beats != 2 || setting.meter.unit != 4) return std::nullopt;
    return scaled(setting, fraction(4, 4), {2, 1});
}

bool is_in_threes(const Meter& meter) {
    const MeterFamily family = analysis::meter_family(meter);
    return family == MeterFamily::six || family == MeterFamily::nine || family == MeterFamily::twelve;
}

Written halved(const tune::Setting& setting) {
    if (!is_in_threes(setting.meter) || setting.meter.unit != 8) return std::nullopt;
    return scaled(setting, fraction(setting.meter.beats, 16), {1, 2});
}

Written doubled(const tune::Setting& setting) {
    if (!is_in_threes(setting.meter) || setting.meter.unit != 8) return std::nullopt;
    return scaled(setting, fraction(setting.meter.beats, 4), {2, 1});
}

Written cut_as_common(const tune::Setting& setting) {
    if (setting.meter.kind != Meter::Kind::cut) return std::nullopt;
    return scaled(setting, {Meter::Kind::common, 4, 4}, {1, 1});
}

// Two quarters of a bar that fill a beat of it: `from` and the rest of the beat become `to` and its rest.
Written repaired(const tune::Setting& setting, const Duration& from, const Duration& to) {
    const MeterFamily family = analysis::meter_family(setting.meter);
    if (family != MeterFamily::duple && family != MeterFamily::short_duple) return std::nullopt;
    const Duration quarter(setting.meter.beats, 4 * setting.meter.unit);
    const auto first_from = product(quarter, from), first_to = product(quarter, to);
    if (!first_from || !first_to) return std::nullopt;
    tune::Setting written = setting;
    auto& sounds = written.melody.sounds;
    bool any = false;
    for (std::size_t at = 0; at + 1 < sounds.size(); ++at) {
        music::Sound& one = sounds[at];
        music::Sound& two = sounds[at + 1];
        if (one.bar != two.bar || !one.at || !two.at || one.length != *first_from) continue;
        const bool on_beat =
            (one.at->numerator() * quarter.denominator()) % (one.at->denominator() * quarter.numerator()) == 0;
        if (!on_beat || sum(one.length, two.length) != quarter) continue;
        two.length = *sum(quarter, Duration(-first_to->numerator(), first_to->denominator()));
        one.length = *first_to;
        two.at = sum(*one.at, one.length);
        any = true;
        ++at;
    }
    if (!any) return std::nullopt;
    return written;
}

Written dotted(const tune::Setting& setting) { return repaired(setting, {1, 2}, {3, 4}); }
Written even(const tune::Setting& setting) { return repaired(setting, {3, 4}, {1, 2}); }

// Repeats marked by thick bar lines alone.
Written without_repeats(const tune::Setting& setting) {
    tune::Setting written = setting;
    bool any = false;
    for (std::size_t at = 0; at < written.melody.bars.size(); ++at) {
        music::Bar& bar = written.melody.bars[at];
        any = any || bar.repeat_opens || bar.repeat_closes;
        bar.thick_after = bar.thick_after || bar.repeat_closes;
        if (bar.repeat_opens && at > 0) written.melody.bars[at - 1].thick_after = true;
        bar.repeat_opens = bar.repeat_closes = false;
    }
    if (!any) return std::nullopt;
    return written;
}

// `:|` without `|:`.
Written without_opening_repeats(const tune::Setting& setting) {
    tune::Setting written = setting;
    bool any = false;
    for (music::Bar& bar : written.melody.bars) any = std::exchange(bar.repeat_opens, false) || any;
    if (!any) return std::nullopt;
    return written;
}

}  // namespace

const std::vector<Variation>& variations() {
    static const std::vector<Variation> all{
        {"4/4 as 2/4, values halved", in_two_four, true},
        {"2/4 as 4/4, values doubled", in_four_four, true},
        {"6/8, 9/8, 12/8 in sixteenths", halved, true},
        {"6/8, 9/8, 12/8 in quarters", doubled, true},
        {"cut time as common time", cut_as_common, true},
        {"repeats closed and never opened", without_opening_repeats, true},
        {"thick bar lines for repeats", without_repeats, true},
        {"even pairs dotted", dotted, false},
        {"dotted pairs even", even, false},
    };
    return all;
}

}  // namespace rhythms
