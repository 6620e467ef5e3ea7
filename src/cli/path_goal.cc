#include "cli/path_goal.h"

#include <algorithm>
#include <charconv>
#include <map>
#include <sstream>

#include "cli/terminal.h"
#include "cli/text_file.h"
#include "cli/tune_named.h"
#include "music/note_expression.h"
#include "planner/note_groups.h"
#include "tune/tag.h"

namespace cli {

namespace {

constexpr const char* kWhatItKeepsTo = "What the path keeps to";
constexpr std::int64_t kMaxTagWeight = 1'000'000;  // Source: house choice

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

music::NoteSet notes_in_reach(const std::vector<planner::Wanted>& wanted) {
    music::NoteSet notes;
    for (const planner::Wanted& tune : wanted) notes = notes | tune.needed;
    return notes;
}

// One note as it stands; a name means those of its octaves that are to be learnt.
music::NoteSet notes_meant(const std::string& option, const std::string& text, const music::NoteSet& to_learn) {
    try {
        const music::NoteSet notes = music::read_note_anywhere(text);
        return notes.size() == 1 ? notes : notes & to_learn;
    } catch (const music::NoteExpressionFault& fault) {
        throw Misuse(option + ": " + fault.what());
    }
}

// Notes in the order written. Of a name or a scale those are left out that are there already or that no tune needs.
std::vector<int> in_order(const std::string& option, const std::string& text, music::Compass compass,
                          const music::NoteSet& reach, const music::NoteSet& have) {
    try {
        std::vector<int> order;
        for (const music::NoteItem& item : music::read_notes_in_order(text, compass)) {
            const music::NoteSet notes = item.is_one_note ? item.notes : (item.notes & reach).without(have);
            for (const int midi : notes.midi_numbers()) order.push_back(midi);
        }
        if (order.empty())
            throw Misuse(option + " \"" + text + "\": the tunes need none of these notes that is not there already");
        return order;
    } catch (const music::NoteExpressionFault& fault) {
        throw Misuse(option + ": " + fault.what());
    }
}

// A file with a note (or a name, for all octaves) and its learning time on each line; `#` at the start of a line is a
// remark.
void read_efforts(const std::string& file, planner::Goal& goal) {
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
            for (const int midi : music::read_note_anywhere(line.substr(begin, note_end - begin + 1)).midi_numbers())
                goal.times[static_cast<std::size_t>(midi)] = *time;
        } catch (const music::NoteExpressionFault& fault) {
            throw Misuse(place + fault.what());
        }
    }
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
                    "equal: every note takes as long to learn (default); instrument: as its grade on --instrument")
        ->type_name("equal|instrument")
        ->group(kWhatItKeepsTo);
    command
        .add_option("--effort-file", effort_file_,
                    "how long each note takes to learn: lines such as \"C#5 3\"; others take what --effort says")
        ->type_name("FILE")
        ->group(kWhatItKeepsTo);
    limits_.add_to(command, kWhatItKeepsTo);
}

void PathGoal::check(const FilterOptions& filter) const {
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
    if (by_grades() && filter.instrument() == nullptr)
        throw Misuse("--effort instrument needs --instrument NAME, or --for a PLAYER who has one: whose grades?");
    limits_.check();
}

bool PathGoal::require(const collection::Collection& library, bool ornaments, Chosen& chosen,
                       planner::Goal& goal) const {
    for (const std::string& text : must_) {
        const auto [title, after] = part_at(text, ':');
        std::optional<std::int64_t> step = after ? number_written(*after) : std::nullopt;
        const std::string which = step ? title : text;
        if (step && *step < 1) throw Misuse("--must \"" + text + "\": steps count from 1");
        const std::optional<tune::TuneRecord> tune = tune_named(library, which);
        if (!tune) return false;
        const music::NoteSet needed = ornaments ? tune->needed | tune->ornaments : tune->needed;
        if (library.settings_of(tune->id).empty())
            throw Misuse("--must \"" + text + "\": the file of that tune is gone");
        if (needed.empty()) throw Misuse("--must \"" + text + "\": no note sounds in that tune");
        const tune::TuneId id = chosen.by_setting ? tune->own : tune->id;
        if (std::none_of(chosen.wanted.begin(), chosen.wanted.end(),
                         [&](const planner::Wanted& one) { return one.id == id; }))
            chosen.add(id, needed, tune->setting, tune->id);
        if (!step) step = best_in_;
        goal.must.push_back({id, step.value_or(0)});
    }
    return true;
}

