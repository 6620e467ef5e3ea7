#include "syllabus/playing_time.h"

#include <algorithm>
#include <array>
#include <set>
#include <string>
#include <vector>

namespace syllabus {

namespace {

struct Pace {
    std::string_view rhythm;
    int beats_a_bar;
    int beats_a_minute;
};

// The middle of what is usual in a first year. Source: common practice, no source.
constexpr std::array<Pace, 14> kPaces{{{"reel", 2, 70},
                                       {"jig", 2, 75},
                                       {"slide", 4, 88},
                                       {"slip jig", 3, 75},
                                       {"hop jig", 3, 82},
                                       {"polka", 2, 88},
                                       {"hornpipe", 2, 60},
                                       {"barndance", 2, 62},
                                       {"schottische", 2, 62},
                                       {"strathspey", 2, 50},
                                       {"march", 2, 70},
                                       {"waltz", 3, 105},
                                       {"mazurka", 3, 100},
                                       {"rant", 2, 72}}};
constexpr Pace kAnyRhythm{"", 2, 70};

}  // namespace

int bars_played(int written_bars, std::string_view form) {
    std::vector<std::string> letters;
    if (form.find(' ') == std::string_view::npos) {
        for (const char letter : form) letters.emplace_back(1, letter);
    } else {
        for (std::size_t at = 0; at < form.size();) {
            const std::size_t end = std::min(form.find(' ', at), form.size());
            if (end > at) letters.emplace_back(form.substr(at, end - at));
            at = end + 1;
        }
    }
    const std::set<std::string> different(letters.begin(), letters.end());
    if (different.empty()) return written_bars;
    return written_bars * static_cast<int>(letters.size()) / static_cast<int>(different.size());
}

int seconds_to_play(std::string_view rhythm, int bars) {
    const auto* const found =
        std::find_if(kPaces.begin(), kPaces.end(), [&](const Pace& pace) { return pace.rhythm == rhythm; });
    const Pace& pace = found == kPaces.end() ? kAnyRhythm : *found;
    return kTimesThrough * bars * pace.beats_a_bar * 60 / pace.beats_a_minute;
}

}  // namespace syllabus
