// Tested by goal_words_test.cc.
#include "report/words/goal_words.h"

#include <fmt/format.h>

#include "report/words/words.h"

namespace report {

namespace {

std::string listed(const std::vector<tune::TuneId>& ids) {
    std::string list;
    for (std::size_t at = 0; at < ids.size(); ++at)
        list += (at == 0 ? "" : at + 1 == ids.size() ? " and " : ", ") + std::to_string(ids[at].value);
    return list;
}

struct FaultWords {
    std::string operator()(const planner::InTwoGroups& fault) const {
        return note_list(fault.notes) + " cannot be in two groups";
    }
    std::string operator()(const planner::WrongBefore& fault) const {
        const std::string first = note_or_dash(fault.first), then = note_or_dash(fault.then);
        switch (fault.why) {
            case planner::WrongBefore::Why::there_already:
                return first + " cannot come before " + then + ", which is there already";
            case planner::WrongBefore::Why::never_learnt:
                return first + " is to come before " + then + ", but it is never to be learnt";
            case planner::WrongBefore::Why::learnt_together:
                return first + " cannot come before " + then + ": they are learnt together";
            case planner::WrongBefore::Why::both_ways:
                break;
        }
        return first + " is to come before " + then + " and " + then + " before " + first;
    }
    std::string operator()(const planner::WrongFirst& fault) const {
        const std::string named = note_or_dash(fault.note) + " is named";
        switch (fault.why) {
            case planner::WrongFirst::Why::twice:
                return named + " twice";
            case planner::WrongFirst::Why::there_already:
                return named + ", but it is there already";
            case planner::WrongFirst::Why::never_learnt:
                break;
        }
        return named + ", but it is never to be learnt";
    }
    std::string operator()(const planner::NamedTooEarly& fault) const {
        return note_or_dash(fault.note) + " is named before " + note_or_dash(fault.earlier) +
               ", which is to come before it";
    }
    std::string operator()(const planner::NeedsAvoided& fault) const {
        return fmt::format("tune {}, which must open, needs {}, never to be learnt", fault.tune.value,
                           note_list(fault.notes));
    }
    std::string operator()(const planner::TooFewSteps& fault) const {
        const bool is_one = fault.tunes.size() == 1;
        return fmt::format("{} {} cannot open within {}: {} {}, for {} {}{}", is_one ? "tune" : "tunes",
                           listed(fault.tunes), counted(fault.steps, "note", "notes"),
                           is_one ? "it takes" : "they take", fault.takes, is_one ? "it needs" : "they need",
                           note_list(fault.needs), fault.after.empty() ? "" : " after " + note_list(fault.after));
    }
    std::string operator()(const planner::TooMuchForced& fault) const {
        return fmt::format("what the path must have takes {} steps, more than the {} asked about", fault.takes,
                           fault.steps);
    }
};

}  // namespace

std::string in_words(const planner::Fault& fault) { return std::visit(FaultWords{}, fault); }

}  // namespace report
