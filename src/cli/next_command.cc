// `gamut next`: what to learn next, a ladder to a tune, or what to play again.
#include <algorithm>
#include <charconv>
#include <iterator>
#include <limits>
#include <map>

#include "answers/learning.h"
#include "answers/player_twins.h"
#include "base/utf8.h"
#include "cli/commands.h"
#include "cli/day_option.h"
#include "cli/player_named.h"
#include "cli/tune_named.h"
#include "library/library.h"
#include "planner/order_notes.h"
#include "report/csv.h"
#include "report/ladder_page.h"
#include "report/next_page.h"
#include "report/review_page.h"
#include "report/words.h"

namespace cli {

namespace {

// Without --limit. Source: house choice; a few, as a warm-up.
constexpr std::int64_t kReviewsShown = 5;

// Tunes named that a note opens. Source: house choice; two titles fill a line.
constexpr std::size_t kExamples = 2;

std::string part_names() {
    std::string names;
    for (std::size_t at = 0; at < repertoire::kLoadParts; ++at)
        names += std::string(repertoire::to_string(static_cast<repertoire::LoadPart>(at))) + " ";
    return names + "wish asked";
}

const tune::PlayerTune* said_of(const collection::PlayerRecord& player, tune::TuneId id) {
    const auto found = std::find_if(player.tunes.begin(), player.tunes.end(),
                                    [id](const tune::PlayerTune& tune) { return tune.tune == id; });
    return found == player.tunes.end() ? nullptr : &*found;
}

template <typename Page>
void write_page(const Format& format, const Page& page, report::Document (*describe)(const Page&),
                report::Document (*tabulate)(const Page&), std::string (*as_json)(const Page&)) {
    if (format.json)
        write_answer(as_json(page));
    else if (format.csv)
        write_answer(report::render_csv(tabulate(page)));
    else
        write_answer(describe(page));
}

// What opens most of these for somebody who has `have`; nothing where nothing waits.
std::optional<planner::Step> first_step(const std::vector<tune::TuneRecord>& records, const music::NoteSet& have) {
    std::vector<planner::Wanted> wanted;
    for (const tune::TuneRecord& record : records)
        if (!record.needed.empty()) wanted.push_back({record.id, record.needed, 1});
    planner::Goal goal;
    goal.have = have;
    goal.max_steps = 1;
    goal.runners_up = 0;
    goal.limits.max_seconds = std::numeric_limits<double>::infinity();  // by states alone: the same everywhere
    const planner::Plan plan = planner::plan_path(wanted, goal);
    return plan.steps.empty() ? std::nullopt : std::optional(plan.steps.front());
}

// The rhythm asked for, where no tune there is has it.
std::optional<std::string> rhythm_of_no_tune(const std::optional<std::string>& asked,
                                             const collection::Answer& answer) {
    const auto sieve = std::find_if(answer.why.begin(), answer.why.end(),
                                    [](const collection::LeftOut& out) { return out.filter == "rhythm"; });
    if (!asked || sieve == answer.why.end() || sieve->fails < answer.matched + answer.left_out) return std::nullopt;
    return asked;
}

}  // namespace

CLI::App* NextCommand::add_to(CLI::App& program) {
    CLI::App* command = program.add_subcommand("next", "what a player should learn next, and what to play again");
    command->add_option("PLAYER", name_, "whose; gamut player add makes one")->required();
    command->add_option("--towards", towards_, "a short ladder of tunes to this one, each adding little")
        ->type_name("TUNE");
    command->add_flag("--review", is_review_, "what to play again today, the least certain first");
    command->add_flag("--short", is_short_, "for a bad week: fewest bars to learn first");
    command
        ->add_option("--weigh", weigh_,
                     "points for one of PART, such as bars=3; PART is " + part_names() + "; 0 leaves it out")
        ->type_name("PART=N")
        ->allow_extra_args(false);
    command->add_option("--limit", limit_, "with --review: at most N tunes (default 5)")->type_name("N");
    command->add_option("--today", today_, "the day it is asked for (default: by the clock)")->type_name("DATE");
    ways_.add_to(*command);
    filter_.add_to(*command, library_);
    filter_.add_scraps(*command);
    add_format(*command, format_);
    command->footer(
        "Example:  gamut player add Ina --instrument whistle-d --notes D:major\n"
        "          gamut next Ina\n"
        "Tunes are put in order by what they take: notes and bars that are new, range, leaps, what the hand has to do, "
        "pace, and the rhythms of the last tunes. A bar is known when a known tune has it, in any key. Of the two "
        "others "
        "those of another rhythm are preferred. What is probably a tune the player has already is held back.\n"
        "--review: a tune comes back after 1, 3, 7, 14, 30 and 75 days, one gap further each time it goes well and "
        "from the first one when it does not. That is common practice without a source; studies (Cepeda and others, "
        "Psychological Science 19, 2008; Kang and others, Psychonomic Bulletin & Review 2014) show that gaps help and "
        "that growing ones serve, but none of them counted tunes.");
    return command;
}

repertoire::LoadWeights NextCommand::weights() const {
    repertoire::LoadWeights weights;
    for (const std::string& text : weigh_) {
        const std::size_t sign = std::min(text.find('='), text.size());
        const std::string name = text.substr(0, sign);
        const char* const end = text.data() + text.size();
        int number = -1;
        const auto read = std::from_chars(text.data() + std::min(sign + 1, text.size()), end, number);
        if (sign == text.size() || read.ec != std::errc() || read.ptr != end || number < 0 ||
            number > repertoire::kMostWeight)
            throw Misuse("--weigh takes PART=N, N from 0 to " + std::to_string(repertoire::kMostWeight) + ", not \"" +
                         text + "\"");
        const auto part = repertoire::parse_load_part(name);
        if (!part && name != "wish" && name != "asked")
            throw Misuse("--weigh: \"" + name + "\" is no part; use " + part_names());
        (part ? weights.of[static_cast<std::size_t>(*part)] : name == "wish" ? weights.wish : weights.asked) = number;
    }
    return weights;
}

void NextCommand::check() const {
    if (is_review_ && (towards_ || is_short_ || !weigh_.empty()))
        throw Misuse("--review asks what to play again; leave out --towards, --short and --weigh");
    if (towards_ && is_short_) throw Misuse("--towards and --short ask two questions; give one of them");
    if (ways_.is_given() && (is_review_ || towards_))
        throw Misuse("--ways weighs tunes to learn next; leave it out with --review and --towards");
    if (limit_ && !is_review_) throw Misuse("--limit goes with --review; gamut next names three tunes");
    if (limit_ && *limit_ < 0) throw Misuse("--limit takes a number from 0 up");
    if (filter_.asks_for_missing()) throw Misuse("gamut next names what is missing by itself; leave out --missing");
}

// Tunes the player could come to play: within the reach of the instrument, of the filters, and of whoever plays along.
collection::Selection NextCommand::selection(const collection::PlayerRecord& player, const music::NoteSet& have) const {
    collection::Selection selection = filter_.selection_without_notes();
    if (selection.settings) throw Misuse("gamut next counts tunes; leave out --settings");
    music::NoteSet reach = music::every_note();
    if (const instruments::Instrument* own = instrument_of(player.player)) reach = reach & own->note_set();
    if (const instruments::Instrument* other = filter_.instrument()) reach = reach & other->note_set();
    for (const planner::Member& member : filter_.members()) reach = reach & member.have;
    if (reach != music::every_note()) selection.fits = reach;
    selection.nearest_to = have;
    return selection;
}

int NextCommand::run() {
    check();
    day_of("--today", today_);  // refused also where it is not asked for
    filter_.ask_for(name_);
    const repertoire::LoadWeights weighed = weights();
    const library::Library library = library::Library::open_existing(library_file(library_));
    const collection::PlayerRecord player = player_named(library, name_);
    if (is_review_) return review(library, player);
    const music::NoteSet have = some_notes_of(library, player);
    const collection::Answer answer = library.select_tunes(selection(player, have));
    return towards_ ? climb(library, player, have, answer, weighed) : choose(library, player, have, answer, weighed);
}

int NextCommand::choose(const collection::Collection& library, const collection::PlayerRecord& player,
                        const music::NoteSet& have, const collection::Answer& answer,
                        const repertoire::LoadWeights& weights) {
    report::NextPage page;
    page.player = player.player.name.text;
    page.instrument = ways_.judged(instrument_of(player.player));
    page.have = have;
    page.goal.is_short = is_short_;
    page.goal.weights = weights;
    page.left_out = answer.left_out;
    page.why = filter_.sieves_of(answer);
    std::set<tune::TuneId> wishes;
    std::vector<tune::TuneRecord> fresh;  // in no state, and wanted
    for (const tune::TuneRecord& record : answer.rows) {
        const tune::PlayerTune* said = said_of(player, record.id);
        const auto state = said ? tune::state_of(*said) : std::nullopt;
        if (state == tune::TuneState::learning) page.at_work.push_back(record);
        if (state || record.needed.empty()) continue;
        if (said && said->excluded) {
            ++page.unwanted;
            continue;
        }
        if (record.scrap && !filter_.asks_for_scraps() && !(said && said->wished)) {
            ++page.scraps;
            continue;
        }
        const music::NoteSet missing = record.needed.without(have);
        if (said && said->wished) {
            wishes.insert(record.id);
            if (!missing.empty()) page.far_wishes.push_back({record, missing});
        }
        page.within += missing.empty() ? 1 : 0;
        fresh.push_back(record);
    }
    const std::optional<planner::Step> step = first_step(fresh, have);
    if (step) {
        report::NextNote note{step->add, step->opens, {}};
        for (const tune::TuneId id : step->ids)
            if (const auto found =
                    std::find_if(fresh.begin(), fresh.end(), [id](const auto& one) { return one.id == id; });
                found != fresh.end() && note.examples.size() < kExamples)
                note.examples.push_back(report::title_of(*found));
        page.note = std::move(note);
    }
    page.is_note_first = page.within == 0;
    page.no_such_rhythm = rhythm_of_no_tune(filter_.selection_without_notes().rhythm, answer);
    const music::NoteSet reach = page.is_note_first && step ? have | step->add : have;
    std::erase_if(fresh, [&](const tune::TuneRecord& record) { return !record.needed.is_within(reach); });
    const answers::Learning learning = answers::learning_of(library, player, have, fresh);
    page.last_rhythms = learning.learner.last_rhythms;
    const repertoire::HandOf hand_of = [&](std::size_t tune) {
        return page.instrument == nullptr
                   ? std::nullopt
                   : answers::hand_for_a_note(library, learning.matters[tune].setting, *page.instrument);
    };
    answers::PlayerTwins twins(library, player);
    const repertoire::TwinOf twin_of = [&](std::size_t tune, std::span<const repertoire::Pick> so_far) {
        std::vector<const repertoire::TuneMatter*> offered;
        for (const repertoire::Pick& pick : so_far) offered.push_back(&learning.matters[pick.tune]);
        return twins.twin_of(learning.matters[tune], offered);
    };
    repertoire::NextPicks next =
        repertoire::pick_next(learning.matters, learning.learner, wishes, page.goal, hand_of, twin_of);
    for (repertoire::Pick& pick : next.picks)
        page.picks.push_back({fresh[learning.records[pick.tune]], std::move(pick)});
    for (const repertoire::HeldBack& held : next.held_back) {
        const tune::PlayerTune* said = said_of(player, held.twin);
        page.held_back.push_back({fresh[learning.records[held.tune]],
                                  library.tune_by_id(held.twin).value_or(tune::TuneRecord()),
                                  said ? tune::state_of(*said) : std::nullopt});
    }
    write_page(format_, page, report::describe_next, report::tabulate_next, report::next_json);
    return page.picks.empty() ? kDoneInPart : kDone;
}

int NextCommand::climb(const collection::Collection& library, const collection::PlayerRecord& player,
                       const music::NoteSet& have, const collection::Answer& answer,
                       const repertoire::LoadWeights& weights) const {
    const auto top = tune_named(library, *towards_);
    if (!top) return kDoneInPart;
    const tune::PlayerTune* said = said_of(player, top->id);
    if (said && tune::state_of(*said) == tune::TuneState::known)
        throw Misuse("--towards: " + player.player.name.text + " knows \"" + report::title_of(*top) + "\" already");
    std::vector<tune::TuneRecord> records;
    std::optional<std::size_t> target;
    for (const tune::TuneRecord& record : answer.rows) {
        const tune::PlayerTune* known = said_of(player, record.id);
        if (record.id == top->id)
            target = records.size();
        else if ((known && (tune::state_of(*known) || known->excluded)) || (record.scrap && !filter_.asks_for_scraps()))
            continue;
        records.push_back(record);
    }
    if (!target) {  // the filters are for its stones
        const instruments::Instrument* instrument = instrument_of(player.player);
        if (instrument != nullptr && !top->needed.is_within(instrument->note_set())) {
            write_notice("gamut: " +
                         base::printable("\"" + report::title_of(*top) + "\" needs " +
                                         report::note_list(top->needed.without(instrument->note_set())) + ", which " +
                                         instrument->title + " has not; no ladder leads there") +
                         "\n");
            return kDoneInPart;
        }
        target = records.size();
        records.push_back(*top);
    }
    const answers::Learning learning = answers::learning_of(library, player, have, records);
    const auto at = std::find(learning.records.begin(), learning.records.end(), *target);
    if (at == learning.records.end())
        throw Misuse("--towards: \"" + *towards_ + "\" has no note, so there is nothing to learn");
    report::LadderPage page;
    page.player = player.player.name.text;
    page.ladder = repertoire::find_ladder(learning.matters, static_cast<std::size_t>(at - learning.records.begin()),
                                          learning.learner, weights);
    for (const repertoire::Rung& rung : page.ladder.rungs) page.records.push_back(records[learning.records[rung.tune]]);
    write_page(format_, page, report::describe_ladder, report::tabulate_ladder, report::ladder_json);
    return kDone;
}

int NextCommand::review(const collection::Collection& library, const collection::PlayerRecord& player) const {
    report::ReviewPage page;
    page.player = player.player.name.text;
    page.today = day_of("--today", today_);
    std::vector<tune::PlayerTune> kept = player.tunes;
    if (filter_.narrows() || filter_.instrument() != nullptr) {
        collection::Selection selection = filter_.selection();
        std::set<tune::TuneId> passing;
        for (const collection::TuneNotes& tune : library.select_notes(selection).rows) passing.insert(tune.id);
        std::erase_if(kept, [&](const tune::PlayerTune& tune) { return !passing.contains(tune.tune); });
    }
    const repertoire::Reviews reviews = repertoire::review_all(kept, page.today);
    page.has_tunes = !reviews.due.empty() || !reviews.later.empty();
    page.due = reviews.due.size();
    const auto shown = std::min(reviews.due.size(), static_cast<std::size_t>(limit_.value_or(kReviewsShown)));
    const auto row_of = [&](const repertoire::Review& each) {
        const auto record = library.tune_by_id(kept[each.tune].tune);
        return report::ReviewRow{record.value_or(tune::TuneRecord()), each};
    };
    std::transform(reviews.due.begin(), reviews.due.begin() + static_cast<std::ptrdiff_t>(shown),
                   std::back_inserter(page.rows), row_of);
    if (reviews.due.empty() && !reviews.later.empty()) page.next.push_back(row_of(reviews.later.front()));
    write_page(format_, page, report::describe_review, report::tabulate_review, report::review_json);
    return page.has_tunes ? kDone : kDoneInPart;
}

}  // namespace cli
