// Tested by repeat_marks_test.cc.
#include "analysis/repeat_marks.h"

#include <algorithm>
#include <tuple>
#include <utility>

namespace analysis {

namespace {

// `1,2` and the like: more than one time through.
bool is_list(std::string_view ending) { return ending.find_first_of(",-") != std::string_view::npos; }

// The melody walked from bar to bar.
class SignWalk {
public:
    explicit SignWalk(const music::Melody& melody) : melody_(melody) {}

    std::vector<RepeatFault> faults() {
        for (std::uint32_t index = 0; index < melody_.bars.size(); ++index) pass(index);
        if (is_open_) add(Kind::never_closed, open_);
        end_endings();
        std::sort(faults_.begin(), faults_.end(), [](const RepeatFault& a, const RepeatFault& b) {
            return std::tie(a.bar, a.kind) < std::tie(b.bar, b.kind);
        });
        return std::move(faults_);
    }

private:
    using Kind = RepeatFault::Kind;

    void add(Kind kind, std::uint32_t bar) { faults_.push_back({kind, bar}); }

    void end_endings() {
        if (first_waits_) add(Kind::first_ending_alone, first_ending_);
        first_waits_ = false;
    }

    void pass(std::uint32_t index) {
        const music::Bar& bar = melody_.bars[index];
        if (bar.repeat_opens) {
            is_open_ = true;
            open_ = index;
            end_endings();
            has_endings_ = false;
        }
        if (!bar.ending.empty()) pass_ending(bar.ending, index);
        if (bar.repeat_closes || bar.thick_after) is_open_ = false;
    }

    void pass_ending(std::string_view ending, std::uint32_t index) {
        if (is_first_ending(ending)) {
            end_endings();
            first_waits_ = !is_list(ending);
            first_ending_ = index;
        } else {
            if (!has_endings_) add(Kind::later_ending_alone, index);
            first_waits_ = false;
        }
        has_endings_ = true;
    }

    const music::Melody& melody_;
    std::vector<RepeatFault> faults_;
    bool is_open_ = false;  // the `|:` at open_ waits for what ends its part
    std::uint32_t open_ = 0;
    bool first_waits_ = false;  // the ending at first_ending_ waits for another
    std::uint32_t first_ending_ = 0;
    bool has_endings_ = false;  // an ending stands in this part already
};

}  // namespace

bool is_first_ending(std::string_view ending) noexcept {
    return ending.starts_with('1') && (ending.size() == 1 || ending[1] < '0' || ending[1] > '9');
}

std::vector<RepeatFault> find_repeat_faults(const music::Melody& melody) { return SignWalk(melody).faults(); }

}  // namespace analysis
