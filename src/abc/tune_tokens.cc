// The header ends with the first K:. In the body a line is music unless it starts with a letter that may name a field
// there. Tested by tune_tokens_test.cc and the conformance table.
#include "abc/tune_tokens.h"

#include <string>

#include "abc/line.h"
#include "abc/macro.h"
#include "abc/music_line.h"
#include "abc/report_fault.h"

namespace abc {

namespace {

constexpr std::string_view kHeaderOnly = "HSOX";      // fields of H-W that may not stand in a body
constexpr std::string_view kStrayInBody = "ZBDFCAG";  // music by the letter of section 3, yet seen as lines of text

class BlockReader {
public:
    BlockReader(const base::SourceFile& source, const Block& block, Dialect& dialect, Tokens& tokens,
                base::Diagnostics& diagnostics)
        : source_(source), block_(block), dialect_(dialect), tokens_(tokens), diagnostics_(diagnostics) {}

    void read() {
        const std::size_t length = block_.where.end - block_.where.begin;
        if (length > kMaxTuneBytes) {
            fault(code::kLongTune, block_.where.begin, 1,
                  "a tune of " + std::to_string(length) + " bytes without an empty line; left out");
            add(TokenKind::skipped, block_.where.begin, length, {});
            return;
        }
        find_key_line();
        LineWalk walk(source_.text(), block_.where.begin, block_.where.end);
        while (walk.next()) read_line(walk.line, walk.begin);
        if (block_.kind == Block::Kind::tune && !in_body_)
            fault(code::kNoKey, block_.where.begin, 2, "no K: in this tune; read as a header without music");
    }

private:
    void fault(const Code& code, std::uint32_t begin, std::size_t length, std::string message) {
        report(diagnostics_, code, {begin, begin + static_cast<std::uint32_t>(length)}, std::move(message));
    }

    void tell_unknown_field(std::string_view line, std::uint32_t begin) {
        const std::string_view head = line.substr(0, 2);
        report_once(diagnostics_, code::kUnknownField, head, {begin, begin + 2},
                    std::string(head) + " is no field of ABC 2.1; its line is left out");
    }

    Token& add(TokenKind kind, std::uint32_t begin, std::size_t length, std::string_view text) {
        Token& token = tokens_.all.emplace_back();
        token.kind = kind;
        token.in_body = in_body_;
        token.where = {begin, begin + static_cast<std::uint32_t>(length)};
        token.text = text;
        return token;
    }

    // Whether the header is closed by a K: at all decides how lines before it are read.
    void find_key_line() {
        LineWalk walk(source_.text(), block_.where.begin, block_.where.end);
        while (walk.next() && !has_key_)
            has_key_ = is_field(walk.line, 'K') ||
                       (is_blank(walk.line.empty() ? 'x' : walk.line[0]) && is_field(trim(walk.line), 'K'));
    }

    void read_line(std::string_view line, std::uint32_t begin) {
        if (line.size() > kMaxLineBytes) {
            fault(code::kLongLine, begin, 1, "a line of " + std::to_string(line.size()) + " bytes; left out");
            add(TokenKind::skipped, begin, line.size(), {});
            return;
        }
        if (in_typeset_text_) return read_typeset_line(line, begin);
        if (is_directive(line)) return read_directive(line, begin);
        if (is_comment(line)) {
            add(TokenKind::comment, begin, line.size(), trim(line));
            return;
        }
        const bool may_be_music = in_body_ && !has_field_head(line);
        const std::string_view content = may_be_music ? music_without_comment(line) : without_comment(line);
        if (content.starts_with("+:")) {
            add(TokenKind::continued, begin, line.size(), trim(content.substr(2)));
            return;
        }
        if (!in_body_) return read_header_line(content, begin);
        read_body_line(content, begin);
    }

    // --- directives

    void read_directive(std::string_view line, std::uint32_t begin) {
        const std::string_view text = trim(without_comment(line.substr(2)));
        if (text.starts_with("begintext") || text.starts_with("beginps")) in_typeset_text_ = true;
        add(TokenKind::directive, begin, line.size(), text);
        obey(text);
    }
    void read_typeset_line(std::string_view line, std::uint32_t begin) {
        add(TokenKind::comment, begin, line.size(), trim(line));
        std::string_view text = trim(line.starts_with("%%") ? line.substr(2) : line);
        if (text.starts_with("endtext") || text.starts_with("endps")) in_typeset_text_ = false;
    }

    // The instructions that change how characters are read. ABC 2.1, sections 6.1.1, 12.1.
    void obey(std::string_view instruction) {
        const std::string_view name = take_word(instruction);
        if (name == "linebreak") {
            dialect_.bang_breaks_line = instruction.find('!') != std::string_view::npos;
            dialect_.plus_decorates = dialect_.bang_breaks_line;
        } else if (name == "decoration") {
            dialect_.plus_decorates = instruction == "+";
            if (instruction == "!") dialect_.bang_breaks_line = false;
        } else if (name == "abc-version") {
            dialect_.is_strict = instruction >= "2.1";
        }
    }

    // --- fields

    void read_field(char letter, std::string_view content, std::uint32_t begin) {
        const std::string_view value = trim(content.substr(2));
        add(TokenKind::field, begin, content.size(), value).letter = letter;
        history_open_ = letter == 'H' && !in_body_;
        lyrics_go_on_ = letter == 'w' && in_body_ && !dialect_.is_strict && value.ends_with('\\');
        if (letter == 'I') obey(value);
        if (letter == 'm') read_macro_field(value, begin, content.size());
        if (letter == 'K' && block_.kind == Block::Kind::tune) in_body_ = true;
    }

