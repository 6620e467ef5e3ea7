#include "abc/bar_signs.h"

#include <catch2/catch.hpp>
#include <string>

namespace {

// `:|` closes, `|:` opens, `||` is thick.
std::string run_says(std::string_view run) {
    const abc::BarSigns signs = abc::read_bar_signs(run);
    return std::string(signs.closes ? ":| " : "") + (signs.opens ? "|: " : "") + (signs.is_thick ? "|| " : "");
}

struct RunCase {
    const char* run;
    const char* says;
};

void check_runs(std::initializer_list<RunCase> cases) {
    for (const RunCase& one : cases) {
        CAPTURE(one.run);
        CHECK(run_says(one.run) == one.says);
    }
}

}  // namespace

TEST_CASE("bar signs: the signs of the standard", "[abc][bar_signs]") {
    // Source: ABC standard 2.1, section 4.8.
    check_runs({{"|", ""},
                {"||", "|| "},
                {"|]", "|| "},
                {"[|", "|| "},
                {"[|]", ""},
                {"|:", "|: "},
                {":|", ":| "},
                {"::", ":| |: "},
                {":|:", ":| |: "},
                {":||:", ":| |: || "},
                {"|::", "|: "},
                {"::|", ":| "}});
}

TEST_CASE("bar signs: a run says what each of its signs says", "[abc][bar_signs]") {
    check_runs({{"[|]:|", ":| "},
                {"|[|:", "|: || "},
                {":|]|:", ":| |: || "},
                {"||:|", ":| || "},
                {":|[|]", ":| "},
                {":||", ":| || "},
                {":|]", ":| || "},
                {"||:", "|: || "},
                {"[|:", "|: || "},
                {"|]:|", ":| || "},
                {":|:|", ":| "},
                {"|:|", ":| "},
                {"|::|", ":| |: "},
                {"::|:", ":| |: "},
                {"|:|:", ":| |: "},
                {"[|]:|]", ":| || "},
                {":||:|", ":| || "},
                {"|[|]:", "|: "}});
}

TEST_CASE("bar signs: a colon by itself and brackets without a line say nothing", "[abc][bar_signs]") {
    check_runs({{":", ""}, {"]", ""}, {"[]", ""}});
}
