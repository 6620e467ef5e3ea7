// Tunes of the published collections whose K: names a key: what key finding is fitted to and measured on.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "analysis/key_evidence.h"
#include "music/key.h"
#include "music/melody.h"

namespace keys {

struct LabelledTune {
    std::string collection;  // the name of its folder
    std::string book;        // of its file
    std::string number;
    std::string title;  // folded
    std::string shown_title;
    music::Key label;
    bool is_mode_trusted =
        false;     // the encoder writes modes: a label of major or minor is a claim, not just a signature
    int fold = 0;  // those of one fold are judged by what was learned on the others
    music::Melody melody;
    analysis::KeyEvidence evidence;
};

struct Labelled {
    std::vector<LabelledTune> tunes;
    int left_out_changes = 0;   // the key changes
    int left_out_no_label = 0;  // no K:, `none`, pipes, explicit accidentals, no note
};

// Both collections in `shared`/corpus. Folds: each book of Aird's is one; O'Neill's by its printed numbers in five
// stretches.
Labelled read_labelled(const std::filesystem::path& shared);

bool has_major_third(music::Mode mode);

}  // namespace keys
