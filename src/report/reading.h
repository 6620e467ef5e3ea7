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

struct ReadSetting {
    tune::Setting setting;
    tune::TuneFacts facts;
};

// One file as it was read. `source` must outlive it.
struct Reading {
    const base::SourceFile* source = nullptr;
    std::vector<ReadSetting> settings;
    const base::Diagnostics* diagnostics = nullptr;
};

Document describe_facts(const std::vector<Reading>& readings);
Document describe_melodies(const std::vector<Reading>& readings);
Document tabulate_facts(const std::vector<Reading>& readings);
std::string facts_json(const std::vector<Reading>& readings);     // rows as in `tunes`, without ids
std::string melodies_json(const std::vector<Reading>& readings);  // the shape `melody` of schema/output.md

// The conventions of the shape `melody`: `67`, grace `g62`, chord `60+64+67`, tied `(62)`, `(60)+65`.
std::vector<std::string> pitch_words(const music::Melody& melody);
std::vector<std::string> length_words(const music::Melody& melody);

}  // namespace report
