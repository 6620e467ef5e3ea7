// Instruments on paper: `gamut instrument`.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "instruments/instrument.h"
#include "report/document.h"

namespace report {

struct InstrumentsPage {
    std::vector<const instruments::Instrument*> instruments;  // never null; must outlive this
};

Document describe(const InstrumentsPage& page);
Document tabulate(const InstrumentsPage& page);
std::string as_json(const InstrumentsPage& page);

struct InstrumentPage {
    const instruments::Instrument* instrument = nullptr;  // never null; must outlive this
    std::optional<music::NoteSet> where;                  // only these of its notes
};

Document describe(const InstrumentPage& page);
Document tabulate(const InstrumentPage& page);  // a row for each way of each note
std::string as_json(const InstrumentPage& page);

}  // namespace report
