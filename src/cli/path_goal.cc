#include "cli/path_goal.h"

#include <charconv>
#include <sstream>

#include "cli/filter_options.h"
#include "cli/terminal.h"
#include "cli/text_file.h"
#include "music/note_expression.h"
#include "planner/note_groups.h"
#include "tune/tag.h"

namespace cli {

namespace {

constexpr const char* kWhatItKeepsTo = "What the path keeps to";

std::optional<std::int64_t> number_written(std::string_view text) {
    std::int64_t number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc() || end != text.data() + text.size() || text.empty()) return std::nullopt;
    return number;
}

// `text` parted at its last `sign`; the second part is empty where there is none.
std::pair<std::string, std::optional<std::string>> part_at(const std::string& text, char sign) {
    const std::size_t at = text.rfind(sign);
    if (at == std::string::npos) return {text, std::nullopt};
    return {text.substr(0, at), text.substr(at + 1)};
}

// A file with a note (or a name, for all octaves) and its learning time on each line; `#` at the start of a line is a
// remark.
std::vector<answers::PathQuestion::Time> read_efforts(const std::string& file) {
    std::vector<answers::PathQuestion::Time> times;
    std::istringstream stream(text_of_file(file));
    std::int64_t line_number = 0;
    for (std::string line; std::getline(stream, line);) {
        ++line_number;
        if (!line.empty() && line.back() == '\r') line.pop_back();
        const std::size_t begin = line.find_first_not_of(" \t");
        if (begin == std::string::npos || line[begin] == '#') continue;
        const std::string place = file + ":" + std::to_string(line_number) + ": ";
        const std::size_t blank = line.find_last_of(" \t", line.find_last_not_of(" \t"));
        const std::size_t end = line.find_last_not_of(" \t");
        const auto time = blank == std::string::npos || blank < begin
                              ? std::nullopt
                              : number_written(line.substr(blank + 1, end - blank));
        if (!time || *time < 1 || *time > planner::kLongestTime)
            throw Misuse(place + "write a note and its learning time, a whole number from 1 to " +
                         std::to_string(planner::kLongestTime) + ", such as \"C#5 3\"");
        const std::size_t note_end = line.find_last_not_of(" \t", blank);
        try {
            times.push_back({music::read_note_anywhere(line.substr(begin, note_end - begin + 1)), *time});
        } catch (const music::NoteExpressionFault& fault) {
            throw Misuse(place + fault.what());
        }
    }
    return times;
}

}  // namespace

void PathGoal::add_to(CLI::App& command) {
    command.add_option("--steps", steps_, "show only the first K steps")->type_name("K");
    command
        .add_option("--best-in", best_in_, "the other question: which K notes open most tunes, and how to come by them")
        ->type_name("K");
    command.add_option("--order", order_, "your own order, held against the best: what it costs, where it loses")
        ->type_name("NOTES");
    command.add_option("--first", first_, "the path begins with these, in this order")
        ->type_name("NOTES")
        ->group(kWhatItKeepsTo);
    command.add_option("--before", before_, "A is learnt before B; may be given again")
        ->type_name("A B")
        ->group(kWhatItKeepsTo);
    command
        .add_option("--group", groups_,
                    "these are learnt in one step, such as \"C#4 C#5\"; \"C#4 C#5=2\" says how long it takes")
        ->type_name("NOTES")
        ->group(kWhatItKeepsTo)
        ->allow_extra_args(false);
    command.add_option("--by", by_, "pitch: one note a step (default); name: a note name in all octaves is a step")
        ->type_name("pitch|name")
        ->group(kWhatItKeepsTo);
    command
        .add_option("--must", must_,
                    "this tune must be in it, open once STEP notes are learnt if you say so; may be given again")
        ->type_name("TUNE[:STEP]")
        ->group(kWhatItKeepsTo)
        ->allow_extra_args(false);
    command.add_option("--avoid", avoid_, "never learn these; C# means any octave")
        ->type_name("NOTES")
        ->group(kWhatItKeepsTo);
    command
        .add_option("--weight-by", weight_by_,
                    "equal: every tune counts one (default); count: as often as gamut mark says; tag: by --tag-weight")
        ->type_name("equal|count|tag")
        ->group(kWhatItKeepsTo);
    command
        .add_option("--tag-weight", tag_weights_, "tunes with this tag count N, such as wedding=5; may be given again")
        ->type_name("TAG=N")
        ->group(kWhatItKeepsTo)
        ->allow_extra_args(false);
    command
        .add_option("--effort", effort_,
                    "equal: every note takes as long to learn (default); instrument: as its hardness on --instrument")
        ->type_name("equal|instrument")
        ->group(kWhatItKeepsTo);
    command
        .add_option("--effort-file", effort_file_,
                    "how long each note takes to learn: lines such as \"C#5 3\"; others take what --effort says")
        ->type_name("FILE")
        ->group(kWhatItKeepsTo);
    limits_.add_to(command, kWhatItKeepsTo);
}

