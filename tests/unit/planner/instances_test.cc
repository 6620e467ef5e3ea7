// Collections with a known least cost: found by an independent solver, by hand or by trying every order. The files lie
// outside the sources; where they are absent the cases say so and pass.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>

#include "obvious.h"
#include "planner/blocks.h"
#include "planner/bound.h"
#include "planner/order_notes.h"
#include "planner/table_order.h"

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

// One block in which the notes take the times given, 1 where none is.
BlockProblem with_times(const std::vector<Wanted>& wanted, const nlohmann::json& times) {
    BlockProblem problem = *number_units(gather_demands(wanted, {}));
    problem.time = 0;
    for (Unit& unit : problem.units) {
        std::int64_t time = 0;
        for (const int note : obvious::plain_set(unit.notes)) time += times.value(std::to_string(note), 1);
        unit.time = time;
        problem.time += time;
    }
    return problem;
}

void check_instance(const std::vector<Wanted>& wanted, const nlohmann::json& about, const std::string& order_key) {
    const Goal goal = obvious::having(about.at("known").get<std::vector<int>>());
    const double optimum = about.at("optimum").get<double>();
    const Plan plan = plan_path(wanted, goal);
    CHECK(plan.cost == optimum);
    CHECK(plan.lower_bound == optimum);
    CHECK(plan.proof == Proof::optimal);
    CHECK(static_cast<double>(obvious::cost(wanted, goal.have, obvious::groups_of(plan))) == optimum);
    const auto order = about.at(order_key).get<std::vector<int>>();
    CHECK(static_cast<double>(obvious::cost(wanted, goal.have, obvious::one_by_one(order))) == optimum);
    CHECK(plan.notes_to_learn == order.size());

    for (const char* const key : {"greedy_by_note", "greedy_next_note"})
        if (about.contains(key)) CHECK(plan.greedy_cost == about.at(key).get<double>());
    if (about.contains("largest_block")) CHECK(plan.largest_block == about.at("largest_block").get<std::size_t>());
    const auto blocks = cut_into_blocks(gather_demands(wanted, goal.have), goal.have);
    if (about.contains("block_sizes")) {
        std::vector<int> sizes;
        for (const Block& block : blocks) sizes.push_back(block.notes.size());
        std::vector<int> stated = about.at("block_sizes").get<std::vector<int>>();
        CHECK(*std::max_element(sizes.begin(), sizes.end()) == *std::max_element(stated.begin(), stated.end()));
    }
    if (about.contains("lower_bound_from_blocks")) {
        // Ours is rounded up block by block.
        const auto bound = static_cast<double>(least_cost_of(blocks));
        CHECK(bound >= about.at("lower_bound_from_blocks").get<double>());
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
        const nlohmann::json about = read_json(file);
        const auto wanted = read_tunes(fs::path(file).replace_extension(".tsv"));
        INFO(file.stem().string());
        if (about.at("times").empty()) {
            check_instance(wanted, about, "an_optimal_order");
        } else {
            CHECK(order_by_table(with_times(wanted, about.at("times")), {}, Deadline(1e9))->cost ==
                  about.at("optimum"));
        }
        ++checked;
    }
    CHECK(checked > 0);
}

TEST_CASE("instances: every case without prefix and precedence gives its known least cost", "[planner][instances]") {
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
            if (!one.at("prefix").empty() || !one.at("before").empty()) continue;
            if (one.at("times").empty()) {
                check_instance(wanted, one, "one_optimal_order");
            } else {
                REQUIRE(one.at("known").empty());
                CHECK(order_by_table(with_times(wanted, one.at("times")), {}, Deadline(1e9))->cost ==
                      one.at("optimum"));
            }
            ++checked;
        }
    }
    CHECK(checked > 0);
}
