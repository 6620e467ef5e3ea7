// The side channel of reading: what was odd, where, and what was done about it.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/span.h"

namespace base {

class SourceFile;

enum class Severity : std::uint8_t { error, warning, remark };

std::string_view severity_token(Severity severity) noexcept;
std::optional<Severity> parse_severity(std::string_view token) noexcept;

struct Diagnostic {
    Severity severity = Severity::warning;
    std::string_view code;  // one of a closed list of literals, `abc-...`; static storage
    Span where;
    std::string message;  // what was read, what was expected, what was done
};

// Findings about one source, in the order they were met until order_by_place() is called. Every one is counted; the
// texts of the first kMaxKept are kept, so that a hostile file cannot fill the memory.
class Diagnostics {
public:
    static constexpr std::size_t kMaxKept = 2000;

    void add(Severity severity, std::string_view code, Span where, std::string message);

    // Kept and counted once for each `sign` of a code, where it was met first. How often it was met is added to the
    // message by order_by_place().
    void add_once(Severity severity, std::string_view code, std::string_view sign, Span where, std::string message);

    // As a reader meets them from top to bottom; those of one place stay in the order they were met.
    void order_by_place();

    const std::vector<Diagnostic>& kept() const noexcept { return kept_; }
    std::size_t count(Severity severity) const noexcept { return counts_[static_cast<std::size_t>(severity)]; }
    std::size_t total() const noexcept { return counts_[0] + counts_[1] + counts_[2]; }
    std::size_t not_kept() const noexcept { return total() - kept_.size(); }

private:
    struct Repeated {
        std::size_t index = 0;  // into kept_; its size where the finding was not kept
        std::size_t count = 0;
    };

    std::vector<Diagnostic> kept_;
    std::array<std::size_t, 3> counts_{};
    std::map<std::pair<std::string_view, std::string>, Repeated> repeated_;  // by code and sign
};

// `path:line:column: warning: text [code]`, then the line and a caret under the place. Long lines are shown in
// part; control characters are shown as blanks, so a hostile file cannot drive the terminal.
std::string print_diagnostic(const SourceFile& source, const Diagnostic& diagnostic);

}  // namespace base