void PathGoal::check() const {
    if (steps_ && *steps_ <= 0) throw Misuse("--steps takes a number from 1 up");
    if (best_in_ && *best_in_ <= 0) throw Misuse("--best-in takes a number from 1 up");
    if (best_in_ && order_) throw Misuse("--best-in and --order are two questions; ask one at a time");
    if (order_ && first_) throw Misuse("--order already says how the path begins; leave out --first");
    if (by_ != "pitch" && by_ != "name") throw Misuse("--by takes pitch or name, not \"" + by_ + "\"");
    if (by_ == "name" && !groups_.empty()) throw Misuse("--by name makes the groups; leave out --group");
    if (weight_by_ != "equal" && weight_by_ != "count" && weight_by_ != "tag")
        throw Misuse("--weight-by takes equal, count or tag, not \"" + weight_by_ + "\"");
    if (weight_by_ == "tag" && tag_weights_.empty())
        throw Misuse("--weight-by tag needs --tag-weight TAG=N: which tag counts how much?");
    if (weight_by_ != "tag" && !tag_weights_.empty()) throw Misuse("--tag-weight goes with --weight-by tag");
    if (effort_ != "equal" && effort_ != "instrument")
        throw Misuse("--effort takes equal or instrument, not \"" + effort_ + "\"");
    limits_.check();
}

void PathGoal::apply_to(answers::PathQuestion& question) const {
    check();
    question.by_name = by_ == "name";
    question.steps = static_cast<std::size_t>(steps_.value_or(0));
    if (best_in_) question.best_in = static_cast<std::size_t>(*best_in_);
    question.order = order_;
    question.first = first_;
    question.avoid = avoid_;
    question.before = before_;
    for (const std::string& text : groups_) {
        const auto [notes, number] = part_at(text, '=');
        answers::PathQuestion::Group group{notes, std::nullopt};
        if (number) {
            group.time = number_written(*number);
            if (!group.time || *group.time < 1 || *group.time > planner::kLongestTime)
                throw Misuse("--group \"" + text + "\": the time is a whole number from 1 to " +
                             std::to_string(planner::kLongestTime));
        }
        question.groups.push_back(std::move(group));
    }
    for (const std::string& text : must_) {
        const auto [title, after] = part_at(text, ':');
        const std::optional<std::int64_t> step = after ? number_written(*after) : std::nullopt;
        if (step && *step < 1) throw Misuse("--must \"" + text + "\": steps count from 1");
        question.must.push_back({step ? title : text, step});
    }
    question.weight_by = weight_by_ == "count" ? answers::WeightBy::count
                         : weight_by_ == "tag" ? answers::WeightBy::tag
                                               : answers::WeightBy::equal;
    for (const std::string& text : tag_weights_) {
        const auto [name, number] = part_at(text, '=');
        const auto weight = number ? number_written(*number) : std::nullopt;
        if (!weight || *weight < 0 || *weight > answers::kMostTagWeight)
            throw Misuse("--tag-weight \"" + text + "\": write TAG=N with a whole number from 0 to " +
                         std::to_string(answers::kMostTagWeight));
        question.tag_weights[tag_of("--tag-weight", name).folded] = *weight;
    }
    if (effort_ == "instrument") question.effort = answers::Effort::instrument;
    if (effort_file_) question.times = read_efforts(*effort_file_);
    limits_.apply_to(question.limits);
}

}  // namespace cli
