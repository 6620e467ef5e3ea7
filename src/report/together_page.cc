#include "report/together_page.h"

#include <fmt/format.h>

#include "report/json.h"
#include "report/words.h"

namespace report {

namespace {

constexpr std::size_t kNotesShown = 10;

std::string names_of(const answers::TogetherAnswer& page, const std::vector<std::size_t>& learners) {
    std::string names;
    for (std::size_t at = 0; at < learners.size(); ++at)
        names += (at == 0 ? "" : at + 1 == learners.size() ? " and " : ", ") + page.members[learners[at]].name;
    return names;
}

std::string titles_of(const answers::TogetherAnswer& page, const std::vector<tune::TuneId>& ids, std::size_t most) {
    std::string titles;
    for (std::size_t at = 0; at < std::min(ids.size(), most); ++at)
        titles += (at ? "; " : "") + page.titles.at(ids[at]);
    if (ids.size() > most) titles += fmt::format("; and {} more", ids.size() - most);
    return titles;
}

std::string advice(const answers::TogetherAnswer& page) {
    if (page.found.notes.empty()) return "No single note would open a tune for everyone.";
    const planner::SharedNote& best = page.found.notes.front();
    const std::string note = note_or_dash(best.midi);
    const std::string tunes = counted(static_cast<std::int64_t>(best.opens.size()), "tune", "tunes");
    if (best.learners.size() == 1)
        return fmt::format("If {} learnt {}, {} more would open for everyone.", names_of(page, best.learners), note,
                           tunes);
    return fmt::format("No note that one of you alone lacks would open a tune for everyone. If {} learnt {}, {} would.",
                       names_of(page, best.learners), note, tunes);
}

}  // namespace

Document describe(const answers::TogetherAnswer& page) {
    Document document;
    document.blocks.emplace_back(
        Heading{counted(static_cast<std::int64_t>(page.members.size()), "player", "players") + " together"});
    Table players{{{"player", true, 12, true},
                   {"notes", false},
                   {"tunes alone", false},
                   {"lacks of what others have", true, 20, true}},
                  {}};
    music::NoteSet all;
    for (const planner::Member& member : page.members) all = all | member.have;
    for (std::size_t at = 0; at < page.members.size(); ++at) {
        const planner::Member& member = page.members[at];
        players.rows.push_back({Cell(member.name), Cell(std::int64_t{member.have.size()}), Cell(page.found.own[at]),
                                Cell(note_list(all.without(member.have)))});
    }
    document.blocks.emplace_back(std::move(players));
    Particulars lines;
    lines.lines.emplace_back("in common",
                             note_list(page.found.common) + fmt::format(" ({})", page.found.common.size()));
    lines.lines.emplace_back("for everyone",
                             fmt::format("{} of {}", page.found.now.size(), counted(page.tunes, "tune", "tunes")));
    if (!page.found.now.empty()) lines.lines.emplace_back("these are", titles_of(page, page.found.now, kTunesListed));
    if (page.found.out_of_reach > 0)
        lines.lines.emplace_back("never", fmt::format("{}: a note is not on everyone's instrument",
                                                      counted(page.found.out_of_reach, "tune", "tunes")));
    document.blocks.emplace_back(std::move(lines));
    document.blocks.emplace_back(Heading{"The next note for everyone"});
    document.blocks.emplace_back(Paragraph{advice(page)});
    if (page.found.notes.empty()) return document;
    Table notes{{{"note", false}, {"who learns it", true, 14, true}, {"opens", false}, {"for example", true, 20}}, {}};
    for (std::size_t at = 0; at < std::min(page.found.notes.size(), kNotesShown); ++at) {
        const planner::SharedNote& note = page.found.notes[at];
        notes.rows.push_back({Cell(note_or_dash(note.midi)), Cell(names_of(page, note.learners)),
                              Cell(static_cast<std::int64_t>(note.opens.size())),
                              Cell(titles_of(page, note.opens, kTitlesPerNote))});
    }
    document.blocks.emplace_back(std::move(notes));
    return document;
}

Document tabulate(const answers::TogetherAnswer& page) {
    Table notes{{{"note", false}, {"learners", false}, {"opens", false}, {"titles", false}}, {}};
    for (const planner::SharedNote& note : page.found.notes)
        notes.rows.push_back({Cell(note_or_dash(note.midi)), Cell(names_of(page, note.learners)),
                              Cell(static_cast<std::int64_t>(note.opens.size())),
                              Cell(titles_of(page, note.opens, note.opens.size()))});
    Document document;
    document.blocks.emplace_back(std::move(notes));
    return document;
}

std::string as_json(const answers::TogetherAnswer& page) {
    const auto ids = [](const std::vector<tune::TuneId>& tunes) {
        Json json = Json::array();
        for (const tune::TuneId id : tunes) json.push_back(id.value);
        return json;
    };
    Json json;
    json["version"] = 1;
    json["players"] = Json::array();
    for (std::size_t at = 0; at < page.members.size(); ++at)
        json["players"].push_back({{"name", page.members[at].name},
                                   {"notes", note_names(page.members[at].have)},
                                   {"tunes", page.found.own[at]}});
    json["common"] = note_names(page.found.common);
    json["tunes"] = page.tunes;
    json["open_now"] = page.found.now.size();
    json["ids"] = ids(page.found.now);
    json["out_of_reach"] = page.found.out_of_reach;
    json["notes"] = Json::array();
    for (const planner::SharedNote& note : page.found.notes) {
        Json learners = Json::array();
        for (const std::size_t learner : note.learners) learners.push_back(page.members[learner].name);
        json["notes"].push_back({{"note", note_or_dash(note.midi)},
                                 {"pitch", note.midi},
                                 {"learners", std::move(learners)},
                                 {"opens", note.opens.size()},
                                 {"ids", ids(note.opens)}});
    }
    return finish(json);
}

}  // namespace report
