// Named here for whoever asks a library.
#pragma once

#include "collection/answer.h"

namespace library {

using collection::Answer;
using collection::LeftOut;
using collection::NotesAnswer;
using collection::SettingKind;
using collection::Tally;
using collection::TuneMark;
using collection::TuneNotes;

}  // namespace library