    void read_macro_field(std::string_view value, std::uint32_t begin, std::size_t length) {
        if (auto macro = read_macro(value)) return set_macro(dialect_.macros, std::move(*macro));
        fault(code::kBadMacro, begin, length,
              "m: needs a target, = and a replacement within the standard's limits; left out");
    }

    void read_header_line(std::string_view content, std::uint32_t begin) {
        if (has_field_head(content)) {
            const char letter = content[0];
            if (!is_defined_field(letter)) {
                tell_unknown_field(content, begin);
                add(TokenKind::skipped, begin, content.size(), content);
                history_open_ = false;
                return;
            }
            return read_field(letter, content, begin);
        }
        const std::string_view inner = trim(content);
        if (inner.empty()) {
            if (!content.empty()) add(TokenKind::skipped, begin, content.size(), content);
            return;
        }
        if (history_open_) {  // older files: H: runs on to the next field. ABC 2.1, section 3.1.13
            add(TokenKind::continued, begin, content.size(), inner);
            return;
        }
        const auto indent = static_cast<std::uint32_t>(content.find(inner[0]));
        if (indent > 0 && has_field_head(inner) && is_defined_field(inner[0])) {
            fault(code::kIndentedField, begin + indent, 2,
                  "a field starts at the first column; read as one all the same");
            return read_field(inner[0], content.substr(indent), begin + indent);
        }
        if (block_.kind == Block::Kind::tune && !has_key_) {
            fault(code::kNoKey, begin, 1, "music before any K:; read as the end of the header, with no signature");
            in_body_ = true;
            return read_body_line(content, begin);
        }
        if (block_.kind == Block::Kind::tune)
            fault(code::kTextInHeader, begin, content.size(), "a line in the header that is no field; left out");
        add(TokenKind::skipped, begin, content.size(), content);
    }

    // --- the body

    static bool may_name_a_body_field(char letter) { return is_letter(letter) && !is_music_letter(letter); }

    void read_body_line(std::string_view content, std::uint32_t begin) {
        if (lyrics_go_on_ && !has_field_head(content)) {  // abc 2.0; disallowed since, section 10.3
            fault(code::kOldContinuation, begin, 1,
                  "the words above end in \\; this line is read as more words, not as music");
            lyrics_go_on_ = trim(content).ends_with('\\');
            add(TokenKind::continued, begin, content.size(), trim(content));
            return;
        }
        lyrics_go_on_ = false;
        if (has_field_head(content)) {
            const char letter = content[0];
            const bool is_music = content.size() > 2 && (content[2] == '|' || content[2] == ':');
            if (may_name_a_body_field(letter)) return read_body_field(letter, content, begin);
            if (letter == 'K') return read_field(letter, content, begin);
            if (!is_music && kStrayInBody.find(letter) != std::string_view::npos) {
                fault(code::kStrayField, begin, 2,
                      std::string(content.substr(0, 2)) +
                          " belongs in the header; the line is left out, its letters are no notes");
                add(TokenKind::skipped, begin, content.size(), content);
                return;
            }
        } else {
            const std::string_view inner = trim(content);
            const bool is_field_inside =
                has_field_head(inner) && may_name_a_body_field(inner[0]) && is_defined_field(inner[0]);
            if (is_field_inside) {
                const auto indent = static_cast<std::uint32_t>(content.find(inner[0]));
                fault(code::kIndentedField, begin + indent, 2,
                      "a field starts at the first column; read as one all the same");
                return read_body_field(inner[0], content.substr(indent), begin + indent);
            }
        }
        read_music(content, begin);
    }

    void read_body_field(char letter, std::string_view content, std::uint32_t begin) {
        if (kHeaderOnly.find(letter) != std::string_view::npos) {
            fault(code::kStrayField, begin, 2,
                  std::string(content.substr(0, 2)) + " belongs in the header; the line is left out");
            add(TokenKind::skipped, begin, content.size(), content);
        } else if (!is_defined_field(letter)) {
            tell_unknown_field(content, begin);
            add(TokenKind::skipped, begin, content.size(), content);
        } else {
            read_field(letter, content, begin);
        }
    }

    void read_music(std::string_view content, std::uint32_t begin) {
        if (!dialect_.macros.empty() && expanded_bytes_ > kMaxTuneBytes) {
            fault(code::kBadMacro, begin, 1, "the macros of this tune make it too long; from here they are left out");
            dialect_.macros.clear();
        }
        if (!dialect_.macros.empty()) {
            if (auto expanded = expand_macros(content, dialect_.macros)) {
                const std::string& kept = tokens_.expansions.emplace_back(std::move(expanded->text));
                expanded_bytes_ += kept.size();
                for (const ExpandedLine::Use& use : expanded->uses)
                    tokens_.macro_uses.push_back(
                        {{begin + use.written.begin, begin + use.written.end},
                         std::string_view(kept).substr(use.replaced.begin, use.replaced.end - use.replaced.begin)});
                scan_music({kept, begin, &expanded->places}, dialect_, tokens_.all, diagnostics_);
                return;
            }
        }
        scan_music({content, begin, nullptr}, dialect_, tokens_.all, diagnostics_);
    }

    const base::SourceFile& source_;
    const Block& block_;
    Dialect& dialect_;
    Tokens& tokens_;
    base::Diagnostics& diagnostics_;
    std::size_t expanded_bytes_ = 0;
    bool has_key_ = false;
    bool in_body_ = false;
    bool history_open_ = false;
    bool lyrics_go_on_ = false;
    bool in_typeset_text_ = false;
};

}  // namespace

void read_tokens(const base::SourceFile& source, const Block& block, Dialect& dialect, Tokens& tokens,
                 base::Diagnostics& diagnostics) {
    tokens.clear();
    BlockReader(source, block, dialect, tokens, diagnostics).read();
}

}  // namespace abc
