// `gamut same`: which settings are one tune.
#include <algorithm>
#include <charconv>

#include "base/utf8.h"
#include "cli/commands.h"
#include "cli/twins.h"
#include "library/library.h"
#include "library/verdicts.h"
#include "report/csv.h"
#include "report/kin_page.h"
#include "report/listing.h"

namespace cli {

namespace {

// Its own id, by which a setting stays known whatever tune it belongs to; nothing, with a notice, when there is none.
// A title that several settings bear will do where `any_of_a_tune`, if they are all one tune.
std::optional<tune::TuneId> own_id_named(const library::Library& library, const std::string& which,
                                         bool any_of_a_tune) {
    std::int64_t id = 0;
    const auto [end, error] = std::from_chars(which.data(), which.data() + which.size(), id);
    if (error == std::errc() && end == which.data() + which.size() && library.setting_of_own({id}))
        return tune::TuneId{id};
    const std::vector<tune::TuneRecord> found = library.settings_titled(which);
    const std::string shown = "\"" + base::printable(which) + "\"";
    if (found.empty()) {
        write_notice("gamut: no tune has the id or title " + shown + "; gamut tunes --title WORD looks for a word\n");
        return std::nullopt;
    }
    const bool are_one = std::all_of(found.begin(), found.end(),
                                     [&](const tune::TuneRecord& record) { return record.id == found.front().id; });
    if (found.size() == 1 || (are_one && any_of_a_tune)) return found.front().own;
    report::Document document;
    report::Table table{{{"id", false}, {"title", true}, {"file", true}, {"line", false}}, {}};
    for (const tune::TuneRecord& record : found)
        table.rows.push_back({report::Cell(record.own.value), report::Cell(record.titles.front()),
                              report::Cell(record.file), report::Cell(std::int64_t{record.line})});
    document.blocks.emplace_back(std::move(table));
    write_notice(report::render_text(document, page_of_terminal()));
    throw Misuse(shown + " fits several; choose one by its id");
}

}  // namespace

CLI::App* SameCommand::add_to(CLI::App& program) {
    CLI::App* command =
        program.add_subcommand("same", "say that two settings are one tune, or list those that probably are");
    command->add_option("TUNE", which_, "two ids, titles, or parts of them; none: list what is probably one tune")
        ->expected(0, 2);
    command->add_flag("--not", is_not_, "say that they are not one tune");
    command->add_option("--limit", limit_, "of the list at most N pairs")->type_name("N");
    add_library(*command, library_);
    add_format(*command, format_);
    command->footer(
        "What you say is kept for ever, whatever is imported; saying the opposite takes it back.\n"
        "Example:  gamut same\n          gamut same 3 17");
    return command;
}

int SameCommand::run() {
    const std::filesystem::path file = library_file(library_);
    if (which_.empty()) {
        if (is_not_) throw Misuse("--not needs two tunes: which are not the same?");
        return list(library::Library::open_existing(file));
    }
    if (which_.size() != 2) throw Misuse("gamut same takes two tunes, or none");
    if (format_.csv) throw Misuse("--csv is for the list, without tunes");
    std::optional<tune::TuneId> one, other;
    {
        const library::Library library = library::Library::open_existing(file);
        one = own_id_named(library, which_[0], !is_not_);
        other = own_id_named(library, which_[1], !is_not_);
    }
    if (!one || !other) return kDoneInPart;
    if (*one == *other)
        throw Misuse("both words name setting " + std::to_string(one->value) + "; name two different ones");
    library::say_same(file, *one, *other, !is_not_);
    has_kept_ = true;
    const library::Library library = library::Library::open_existing(file);
    const auto first = library.setting_of_own(*one);
    const auto second = library.setting_of_own(*other);
    if (format_.json)
        write_answer(report::verdict_json(*first, *second, !is_not_));
    else
        write_answer(report::describe_verdict(*first, *second, !is_not_));
    return (first->id == second->id) != is_not_ ? kDone : kDoneInPart;
}

int SameCommand::list(const library::Library& library) const {
    if (limit_ && *limit_ < 0) throw Misuse("--limit takes a number from 0 up");
    const std::vector<Twin> twins = probable_twins(library);
    report::KinPage page;
    page.matched = static_cast<std::int64_t>(twins.size());
    for (const Twin& twin : twins) {
        if (limit_ && static_cast<std::int64_t>(page.pairs.size()) >= *limit_) break;
        page.pairs.push_back({*library.setting_of_own(twin.one), *library.setting_of_own(twin.other), twin.likeness});
    }
    if (format_.json)
        write_answer(report::kin_json(page));
    else if (format_.csv)
        write_answer(report::render_csv(report::tabulate_kin(page)));
    else
        write_answer(report::describe_kin(page));
    return kDone;
}

}  // namespace cli
