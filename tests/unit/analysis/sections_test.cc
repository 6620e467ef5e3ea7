#include "analysis/sections.h"

#include <catch2/catch.hpp>
#include <string>

#include "../abc/written.h"

using written::AbcFile;
using written::tune_of;

namespace {

// `0-2 opens; 2-4 closes from 0`, one for each section: its bars from 0, half-open, and its signs.
std::string sections(const std::string& music) {
    const AbcFile file(tune_of(music));
    std::string text;
    for (const analysis::Section& section : analysis::find_sections(file.only().melody)) {
        const tune::Part& part = section.part;
        text += (text.empty() ? "" : "; ") + std::to_string(part.bars_begin) + "-" + std::to_string(part.bars_end);
        if (section.opens) text += " opens";
        if (section.closes) text += " closes";
        if (part.repeat_from) text += " from " + std::to_string(*part.repeat_from);
    }
    return text;
}

}  // namespace

TEST_CASE("sections: a repeat goes back to its sign, or to where its part begins", "[analysis][structure]") {
    // Source: ABC standard 2.1, section 4.8, asks a reader to bear a missing `|:`.
    CHECK(sections("|:C8|D8:|:E8|F8:|") == "0-2 opens closes from 0; 2-4 opens closes from 1");
    CHECK(sections("|:C8|D8||E8|F8:|") == "0-2 opens; 2-4 closes from 0");
    CHECK(sections("C8|D8||E8|F8:|") == "0-2; 2-4 closes from 1");
    CHECK(sections("|:C8|D8||E8|F8|]") == "0-2 opens; 2-4");
    CHECK(sections("C8|D8|:E8|F8||G8|A8:|B8|") == "0-2; 2-4 opens; 4-6 closes from 1; 6-7");
}

TEST_CASE("sections: two endings close a repeat, and the last is as long as the first", "[analysis][structure]") {
    CHECK(sections("|:C8|D8||E8|1F8:|2G8|]") == "0-2 opens; 2-5 closes from 0");
    CHECK(sections("C8|1F8:|2G8|A8|B8|c8|d8|") == "0-3 closes from 0; 3-7");
}
