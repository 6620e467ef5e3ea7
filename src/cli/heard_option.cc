#include "cli/heard_option.h"

#include "analysis/rank_heard.h"
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
    CLI::Option* goes = command.add_option(
        "--goes", heard_,
        "goes like this somewhere, in any key, octave and rhythm, with a note or two wrong: \"G A B d e\"; "
        "letters without signs are tried with up to three sharps or flats");
    goes->type_name("PHRASE")->group(kGroup);
    command.add_flag("--at-start", at_start_, "with --goes: the tune begins so")->needs(goes)->group(kGroup);
}

std::map<tune::SettingId, report::HeardAt> HeardOption::apply_to(collection::Selection& selection,
                                                                 const collection::Collection& library) const {
    std::map<tune::SettingId, report::HeardAt> where;
    selection.goes.emplace();
    try {
        analysis::HeardRanking ranking(*heard_, at_start_);
        library.visit_outlines([&](const collection::StoredOutline& stored) {
            if (const auto outline = tune::decode_outline(stored.bytes))
                ranking.look_at(stored.setting.value, *outline);
        });
        for (const analysis::HeardSetting& heard :
             ranking.rank([&](std::int64_t setting) { return library.outline_of({setting}); })) {
            const analysis::Hit& hit = heard.place.hit;
            selection.goes->push_back({heard.setting});
            where[{heard.setting}] = {hit.errors, hit.bar, begins_token(hit.begins), hit.semitones};
        }
    } catch (const analysis::HeardFault& fault) {
        throw Misuse("--goes: " + std::string(fault.what()));
    }
    return where;
}

}  // namespace cli
