// Short ways to write ABC in a test and to see what was made of it.
#pragma once

#include <string>
#include <vector>

#include "abc/read.h"
#include "base/diagnostics.h"
#include "base/source_file.h"
#include "tune/setting.h"

namespace written {

// A text read as a file. Findings and settings refer to its source.
class AbcFile {
public:
    explicit AbcFile(std::string text)
        : source_("test.abc", std::move(text)), settings_(abc::read_settings(source_, diagnostics_)) {}

    const base::SourceFile& source() const { return source_; }
    const base::Diagnostics& diagnostics() const { return diagnostics_; }
    const std::vector<tune::Setting>& settings() const { return settings_; }
    const tune::Setting& only() const { return settings_.at(0); }

    // `abc-odd-key 4:1`, one for each finding, parted by commas.
    std::string findings() const {
        std::string text;
        for (const base::Diagnostic& diagnostic : diagnostics_.kept()) {
            const base::Place place = source_.place_of(diagnostic.where.begin);
            text += (text.empty() ? "" : ", ") + std::string(diagnostic.code) + " " + std::to_string(place.line) + ":" +
                    std::to_string(place.column);
        }
        return text;
    }

private:
    base::SourceFile source_;
    base::Diagnostics diagnostics_;
    std::vector<tune::Setting> settings_;
};

// Music under a header in C and 4/4 with quavers; `fields` come before K:, each with its line end, and may replace M:
// and L:.
inline std::string tune_of(const std::string& music, const std::string& fields = "", const std::string& key = "C") {
    return "X:1\nT:Test\nM:4/4\nL:1/8\n" + fields + "K:" + key + "\n" + music + "\n";
}

inline std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
    return text;
}

}  // namespace written
