#include "cli/heard_option.h"

#include <algorithm>
#include <utility>
#include <vector>

#include "analysis/find_heard.h"
#include "cli/terminal.h"
#include "tune/outline.h"

namespace cli {

namespace {

constexpr const char* kGroup = "Which tunes";

std::string_view begins_token(analysis::Begins begins) {
    switch (begins) {
        case analysis::Begins::tune:
            return "tune";
        case analysis::Begins::part:
            return "part";
        case analysis::Begins::within:
            break;
    }
    return "within";
}

}  // namespace

void HeardOption::add_to(CLI::App& command) {
    CLI::Option* goes =
        command.add_option("--goes", heard_, "goes like this somewhere, in any key, octave and rhythm: \"G A B d e\"");
    goes->type_name("PHRASE")->group(kGroup);
    command.add_flag("--at-start", at_start_, "with --goes: the tune begins so")->needs(goes)->group(kGroup);
}

std::map<tune::SettingId, report::HeardAt> HeardOption::apply_to(library::Selection& selection,
                                                                 const library::Library& library) const {
    std::optional<analysis::HeardSearch> search;
    try {
        search.emplace(analysis::read_heard(*heard_));
    } catch (const analysis::HeardFault& fault) {
        throw Misuse("--goes: " + std::string(fault.what()));
    }
    std::vector<std::pair<tune::SettingId, analysis::Hit>> hits;
    library.visit_outlines([&](const library::StoredOutline& stored) {
        const auto outline = tune::decode_outline(stored.bytes);
        if (!outline) return;
        if (const auto hit = search->find_in(*outline, at_start_)) hits.emplace_back(stored.setting, *hit);
    });
    std::stable_sort(hits.begin(), hits.end(),
                     [](const auto& a, const auto& b) { return analysis::better(a.second, b.second); });
    std::map<tune::SettingId, report::HeardAt> where;
    selection.goes.emplace();
    for (const auto& [setting, hit] : hits) {
        selection.goes->push_back(setting);
        where[setting] = {hit.errors, hit.bar, begins_token(hit.begins), hit.semitones};
    }
    return where;
}

}  // namespace cli
