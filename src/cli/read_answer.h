// What `gamut read` answers, written while it is still reading.
#pragma once

#include <string>
#include <vector>

#include "cli/terminal.h"
#include "report/document.h"
#include "report/pages/reading.h"
#include "tune/record.h"

namespace cli {

class ReadAnswer {
public:
    // `shows_melody`: pitches and lengths; else facts. JSON, CSV (facts only), HTML or text, as `format` says.
    ReadAnswer(bool shows_melody, const Format& format) : shows_melody_(shows_melody), format_(format) {}

    void take(report::Document tokens);  // of a file
    void take(const tune::Setting& setting, const base::SourceFile& source);
    void end_file();  // what is shown of it stands before what was odd in it
    void end(const std::vector<report::ReadFindings>& files);

private:
    void flush();

    bool shows_melody_;
    Format format_;
    std::string json_;                    // not yet written
    report::Document document_;           // not yet written
    std::vector<tune::TuneRecord> rows_;  // of CSV
    std::size_t taken_ = 0;
    bool any_text_ = false;
};

}  // namespace cli
