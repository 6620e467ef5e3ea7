// Tested by carried_test.cc.
#include "page/carried.h"

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <span>
#include <utility>
#include <vector>

#include "page/kept_json.h"
#include "tune/tag.h"

namespace page {

namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view kBegin = R"(<script type="application/json" id="library">)";
constexpr std::string_view kEnd = "</script>";

// Where the settings that are carried stand, by the own tunes they had.
using Places = std::map<std::int64_t, people::TuneNumber>;

// Lines of a file that is written anew, each setting where it stood.
class FileText {
public:
    // `text`: the header, where there is one, and the setting, of line `line`. The header has to be said once only.
    void add(const std::string& text, std::uint32_t line) {
        std::string own = text;
        if (text_.empty()) {
            const std::size_t at = own.starts_with("X:") ? 0 : own.find("\nX:");
            if (at != 0 && at != std::string::npos) {
                append(own.substr(0, at + 1));
                own.erase(0, at + 1);
            }
            header_ = text_;
        } else if (!header_.empty() && own.starts_with(header_)) {
            own.erase(0, header_.size());
        }
        if (!text_.empty() && lines_ + 1 < line) append("\n");
        while (lines_ + 1 < line) append("\n");
        append(own);
        append("\n");
    }
    const std::string& text() const { return text_; }

private:
    void append(const std::string& more) {
        text_ += more;
        lines_ += static_cast<std::uint32_t>(std::count(more.begin(), more.end(), '\n'));
        if (!text_.empty() && text_.back() != '\n') {
            text_ += '\n';
            ++lines_;
        }
    }

    std::string text_, header_;
    std::uint32_t lines_ = 0;
};

std::optional<people::TuneNumber> place_of(const collection::Collection& collection, const Places& places,
                                           tune::TuneId tune) {
    if (const auto found = places.find(tune.value); found != places.end()) return found->second;
    for (const tune::TuneRecord& setting : collection.settings_of(tune))
        if (const auto found = places.find(setting.own.value); found != places.end()) return found->second;
    return std::nullopt;
}

void keep_player(const collection::PlayerRecord& record, const collection::Collection& collection, const Places& places,
                 people::Kept& kept) {
    const auto number = static_cast<people::PlayerNumber>(kept.players.size()) + 1;
    kept.players[number] = {record.player.name.text, record.player.name.folded, record.player.instrument,
                            record.player.notes};
    for (const tune::PlayerTune& its : record.tunes) {
        const auto place = place_of(collection, places, its.tune);
        if (!place) continue;
        for (const tune::DatedEvent& event : its.events)
            kept.events[static_cast<std::int64_t>(kept.events.size()) + 1] = {number, *place, event, std::nullopt};
        if (its.wished) kept.wishes.insert({number, *place});
        if (its.excluded) kept.exclusions[{number, *place}] = *its.excluded;
    }
}

people::Kept kept_of(const collection::Collection& collection, const Places& places,
                     std::span<const tune::TuneRecord> records) {
    people::Kept kept;
    for (const collection::PlayerRecord& record : collection.players()) keep_player(record, collection, places, kept);
    for (const tune::TuneRecord& record : records)
        for (const std::string& text : record.tags) {
            const std::string folded = tune::fold_tag(text);
            kept.tags.try_emplace(folded, text);
            kept.tunes_tagged.insert({places.at(record.own.value), folded});
        }
    for (const collection::TuneMark& mark : collection.marks())
        if (const auto place = place_of(collection, places, mark.id); place && mark.count)
            kept.counts[*place] = *mark.count;
    for (const collection::Alias& alias : collection.aliases())
        if (const auto place = place_of(collection, places, alias.tune))
            kept.aliases[alias.folded] = {alias.text, *place};
    std::int64_t said = 0;
    for (const collection::Verdict& verdict : collection.verdicts()) {
        const auto one = places.find(verdict.one.value), other = places.find(verdict.other.value);
        if (one == places.end() || other == places.end()) continue;
        kept.verdicts[std::minmax(one->second, other->second)] = {verdict.is_same, ++said};
    }
    for (const tune::TuneRecord& record : records) {
        if (record.rhythm && record.rhythm->basis == tune::Basis::said)
            kept.rhythms[places.at(record.own.value)] = {record.rhythm->value, ++said};
        if (record.key && record.key_basis == tune::Basis::said)
            kept.keys[places.at(record.own.value)] = {*record.key, ++said};
    }
    return kept;
}

}  // namespace

std::string carried_json(const collection::Collection& collection, collection::Selection which,
                         std::string_view title) {
    which.settings = true;
    which.limit = std::nullopt;
    which.sort = collection::Sort::file;
    std::vector<tune::TuneRecord> records = collection.select_tunes(which).rows;
    std::map<std::string, FileText> files;
    std::vector<tune::TuneRecord> carried;
    // By file, then line: so the engine will number them.
    std::stable_sort(records.begin(), records.end(), [](const tune::TuneRecord& a, const tune::TuneRecord& b) {
        return a.file != b.file ? a.file < b.file : a.line < b.line;
    });
    Places places;
    for (const tune::TuneRecord& record : records) {
        const auto kept = collection.abc_of(record.setting);
        if (!kept || kept->text.empty()) continue;
        files[record.file].add(kept->text, record.line);
        places[record.own.value] = static_cast<people::TuneNumber>(places.size()) + 1;
        carried.push_back(record);
    }
    Json json{{"version", 1}, {"title", title}, {"files", Json::array()}};
    for (const auto& [name, file] : files) json["files"].push_back({{"name", name}, {"text", file.text()}});
    json["kept"] = Json::parse(write_kept(kept_of(collection, places, carried)));
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::optional<std::string> with_library(std::string_view built, std::string_view library) {
    const std::size_t begin = built.find(kBegin);
    if (begin == std::string_view::npos) return std::nullopt;
    const std::size_t end = built.find(kEnd, begin);
    if (end == std::string_view::npos) return std::nullopt;
    std::string page(built.substr(0, begin + kBegin.size()));
    page.reserve(built.size() + library.size());
    for (const char sign : library) {
        if (sign == '<')
            page += "\\u003c";  // nothing in a script element may end it
        else
            page += sign;
    }
    page += built.substr(end);
    return page;
}

}  // namespace page
