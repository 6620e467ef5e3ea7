// What `gamut read` shows of files, without a library: melodies and facts, with every finding.
#pragma once

#include <string>
#include <vector>

#include "base/diagnostics.h"
#include "base/source_file.h"
#include "report/document.h"
#include "tune/facts.h"
#include "tune/setting.h"

namespace report {

// One setting as it was read; all three must outlive it.
struct ReadSetting {
    const tune::Setting& setting;
    const tune::TuneFacts& facts;
    const base::SourceFile& source;
};

// The findings of one file; both must outlive it.
struct ReadFindings {
    const base::SourceFile* source = nullptr;
    const base::Diagnostics* diagnostics = nullptr;
};

// Setting by setting, so that a file of a hundred thousand tunes never stands in memory as a whole.
void add_facts(const ReadSetting& read, Document& document);
void add_melody(const ReadSetting& read, Document& document);

// The same as one JSON document. In this order: opening, rows parted by commas, closing.
std::string reading_json_opening();
std::string facts_row_json(const ReadSetting& read);   // a row as in `tunes`, without ids
std::string melody_row_json(const ReadSetting& read);  // the shape `melody` of schema/output.md
std::string reading_json_closing(const std::vector<ReadFindings>& files);

// The conventions of the shape `melody`: `67`, grace `g62`, chord `60+64+67`, tied `(62)`, `(60)+65`.
std::vector<std::string> pitch_words(const music::Melody& melody);
std::vector<std::string> length_words(const music::Melody& melody);

}  // namespace report
