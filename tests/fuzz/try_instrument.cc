#include <algorithm>
#include <vector>

#include "abc/read.h"
#include "analysis/analyse.h"
#include "base/diagnostics.h"
#include "base/invariant.h"
#include "base/source_file.h"
#include "hands/handling.h"
#include "instruments/instrument_file.h"
#include "instruments/known.h"
#include "targets.h"

namespace fuzz {

namespace {

void check_way(const instruments::Way& way) {
    INVARIANT(!way.technique.empty() && !way.fingering.empty() && !way.source.empty());
    INVARIANT(way.grade >= instruments::kEasiestGrade && way.grade <= instruments::kHardestGrade);
}

void check_instrument(const instruments::Instrument& instrument) {
    INVARIANT(!instrument.notes.empty() && !instrument.title.empty());
    INVARIANT(instrument.row_signs.empty() || instrument.row_signs.size() == instrument.rows.size());
    int last = -1;
    for (const instruments::InstrumentNote& note : instrument.notes) {
        INVARIANT(note.written > last && note.written < music::kMidiNotes);
        last = note.written;
        INVARIANT(!note.ways.empty());
        std::for_each(note.ways.begin(), note.ways.end(), check_way);
    }
    INVARIANT(instrument.note_set().size() == static_cast<int>(instrument.notes.size()));
    INVARIANT(std::all_of(instrument.motion_costs.begin(), instrument.motion_costs.end(),
                          [](std::uint8_t cost) { return cost <= instruments::kDearestMotion; }));
}

struct Played {
    tune::Setting setting;
    tune::TuneFacts facts;
};

const Played& a_tune() {
    static const Played played = [] {
        base::Diagnostics unheard;
        const base::SourceFile source("tune.abc",
                                      "X:1\nT:The Leaking Rowlock\nM:4/4\nL:1/8\nK:D\n"
                                      "D2FA d2cB|A2FE D2EF|G2BG F2AF|E2=c^A E4|d'2[DF]z (3Bcd e>f|A,2E2 D4|]\n");
        Played one{abc::read_settings(source, unheard).at(0), {}};
        one.facts = analysis::analyse(one.setting);
        return one;
    }();
    return played;
}

}  // namespace

void try_instrument(const std::string& bytes) {
    try {
        const instruments::Instrument instrument =
            instruments::read_instrument(bytes, "own", "own.toml", instruments::find);
        check_instrument(instrument);
        const hands::Handling handling = hands::handle(a_tune().setting.melody, a_tune().facts, instrument);
        for (const hands::MotionSum& sum : handling.motions) {
            INVARIANT(sum.fewest >= 0 && sum.fewest <= sum.count);
            INVARIANT(sum.quick >= 0 && sum.quick <= sum.count);
        }
    } catch (const instruments::InstrumentFault& fault) {
        INVARIANT(!std::string_view(fault.what()).empty());
        INVARIANT(fault.line() >= 1 && fault.column() >= 1);
    }
}

}  // namespace fuzz
