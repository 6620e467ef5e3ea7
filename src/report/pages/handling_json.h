// The shape `on` of `gamut tune --json`. Inside this room only.
#pragma once

#include "report/pages/handling_page.h"
#include "report/words/json.h"

namespace report {

Json in_hand_json(const answers::InHand& in_hand, int fifths);

}  // namespace report
