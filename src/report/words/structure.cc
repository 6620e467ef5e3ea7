#include "report/words/structure.h"

#include <cstdlib>

#include "report/words/words.h"

namespace report {

namespace {

// `a b a c | d b a c`: a line between parts.
std::string plan_of(const tune::Structure& structure) {
    std::string plan;
    std::size_t part = 0;
    for (const tune::Phrase& phrase : structure.phrases) {
        const std::size_t before = part;
        while (part + 1 < structure.parts.size() && phrase.first_bar > structure.parts[part].last_bar) ++part;
        plan += (plan.empty() ? "" : part != before ? " | " : " ") + phrase.label;
    }
    return plan;
}

std::string bars_of(const tune::Part& part) {
    if (part.last_bar <= part.first_bar) return "bar " + std::to_string(part.first_bar);
    return "bars " + std::to_string(part.first_bar) + " to " + std::to_string(part.last_bar);
}

// The key of a part where it is not that of the whole tune.
std::string own_key(const tune::TuneFacts& facts, std::size_t part) {
    if (part >= facts.part_keys.size() || !facts.part_keys[part] || !facts.key) return "";
    const tune::KeyFinding& own = *facts.part_keys[part];
    if (!own.decided || own.candidates.front() == facts.key->headline()) return "";
    return ", by itself " + music::to_string(own.candidates.front());
}

std::string part_in_words(const tune::TuneFacts& facts, std::size_t index) {
    const tune::Part& part = facts.structure.parts[index];
    std::string words = bars_of(part);
    if (part.bars != part.last_bar - part.first_bar + 1) words += ", " + counted(part.bars, "bar", "bars") + " played";
    if (part.is_repeated) words += ", repeated";
    if (part.pickup) words += ", pick-up of " + music::to_string(*part.pickup);
    return words + own_key(facts, index);
}

std::string repeats_in_words(const std::vector<std::vector<int>>& groups) {
    std::string words;
    for (const std::vector<int>& group : groups) {
        words += words.empty() ? "" : "; ";
        for (std::size_t at = 0; at < group.size(); ++at) words += (at > 0 ? " = " : "") + std::to_string(group[at]);
    }
    return words;
}

std::string moves_in_words(const tune::Leaps& leaps, int fifths) {
    std::string words = counted(leaps.repeats, "repeated note", "repeated notes") + ", " +
                        counted(leaps.steps, "step", "steps") + ", " + counted(leaps.skips, "skip", "skips") + ", " +
                        counted(leaps.leaps, "leap", "leaps");
    if (leaps.largest) {
        const int semitones = std::abs(leaps.largest->to - leaps.largest->from);
        words += "; the widest " + note_or_dash(leaps.largest->from, fifths) + " to " +
                 note_or_dash(leaps.largest->to, fifths) + ", " + counted(semitones, "semitone", "semitones") +
                 ", bar " + std::to_string(leaps.largest->bar);
    }
    return words;
}

// `2`, `2 1/2`
std::string beat_in_words(const music::Duration& beat) {
    const auto whole = beat.numerator() / beat.denominator();
    const auto rest = beat.numerator() % beat.denominator();
    if (rest == 0) return std::to_string(whole);
    return std::to_string(whole) + " " + std::to_string(rest) + "/" + std::to_string(beat.denominator());
}

std::string lone_in_words(const std::vector<tune::LoneNote>& notes, int fifths) {
    std::string words;
    for (const tune::LoneNote& note : notes) {
        words += (words.empty() ? "" : "; ") + note_or_dash(note.midi, fifths);
        words += note.bar == 0 ? " in the pick-up" : " in bar " + std::to_string(note.bar);
        if (note.beat) words += " on beat " + beat_in_words(*note.beat);
        words += note.is_strong ? ", strong" : ", weak";
    }
    return words;
}

Json phrases_json(const std::vector<tune::Phrase>& phrases) {
    Json list = Json::array();
    for (const tune::Phrase& phrase : phrases)
        list.push_back({{"label", phrase.label}, {"first_bar", phrase.first_bar}, {"last_bar", phrase.last_bar}});
    return list;
}

Json key_json(const std::optional<tune::KeyFinding>& key) {
    if (!key) return nullptr;
    Json candidates = Json::array();
    for (const music::Key& candidate : key->candidates) candidates.push_back(music::to_string(candidate));
    return {{"tonic", music::to_string(key->headline().tonic)},
            {"mode", music::mode_token(key->headline().mode)},
            {"candidates", std::move(candidates)},
            {"decided", key->decided}};
}

}  // namespace

void add_structure(const tune::TuneFacts& facts, int fifths, Particulars& lines) {
    const auto& parts = facts.structure.parts;
    if (parts.size() > 1 || (parts.size() == 1 && parts[0].is_repeated))
        lines.lines.emplace_back("form", tune::form_of(facts.structure));
    for (std::size_t part = 0; part < parts.size(); ++part)
        lines.lines.emplace_back(parts.size() == 1 ? "its part" : "part " + parts[part].label,
                                 part_in_words(facts, part));
    if (facts.structure.phrases.size() > 1) lines.lines.emplace_back("phrases", plan_of(facts.structure));
    if (!facts.equal_bars.empty()) lines.lines.emplace_back("bars alike", repeats_in_words(facts.equal_bars));
    if (facts.note_count > 1) lines.lines.emplace_back("moves", moves_in_words(facts.leaps, fifths));
    if (!facts.lone_notes.empty()) lines.lines.emplace_back("struck once", lone_in_words(facts.lone_notes, fifths));
}

void add_structure(const tune::TuneFacts& facts, int fifths, Json& row) {
    Json parts = Json::array();
    for (std::size_t index = 0; index < facts.structure.parts.size(); ++index) {
        const tune::Part& part = facts.structure.parts[index];
        parts.push_back({{"label", part.label},
                         {"first_bar", part.first_bar},
                         {"last_bar", part.last_bar},
                         {"bars", part.bars},
                         {"repeated", part.is_repeated},
                         {"pickup", part.pickup ? Json(music::to_string(*part.pickup)) : Json(nullptr)},
                         {"key", key_json(index < facts.part_keys.size() ? facts.part_keys[index] : std::nullopt)},
                         {"phrases", phrases_json(part.phrases)}});
    }
    row["structure"] = {{"basis", "computed"},
                        {"form", tune::form_of(facts.structure)},
                        {"parts", std::move(parts)},
                        {"phrases", phrases_json(facts.structure.phrases)},
                        {"equal_bars", facts.equal_bars}};
    const auto& largest = facts.leaps.largest;
    row["leaps"] = {{"repeats", facts.leaps.repeats},
                    {"steps", facts.leaps.steps},
                    {"skips", facts.leaps.skips},
                    {"leaps", facts.leaps.leaps},
                    {"largest", largest ? Json{{"from", note_or_dash(largest->from, fifths)},
                                               {"to", note_or_dash(largest->to, fifths)},
                                               {"semitones", std::abs(largest->to - largest->from)},
                                               {"bar", largest->bar}}
                                        : Json(nullptr)}};
    row["lone_notes"] = Json::array();
    for (const tune::LoneNote& note : facts.lone_notes)
        row["lone_notes"].push_back({{"note", note_or_dash(note.midi, fifths)},
                                     {"pitch", note.midi},
                                     {"bar", note.bar},
                                     {"beat", note.beat ? Json(music::to_string(*note.beat)) : Json(nullptr)},
                                     {"strong", note.is_strong}});
}

}  // namespace report
