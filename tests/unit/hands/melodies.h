// Melodies for the tests of this room, from ABC text.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "abc/read.h"
#include "hands/line.h"

namespace hands_test {

inline std::vector<tune::Setting> settings_of(std::string_view abc) {
    base::Diagnostics diagnostics;
    const base::SourceFile source("test.abc", std::string(abc));
    return abc::read_settings(source, diagnostics);
}

// In 4/4, quavers, without signature.
inline std::vector<hands::LineNote> line_of_notes(const std::string& music) {
    return hands::line_of(settings_of("X:1\nT:t\nM:4/4\nL:1/8\nK:C\n" + music + "\n").front().melody);
}

// One quaver for each of these, nothing else known of them.
inline std::vector<hands::LineNote> quavers(const std::vector<int>& midis) {
    std::vector<hands::LineNote> line;
    for (const int midi : midis) {
        line.push_back({});
        line.back().midi = midi;
        line.back().length = music::Duration(1, 8);
    }
    return line;
}

}  // namespace hands_test
