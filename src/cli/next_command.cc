// `gamut next`: what to learn next, a ladder to a tune, or what to play again.
#include <algorithm>
#include <charconv>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "answers/ladder.h"
#include "answers/next.h"
#include "answers/reviews.h"
#include "cli/commands.h"
#include "cli/day_option.h"
#include "cli/default_words.h"
#include "cli/filter_options.h"
#include "cli/refusal_words.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"
#include "cli/ways_option.h"
#include "cli/write.h"
#include "library/library.h"
#include "repertoire/learning_load.h"
#include "report/pages/ladder_page.h"
#include "report/pages/next_page.h"
#include "report/pages/review_page.h"

namespace cli {

namespace {

std::string part_names() {
    std::string names;
    for (std::size_t at = 0; at < repertoire::kLoadParts; ++at)
        names += std::string(repertoire::to_string(static_cast<repertoire::LoadPart>(at))) + " ";
    return names + "wish asked";
}

class NextCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    void check() const;
    repertoire::LoadWeights weights() const;

    std::string name_;
    std::optional<std::string> towards_, today_;
    std::vector<std::string> weigh_;
    std::optional<std::int64_t> limit_;
    bool is_review_ = false, is_short_ = false;
    WaysOption ways_;
    std::string library_;
    FilterOptions filter_;
    Format format_;
};

void NextCommand::add_to(CLI::App& command) {
    command.add_option("PLAYER", name_, "whose; gamut player add makes one")->required();
    command.add_option("--towards", towards_, "a short ladder of tunes to this one, each adding little")
        ->type_name("TUNE");
    command.add_flag("--again,--review", is_review_, "what to play again today, the least certain first");
    command.add_flag("--short", is_short_, "for a bad week: fewest bars to learn first");
    command
        .add_option("--weigh", weigh_,
                    "points for one of PART, such as bars=3; PART is " + part_names() + "; 0 leaves it out")
        ->type_name("PART=N")
        ->allow_extra_args(false);
    command.add_option("--limit", limit_, "with --again: at most N tunes" + default_words(answers::kReviewsShown))
        ->type_name("N");
    command.add_option("--today", today_, "the day it is asked for (default: by the clock)")->type_name("DATE");
    ways_.add_to(command);
    filter_.add_to(command, library_);
    filter_.add_scraps(command);
    add_format(command, format_);
    command.footer(
        "Example:  gamut player add Ina --instrument whistle-d --notes D:major\n"
        "          gamut next Ina\n"
        "Tunes are put in order by what they take: notes and bars that are new, range, leaps, what the hand has to do, "
        "pace, and the rhythms of the last tunes. A bar is known when a known tune has it, in any key. Of the two "
        "others "
        "those of another rhythm are preferred. What is probably a tune the player has already is held back.\n"
        "--again: a tune comes back after 1, 3, 7, 14, 30 and 75 days, one gap further each time it goes well and "
        "from the first one when it does not. That is common practice without a source; studies (Cepeda and others, "
        "Psychological Science 19, 2008; Kang and others, Psychonomic Bulletin & Review 2014) show that gaps help and "
        "that growing ones serve, but none of them counted tunes.");
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
        throw Misuse("--again asks what to play again; leave out --towards, --short and --weigh");
    if (towards_ && is_short_) throw Misuse("--towards and --short ask two questions; give one of them");
    if (ways_.is_given() && (is_review_ || towards_))
        throw Misuse("--ways weighs tunes to learn next; leave it out with --again and --towards");
    if (limit_ && !is_review_) throw Misuse("--limit goes with --again; gamut next names three tunes");
    if (limit_ && *limit_ < 0) throw Misuse("--limit takes a number from 0 up");
    if (filter_.asks_for_missing()) throw Misuse("gamut next names what is missing by itself; leave out --missing");
}

int NextCommand::run() {
    check();
    const base::Date today = day_of("--today", today_);  // refused also where it is not asked for
    const repertoire::LoadWeights weighed = weights();
    answers::Filter filter = filter_.filter();
    filter.asker = name_;
    if (filter.columns.settings && !is_review_) throw Misuse("gamut next counts tunes; leave out --versions");
    const library::Library library = library::Library::open_existing(library_file(library_));
    tell_classes(library, filter.players);
    if (is_review_) {
        answers::ReviewsQuestion question{filter, name_, today};
        if (limit_) question.limit = static_cast<std::size_t>(*limit_);
        const answers::ReviewsAnswer answer = answers::answer(library, question);
        write(format_, answer);
        return answer.has_tunes ? kDone : kDoneInPart;
    }
    if (towards_) {
        const answers::LadderAnswer answer =
            answers::answer(library, answers::LadderQuestion{filter, name_, *towards_, weighed});
        write(format_, answer);
        return kDone;
    }
    const answers::NextAnswer answer =
        answers::answer(library, answers::NextQuestion{filter, name_, is_short_, ways_.are_any(), weighed});
    write(format_, answer);
    return answer.picks.empty() ? kDoneInPart : kDone;
}

}  // namespace

std::unique_ptr<Command> next_command() { return std::make_unique<NextCommand>(); }

}  // namespace cli
