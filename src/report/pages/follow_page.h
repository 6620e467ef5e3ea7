// `gamut tunes --after`: tunes that follow a tune well in a set, and why.
#pragma once

#include <string>

#include "answers/follow.h"
#include "report/document.h"

namespace report {

// `4th up`, `same key`; `step +2`, `repeat`.
std::string key_move_in_words(const repertoire::Follow& follow);
std::string join_in_words(const repertoire::Follow& follow);

Document describe(const answers::FollowAnswer& page);
Document tabulate(const answers::FollowAnswer& page);
std::string as_json(const answers::FollowAnswer& page);  // the shape `after` of schema/output.md, with a line end

}  // namespace report
