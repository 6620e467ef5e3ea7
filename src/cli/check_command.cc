// `gamut check`: what looks wrong in a collection.
#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "answers/check.h"
#include "cli/commands.h"
#include "cli/filter_options.h"
#include "cli/refusal_words.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"
#include "cli/write.h"
#include "library/library.h"
#include "report/pages/check_page.h"
#include "tune/oddity.h"

namespace cli {

namespace {

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
    return kinds;
}

base::Severity severity_of(const std::string& word) {
    if (const auto severity = base::parse_severity(word)) return *severity;
    throw Misuse("--severity: \"" + word + "\" is unknown; use error warning remark");
}

class CheckCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
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

int CheckCommand::run() {
    if (limit_ && *limit_ < 0) throw Misuse("--limit takes a number from 0 up");
    answers::CheckQuestion question;
    if (!kinds_.empty()) question.kinds = kinds_of(kinds_);
    if (severity_) question.least = severity_of(*severity_);
    question.filter = filter_.filter();
    question.reach = reach_;
    question.limit = limit_;
    const library::Library library = library::Library::open_existing(library_file(library_));
    const answers::CheckAnswer answer = answers::answer(library, question);
    tell_classes(library, question.filter.players);
    tell_left_out(answer.left_out_notes);
    if (answer.settings_checked == 0) write_notice("gamut: no tune matches\n");
    report::CheckPage page = report::checked_in_words(answer);
    page.is_brief = !all_ && kinds_.empty() && !limit_;
    page.is_part = !kinds_.empty() || severity_.has_value();
    write(format_, page);
    return answer.settings_checked == 0 || (strict_ && answer.matched() > 0) ? kDoneInPart : kDone;
}

}  // namespace

std::unique_ptr<Command> check_command() { return std::make_unique<CheckCommand>(); }

}  // namespace cli
