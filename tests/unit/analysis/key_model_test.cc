#include "analysis/key_model.h"

#include <algorithm>
#include <catch2/catch.hpp>

namespace {

analysis::KeyEvidence evidence_on(std::size_t name) {
    analysis::KeyEvidence evidence;
    for (analysis::ByPitchClass* kind :
         {&evidence.time, &evidence.strong_time, &evidence.openings, &evidence.part_ends, &evidence.last,
          &evidence.before_last, &evidence.first_strong, &evidence.last_strong})
        (*kind)[name] = 1;
    return evidence;
}

}  // namespace

TEST_CASE("key model: each piece of evidence adds its own weight and no other", "[analysis][key_model]") {
    analysis::KeyModel model;
    model.last[7] = 2.5;
    const analysis::KeyScores scores = analysis::score_keys(evidence_on(2), model);
    for (std::size_t tonic = 0; tonic < 12; ++tonic)
        CHECK(scores[0][tonic] == Approx(tonic == 7 ? 2.5 : 0.0));  // D is the fifth of G
}

TEST_CASE("key model: a rare mode is its neighbour with the telling degree exchanged", "[analysis][key_model]") {
    analysis::KeyModel model;
    model.strong_time[0][5] = 3;  // of major
    const auto lydian = static_cast<std::size_t>(music::Mode::lydian);
    const analysis::KeyScores on_f_sharp = analysis::score_keys(evidence_on(6), model);
    CHECK(on_f_sharp[lydian][0] == Approx(3 - analysis::kRareMode));
    CHECK(on_f_sharp[0][0] == Approx(0));
}

TEST_CASE("key model: the tonic and its fifth speak for a key more than the leading note does",
          "[analysis][key_model]") {
    // Common practice, no source. Holds for the fitted weights whatever they are fitted to.
    for (const auto& time : analysis::kKeyModel.time) {
        CHECK(*std::max_element(time.begin(), time.end()) > time[6]);
        CHECK(time[0] > time[11]);
    }
    CHECK(analysis::kKeyModel.part_ends[0] > analysis::kKeyModel.part_ends[7]);
}
