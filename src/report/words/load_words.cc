#include "report/words/load_words.h"

#include <fmt/format.h>

#include <cstdlib>

#include "report/words/words.h"

namespace report {

using repertoire::Load;
using repertoire::LoadPart;

std::string part_in_words(LoadPart part) {
    switch (part) {
        case LoadPart::notes:
            return "notes to learn";
        case LoadPart::strikes:
            return "times struck";
        case LoadPart::bars:
            return "bars to learn";
        case LoadPart::range:
            return "range, semitones wider";
        case LoadPart::leaps:
            return "leaps of a sixth or more";
        case LoadPart::hand:
            return "work for the hand, a note";
        case LoadPart::pace:
            return "notes a second";
        case LoadPart::rhythm:
            return "rhythm again";
    }
    return "";
}

std::string in_tenths(int tenths) {
    return fmt::format("{}{}.{}", tenths < 0 ? "-" : "", std::abs(tenths) / 10, std::abs(tenths) % 10);
}

std::string load_in_words(const Load& load, LoadPart part) {
    switch (part) {
        case LoadPart::notes:
            return note_list(load.fresh);
        case LoadPart::bars:
            return fmt::format("{} of {}", load.bars_to_learn, load.different_bars);
        case LoadPart::hand:
            return load.hand ? in_tenths(*load.hand) : "-";
        case LoadPart::pace:
            return load.pace ? in_tenths(*load.pace) : "-";
        default:
            return load.tenths_of(part) == 0 ? "-" : std::to_string(load.tenths_of(part) / 10);
    }
}

std::string bars_known_in_words(const Load& load) {
    const int known = load.different_bars - load.bars_to_learn;
    const std::string bars = counted(load.different_bars, "different bar", "different bars");
    if (known == 0) return bars + ", all new to you";
    if (load.bars_to_learn == 0) return "you know all of its " + bars;
    return fmt::format("you know {} of its {}", known, bars);
}

std::string fresh_in_words(const Load& load) {
    if (load.fresh.empty()) return "no new note";
    return note_list(load.fresh) + (load.fresh.size() == 1 ? " is new, struck " : " are new, struck ") +
           (load.strikes == 1 ? "once" : counted(load.strikes, "time", "times"));
}

Json load_json(const Load& load) {
    const auto tenths = [](const std::optional<int>& value) { return value ? Json(*value / 10.0) : Json(nullptr); };
    Json json;
    json["notes"] = note_names(load.fresh);
    json["strikes"] = load.strikes;
    json["different_bars"] = load.different_bars;
    json["bars"] = load.bars_to_learn;
    json["range"] = load.beyond;
    json["leaps"] = load.leaps;
    json["hand"] = tenths(load.hand);
    json["pace"] = tenths(load.pace);
    json["rhythm"] = load.same_rhythm;
    return json;
}

}  // namespace report
