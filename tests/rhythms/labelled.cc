#include "labelled.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>
#include <utility>

#include "analysis/rhythm_name.h"
#include "analysis/rhythm_title.h"
#include "analysis/rhythm_words.h"
#include "support/books.h"

namespace rhythms {

namespace {

constexpr std::array<std::string_view, 17> kPatterned{
    "reel",       "hornpipe", "strathspey", "highland fling", "polka", "march",   "barndance", "schottische",    "jig",
    "single jig", "slide",    "slip jig",   "hop jig",        "waltz", "mazurka", "air",       "triple hornpipe"};

std::optional<std::string> label_of(const support::BookTune& tune) {
    std::string token = tune.setting.rhythm ? analysis::rhythm_token(*tune.setting.rhythm) : "";
    if (!token.empty()) return token;
    if (tune.collection == support::kOneills) return std::nullopt;
    for (const std::string& title : tune.setting.titles)
        if (auto named = analysis::rhythm_of_title(title)) return named;
    return std::nullopt;
}

// What the title by itself says, R: hidden.
void compare_with_title(const support::BookTune& tune, const std::string& label, Labelled& labelled) {
    if (!tune.setting.rhythm) return;
    tune::Setting titled = tune.setting;
    titled.rhythm.reset();
    const auto rhythm = analysis::find_rhythm(titled).rhythm;
    if (!rhythm || rhythm->basis != tune::Basis::title) return;
    ++labelled.named_by_title;
    labelled.title_agrees += rhythm->value == label ? 1 : 0;
}

}  // namespace

Labelled read_labelled(const std::filesystem::path& shared) {
    Labelled labelled;
    for (support::BookTune& tune : support::read_books(shared)) {
        auto label = label_of(tune);
        if (!label || tune.setting.melody.heads.empty()) continue;
        *label = analysis::rhythm_in_meter(std::move(*label), tune.setting.meter);
        if (std::find(kPatterned.begin(), kPatterned.end(), *label) == kPatterned.end()) {
            ++labelled.left_out_other;
            continue;
        }
        if (!analysis::rhythm_suits(*label, tune.setting.meter)) {
            ++labelled.left_out_contradicted;
            continue;
        }
        compare_with_title(tune, *label, labelled);
        tune.setting.rhythm.reset();
        tune.setting.titles.clear();
        labelled.tunes.push_back({tune.collection, tune.held_out, std::move(*label), std::move(tune.setting)});
    }
    return labelled;
}

}  // namespace rhythms
