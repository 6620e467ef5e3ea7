#include "report/pages/handling_json.h"

#include <cmath>

#include "hands/time_before.h"

#include "report/words/words.h"

namespace report {

namespace {

// In costs of the instrument's file, to a hundredth.
double whole_costs(std::int64_t parts) {
    return std::round(100.0 * static_cast<double>(parts) / hands::kCostParts) / 100;
}

Json near_miss_json(const hands::NearMiss& miss, int fifths) {
    constexpr std::array<std::string_view, 3> kStandIn{"yes", "perhaps", "no"};  // in the order of hands::StandIn
    Json json;
    json["notes"] = miss.notes;
    json["missing"] = miss.missing;
    json["lacks"] = Json::array();
    for (const hands::Lack& lack : miss.lacks)
        json["lacks"].push_back({{"note", note_or_dash(lack.midi, fifths)},
                                 {"pitch", lack.midi},
                                 {"count", lack.count},
                                 {"strong", lack.strong},
                                 {"held", lack.held},
                                 {"bars", lack.bars},
                                 {"beneath", lack.is_beneath},
                                 {"stand_in", kStandIn[static_cast<std::size_t>(lack.stand_in)]},
                                 {"neighbour", or_null(lack.neighbour)}});
    json["fold"] = nullptr;
    if (miss.fold)
        json["fold"] = {{"notes", miss.fold->notes},
                        {"up", miss.fold->up},
                        {"down", miss.fold->down},
                        {"largest_leap", miss.fold->largest_leap},
                        {"leap_before", miss.fold->leap_before},
                        {"leap_bar", miss.fold->leap_bar}};
    return json;
}

Json moves_json(const std::vector<hands::Move>& moves) {
    Json json = Json::array();
    for (const hands::Move& move : moves)
        json.push_back({{"semitones", move.semitones},
                        {"key", move.key ? Json(music::to_string(*move.key)) : Json(nullptr)},
                        {"customary", move.is_customary},
                        {"mean_grade", std::round(move.mean_grade * 100) / 100},
                        {"hardest_grade", move.hardest_grade},
                        {"missing", move.missing}});
    return json;
}

Json stroke_json(const hands::Stroke& stroke, int fifths) {
    Json json{{"bar", stroke.note.bar},
              {"note", note_or_dash(stroke.note.midi, fifths)},
              {"pitch", stroke.note.midi},
              {"fingering", nullptr},
              {"row", nullptr},
              {"position", nullptr},
              {"direction", nullptr},
              {"cost", whole_costs(stroke.cost)}};
    if (stroke.way == nullptr) return json;
    json["fingering"] = stroke.way->fingering;
    if (!stroke.way->row.empty()) json["row"] = stroke.way->row;
    if (!stroke.way->position.empty()) json["position"] = stroke.way->position;
    if (stroke.way->direction != instruments::Direction::none)
        json["direction"] = instruments::direction_token(stroke.way->direction);
    return json;
}

}  // namespace

Json in_hand_json(const answers::InHand& in_hand, int fifths) {
    const hands::Handling& handling = in_hand.handling;
    Json json = near_miss_json(handling.near_miss, fifths);
    json["instrument"] = in_hand.instrument ? Json(in_hand.instrument->id) : Json(nullptr);
    if (in_hand.instrument == nullptr) return json;
    json["moves"] = moves_json(handling.moves);
    json["motions"] = Json::array();
    for (const hands::MotionSum& sum : handling.motions)
        json["motions"].push_back({{"motion", instruments::motion_token(sum.motion)},
                                   {"count", sum.count},
                                   {"quick", sum.quick},
                                   {"fewest", sum.fewest}});
    json["cost"] = whole_costs(handling.way.cost);
    json["cost_lower_bound"] = whole_costs(handling.way.lower_bound);
    json["hardest_bar"] = handling.hardest ? Json(handling.hardest->bar) : Json(nullptr);
    json["stretches"] = Json::array();
    for (const hands::Stretch& stretch : handling.stretches)
        json["stretches"].push_back({{"where", stretch.where},
                                     {"notes", stretch.notes},
                                     {"first_bar", stretch.first_bar},
                                     {"last_bar", stretch.last_bar}});
    json["ways"] = Json::array();
    for (const hands::Stroke& stroke : handling.way.strokes) json["ways"].push_back(stroke_json(stroke, fifths));
    return json;
}

}  // namespace report