bool PathGoal::weigh(const collection::Collection& library, const planner::Goal& goal, Chosen& chosen) const {
    if (weight_by_ == "equal") return true;
    std::map<std::string, std::int64_t> weight_of_tag;
    for (const std::string& text : tag_weights_) {
        const auto [name, number] = part_at(text, '=');
        const auto weight = number ? number_written(*number) : std::nullopt;
        if (!weight || *weight < 0 || *weight > kMaxTagWeight)
            throw Misuse("--tag-weight \"" + text + "\": write TAG=N with a whole number from 0 to " +
                         std::to_string(kMaxTagWeight));
        weight_of_tag[tag_of("--tag-weight", name).folded] = *weight;
    }
    std::map<tune::TuneId, std::int64_t> weights;
    for (const collection::TuneMark& mark : library.marks()) {
        if (weight_by_ == "count") {
            if (mark.count) weights[mark.id] = *mark.count;
            continue;
        }
        for (const std::string& tag : mark.tags)
            if (const auto found = weight_of_tag.find(tag); found != weight_of_tag.end())
                weights[mark.id] = std::max(weights[mark.id], found->second);
    }
    std::int64_t without = 0;
    std::int64_t total = 0;
    for (std::size_t at = 0; at < chosen.wanted.size(); ++at) {
        planner::Wanted& tune = chosen.wanted[at];
        const auto found = weights.find(chosen.tunes[at]);
        if (found == weights.end())
            ++without;
        else
            tune.weight = found->second;
        if (std::any_of(goal.must.begin(), goal.must.end(),
                        [&tune](const planner::Must& must) { return must.id == tune.id; }))
            tune.weight = std::max<std::int64_t>(tune.weight, 1);
        if (tune.weight > planner::kMaxTotalWeight - total)
            throw Misuse("the weights add up to more than " + std::to_string(planner::kMaxTotalWeight) +
                         "; make them smaller");
        total += tune.weight;
    }
    if (weight_by_ == "tag" || without == 0) return true;
    write_notice("gamut: " + std::to_string(without) + " of " + std::to_string(chosen.wanted.size()) +
                 " tunes have no count and weigh 1; gamut mark TUNE --count N gives them one\n");
    return false;
}

PathGoal::Met PathGoal::apply(const collection::Collection& library, const FilterOptions& filter, Chosen& chosen,
                              planner::Goal& goal) const {
    if (!require(library, filter.ornaments(), chosen, goal)) return Met::not_at_all;
    const Met met = weigh(library, goal, chosen) ? Met::in_full : Met::in_part;
    goal.by_name = by_name();
    goal.max_steps = static_cast<std::size_t>(steps_.value_or(0));
    if (avoid_) goal.avoid = anywhere("--avoid", *avoid_);
    const music::NoteSet reach = notes_in_reach(chosen.wanted).without(goal.avoid);
    if (first_) goal.first = in_order("--first", *first_, filter.compass(), reach, goal.have);
    for (const auto& [a, b] : before_)
        for (const int first : notes_meant("--before", a, reach.without(goal.have)).midi_numbers())
            for (const int then : notes_meant("--before", b, reach.without(goal.have)).midi_numbers())
                goal.before.push_back({first, then});
    for (const std::string& text : groups_) {
        const auto [notes, number] = part_at(text, '=');
        planner::Group group{filter.notes_of("--group", notes), std::nullopt};
        if (number) {
            group.time = number_written(*number);
            if (!group.time || *group.time < 1 || *group.time > planner::kLongestTime)
                throw Misuse("--group \"" + text + "\": the time is a whole number from 1 to " +
                             std::to_string(planner::kLongestTime));
        }
        goal.groups.push_back(group);
    }
    if (by_grades())
        for (const instruments::InstrumentNote& note : filter.instrument()->notes)
            goal.times[static_cast<std::size_t>(note.written)] = note.grade();
    if (effort_file_) read_efforts(*effort_file_, goal);
    limits_.apply_to(goal.limits);
    return met;
}

std::optional<std::vector<int>> PathGoal::own_order(const std::vector<planner::Wanted>& wanted,
                                                    const planner::Goal& goal, music::Compass compass) const {
    if (!order_) return std::nullopt;
    return in_order("--order", *order_, compass, notes_in_reach(wanted), goal.have);
}

}  // namespace cli
