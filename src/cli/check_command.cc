// `gamut check`: what looks wrong in a collection.
#include <algorithm>
#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "answers/tunes_asked.h"
#include "answers/twins.h"
#include "cli/commands.h"
#include "cli/filter_options.h"
#include "cli/refusal_words.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"
#include "cli/write.h"
#include "library/library.h"
#include "music/note_set.h"
#include "report/check_page.h"
#include "report/kin_page.h"
#include "report/words.h"
#include "tune/oddity.h"

namespace cli {

namespace {

using report::CheckRow;
using tune::OddityKind;

std::string all_kinds() {
    std::string words;
    for (const OddityKind kind : tune::kOddityKinds)
        words += (words.empty() ? "" : " ") + std::string(tune::oddity_token(kind));
    return words;
}

std::set<OddityKind> kinds_of(const std::vector<std::string>& words) {
    std::set<OddityKind> kinds;
    for (const std::string& word : words) {
        const auto kind = tune::parse_oddity_kind(word);
        if (!kind) throw Misuse("--kind: \"" + word + "\" is unknown; use " + all_kinds());
        kinds.insert(*kind);
    }
    if (words.empty()) kinds.insert(tune::kOddityKinds.begin(), tune::kOddityKinds.end());
    return kinds;
}

base::Severity severity_of(const std::string& word) {
    if (const auto severity = base::parse_severity(word)) return *severity;
    throw Misuse("--severity: \"" + word + "\" is unknown; use error warning remark");
}

CheckRow row_of(const tune::TuneRecord& record, OddityKind kind, std::string message) {
    CheckRow row;
    row.tune = record.id.value;
    row.title = record.titles.empty() ? "" : record.titles.front();
    row.file = record.file;
    row.line = record.line;
    row.kind = kind;
    row.severity = base::Severity::remark;
    row.message = std::move(message);
    row.advice = tune::oddity_advice(kind);
    return row;
}

// The settings the filters leave; without a filter also what belongs to none.
struct Asked {
    bool is_filtered = false;
    std::set<tune::SettingId> settings;

    bool holds(std::optional<tune::SettingId> setting) const {
        return !is_filtered || (setting && settings.contains(*setting));
    }
};

void add_stored(const collection::Collection& library, const Asked& asked, std::vector<CheckRow>& rows) {
    for (const collection::FoundOddity& found : library.oddities())
        if (asked.holds(found.setting))
            rows.push_back({found.tune ? std::optional(found.tune->value) : std::nullopt, found.title, found.file,
                            found.oddity.line, found.oddity.column, found.oddity.kind, found.oddity.severity,
                            found.oddity.message, found.oddity.advice});
}

// Those that are probably one tune (tune/likeness.h); what is less alike is left to `gamut same`. Told of the later of
// the two, unless only the other was asked about.
void add_twins(const collection::Collection& library, const Asked& asked, std::vector<CheckRow>& rows) {
    for (const answers::Twin& twin : answers::probable_twins(library)) {
        auto one = library.setting_of_own(twin.one);
        auto other = library.setting_of_own(twin.other);
        if (!one || !other) continue;
        if (!asked.holds(other->setting)) std::swap(one, other);
        if (!asked.holds(other->setting)) continue;
        CheckRow row = row_of(*other, OddityKind::twin,
                              "Is " + report::likeness_in_words(twin.likeness) + " like " + tune::title_of(*one) +
                                  " (" + one->file + ":" + std::to_string(one->line) + ") and probably the same tune.");
        row.advice = "If it is: gamut same " + std::to_string(twin.one.value) + " " + std::to_string(twin.other.value) +
                     "; if not: gamut same --not " + std::to_string(twin.one.value) + " " +
                     std::to_string(twin.other.value) + ".";
        rows.push_back(std::move(row));
    }
}

// `selection` as it was asked; of each tune the setting that comes nearest is judged.
void add_out_of_reach(const collection::Collection& library, collection::Selection selection,
                      const music::NoteSet& reach, std::vector<CheckRow>& rows) {
    selection.nearest_to = reach;
    selection.sort = collection::Sort::file;
    for (const tune::TuneRecord& record : library.select_tunes(selection).rows)
        if (const music::NoteSet outside = record.needed.without(reach); !outside.empty())
            rows.push_back(row_of(record, OddityKind::out_of_reach,
                                  "Needs " + report::note_list(outside, tune::spelling_fifths(record)) + ", which " +
                                      (outside.size() == 1 ? "is" : "are") + " not among the notes given."));
}

class CheckCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    std::optional<music::NoteSet> reach_of(const answers::TunesAsked& asked) const;

