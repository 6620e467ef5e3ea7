// Why a question has no answer, in the words of the command line.
#pragma once

#include <string>

#include "answers/notes_asked.h"
#include "answers/refusal.h"
#include "collection/collection.h"
#include "report/pages/fault.h"

namespace cli {

// One sentence, with the option at fault and what to do.
std::string in_words(const answers::Refusal& refusal);

// With the exit code: kDoneInPart where the question was understood.
report::Fault fault_of(const answers::Refusal& refusal);

// On standard error the tunes that may be meant, where there are several.
void tell_candidates(const answers::Refusal& refusal);

// Tells it on standard error, with these; the exit code.
int tell(const answers::Refusal& refusal);

// Tells of notes that were named and are not on the instrument.
void tell_left_out(const std::vector<answers::LeftOutNotes>& left_out);

// Tells who is in each class of players that was named.
void tell_classes(const collection::Collection& collection, const std::vector<std::string>& names);

}  // namespace cli
