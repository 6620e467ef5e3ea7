// A term for a calendar: `gamut syllabus --ics`.
#pragma once

#include <optional>
#include <string>

#include "report/writers/icalendar.h"
#include "syllabus/syllabus.h"

namespace report {

// A lesson an event, whose uid is the same for the same lesson however often the term is planned again.
std::string syllabus_calendar(const syllabus::Syllabus& plan, const std::optional<ClockTime>& time);

}  // namespace report
