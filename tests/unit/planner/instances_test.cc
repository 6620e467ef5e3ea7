// Collections with a known least cost: found by an independent solver, by hand or by trying every order. The files lie
// outside the sources; where they are absent the cases say so and pass.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <optional>
#include <sstream>
#include <string>

#include "obvious.h"
#include "planner/blocks.h"
#include "planner/order_notes.h"
#include "planner/task.h"

using namespace planner;
namespace fs = std::filesystem;

namespace {

// $GAMUT_SHARED, else `shared` beside the source folder.
std::optional<fs::path> instance_folder() {
    fs::path shared;
    if (const char* named = std::getenv("GAMUT_SHARED")) {
        shared = named;
    } else {
#ifdef GAMUT_SOURCE_DIR
        shared = fs::path(GAMUT_SOURCE_DIR) / ".." / "shared";
#endif
    }
    const fs::path folder = shared / "theory" / "instances";
    if (shared.empty() || !fs::is_directory(folder)) return std::nullopt;
    return folder;
}

std::vector<fs::path> files_in(const fs::path& folder, const std::string& extension) {
    std::vector<fs::path> files;
    for (const auto& entry : fs::directory_iterator(folder))
        if (entry.path().extension() == extension) files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

nlohmann::json read_json(const fs::path& file) {
    std::ifstream stream(file);
    return nlohmann::json::parse(stream);
}

// A weight and the MIDI numbers of a note set on each line; `#` begins a remark.
std::vector<Wanted> read_tunes(const fs::path& file) {
    std::vector<obvious::Tune> tunes;
    std::ifstream stream(file);
    for (std::string line; std::getline(stream, line);) {
        if (line.empty() || line[0] == '#') continue;
        std::istringstream words(line);
        obvious::Tune tune;
        words >> tune.weight;
        for (int note = 0; words >> note;) tune.notes.push_back(note);
        tunes.push_back(tune);
    }
    return obvious::wanted(tunes);
}

// Known notes, learning times, a beginning and pairs of which the first comes before the second.
Goal goal_of(const nlohmann::json& about) {
    Goal goal = obvious::having(about.at("known").get<std::vector<int>>());
    for (const auto& [note, time] : about.at("times").items())
        goal.times[static_cast<std::size_t>(std::stoi(note))] = time.get<std::int64_t>();
    if (about.contains("prefix")) goal.first = about.at("prefix").get<std::vector<int>>();
    if (about.contains("before"))
        for (const auto& pair : about.at("before"))
            goal.before.push_back({pair.at(0).get<int>(), pair.at(1).get<int>()});
    return goal;
}

// The cost of one note after another, told by the slow and obvious code.
std::optional<std::int64_t> cost_in_order(const std::vector<Wanted>& wanted, const Goal& goal,
                                          const std::vector<int>& order) {
    std::vector<obvious::Lesson> lessons;
    for (const int note : order) lessons.push_back({{note}, goal.times[static_cast<std::size_t>(note)]});
    return obvious::cost_under(wanted, goal, lessons);
}

void check_instance(const std::vector<Wanted>& wanted, const nlohmann::json& about, const std::string& order_key) {
    const Goal goal = goal_of(about);
    const auto optimum = about.at("optimum").get<std::int64_t>();
    const Plan plan = plan_path(wanted, goal);
    CHECK(static_cast<std::int64_t>(plan.cost) == optimum);
    CHECK(plan.lower_bound == plan.cost);
    CHECK(plan.proof == Proof::optimal);
    std::vector<int> order;
    for (const auto& group : obvious::groups_of(plan)) order.insert(order.end(), group.begin(), group.end());
    CHECK(cost_in_order(wanted, goal, order) == optimum);
    const auto stated_order = about.at(order_key).get<std::vector<int>>();
    CHECK(cost_in_order(wanted, goal, stated_order) == optimum);
    CHECK(plan.groups_to_learn == stated_order.size());

    const bool is_bound = !goal.first.empty() || !goal.before.empty();
    for (const char* const key : {"greedy_by_note", "greedy_next_note"})
        if (about.contains(key) && about.at("times").empty()) CHECK(plan.greedy_cost == about.at(key).get<double>());
    if (is_bound) return;
    if (about.contains("largest_block")) CHECK(plan.largest_block == about.at("largest_block").get<std::size_t>());
    const Task task = make_task(wanted, goal);
    const auto demands = gather_demands(wanted, goal.have, task.groups);
    const auto blocks = cut_into_blocks(demands, goal.have, task.groups);
    if (about.contains("block_sizes")) {
        std::vector<int> sizes;
        for (const Block& block : blocks) sizes.push_back(block.leads.size());
        std::vector<int> stated = about.at("block_sizes").get<std::vector<int>>();
        CHECK(*std::max_element(sizes.begin(), sizes.end()) == *std::max_element(stated.begin(), stated.end()));
    }
    if (about.contains("lower_bound_from_blocks")) {
        // Ours is rounded up block by block, and down once within each.
        const auto bound = static_cast<double>(uncut_block(demands, goal.have, task.groups).least_cost);
        CHECK(bound > about.at("lower_bound_from_blocks").get<double>() - static_cast<double>(blocks.size()) / 2);
        CHECK(bound < about.at("lower_bound_from_blocks").get<double>() + static_cast<double>(blocks.size()));
    }
}

}  // namespace

TEST_CASE("instances: every collection gives its known least cost", "[planner][instances]") {
    const auto folder = instance_folder();
    if (!folder) {
        WARN("skipped: no folder of instances");
        return;
    }
    int checked = 0;
    for (const fs::path& file : files_in(*folder, ".json")) {
        INFO(file.stem().string());
        check_instance(read_tunes(fs::path(file).replace_extension(".tsv")), read_json(file), "an_optimal_order");
        ++checked;
    }
    CHECK(checked > 0);
}

TEST_CASE("instances: every case of beginnings, times and precedence gives its known least cost",
          "[planner][instances]") {
    const auto folder = instance_folder();
    if (!folder) {
        WARN("skipped: no folder of instances");
        return;
    }
    int checked = 0;
    for (const fs::path& file : files_in(*folder / "cases", ".json")) {
        const nlohmann::json about = read_json(file);
        const auto wanted = read_tunes(file.parent_path() / about.at("instance").get<std::string>());
        INFO(file.stem().string());
        for (const nlohmann::json& one : about.at("cases")) {
            INFO(one.dump());
            check_instance(wanted, one, "one_optimal_order");
            ++checked;
        }
    }
    CHECK(checked > 0);
}
