// The ways to raise a finding about ABC.
#pragma once

#include <string>
#include <string_view>
#include <utility>

#include "abc/codes.h"

namespace abc {

inline void report(base::Diagnostics& diagnostics, const Code& code, base::Span where, std::string message) {
    diagnostics.add(code.severity, code.token, where, std::move(message));
}

// Of a sign that touches no note: told once a file, with how often it stands there.
inline void report_once(base::Diagnostics& diagnostics, const Code& code, std::string_view sign, base::Span where,
                        std::string message) {
    diagnostics.add_once(code.severity, code.token, sign, where, std::move(message));
}

}  // namespace abc
