#include "analysis/repeat_marks.h"

#include <catch2/catch.hpp>
#include <string>

#include "../abc/written.h"

using analysis::RepeatFault;
using written::AbcFile;
using written::tune_of;

namespace {

// `1 never closed, 3 first ending alone`; bars count from 1.
std::string faults(const std::string& music) {
    const AbcFile file(tune_of(music));
    std::string text;
    for (const RepeatFault& fault : analysis::find_repeat_faults(file.only().melody)) {
        text += (text.empty() ? "" : ", ") + std::to_string(fault.bar + 1);
        switch (fault.kind) {
            case RepeatFault::Kind::never_closed:
                text += " never closed";
                break;
            case RepeatFault::Kind::first_ending_alone:
                text += " first ending alone";
                break;
            case RepeatFault::Kind::later_ending_alone:
                text += " later ending alone";
                break;
        }
    }
    return text;
}

}  // namespace

TEST_CASE("repeat marks: half-written repeats that everybody understands are no fault", "[analysis][repeat_marks]") {
    // Source: ABC standard 2.1, section 4.8: a repeat without its opening sign goes back to the latest double bar,
    // repeat or beginning.
    CHECK(faults("G8|A8:|") == "");
    CHECK(faults("G8|A8:|B8|c8:|") == "");
    CHECK(faults("G8|A8::B8|c8:|") == "");
    CHECK(faults("G8|A8||B8|c8:|") == "");
    CHECK(faults("|:G8|A8:|:B8|c8:|") == "");
    CHECK(faults("|:G8|A8||B8|c8:|") == "");
    CHECK(faults("G8|A8|B8|]") == "");
}

TEST_CASE("repeat marks: a repeat that opens and is never closed", "[analysis][repeat_marks]") {
    CHECK(faults("|:G8|A8|") == "1 never closed");
    CHECK(faults("|:G8|A8:|:B8|c8|") == "3 never closed");
    CHECK(faults("G8|A8::B8|c8") == "3 never closed");
}

TEST_CASE("repeat marks: a thick bar or the next repeat shows where an open one ends", "[analysis][repeat_marks]") {
    CHECK(faults("|:G8|A8|]") == "");
    CHECK(faults("|:G8|A8:|:B8|c8|]") == "");
    CHECK(faults("G8|A8::B8|c8||") == "");
    CHECK(faults("|:G8|A8|:B8|c8:|") == "");
    CHECK(faults("|:G8|A8|:B8|c8|:d8|e8|") == "5 never closed");
}

TEST_CASE("repeat marks: endings go in company", "[analysis][repeat_marks]") {
    // Source: ABC standard 2.1, sections 4.9 and 4.10.
    CHECK(faults("|:G8|1 A8:|2 B8||c8|]") == "");
    CHECK(faults("|:G8|[1 A8:|[2 B8:|[3 c8||") == "");
    CHECK(faults("|:G8|[1,3 A8:|[2,4 B8||") == "");
    CHECK(faults("|:G8|[1-3 A8:|[4 B8||") == "");
    CHECK(faults("|:G8|1 A8:|2 B8:|:c8|1 d8:|2 e8:|") == "");
    CHECK(faults("|:G8|1 A8:|") == "2 first ending alone");
    CHECK(faults("|:G8|1 A8:|:B8|c8:|") == "2 first ending alone");
    CHECK(faults("|:G8|1 A8:|B8|1 c8:|2 d8|]") == "2 first ending alone");
    CHECK(faults("|:G8|[1,2 A8:|") == "");  // both times the same: written so for the count
    CHECK(faults("|:G8|A8|2 B8:|") == "3 later ending alone");
    CHECK(faults("|:G8|1 A8:|2 B8:|:c8|2 d8:|") == "5 later ending alone");
    CHECK(faults("|:G8|[12 A8:|") == "2 later ending alone");  // twelve is not one
}

TEST_CASE("repeat marks: an ending without a repeat sign leaves the repeat open", "[analysis][repeat_marks]") {
    CHECK(faults("|:G8|1 A8|2 B8|]") == "");
    CHECK(faults("|:G8|1 A8|2 B8|") == "1 never closed");
    CHECK(faults("|:G8|1 A8|]") == "2 first ending alone");
}

TEST_CASE("repeat marks: nothing is said of nothing", "[analysis][repeat_marks]") {
    CHECK(analysis::find_repeat_faults(music::Melody{}).empty());
}
