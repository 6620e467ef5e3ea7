// `gamut notes`: what each note is worth, and which few give most.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "answers/tunes_asked.h"
#include "cli/commands.h"
#include "cli/filter_options.h"
#include "cli/interrupt.h"
#include "cli/limit_options.h"
#include "cli/refusal_words.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"
#include "cli/write.h"
#include "library/library.h"
#include "planner/cover.h"
#include "planner/note_worth.h"
#include "report/notes_page.h"

namespace cli {

namespace {

// Every note name in all its octaves is one group.
planner::NoteGroups names_as_groups() {
    planner::NoteGroups groups;
    for (int name = 0; name < 12; ++name) {
        music::NoteSet notes;
        for (int note = name; note < music::kMidiNotes; note += 12) notes.add(note);
        groups.join(notes, 1);
    }
    return groups;
}

class NotesCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    std::optional<std::string> have_;
    std::string by_ = "pitch";
    std::vector<int> percents_{50, 80, 90, 95};
    std::optional<std::int64_t> best_start_;
    LimitOptions limits_;
    std::string library_;
    FilterOptions filter_;
    Format format_;
};

void NotesCommand::add_to(CLI::App& command) {
    command.add_option("--have", have_, "the notes you have, such as \"G:major&D:major A3..B5\"")->type_name("NOTES");
    command.add_option("--by", by_, "pitch: every note by itself (default); name: a note name in all octaves as one")
        ->type_name("pitch|name");
    command
        .add_option("--percent", percents_,
                    "the fewest notes that give N % of the tunes; several are allowed (default: 50 80 90 95)")
        ->type_name("N");
    command
        .add_option("--best-start", best_start_,
                    "the K notes (with --by name: names) that open most tunes from nothing")
        ->type_name("K");
    limits_.add_to(command);
    filter_.add_to(command, library_);
    add_format(command, format_);
    command.footer("Example:  gamut notes --have \"G:major&D:major A3..B5\"\n--csv gives the table of notes alone.");
}

int NotesCommand::run() {
    if (by_ != "pitch" && by_ != "name") throw Misuse("--by takes pitch or name, not \"" + by_ + "\"");
    for (const int percent : percents_)
        if (percent < 1 || percent > 100)
            throw Misuse("--percent takes a number from 1 to 100, not " + std::to_string(percent));
    if (best_start_ && *best_start_ <= 0) throw Misuse("--best-start takes a number from 1 up");

    limits_.check();
    report::NotesPage page;
    const answers::Filter filter = filter_.filter();
    const library::Library library = library::Library::open_existing(library_file(library_));
    const answers::TunesAsked asked(library, filter);
    const auto of_players = asked.have_of_players();
    page.is_have_given = have_ || of_players;
    if (have_)
        page.have = asked.notes(answers::Part::have, *have_);
    else if (of_players)
        page.have = *of_players;
    page.by_name = by_ == "name";
    collection::Selection selection = asked.selection_to_learn();
    tell_left_out(asked.left_out());
    selection.nearest_to = page.have;
    std::vector<planner::Wanted> wanted;
    const collection::NotesAnswer answer = library.select_notes(selection);
    page.reach = asked.reach();
    page.out_of_reach = page.reach.is_given() ? answer.back_without("fits") : 0;
    for (const collection::TuneNotes& tune : answer.rows) {
        if (tune.needed.empty())
            ++page.without_notes;
        else
            wanted.push_back({tune.id, tune.needed, 1});
        if (!tune.needed.empty() && tune.needed.is_within(page.have)) ++page.open_now;
    }
    page.tunes = static_cast<std::int64_t>(wanted.size());
    const planner::NoteGroups groups = page.by_name ? names_as_groups() : planner::NoteGroups();
    page.notes = planner::worth_of_notes(wanted, page.have, groups);

    music::NoteSet had;
    std::int64_t needed_notes = 0;
    for (const planner::NoteWorth& note : page.notes) {
        if (note.had == planner::Had::yes) had.add(note.lead);
        if (note.uses > 0) ++needed_notes;
    }
    if (page.tunes > 0 && best_start_.value_or(0) > needed_notes)
        throw Misuse("--best-start " + std::to_string(*best_start_) + ": these tunes need only " +
                     std::to_string(needed_notes) + (page.by_name ? " note names" : " notes"));

    const Interrupt interrupt;
    planner::Limits limits;
    limits.stop = &interrupt.has_come();
    limits_.apply_to(limits);
    const planner::Deadline deadline(limits);
    const std::vector<planner::Demand> demands = planner::needs_of(wanted, groups);
    for (const int percent : percents_) {
        if (page.tunes == 0) break;
        const std::int64_t tunes = (percent * page.tunes + 99) / 100;
        const planner::SmallestCover found = planner::smallest_cover(demands, tunes, limits, deadline);
        page.smallest.push_back({percent, tunes, found, found.cover.notes.without(had)});
    }
    if (best_start_ && page.tunes > 0)
        page.best_start = {*best_start_, planner::best_cover(demands, {static_cast<std::size_t>(*best_start_), {}, 2},
                                                             limits, deadline)};
    const bool is_stopped = interrupt.has_come();
    write(format_, page);
    if (is_stopped) write_notice("gamut: stopped; these are the best found so far\n");
    return page.tunes > 0 && !is_stopped ? kDone : kDoneInPart;
}

}  // namespace

std::unique_ptr<Command> notes_command() { return std::make_unique<NotesCommand>(); }

}  // namespace cli
