#include "report/words/cell_words.h"

#include <fmt/format.h>

#include <cmath>

#include "report/words/words.h"

namespace report {

namespace {

struct CellWords {
    std::string operator()(std::monostate) const { return "-"; }
    std::string operator()(const std::string& text) const { return text; }
    std::string operator()(std::int64_t number) const { return std::to_string(number); }
    std::string operator()(const Share& share) const { return share_in_words(share); }
    std::string operator()(const Notes& notes) const { return notes_listed(notes); }
    std::string operator()(const Duration& duration) const { return clock_in_words(duration); }
    std::string operator()(const base::Date& date) const { return base::to_string(date); }
    std::string operator()(const Items& items) const {
        std::string lines;
        for (const std::string& text : items.texts) lines += (lines.empty() ? "" : "\n") + text;
        return lines;
    }
    std::string operator()(const FromAbove&) const { return {}; }
};

}  // namespace

std::string share_in_words(const Share& share) {
    const auto tenths = static_cast<long>(std::lround(share.value * 1000));
    return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) + " %";
}

std::string clock_in_words(const Duration& duration) {
    return fmt::format("{}:{:02}", duration.seconds / 60, duration.seconds % 60);
}

std::string cell_in_words(const Cell& cell) { return std::visit(CellWords(), cell); }

bool is_number(const Cell& cell) {
    return std::holds_alternative<std::int64_t>(cell) || std::holds_alternative<Share>(cell);
}

}  // namespace report
