// Runs of lines between empty lines, cut again where an X: starts a tune without an empty line before it. What a run is follows
// from its fields: X: or K: make a tune, fields alone at the very start a file header, all else is free text.
#include "abc/tunebook.h"

#include "abc/codes.h"
#include "abc/line.h"

namespace abc {

namespace {

// What has been seen of the run being gathered.
struct Run {
    Block block;
    bool is_open = false;
    bool has_number = false;    // an X: line
    bool has_title = false;
    bool has_key = false;
    bool has_fields = false;
    bool has_other = false;     // a line that is no field, directive or comment
    std::uint32_t line_of_number = 0;
};

// `%abc-2.1` or later asks for strict reading. ABC 2.1, section 2.1.
bool names_strict_version(std::string_view first_line) {
    constexpr std::string_view kMark = "%abc-";
    if (!first_line.starts_with(kMark)) return false;
    const std::string_view version = first_line.substr(kMark.size());
    return version.size() >= 3 && (version[0] > '2' || (version[0] == '2' && version[1] == '.' && version[2] >= '1'));
}

// `X:1`, but not the rest and repeat sign `X:|` of a tune's body, where X names no field. ABC 2.1, section 3.
bool starts_tune(std::string_view line) {
    return is_field(line, 'X') && !(line.size() > 2 && (line[2] == '|' || line[2] == ':'));
}

class Splitter {
public:
    Splitter(const base::SourceFile& source, base::Diagnostics& diagnostics) : source_(source), diagnostics_(diagnostics) {}

    Tunebook split() {
        const std::string_view text = source_.text();
        LineWalk walk(text, 0, static_cast<std::uint32_t>(text.size()));
        for (std::uint32_t line = 1; walk.next(); ++line) {
            if (line == 1) book_.is_strict = names_strict_version(walk.line);
            if (is_empty_line(walk.line)) close();
            else take(walk.line, walk.begin, line);
        }
        close();
        return std::move(book_);
    }

private:
    void take(std::string_view line, std::uint32_t begin, std::uint32_t number) {
        if (starts_tune(line) && run_.is_open) start_tune_inside(begin);
        if (!run_.is_open) {
            run_ = Run{};
            run_.is_open = true;
            run_.block.where.begin = begin;
            run_.block.line = number;
        }
        run_.block.where.end = begin + static_cast<std::uint32_t>(line.size());
        if (starts_tune(line)) run_.has_number = true;
        if (is_field(line, 'K')) run_.has_key = true;
        if (is_field(line, 'T')) run_.has_title = true;
        if (has_field_head(line) || line.starts_with("+:")) run_.has_fields = true;
        else if (!is_directive(line) && !is_comment(line)) run_.has_other = true;
    }

    // An X: line while a run is open: the run ends here, unless it is a tune whose other fields came before its X:.
    void start_tune_inside(std::uint32_t begin) {
        const bool title_before_number = !run_.has_number && !run_.has_key && run_.has_title && !run_.has_other;
        if (title_before_number) return;
        const bool only_comments = !run_.has_fields && !run_.has_other;
        if (only_comments && !book_.blocks.empty()) return;  // comments above a tune belong to it
        if (!only_comments)
            diagnostics_.add(code::kNoBlankLine.severity, code::kNoBlankLine.token, {begin, begin + 2},
                             "X: without an empty line before it; read as the start of a new tune");
        close();
    }

    void close() {
        if (!run_.is_open) return;
        run_.is_open = false;
        const bool is_first = book_.blocks.empty();
        Block& block = run_.block;
        if (run_.has_number || (run_.has_key && (run_.has_fields))) block.kind = Block::Kind::tune;
        else if (is_first && !run_.has_other) block.kind = Block::Kind::file_header;
        else if (run_.has_fields && !run_.has_other)
            diagnostics_.add(code::kFieldsOutside.severity, code::kFieldsOutside.token, block.where,
                             "fields without X: between tunes; left aside as free text");
        book_.blocks.push_back(block);
    }

    const base::SourceFile& source_;
    base::Diagnostics& diagnostics_;
    Tunebook book_;
    Run run_;
};

}  // namespace

Tunebook split_tunebook(const base::SourceFile& source, base::Diagnostics& diagnostics) {
    return Splitter(source, diagnostics).split();
}

bool looks_like_abc(std::string_view text) {
    bool in_tune = false;
    LineWalk walk(text, 0, static_cast<std::uint32_t>(text.size()));
    while (walk.next()) {
        if (is_empty_line(walk.line)) in_tune = false;
        else if (is_field(walk.line, 'X')) in_tune = true;
        else if (in_tune && is_field(walk.line, 'K')) return true;
    }
    return false;
}

}  // namespace abc
