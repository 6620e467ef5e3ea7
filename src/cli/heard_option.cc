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
    CLI::Option* goes = command.add_option("--goes", heard_,
                                           "goes like this somewhere, in any key, octave and rhythm: \"G A B d e\"; "
                                           "letters without signs are tried with up to three sharps or flats");
    goes->type_name("PHRASE")->group(kGroup);
    command.add_flag("--at-start", at_start_, "with --goes: the tune begins so")->needs(goes)->group(kGroup);
}

std::map<tune::SettingId, report::HeardAt> HeardOption::apply_to(library::Selection& selection,
                                                                 const library::Library& library) const {
    std::vector<analysis::HeardSearch> searches;
    try {
        for (const analysis::Heard& heard : analysis::readings_of(*heard_)) searches.emplace_back(heard);
    } catch (const analysis::HeardFault& fault) {
        throw Misuse("--goes: " + std::string(fault.what()));
    }
    struct Found {
        tune::SettingId setting;
        analysis::Hit hit;
        bool as_written = true;  // without the signs of a signature
    };
    const auto comes_before = [](const Found& a, const Found& b) {
        if (a.hit.errors != b.hit.errors) return a.hit.errors < b.hit.errors;
        if (a.as_written != b.as_written) return a.as_written;
        return analysis::better(a.hit, b.hit);
    };
    std::vector<Found> hits;
    library.visit_outlines([&](const library::StoredOutline& stored) {
        const auto outline = tune::decode_outline(stored.bytes);
        if (!outline) return;
        std::optional<Found> best;
        for (std::size_t reading = 0; reading < searches.size(); ++reading) {
            const auto hit = searches[reading].find_in(*outline, at_start_);
            if (!hit) continue;
            const Found found{stored.setting, *hit, reading == 0};
            if (!best || comes_before(found, *best)) best = found;
        }
        if (best) hits.push_back(*best);
    });
    std::stable_sort(hits.begin(), hits.end(), comes_before);
    std::map<tune::SettingId, report::HeardAt> where;
    selection.goes.emplace();
    for (const auto& [setting, hit, as_written] : hits) {
        selection.goes->push_back(setting);
        where[setting] = {hit.errors, hit.bar, begins_token(hit.begins), hit.semitones};
    }
    return where;
}

}  // namespace cli
