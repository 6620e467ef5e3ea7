// Tunes of the published books whose K: names a key: what key finding is fitted to and measured on.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "analysis/key_evidence.h"
#include "music/key.h"
#include "tune/setting.h"

namespace keys {

struct LabelledTune {
    std::string collection;  // the name of its folder
    std::string book;        // of its file
    std::string title;       // folded
    music::Key label;        // what K: means: `D =c` is D mixolydian
    bool is_mode_trusted =
        false;     // the encoder writes modes: a label of major or minor is a claim, not just a signature
    int fold = 0;  // those of one fold are judged by what was learned on the others; kHeldOut for what no fit sees
    tune::Setting setting;
    analysis::KeyEvidence evidence;
};

constexpr int kHeldOut = -1;

struct Labelled {
    std::vector<LabelledTune> tunes;
    int left_out_changes = 0;   // the key changes
    int left_out_no_label = 0;  // no K:, `none`, pipes, no note
};

// Folds: Aird's books 1 and 2 are one each; O'Neill's by its printed numbers in five stretches; Ryan's by the first
// letter of the file name in three. What support::is_held_out names is in none.
Labelled read_labelled(const std::filesystem::path& shared);

bool has_major_third(music::Mode mode);

}  // namespace keys
