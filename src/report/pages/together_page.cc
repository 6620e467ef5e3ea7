#include "report/pages/together_page.h"

#include <fmt/format.h>

#include "report/words/json.h"
#include "report/words/words.h"

namespace report {

namespace {

constexpr std::size_t kNotesShown = 10;
constexpr std::size_t kGroupsShown = 5;

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

// `Ina (C5) and Bo`: what each learns, where it is not all of the notes.
std::string learners_in_words(const answers::TogetherAnswer& page, const planner::SharedNotes& shared) {
    std::string words;
    for (std::size_t at = 0; at < shared.learners.size(); ++at) {
        const planner::Member& member = page.members[shared.learners[at]];
        const music::NoteSet lacking = shared.notes.without(member.have);
        words += (at == 0 ? "" : at + 1 == shared.learners.size() ? " and " : ", ") + member.name;
        if (lacking != shared.notes) words += " (" + note_list(lacking) + ")";
    }
    return words;
}

std::string advice(const answers::TogetherAnswer& page) {
    if (page.tunes == 0) return "There is no tune to look at.";
    if (page.found.notes.empty() && page.found.groups.empty())
        return fmt::format("Not even {} more notes would open a tune for everyone.", planner::kMostInGroup);
    if (page.found.notes.empty()) return "No single note would open a tune for everyone; these together would.";
    const planner::SharedNotes& best = page.found.notes.front();
    const std::string note = note_list(best.notes);
    const std::string tunes = counted(static_cast<std::int64_t>(best.opens.size()), "tune", "tunes");
    if (best.learners.size() == 1)
        return fmt::format("If {} learnt {}, {} more would open for everyone.", names_of(page, best.learners), note,
                           tunes);
    return fmt::format("No note that one of you alone lacks would open a tune for everyone. If {} learnt {}, {} would.",
                       names_of(page, best.learners), note, tunes);
}

Table table_of(const answers::TogetherAnswer& page, const std::vector<planner::SharedNotes>& found, const char* title,
               std::size_t most) {
    Table table{{{title}, {"who learns it", Fit::wrapped, 14}, {"opens"}, {"for example", Fit::cut, 20}}, {}};
    for (std::size_t at = 0; at < std::min(found.size(), most); ++at)
        table.rows.push_back({Cell(Notes{found[at].notes}), Cell(learners_in_words(page, found[at])),
                              Cell(static_cast<std::int64_t>(found[at].opens.size())),
                              Cell(titles_of(page, found[at].opens, kTitlesPerNote))});
    return table;
}

}  // namespace

Document describe(const answers::TogetherAnswer& page) {
    Document document;
    document.blocks.emplace_back(
        Title{counted(static_cast<std::int64_t>(page.members.size()), "player", "players") + " together"});
    Table players{
        {{"player", Fit::wrapped, 12}, {"notes"}, {"tunes alone"}, {"lacks of what others have", Fit::wrapped, 20}},
        {}};
    music::NoteSet all;
    for (const planner::Member& member : page.members) all = all | member.have;
    for (std::size_t at = 0; at < page.members.size(); ++at) {
        const planner::Member& member = page.members[at];
        players.rows.push_back({Cell(member.name), Cell(std::int64_t{member.have.size()}), Cell(page.found.own[at]),
                                Cell(Notes{all.without(member.have)})});
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
    if (!page.found.notes.empty()) document.blocks.emplace_back(table_of(page, page.found.notes, "note", kNotesShown));
    if (!page.found.groups.empty())
        document.blocks.emplace_back(table_of(page, page.found.groups, "notes together", kGroupsShown));
    return document;
}

Document tabulate(const answers::TogetherAnswer& page) {
    Table notes{{{"note"}, {"learners"}, {"opens"}, {"titles"}}, {}};
    for (const auto* found : {&page.found.notes, &page.found.groups})
        for (const planner::SharedNotes& shared : *found)
            notes.rows.push_back({Cell(Notes{shared.notes}), Cell(names_of(page, shared.learners)),
                                  Cell(static_cast<std::int64_t>(shared.opens.size())),
                                  Cell(titles_of(page, shared.opens, shared.opens.size()))});
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
    const auto names = [&page](const planner::SharedNotes& shared) {
        Json learners = Json::array();
        for (const std::size_t learner : shared.learners) learners.push_back(page.members[learner].name);
        return learners;
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
    for (const planner::SharedNotes& shared : page.found.notes)
        json["notes"].push_back({{"note", note_list(shared.notes)},
                                 {"pitch", shared.notes.lowest()},
                                 {"learners", names(shared)},
                                 {"opens", shared.opens.size()},
                                 {"ids", ids(shared.opens)}});
    json["groups"] = Json::array();
    for (const planner::SharedNotes& shared : page.found.groups)
        json["groups"].push_back({{"notes", note_names(shared.notes)},
                                  {"learners", names(shared)},
                                  {"opens", shared.opens.size()},
                                  {"ids", ids(shared.opens)}});
    return finish(json);
}

}  // namespace report
