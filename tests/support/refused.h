// What a question was refused for.
#pragma once

#include <catch2/catch.hpp>

#include "answers/refusal.h"

namespace support {

// The test fails where there is an answer.
template <typename Ask>
answers::Refusal refusal_of(Ask ask) {
    try {
        ask();
    } catch (const answers::Refused& refused) {
        return refused.refusal();
    }
    FAIL("there was an answer");
    return {};
}

}  // namespace support
