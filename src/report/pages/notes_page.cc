#include "report/pages/notes_page.h"

#include <fmt/format.h>

#include "music/pitch.h"
#include "report/words/json.h"
#include "report/words/words.h"

namespace report {

namespace {

std::string name_of(const answers::NotesAnswer& page, int lead) {
    return page.by_name ? music::to_string(music::spell(lead % 12)) : music::to_string(music::spell_midi(lead));
}

std::vector<std::string> names_of(const answers::NotesAnswer& page, const music::NoteSet& leads) {
    std::vector<std::string> names;
    for (const int lead : leads.midi_numbers()) names.push_back(name_of(page, lead));
    return names;
}

std::string in_words(const answers::NotesAnswer& page, const music::NoteSet& leads) {
    std::string words;
    for (const std::string& name : names_of(page, leads)) words += (words.empty() ? "" : " ") + name;
    return words;
}

std::string counted_notes(const answers::NotesAnswer& page, std::int64_t number) {
    return page.by_name ? counted(number, "name", "names") : counted(number, "note", "notes");
}

std::string had_in_words(planner::Had had) {
    if (had == planner::Had::in_part) return "in part";
    return had == planner::Had::yes ? "yes" : "";
}

std::string_view proof_token(bool is_proven) { return is_proven ? "optimal" : "gap"; }

std::string smallest_in_words(const answers::NotesAnswer& page, const answers::NotesAnswer::Smallest& smallest) {
    const planner::SmallestCover& found = smallest.found;
    std::string words = counted_notes(page, found.cover.notes.size()) + ", " +
                        counted(found.cover.met, "tune", "tunes") + ": " + in_words(page, found.cover.notes) + ".";
    if (!found.is_proven()) words += fmt::format(" Not proved smallest: there may be one of {}.", found.fewest);
    if (page.is_have_given)
        words += smallest.to_add.empty() ? " You have them all."
                                         : " Of these you lack " + in_words(page, smallest.to_add) + ".";
    return words;
}

void add_smallest(const answers::NotesAnswer& page, Document& document) {
    if (page.smallest.empty()) return;
    document.blocks.emplace_back(Heading{page.by_name ? "The fewest names that give" : "The fewest notes that give"});
    Particulars lines;
    bool all_proven = true;
    for (const answers::NotesAnswer::Smallest& smallest : page.smallest) {
        lines.lines.emplace_back(fmt::format("{} %", smallest.percent), smallest_in_words(page, smallest));
        all_proven = all_proven && smallest.found.is_proven();
    }
    document.blocks.emplace_back(std::move(lines));
    if (all_proven) document.blocks.emplace_back(Paragraph{"Proved: no fewer reach these shares."});
}

void add_best_start(const answers::NotesAnswer& page, Document& document) {
    if (!page.best_start) return;
    const planner::CoverAnswer& found = page.best_start->found;
    document.blocks.emplace_back(
        Heading{"The best beginning of " + counted_notes(page, page.best_start->count) +
                (page.is_have_given ? ", from nothing (whatever you have)" : ", from nothing")});
    const planner::Cover& best = found.covers.front();
    if (best.met == 0) {
        document.blocks.emplace_back(Paragraph{(found.is_proven() ? "No " : "Nothing was found: no ") +
                                               counted_notes(page, page.best_start->count) + " open a tune."});
        return;
    }
    document.blocks.emplace_back(
        Paragraph{in_words(page, best.notes) + ": opens " + counted(best.met, "tune", "tunes") + "."});
    if (found.covers.size() > 1)
        document.blocks.emplace_back(Paragraph{(!found.is_finished                ? "Next best found: "
                                                : found.covers[1].met == best.met ? "As good: "
                                                                                  : "Next best: ") +
                                               in_words(page, found.covers[1].notes) + ": opens " +
                                               counted(found.covers[1].met, "tune", "tunes") + "."});
    document.blocks.emplace_back(Paragraph{found.is_proven()
                                               ? std::string("Proved: no others open more.")
                                               : fmt::format("Not proved best: none can open more than {}.",
                                                             counted(found.upper_bound, "tune", "tunes"))});
}

void add_idle(const answers::NotesAnswer& page, Document& document) {
    music::NoteSet idle, rare;
    for (const planner::NoteWorth& note : page.notes) {
        if (note.uses == 0)
            idle.add(note.lead);
        else if (note.uses * 100 <= page.tunes)
            rare.add(note.lead);  // Source: house choice: one tune in a hundred is hardly one
    }
    if (!idle.empty()) document.blocks.emplace_back(Paragraph{"Not one tune needs: " + in_words(page, idle) + "."});
    if (!rare.empty())
        document.blocks.emplace_back(
            Paragraph{"Can wait, needed by no more than one tune in a hundred: " + in_words(page, rare) + "."});
}

}  // namespace

Document describe(const answers::NotesAnswer& page) {
    Document document;
    document.blocks.emplace_back(Title{"What each note gives", true});
    document.blocks.emplace_back(Paragraph{page.have.empty() ? "With no notes at all:"
                                                             : "With " + counted(page.have.size(), "note", "notes") +
                                                                   ": " + note_list(page.have)});
    document.blocks.emplace_back(
        Paragraph{fmt::format("{} of {} fit now ({:.1f} %).", page.open_now, counted(page.tunes, "tune", "tunes"),
                              100 * share_of(page.open_now, page.tunes))});
    describe_out_of_reach(page.out_of_reach, page.reach, document);
    if (page.without_notes > 0)
        document.blocks.emplace_back(
            Paragraph{counted(page.without_notes, "tune has no notes and stays", "tunes have no notes and stay") +
                      " out of the count."});
    if (page.tunes == 0) {
        document.blocks.emplace_back(Paragraph{"There is no tune to count."});
        return document;
    }
    document.blocks.emplace_back(Break{});
    Table table{{{"note"}, {"had"}, {"used by"}, {"of all"}, {"lost without it"}, {"opens now"}}, {}};
    for (const planner::NoteWorth& note : page.notes)
        table.rows.push_back({Cell(name_of(page, note.lead)), Cell(had_in_words(note.had)), Cell(note.uses),
                              Cell(Share{share_of(note.uses, page.tunes)}), Cell(note.lost), Cell(note.opens)});
    document.blocks.emplace_back(std::move(table));
    document.blocks.emplace_back(Break{});
    document.blocks.emplace_back(
        Paragraph{page.by_name ? "Most used first; among equals from C up. A name stands for all its octaves."
                               : "Most used first; among equals the lower note."});
    add_idle(page, document);
    add_smallest(page, document);
    add_best_start(page, document);
    return document;
}

Document tabulate(const answers::NotesAnswer& page) {
    Table table{{{"note"}, {"have"}, {"uses"}, {"share"}, {"lost"}, {"opens"}}, {}};
    for (const planner::NoteWorth& note : page.notes) {
        const std::string had = note.had == planner::Had::no ? "no" : had_in_words(note.had);
        table.rows.push_back({Cell(name_of(page, note.lead)), Cell(had), Cell(note.uses),
                              Cell(Share{share_of(note.uses, page.tunes)}), Cell(note.lost), Cell(note.opens)});
    }
    return {{std::move(table)}};
}

std::string as_json(const answers::NotesAnswer& page) {
    Json json;
    json["version"] = 1;
    json["have"] = note_names(page.have);
    json["tunes"] = page.tunes;
    json["open_now"] = page.open_now;
    json["without_notes"] = page.without_notes;
    json["out_of_reach"] = page.out_of_reach;
    json["by"] = page.by_name ? "name" : "pitch";
    json["notes"] = Json::array();
    for (const planner::NoteWorth& note : page.notes)
        json["notes"].push_back({{"note", name_of(page, note.lead)},
                                 {"have", note.had == planner::Had::yes},
                                 {"have_part", note.had == planner::Had::in_part},
                                 {"uses", note.uses},
                                 {"lost", note.lost},
                                 {"opens", note.opens}});
    json["smallest"] = Json::array();
    for (const answers::NotesAnswer::Smallest& smallest : page.smallest) {
        const planner::SmallestCover& found = smallest.found;
        json["smallest"].push_back({{"percent", smallest.percent},
                                    {"tunes", smallest.tunes},
                                    {"notes", names_of(page, found.cover.notes)},
                                    {"count", found.cover.notes.size()},
                                    {"opens", found.cover.met},
                                    {"fewest", found.fewest},
                                    {"proof", proof_token(found.is_proven())},
                                    {"to_add", names_of(page, smallest.to_add)}});
    }
    if (page.best_start) {
        const planner::CoverAnswer& found = page.best_start->found;
        Json next = nullptr;
        if (found.covers.size() > 1)
            next = {{"notes", names_of(page, found.covers[1].notes)},
                    {"opens", found.covers[1].met},
                    {"proof", proof_token(found.is_finished)}};
        json["best_start"] = {
            {"count", page.best_start->count},         {"notes", names_of(page, found.covers.front().notes)},
            {"opens", found.covers.front().met},       {"upper_bound", found.upper_bound},
            {"proof", proof_token(found.is_proven())}, {"next", std::move(next)}};
    }
    return finish(json);
}

}  // namespace report
