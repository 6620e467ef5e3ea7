#include "base/source_file.h"

#include <algorithm>

#include "base/invariant.h"

namespace base {

namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

// How far from the top a charset is looked for: the standard wants it early in the file header.
constexpr std::size_t kCharsetReach = 8192;

// Bytes between two places whose column is known. Source: house choice.
constexpr std::uint32_t kStride = 1024;

std::optional<Charset> charset_named(std::string_view bytes) {
    const std::string_view head = bytes.substr(0, kCharsetReach);
    constexpr std::string_view kWord = "abc-charset";
    for (std::size_t at = head.find(kWord); at != std::string_view::npos; at = head.find(kWord, at + 1)) {
        const bool is_instruction = at >= 2 && (head.substr(at - 2, 2) == "%%" || head.substr(at - 2, 2) == "I:");
        if (!is_instruction && !(at >= 3 && head.substr(at - 3, 3) == "I: ")) continue;
        std::size_t begin = at + kWord.size();
        while (begin < head.size() && (head[begin] == ' ' || head[begin] == '\t')) ++begin;
        std::size_t end = begin;
        while (end < head.size() && static_cast<unsigned char>(head[end]) > ' ') ++end;
        const std::string name = fold(head.substr(begin, end - begin));
        constexpr std::string_view kIso = "iso-8859-";
        if (name.starts_with(kIso)) {
            const std::string part = name.substr(kIso.size());
            if (part == "10") return Charset::iso_8859_10;
            if (part.size() == 1 && part[0] >= '1' && part[0] <= '9')
                return static_cast<Charset>(static_cast<int>(Charset::iso_8859_1) + (part[0] - '1'));
        }
        return std::nullopt;
    }
    return std::nullopt;
}

// A file put together from several keeps the mark of each where it began, at the start of a line.
std::string without_marks_at_lines(std::string text) {
    if (text.find(kByteOrderMark) == std::string::npos) return text;
    std::string kept;
    kept.reserve(text.size());
    for (std::size_t at = 0; at < text.size();) {
        const bool begins_line = kept.empty() || kept.back() == '\n' || kept.back() == '\r';
        if (begins_line && std::string_view(text).substr(at).starts_with(kByteOrderMark))
            at += kByteOrderMark.size();
        else
            kept += text[at++];
    }
    return kept;
}

}  // namespace

SourceFile::SourceFile(std::string label, std::string text, Decoding decoding)
    : label_(std::move(label)), text_(std::move(text)), decoding_(decoding) {}

SourceFile SourceFile::rewritten(std::vector<Rewriting> changes) && {
    if (changes.empty()) return std::move(*this);
    std::string read;
    std::vector<std::uint32_t> ends;
    std::uint32_t at = 0;
    for (const Rewriting& change : changes) {
        INVARIANT(rewritings_.empty() && change.written.begin >= at && change.written.end <= text_.size());
        read.append(text_, at, change.written.begin - at);
        read += change.read;
        at = change.written.end;
        ends.push_back(static_cast<std::uint32_t>(read.size()));
    }
    read.append(text_, at);
    SourceFile file(std::move(label_), std::move(read), decoding_);
    file.written_ = std::move(text_);
    file.rewritings_ = std::move(changes);
    file.read_ends_ = std::move(ends);
    return file;
}

std::uint32_t SourceFile::written_at(std::uint32_t offset) const noexcept {
    const auto after = std::upper_bound(read_ends_.begin(), read_ends_.end(), offset);
    const auto next = static_cast<std::size_t>(after - read_ends_.begin());
    std::uint32_t at = offset;
    if (next > 0) at = rewritings_[next - 1].written.end + (offset - read_ends_[next - 1]);
    return next < rewritings_.size() ? std::min(at, rewritings_[next].written.begin) : at;
}

const std::vector<std::uint32_t>& SourceFile::line_starts() const {
    if (!line_starts_.empty()) return line_starts_;
    const std::string_view text = written();
    line_starts_.push_back(0);
    std::uint32_t letters = 0;
    for (std::uint32_t at = 0; at < text.size(); ++at) {
        if (at % kStride == 0) letters_before_.push_back(letters);
        if (!is_continuation_byte(text[at])) ++letters;
        if (text[at] == '\r' && at + 1 < text.size() && text[at + 1] == '\n') continue;
        if (text[at] == '\n' || text[at] == '\r') line_starts_.push_back(at + 1);
    }
    return line_starts_;
}

Place SourceFile::place_of(std::uint32_t offset) const {
    const auto& starts = line_starts();
    offset = std::min<std::uint32_t>(written_at(offset), static_cast<std::uint32_t>(written().size()));
    const auto after = std::upper_bound(starts.begin(), starts.end(), offset);
    const auto line = static_cast<std::uint32_t>(after - starts.begin());
    return {line, 1 + letters_before(offset) - letters_before(starts[line - 1])};
}

std::uint32_t SourceFile::letters_before(std::uint32_t offset) const {
    if (letters_before_.empty()) return 0;  // of an empty file
    const std::uint32_t stride = std::min(offset / kStride, static_cast<std::uint32_t>(letters_before_.size()) - 1);
    std::uint32_t letters = letters_before_[stride];
    for (std::uint32_t at = stride * kStride; at < offset; ++at)
        if (!is_continuation_byte(written()[at])) ++letters;
    return letters;
}

std::string_view SourceFile::line_text(std::uint32_t line) const {
    const auto& starts = line_starts();
    if (line == 0 || line > starts.size()) return {};
    const std::uint32_t begin = starts[line - 1];
    std::size_t end = line < starts.size() ? starts[line] : written().size();
    while (end > begin && (written()[end - 1] == '\n' || written()[end - 1] == '\r')) --end;
    return written().substr(begin, end - begin);
}

std::uint32_t SourceFile::line_begin(std::uint32_t line) const {
    const auto& starts = line_starts();
    return line == 0 || line > starts.size() ? static_cast<std::uint32_t>(written().size()) : starts[line - 1];
}

SourceFile decode_source(std::string label, std::string bytes) {
    while (std::string_view(bytes).starts_with(kByteOrderMark)) bytes.erase(0, kByteOrderMark.size());
    if (const auto charset = charset_named(bytes))
        return {std::move(label), decode(bytes, *charset), Decoding::named_charset};
    if (is_utf8(bytes)) return {std::move(label), without_marks_at_lines(std::move(bytes)), Decoding::utf8};
    return {std::move(label), decode(bytes, Charset::windows_1252), Decoding::assumed_windows_1252};
}

bool looks_binary(std::string_view bytes) noexcept {
    return bytes.substr(0, kCharsetReach).find('\0') != std::string_view::npos;
}

}  // namespace base
