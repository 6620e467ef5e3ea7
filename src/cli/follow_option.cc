#include "cli/follow_option.h"

#include <algorithm>

#include "answers/tune_named.h"
#include "answers/tune_shapes.h"
#include "answers/tunes_asked.h"
#include "cli/refusal_words.h"
#include "cli/terminal.h"

namespace cli {

namespace {

// Rows without --limit. Source: house choice.
constexpr std::int64_t kRowsShown = 10;

}  // namespace

void FollowOption::add_to(CLI::App& command) {
    command
        .add_option("--after", first_,
                    "what goes well after TUNE in a set, the best first: rhythm, key, how the two join, new notes, "
                    "opening and range are told of each")
        ->type_name("TUNE");
}

report::FollowPage FollowOption::answer(const collection::Collection& library, const FilterOptions& typed,
                                        const ListOptions& list) const {
    const answers::Filter filter = typed.filter();
    const answers::TunesAsked asked(library, filter);
    collection::Selection selection = asked.selection();
    tell_left_out(asked.left_out());
    if (selection.settings) throw Misuse("--after tells of tunes; leave out --settings");
    list.apply_to(selection);
    if (list.is_sorted()) throw Misuse("--after puts the best first; leave out --sort");
    const auto limit = static_cast<std::size_t>(selection.limit.value_or(kRowsShown));
    selection.limit.reset();
    const tune::TuneRecord record = answers::tune_named(library, *first_);
    report::FollowPage page;
    const auto first = library.outline_of(record.setting);
    const auto shape = first ? repertoire::shape_of(record, *first) : std::nullopt;
    if (!shape) throw Misuse("--after: \"" + *first_ + "\" has no note, so nothing can follow its last one");
    page.first = *shape;
    const collection::Answer answer = library.select_tunes(selection);
    page.scraps = answer.back_without("scraps");
    page.left_out = answer.left_out - page.scraps;
    page.why = asked.sieves_of(answer);
    const std::vector<repertoire::TuneShape> candidates = answers::shapes_of(library, answer.rows);
    const repertoire::Followers followers = repertoire::rank_followers(page.first, candidates);
    page.matched = static_cast<std::int64_t>(followers.best.size());
    page.other_rhythm = followers.other_rhythm;
    page.same_opening = followers.same_opening;
    for (std::size_t at = 0; at < std::min(limit, followers.best.size()); ++at)
        page.rows.push_back({candidates[followers.best[at].tune], followers.best[at].follow});
    return page;
}

}  // namespace cli