    std::vector<std::string> kinds_;
    std::optional<std::string> severity_, reach_;
    std::optional<std::int64_t> limit_;
    bool all_ = false;
    bool strict_ = false;
    std::string library_;
    FilterOptions filter_;
    Format format_;
};

void CheckCommand::add_to(CLI::App& command) {
    command.add_option("--kind", kinds_, "only this kind; may be given again: " + all_kinds())
        ->type_name("KIND")
        ->allow_extra_args(false);
    command.add_option("--severity", severity_,
                       "error: only errors; warning: errors and warnings (default: remark, everything)");
    command
        .add_option("--reach", reach_,
                    "tell also which tunes need notes outside NOTES (without it: those of --instrument)")
        ->type_name("NOTES");
    command.add_option("--limit", limit_, "show at most N of each kind, count all")->type_name("N");
    command.add_flag("--all", all_,
                     "every place with advice; without it a screenful (--json and --csv always hold all)");
    command.add_flag("--strict", strict_, "exit 1 when anything was found");
    filter_.add_to(command, library_);
    add_format(command, format_);
    command.footer(
        "It looks at what was imported last and never changes your files.\nExample:  gamut check --kind key-label "
        "--kind bar-length");
}

std::optional<music::NoteSet> CheckCommand::reach_of(const answers::TunesAsked& asked) const {
    if (reach_) return asked.notes(answers::Part::reach, *reach_);
    if (const instruments::Instrument* instrument = asked.instrument()) return instrument->note_set();
    return std::nullopt;
}

int CheckCommand::run() {
    const std::set<OddityKind> kinds = kinds_of(kinds_);
    const base::Severity least = severity_ ? severity_of(*severity_) : base::Severity::remark;
    const answers::Filter filter = filter_.filter();
    const library::Library library = library::Library::open_existing(library_file(library_));
    const answers::TunesAsked asked_for(library, filter);
    const std::optional<music::NoteSet> reach = reach_of(asked_for);
    if (limit_ && *limit_ < 0) throw Misuse("--limit takes a number from 0 up");
    if (kinds.contains(OddityKind::out_of_reach) && !kinds_.empty() && !reach)
        throw Misuse("--kind out-of-reach needs --reach NOTES or --instrument NAME: outside which notes?");

    const collection::Selection selection = asked_for.selection(false);  // an instrument says what is out of reach
    tell_left_out(asked_for.left_out());
    collection::Selection each = selection;
    each.settings = true;
    const collection::NotesAnswer answer = library.select_notes(each);
    if (answer.matched == 0) write_notice("gamut: no tune matches\n");
    Asked asked;
    asked.is_filtered = !answer.why.empty();
    std::set<tune::TuneId> tunes;
    for (const collection::TuneNotes& one : answer.rows) {
        asked.settings.insert(one.setting);
        tunes.insert(one.id);
    }

    std::vector<CheckRow> rows;
    add_stored(library, asked, rows);
    if (kinds.contains(OddityKind::twin)) add_twins(library, asked, rows);
    if (reach) add_out_of_reach(library, selection, *reach, rows);
    std::erase_if(rows, [&](const CheckRow& row) { return !kinds.contains(row.kind) || row.severity > least; });
    std::stable_sort(rows.begin(), rows.end(), [](const CheckRow& a, const CheckRow& b) { return a.kind < b.kind; });

    report::CheckPage page;
    page.tunes_checked = static_cast<std::int64_t>(tunes.size());
    if (!asked.is_filtered) page.files_checked = library.counts().files;
    page.is_brief = !all_ && kinds_.empty() && !limit_;
    page.is_part = !kinds_.empty() || severity_.has_value();
    for (CheckRow& row : rows)
        if (const std::int64_t met = ++page.counts[row.kind]; !limit_ || met <= *limit_)
            page.rows.push_back(std::move(row));
    write(format_, page);
    return answer.matched == 0 || (strict_ && page.matched() > 0) ? kDoneInPart : kDone;
}

}  // namespace

std::unique_ptr<Command> check_command() { return std::make_unique<CheckCommand>(); }

}  // namespace cli
