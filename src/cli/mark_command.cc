// `gamut mark`: what a person says of tunes.
#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "analysis/rhythm_words.h"
#include "base/utf8.h"
#include "cli/commands.h"
#include "cli/filter_options.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"
#include "cli/tune_or_tell.h"
#include "cli/write.h"
#include "library/library.h"
#include "library/marks.h"
#include "music/key.h"
#include "report/pages/marks.h"
#include "tune/title.h"
#include "tune/title_match.h"

namespace cli {

namespace {

std::vector<tune::Tag> tags_of(const std::string& option, const std::vector<std::string>& written) {
    std::vector<tune::Tag> tags;
    for (const std::string& text : written) tags.push_back(tag_of(option, text));
    return tags;
}

// A tune, and the setting of it that a person sees first.
struct Named {
    tune::TuneId id;
    tune::TuneId own;
};

// Each tune once, in the order named; none at all when one of the words names no tune.
std::vector<Named> tunes_named(const collection::Collection& library, const std::vector<std::string>& words) {
    std::vector<Named> named;
    bool all_are_known = true;
    for (const std::string& which : words) {
        const auto record = tune_or_tell(library, which);
        all_are_known = all_are_known && record.has_value();
        const auto is_it = [&](const Named& one) { return one.id == record->id; };
        if (record && std::none_of(named.begin(), named.end(), is_it)) named.push_back({record->id, record->own});
    }
    if (!all_are_known) named.clear();
    return named;
}

// The most characters a rhythm may have. Source: house choice; it has to fit a column.
constexpr std::size_t kMaxRhythmCharacters = 60;

// A token, as R: would give it.
std::string rhythm_said(const std::string& written) {
    if (!base::is_utf8(written) || base::printable(written) != written)
        throw Misuse("--rhythm takes a word such as hornpipe, without control characters");
    std::string token = analysis::rhythm_token(written);
    if (token.empty()) throw Misuse("--rhythm takes a word such as hornpipe; --no-rhythm forgets what was said");
    if (base::code_points_in(token) > kMaxRhythmCharacters)
        throw Misuse("--rhythm takes a word of at most " + std::to_string(kMaxRhythmCharacters) + " characters");
    return token;
}

music::Key key_said(const std::string& written) {
    if (const auto key = music::parse_key(written)) return *key;
    throw Misuse("--key: \"" + base::printable(written) + "\" is no key; write it like Em, \"E minor\", Ador or G");
}

// What is only a number is an id, and what holds no letter is nothing to find a tune by.
void require_alias(const std::string& alias) {
    if (!base::is_utf8(alias) || base::printable(alias) != alias || alias.size() > tune::kMaxWrittenBytes)
        throw Misuse("--alias takes a few words, without control characters");
    const std::string folded = tune::fold_title(alias);
    if (folded.empty() || folded.find_first_not_of("0123456789") == std::string::npos)
        throw Misuse("--alias takes words with a letter in them, not \"" + alias + "\"");
}

class MarkCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    std::vector<std::string> which_, tags_, untags_, aliases_, unaliases_;
    std::optional<std::int64_t> count_;
    bool forgets_count_ = false;
    std::optional<std::string> rhythm_, key_;
    bool forgets_rhythm_ = false;
    bool forgets_key_ = false;
    std::string library_;
    Format format_;
};

void MarkCommand::add_to(CLI::App& command) {
    command.add_option("TUNE", which_, "ids, titles, or parts of them")->required();
    command.add_option("--tag", tags_, "a word of your own for them, such as wedding or thursday; may be given again")
        ->type_name("NAME")
        ->allow_extra_args(false);
    command.add_option("--untag", untags_, "take such a word away; may be given again")
        ->type_name("NAME")
        ->allow_extra_args(false);
    command
        .add_option("--alias", aliases_,
                    "what you write for this tune: from now on it means this one, wherever titles are typed")
        ->type_name("TEXT")
        ->allow_extra_args(false);
    command.add_option("--no-alias", unaliases_, "it means no certain tune any more")
        ->type_name("TEXT")
        ->allow_extra_args(false);
    CLI::Option* count =
        command.add_option("--count", count_, "how often they were asked for or played, from 0")->type_name("N");
    command.add_flag("--no-count", forgets_count_, "forget the count")->excludes(count);
    CLI::Option* rhythm =
        command.add_option("--rhythm", rhythm_, "what kind they are, such as hornpipe; goes before file and notes")
            ->type_name("NAME");
    command.add_flag("--no-rhythm", forgets_rhythm_, "forget the rhythm you said")->excludes(rhythm);
    CLI::Option* key =
        command.add_option("--key", key_, "the key, such as Em or \"A dorian\"; goes before file and notes")
            ->type_name("KEY");
    command.add_flag("--no-key", forgets_key_, "forget the key you said")->excludes(key);
    add_library(command, library_);
    add_format_without_csv(command, format_);
    command.footer(
        "An import never changes what you say here. All tunes named are marked, or none.\n"
        "Example:  gamut mark kettle \"nine eels\" --tag thursday --count 3");
}

int MarkCommand::run() {
    const std::vector<tune::Tag> added = tags_of("--tag", tags_);
    const std::vector<tune::Tag> removed = tags_of("--untag", untags_);
    for (const tune::Tag& tag : added)
        for (const tune::Tag& other : removed)
            if (tag.folded == other.folded)
                throw Misuse("--tag and --untag both name \"" + tag.text + "\"; which of them?");
    if (count_ && *count_ < 0) throw Misuse("--count takes a number from 0 up");
    const auto rhythm = rhythm_ ? std::optional(rhythm_said(*rhythm_)) : std::nullopt;
    const auto key = key_ ? std::optional(key_said(*key_)) : std::nullopt;
    const bool says_rhythm = rhythm || forgets_rhythm_;
    const bool says_key = key || forgets_key_;
    if (!aliases_.empty() && which_.size() != 1) throw Misuse("--alias is said of one tune; name just one");
    for (const std::string& alias : aliases_) require_alias(alias);
    const bool is_change = !aliases_.empty() || !unaliases_.empty() || !added.empty() || !removed.empty() || count_ ||
                           forgets_count_ || says_rhythm || says_key;

    const std::filesystem::path file = library_file(library_);
    const std::vector<Named> named = tunes_named(library::Library::open_existing(file), which_);
    if (named.empty()) {
        if (is_change) write_notice("gamut: nothing was marked\n");
        return kDoneInPart;
    }
    if (is_change) {
        library::Marks marks = library::Marks::change(file, today());
        for (const auto& [id, own] : named) {
            for (const tune::Tag& tag : removed) marks.remove_tag(id, tag);
            for (const tune::Tag& tag : added) marks.add_tag(id, tag);
            if (count_ || forgets_count_) marks.set_count(id, count_);
            if (says_rhythm) marks.set_rhythm(id, rhythm);
            if (says_key) marks.set_key(own, key);
            for (const std::string& alias : aliases_) marks.set_alias(id, alias);
        }
        for (const std::string& alias : unaliases_) marks.remove_alias(alias);
        marks.commit();
        has_kept_ = true;
        if (rhythm && !analysis::is_known_rhythm(*rhythm))
            write_notice("gamut: \"" + *rhythm + "\" is no kind of tune gamut knows; kept as it is\n");
    }
    std::vector<tune::TuneId> ids;
    for (const Named& one : named) ids.push_back(one.id);
    const library::Library library = library::Library::open_existing(file);
    report::MarksPage page{library.tunes_by_id(ids)};
    for (const collection::Alias& alias : library.aliases()) page.aliases.emplace(alias.tune, alias.text);
    write(format_, page);
    return kDone;
}

}  // namespace

std::unique_ptr<Command> mark_command() { return std::make_unique<MarkCommand>(); }

}  // namespace cli
