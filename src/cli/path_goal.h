// What the teacher insists on and what a tune weighs, on the command line of `gamut path`.
#pragma once

#include <CLI/CLI.hpp>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "cli/filter_options.h"
#include "cli/limit_options.h"
#include "library/library.h"
#include "planner/goal.h"

namespace cli {

// The tunes a path is planned for, and what each of them is in the library.
struct Chosen {
    std::vector<planner::Wanted> wanted;    // by their own ids where each setting stands for itself
    std::vector<tune::SettingId> settings;  // one for each: the setting it goes by
    std::vector<tune::TuneId> tunes;        // one for each: the tune that marks hang on
    bool by_setting = false;

    void add(tune::TuneId id, const music::NoteSet& needed, tune::SettingId setting, tune::TuneId tune) {
        wanted.push_back({id, needed, 1});
        settings.push_back(setting);
        tunes.push_back(tune);
    }
};

class PathGoal {
public:
    void add_to(CLI::App& command);

    // Throws Misuse for what can be refused without the library.
    void check(const FilterOptions& filter) const;

    // Puts tunes that must open among those chosen, whatever the filter says, and weighs them all. Throws Misuse with
    // one sentence for what cannot be understood; what is not met has been said.
    enum class Met { in_full, in_part, not_at_all };
    Met apply(const collection::Collection& library, const FilterOptions& filter, Chosen& chosen,
              planner::Goal& goal) const;

    bool by_name() const noexcept { return by_ == "name"; }
    const std::string& weight_by() const noexcept { return weight_by_; }
    bool takes_unequal_times() const noexcept { return effort_file_.has_value() || by_grades(); }

    // The teacher's own order, where one was given.
    std::optional<std::vector<int>> own_order(const std::vector<planner::Wanted>& wanted, const planner::Goal& goal,
                                              music::Compass compass) const;
    std::optional<std::int64_t> best_in() const noexcept { return best_in_; }
    std::optional<std::int64_t> steps() const noexcept { return steps_; }

private:
    bool by_grades() const noexcept { return effort_ == "instrument"; }
    bool weigh(const collection::Collection& library, const planner::Goal& goal, Chosen& chosen) const;
    bool require(const collection::Collection& library, bool ornaments, Chosen& chosen, planner::Goal& goal) const;

    std::optional<std::string> first_, avoid_, order_, effort_file_;
    std::vector<std::pair<std::string, std::string>> before_;
    std::vector<std::string> groups_, must_, tag_weights_;
    std::string by_ = "pitch", weight_by_ = "equal", effort_ = "equal";
    std::optional<std::int64_t> steps_, best_in_;
    LimitOptions limits_;
};

}  // namespace cli
