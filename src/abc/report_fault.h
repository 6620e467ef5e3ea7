// One way to raise a finding about ABC.
#pragma once

#include <string>

#include "abc/codes.h"

namespace abc {

inline void report(base::Diagnostics& diagnostics, const Code& code, base::Span where, std::string message) {
    diagnostics.add(code.severity, code.token, where, std::move(message));
}

}  // namespace abc
