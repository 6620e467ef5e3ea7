#include "repertoire/pace.h"

#include <algorithm>
#include <array>

namespace repertoire {

namespace {

// clang-format off
// Source: common practice, no source.
constexpr std::array kPaces{
    //   rhythm             beats   easy       session
    Pace{"reel",              2,    60,  80,   100, 120},
    Pace{"jig",               2,    65,  85,   110, 125},
    Pace{"single jig",        2,    70,  90,   115, 130},
    Pace{"slide",             4,    80,  95,   130, 145},
    Pace{"slip jig",          3,    65,  85,   105, 120},
    Pace{"hop jig",           3,    75,  90,   120, 135},
    Pace{"polka",             2,    75, 100,   125, 145},
    Pace{"hornpipe",          2,    50,  70,    70,  95},
    Pace{"barndance",         2,    55,  70,    75,  95},
    Pace{"highland fling",    2,    55,  70,    75,  95},
    Pace{"schottische",       2,    55,  70,    75,  95},
    Pace{"strathspey",        2,    45,  55,    55,  65},
    Pace{"march",             2,    60,  80,    80, 115},
    Pace{"waltz",             3,    90, 120,   130, 160},
    Pace{"mazurka",           3,    90, 110,   120, 145},
    Pace{"varsovienne",       3,    90, 110,   120, 145},
    Pace{"triple hornpipe",   3,    60,  80,    90, 110},
    Pace{"rant",              2,    65,  80,    95, 110},
};
// clang-format on

}  // namespace

std::string_view to_string(PaceKind kind) { return kind == PaceKind::easy ? "easy" : "session"; }

std::optional<PaceKind> parse_pace_kind(std::string_view token) {
    for (const PaceKind kind : {PaceKind::easy, PaceKind::session})
        if (token == to_string(kind)) return kind;
    return std::nullopt;
}

int Pace::beats_a_minute(PaceKind kind) const {
    return kind == PaceKind::easy ? (easy_from + easy_to) / 2 : (session_from + session_to) / 2;
}

std::span<const Pace> paces() { return kPaces; }

std::optional<Pace> pace_of(std::string_view rhythm) {
    const auto found =
        std::find_if(kPaces.begin(), kPaces.end(), [rhythm](const Pace& pace) { return pace.rhythm == rhythm; });
    return found == kPaces.end() ? std::nullopt : std::optional(*found);
}

int beats_in_bar(const Pace& pace, std::string_view meter) {
    if (meter == "12/8") return 4;
    if (meter == "9/8" || meter == "3/4" || meter == "3/2") return 3;
    if (meter == "6/8") return 2;
    if (meter == "4/4" && pace.rhythm == "march") return 4;
    return pace.beats_in_bar;
}

}  // namespace repertoire
