// What a term was asked for with, as somebody would type it. Inside this room only.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "answers/term_request.h"

namespace report {

// `--from=2027-01-12`, `--must=33 by 2027-02-23`, `--ornaments`, in the order of `gamut syllabus --help`.
std::vector<std::string> as_options(const answers::TermRequest& request);

// The same on one line, tunes by their titles where they are known.
std::string options_in_words(const answers::TermRequest& request, const std::map<tune::TuneId, std::string>& titles);

}  // namespace report
