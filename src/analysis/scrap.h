// Whether a setting is a scrap. Pure functions that never fail.
#pragma once

#include <optional>
#include <string_view>

#include "tune/facts.h"
#include "tune/scrap.h"
#include "tune/setting.h"

namespace analysis {

// A tune has eight bars at least, repeats played out: four and their repeat are enough. In free time, where bars say
// nothing, it has as many notes as eight bars of three. Source: common practice, no source; the number of notes is a
// house choice.
constexpr int kFewestBars = 8;
constexpr int kFewestNotesInFreeTime = 24;

// `facts` must have the structure, the rhythm and the number of notes of the setting. The first reason that holds, in
// the order of tune::Scrap; nothing for a tune, and for a setting without a note, which is nothing at all.
std::optional<tune::Scrap> find_scrap(const tune::Setting& setting, const tune::TuneFacts& facts);

// `Missing title`, `Untitled`; `2nd part`, `Lamp, part B`, `Lamp (fragment)`. "Gan ainm" and the like are names that
// players use.
bool is_title_of_scrap(std::string_view title);

}  // namespace analysis
