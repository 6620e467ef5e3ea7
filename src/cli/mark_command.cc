// `gamut mark`: what a person says of tunes.
#include <algorithm>

#include "cli/commands.h"
#include "cli/tune_named.h"
#include "library/library.h"
#include "library/marks.h"
#include "report/marks.h"

namespace cli {

namespace {

std::vector<tune::Tag> tags_of(const std::string& option, const std::vector<std::string>& written) {
    std::vector<tune::Tag> tags;
    for (const std::string& text : written) tags.push_back(tag_of(option, text));
    return tags;
}

// Each tune once, in the order named; none at all when one of the words names no tune.
std::vector<tune::TuneId> ids_named(const library::Library& library, const std::vector<std::string>& words) {
    std::vector<tune::TuneId> ids;
    bool all_are_known = true;
    for (const std::string& which : words) {
        const auto record = tune_named(library, which);
        all_are_known = all_are_known && record.has_value();
        if (record && std::find(ids.begin(), ids.end(), record->id) == ids.end()) ids.push_back(record->id);
    }
    if (!all_are_known) ids.clear();
    return ids;
}

}  // namespace

CLI::App* MarkCommand::add_to(CLI::App& program) {
    CLI::App* command = program.add_subcommand("mark", "keep tags and a count for tunes, or show what is kept");
    command->add_option("TUNE", which_, "ids, titles, or parts of them")->required();
    command->add_option("--tag", tags_, "a word of your own for them, such as wedding or thursday; may be given again")
        ->type_name("NAME")
        ->allow_extra_args(false);
    command->add_option("--untag", untags_, "take such a word away; may be given again")
        ->type_name("NAME")
        ->allow_extra_args(false);
    CLI::Option* count =
        command->add_option("--count", count_, "how often they were asked for or played, from 0")->type_name("N");
    command->add_flag("--no-count", forgets_count_, "forget the count")->excludes(count);
    add_library(*command, library_);
    command->add_flag("--json", format_.json, "as JSON, documented in schema/output.md");
    command->footer(
        "An import never changes what you say here. All tunes named are marked, or none.\n"
        "Example:  gamut mark kettle \"nine eels\" --tag thursday --count 3");
    return command;
}

int MarkCommand::run() {
    const std::vector<tune::Tag> added = tags_of("--tag", tags_);
    const std::vector<tune::Tag> removed = tags_of("--untag", untags_);
    for (const tune::Tag& tag : added)
        for (const tune::Tag& other : removed)
            if (tag.folded == other.folded)
                throw Misuse("--tag and --untag both name \"" + tag.text + "\"; which of them?");
    if (count_ && *count_ < 0) throw Misuse("--count takes a number from 0 up");
    const bool is_change = !added.empty() || !removed.empty() || count_ || forgets_count_;

    const std::filesystem::path file = library_file(library_);
    const std::vector<tune::TuneId> ids = ids_named(library::Library::open_existing(file), which_);
    if (ids.empty()) {
        if (is_change) write_notice("gamut: nothing was marked\n");
        return kDoneInPart;
    }
    if (is_change) {
        library::Marks marks = library::Marks::change(file);
        for (const tune::TuneId id : ids) {
            for (const tune::Tag& tag : removed) marks.remove_tag(id, tag);
            for (const tune::Tag& tag : added) marks.add_tag(id, tag);
            if (count_ || forgets_count_) marks.set_count(id, count_);
        }
        marks.commit();
        has_kept_ = true;
    }
    const std::vector<tune::TuneRecord> records = library::Library::open_existing(file).tunes_by_id(ids);
    if (format_.json)
        write_answer(report::marks_json(records));
    else
        write_answer(report::describe_marks(records));
    return kDone;
}

}  // namespace cli
