#include "report/pages/fault.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

TEST_CASE("fault: what a program reads where there is no answer", "[report][fault]") {
    tune::TuneRecord lamp;
    lamp.id = {7};
    lamp.titles = {"Lamp"};
    const report::Fault fault{"several-tunes", "--towards", "\"la\" fits several", 2, {"Lamp"}, {lamp}};
    const auto error = nlohmann::json::parse(report::as_json(fault))["error"];
    CHECK(error["kind"] == "several-tunes");
    CHECK(error["option"] == "--towards");
    CHECK(error["message"] == "\"la\" fits several");
    CHECK(error["exit"] == 2);
    CHECK(error["near"] == nlohmann::json({"Lamp"}));
    CHECK(error["tunes"][0]["id"] == 7);
    CHECK(error["tunes"][0]["title"] == "Lamp");
    const auto bare = nlohmann::json::parse(report::as_json(report::Fault{"failed", "", "no", 3, {}, {}}))["error"];
    CHECK(bare["option"].is_null());
    CHECK(bare["near"].empty());
}
