// Fitting the weights of analysis::KeyModel to labelled tunes.
#pragma once

#include <string>
#include <vector>

#include "analysis/key_model.h"
#include "labelled.h"

namespace keys {

// The weights that make the labels likeliest, less a penalty on their squares (ridge). The same tunes give the same
// weights.
//
// A label is taken as a claim of its tonic and mode where the encoder writes modes, or where it names a mode other than
// major and minor; else of its tonic and third, or, at a tenth of that, of another of the four modes with the same
// signature.
analysis::KeyModel fit(const std::vector<const LabelledTune*>& tunes);

// As key_model.cc holds it.
std::string table_of(const analysis::KeyModel& model);

}  // namespace keys
