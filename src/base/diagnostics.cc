#include "base/diagnostics.h"

#include <algorithm>

#include "base/source_file.h"
#include "base/utf8.h"

namespace base {

namespace {

// Columns of the excerpt: enough for any line a person wrote, short enough for a terminal.
constexpr std::size_t kExcerptWidth = 100;

}  // namespace

std::string_view severity_token(Severity severity) noexcept {
    switch (severity) {
        case Severity::error:
            return "error";
        case Severity::warning:
            return "warning";
        case Severity::remark:
            return "remark";
    }
    return "remark";
}

std::optional<Severity> parse_severity(std::string_view token) noexcept {
    for (const Severity severity : {Severity::error, Severity::warning, Severity::remark})
        if (severity_token(severity) == token) return severity;
    return std::nullopt;
}

void Diagnostics::add(Severity severity, std::string_view code, Span where, std::string message) {
    ++counts_[static_cast<std::size_t>(severity)];
    if (kept_.size() < kMaxKept) kept_.push_back({severity, code, where, std::move(message)});
}

void Diagnostics::add_once(Severity severity, std::string_view code, std::string_view sign, Span where,
                           std::string message) {
    Repeated& repeated = repeated_[{code, std::string(sign)}];
    if (++repeated.count > 1) return;
    repeated.index = kept_.size();
    add(severity, code, where, std::move(message));
}

void Diagnostics::order_by_place() {
    for (const auto& [sign, repeated] : repeated_)
        if (repeated.count > 1 && repeated.index < kept_.size())
            kept_[repeated.index].message += ", " + std::to_string(repeated.count) + " times in this file";
    repeated_.clear();  // the places in kept_ move
    std::stable_sort(kept_.begin(), kept_.end(),
                     [](const Diagnostic& a, const Diagnostic& b) { return a.where.begin < b.where.begin; });
}

std::string print_diagnostic(const SourceFile& source, const Diagnostic& diagnostic) {
    const Place place = source.place_of(diagnostic.where.begin);
    std::string text = printable(source.label()) + ":" + std::to_string(place.line) + ":" +
                       std::to_string(place.column) + ": " + std::string(severity_token(diagnostic.severity)) + ": " +
                       printable(diagnostic.message) + " [" + std::string(diagnostic.code) + "]\n";
    const std::string_view line = source.line_text(place.line);
    const std::size_t at =
        std::min<std::size_t>(source.written_at(diagnostic.where.begin) - source.line_begin(place.line), line.size());
    std::size_t from = at > kExcerptWidth - 20 ? at - (kExcerptWidth - 20) : 0;
    while (from > 0 && is_continuation_byte(line[from])) --from;
    std::size_t to = std::min(line.size(), from + kExcerptWidth);
    while (to < line.size() && is_continuation_byte(line[to])) ++to;
    const std::string lead = from > 0 ? "..." : "";
    text += "    " + lead + printable(line.substr(from, to - from)) + (to < line.size() ? "..." : "") + "\n";
    const std::size_t before = lead.size() + display_width(printable(line.substr(from, at - from)));
    text += "    " + std::string(before, ' ') + "^\n";
    return text;
}

}  // namespace base
