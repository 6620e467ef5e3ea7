// Instruments on paper: `gamut instrument`.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "instruments/instrument.h"
#include "report/document.h"

namespace report {

Document describe_instruments(const std::vector<const instruments::Instrument*>& instruments);
Document tabulate_instruments(const std::vector<const instruments::Instrument*>& instruments);
std::string instruments_json(const std::vector<const instruments::Instrument*>& instruments);

struct InstrumentPage {
    const instruments::Instrument* instrument = nullptr;  // never null; must outlive this
    std::optional<music::NoteSet> where;                  // only these of its notes
};

Document describe_instrument(const InstrumentPage& page);
Document tabulate_instrument(const InstrumentPage& page);  // a row for each way of each note
std::string instrument_json(const InstrumentPage& page);

}  // namespace report
