// The instruments that come with the program, from src/instruments/data.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "instruments/instrument.h"

namespace instruments {

// Ascending.
std::vector<std::string> ids();

// Null where there is none. All are read the first time anyone asks, from any thread, and stay for good.
const Instrument* find(std::string_view id);

// One that stays for good, for who may also hold an instrument of the user's own: nobody owns it.
std::shared_ptr<const Instrument> lent(const Instrument& known);

}  // namespace instruments
