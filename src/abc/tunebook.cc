// Runs of lines between empty lines, cut again where an X: starts a tune without an empty line before it. What a run is
// follows from its fields: X: or K: make a tune, fields alone at the very start a file header, all else is free text.
#include "abc/tunebook.h"

#include "abc/codes.h"
#include "abc/line.h"

namespace abc {

namespace {

// What has been seen of the run being gathered.
struct Run {
    Block block;
    bool is_open = false;
    bool has_number = false;  // an X: line
    bool has_title = false;
    bool has_key = false;
    bool has_fields = false;
    bool has_other = false;  // a line that is no field, directive or comment
    bool starts_with_field = false;
    bool has_music = false;  // a line that can only be music
};

// `%abc-2.1` or later asks for strict reading. ABC 2.1, section 2.1.
bool names_strict_version(std::string_view first_line) {
    constexpr std::string_view kMark = "%abc-";
    if (!first_line.starts_with(kMark)) return false;
    const std::string_view version = first_line.substr(kMark.size());
    return version.size() >= 3 && is_digit(version[0]) &&
           (version[0] > '2' || (version[0] == '2' && version[1] == '.' && version[2] >= '1'));
}

// `X:1`, but not the rest and repeat sign `X:|` of a tune's body, where X names no field. ABC 2.1, section 3.
bool starts_tune(std::string_view line) {
    return is_field(line, 'X') && !(line.size() > 2 && (line[2] == '|' || line[2] == ':'));
}

// Note letters, rests and signs with a bar among them, and not a word besides.
bool looks_like_music(std::string_view line) {
    int notes = 0;
    for (const char c : line) {
        if (is_note_letter(c))
            ++notes;
        else if (is_letter(c) && c != 'z' && c != 'x' && c != '~')
            return false;
    }
    return notes >= 3 && line.find('|') != std::string_view::npos;
}

class Splitter {
public:
    Splitter(const base::SourceFile& source, base::Diagnostics& diagnostics)
        : source_(source), diagnostics_(diagnostics) {}

    Tunebook split() {
        const std::string_view text = source_.text();
        LineWalk walk(text, 0, static_cast<std::uint32_t>(text.size()));
        for (std::uint32_t line = 1; walk.next(); ++line) {
            if (line == 1) book_.is_strict = names_strict_version(walk.line);
            if (is_empty_line(walk.line))
                close();
            else
                take(walk.line, walk.begin, line);
        }
        close();
        return std::move(book_);
    }

private:
    void take(std::string_view line, std::uint32_t begin, std::uint32_t number) {
        if (in_typeset_text_ || opens_typeset_text(line, begin)) return take_typeset_line(line, begin, number);
        if (starts_tune(line) && run_.is_open) start_tune_inside(begin);
        extend_run(line, begin, number);
        if (starts_tune(line)) run_.has_number = true;
        if (is_field(line, 'K')) run_.has_key = true;
        if (is_field(line, 'T')) run_.has_title = true;
        if (has_field_head(line) || line.starts_with("+:"))
            run_.has_fields = true;
        else if (!is_directive(line) && !is_comment(line)) {
            run_.has_other = true;
            run_.has_music = run_.has_music || looks_like_music(line);
        }
    }

    void extend_run(std::string_view line, std::uint32_t begin, std::uint32_t number) {
        if (!run_.is_open) {
            run_ = Run{};
            run_.is_open = true;
            run_.block.where.begin = begin;
            run_.block.line = number;
            run_.starts_with_field = has_field_head(line);
        }
        run_.block.where.end = begin + static_cast<std::uint32_t>(line.size());
    }

    // `%%begintext` counts where its end is there too; what lies between starts no tune, whatever it looks like.
    bool opens_typeset_text(std::string_view line, std::uint32_t begin) const {
        return line.starts_with("%%begintext") && source_.text().find("%%endtext", begin) != std::string_view::npos;
    }
    void take_typeset_line(std::string_view line, std::uint32_t begin, std::uint32_t number) {
        in_typeset_text_ = !trim(line).starts_with("%%endtext");
        extend_run(line, begin, number);
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
        const bool follows_tune = !is_first && book_.blocks.back().kind == Block::Kind::tune;
        if (run_.has_number || run_.has_key)
            block.kind = Block::Kind::tune;
        else if (is_first && !run_.has_other)
            block.kind = Block::Kind::file_header;
        else if (run_.has_fields && (run_.starts_with_field || !run_.has_other))
            diagnostics_.add(code::kFieldsOutside.severity, code::kFieldsOutside.token, block.where,
                             "fields without X: between tunes; left aside as free text, with what stands below them");
        else if (follows_tune && run_.has_music)
            diagnostics_.add(code::kMusicOutside.severity, code::kMusicOutside.token, block.where,
                             "music after an empty line, which ended the tune above; left aside as free text");
        book_.blocks.push_back(block);
    }

    const base::SourceFile& source_;
    base::Diagnostics& diagnostics_;
    Tunebook book_;
    Run run_;
    bool in_typeset_text_ = false;
};

}  // namespace

Tunebook split_tunebook(const base::SourceFile& source, base::Diagnostics& diagnostics) {
    return Splitter(source, diagnostics).split();
}

bool looks_like_abc(std::string_view text) {
    bool in_tune = false;
    LineWalk walk(text, 0, static_cast<std::uint32_t>(text.size()));
    while (walk.next()) {
        if (is_empty_line(walk.line))
            in_tune = false;
        else if (is_field(walk.line, 'X'))
            in_tune = true;
        else if (in_tune && is_field(walk.line, 'K'))
            return true;
    }
    return false;
}

}  // namespace abc
