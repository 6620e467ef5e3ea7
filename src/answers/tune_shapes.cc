// Tested by tune_shapes_test.cc.
#include "answers/tune_shapes.h"

#include <map>
#include <optional>
#include <utility>

#include "tune/outline.h"

namespace answers {

std::vector<repertoire::TuneShape> shapes_of(const collection::Collection& collection,
                                             const std::vector<tune::TuneRecord>& records) {
    std::map<tune::SettingId, std::size_t> place_of;
    for (std::size_t at = 0; at < records.size(); ++at) place_of.emplace(records[at].setting, at);
    std::vector<std::optional<repertoire::TuneShape>> found(records.size());
    collection.visit_outlines([&](const collection::StoredOutline& stored) {
        const auto place = place_of.find(stored.setting);
        if (place == place_of.end()) return;
        if (const auto outline = tune::decode_outline(stored.bytes))
            found[place->second] = repertoire::shape_of(records[place->second], *outline);
    });
    std::vector<repertoire::TuneShape> shapes;
    for (std::optional<repertoire::TuneShape>& shape : found)
        if (shape) shapes.push_back(std::move(*shape));
    return shapes;
}

}  // namespace answers
