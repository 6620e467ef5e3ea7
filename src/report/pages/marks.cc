#include "report/pages/marks.h"

#include "report/words/json.h"
#include "report/words/words.h"

namespace report {

std::string tag_list(const tune::TuneRecord& record) {
    std::string list;
    for (const std::string& tag : record.tags) list += (list.empty() ? "" : ", ") + tag;
    return list;
}

Document describe(const MarksPage& page) {
    Document document;
    for (const tune::TuneRecord& record : page.records) {
        const std::string tags =
            record.tags.empty() ? "no tags" : (record.tags.size() == 1 ? "tag " : "tags ") + tag_list(record);
        std::string said;
        if (record.rhythm && record.rhythm->basis == tune::Basis::said) said += "; rhythm " + record.rhythm->value;
        if (record.key && record.key_basis == tune::Basis::said) said += "; key " + music::to_string(*record.key);
        std::string aliases;
        const auto [first, last] = page.aliases.equal_range(record.id);
        for (auto alias = first; alias != last; ++alias)
            aliases += (alias == first ? "; also written \"" : ", \"") + alias->second + "\"";
        const std::string count = record.count ? "count " + std::to_string(*record.count) : "no count";
        document.blocks.emplace_back(Paragraph{title_of(record) + " (tune " + std::to_string(record.id.value) +
                                               "): " + tags + "; " + count + said + aliases + "."});
    }
    return document;
}

std::string as_json(const MarksPage& page) {
    Json json;
    json["version"] = 1;
    json["tunes"] = Json::array();
    for (const tune::TuneRecord& record : page.records) {
        Json row;
        row["id"] = record.id.value;
        row["title"] = record.titles.empty() ? Json(nullptr) : Json(record.titles.front());
        row["tags"] = record.tags;
        row["count"] = or_null(record.count);
        const bool says_rhythm = record.rhythm && record.rhythm->basis == tune::Basis::said;
        const bool says_key = record.key && record.key_basis == tune::Basis::said;
        row["rhythm_said"] = says_rhythm ? Json(record.rhythm->value) : Json(nullptr);
        row["key_said"] = says_key ? Json(music::to_string(*record.key)) : Json(nullptr);
        row["aliases"] = Json::array();
        const auto [first, last] = page.aliases.equal_range(record.id);
        for (auto alias = first; alias != last; ++alias) row["aliases"].push_back(alias->second);
        json["tunes"].push_back(std::move(row));
    }
    return finish(json);
}

}  // namespace report
