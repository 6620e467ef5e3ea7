// `gamut same`: which settings are one tune.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "answers/kin.h"
#include "answers/tune_named.h"
#include "cli/commands.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"
#include "cli/write.h"
#include "collection/collection.h"
#include "library/library.h"
#include "library/verdicts.h"
#include "report/pages/kin_page.h"
#include "tune/likeness.h"
#include "tune/record.h"

namespace cli {

namespace {

class SameCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    int list() const;
    double least() const;  // of a likeness; throws Misuse

    std::vector<std::string> which_;
    bool is_not_ = false;
    std::optional<std::int64_t> limit_;
    std::optional<double> least_;
    std::string library_;
    Format format_;
};

void SameCommand::add_to(CLI::App& command) {
    command
        .add_option("TUNE", which_,
                    "two ids, titles, or parts of them: they are one tune; one: which tunes it may be; none: all "
                    "pairs that may be one tune")
        ->expected(0, 2);
    command.add_flag("--not", is_not_, "say that they are not one tune");
    command.add_option("--limit", limit_, "of the list at most N")->type_name("N");
    command.add_option("--least", least_, "list what is so much alike, in per cent (60; from 85 probably one tune)")
        ->type_name("PERCENT");
    add_library(command, library_);
    add_format(command, format_);
    command.footer(
        "What you say is kept for ever, whatever is imported; saying the opposite takes it back.\n"
        "Example:  gamut same\n          gamut same kettle\n          gamut same 3 17");
}

int SameCommand::run() {
    const std::filesystem::path file = library_file(library_);
    if (which_.size() < 2) {
        if (is_not_)
            throw Misuse(std::string("--not needs two tunes: which ") +
                         (which_.empty() ? "are not the same?" : "is it not?"));
        return list();
    }
    if (limit_ || least_) throw Misuse("--limit and --least are for lists, not for what you say of two tunes");
    if (format_.csv) throw Misuse("--csv is for lists: name one tune, or none");
    std::optional<tune::TuneRecord> one, other;
    {
        const library::Library library = library::Library::open_existing(file);
        one = answers::setting_named(library, which_[0], !is_not_);
        other = answers::setting_named(library, which_[1], !is_not_);
    }
    if (one->own == other->own)
        throw Misuse("both words name version " + std::to_string(one->own.value) + "; name two different ones");
    library::say_same(file, one->own, other->own, !is_not_, today());
    has_kept_ = true;
    const library::Library library = library::Library::open_existing(file);
    const auto first = library.setting_of_own(one->own);
    const auto second = library.setting_of_own(other->own);
    write(format_, report::VerdictPage{*first, *second, !is_not_});
    return (first->id == second->id) != is_not_ ? kDone : kDoneInPart;
}

int SameCommand::list() const {
    answers::KinQuestion question;
    if (!which_.empty()) question.of = which_.front();
    question.least = least();
    if (limit_) question.limit = static_cast<std::size_t>(*limit_);
    const library::Library library = library::Library::open_existing(library_file(library_));
    write(format_, answers::answer(library, question));
    return kDone;
}

double SameCommand::least() const {
    if (limit_ && *limit_ < 0) throw Misuse("--limit takes a number from 0 up");
    if (!least_) return tune::kPossibleKin;
    if (!(*least_ >= 10 && *least_ <= 100)) throw Misuse("--least takes per cent, from 10 to 100");
    return *least_ / 100;
}

}  // namespace

std::unique_ptr<Command> same_command() { return std::make_unique<SameCommand>(); }

}  // namespace cli
