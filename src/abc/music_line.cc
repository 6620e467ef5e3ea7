// One character decides what follows; brackets, dots, bangs and plus signs look a little further. Tested by
// music_line_test.cc and the conformance table.
#include "abc/music_line.h"

#include <algorithm>
#include <string>

#include "abc/characters.h"
#include "abc/line_scan.h"
#include "abc/note_scan.h"

namespace abc {

namespace {

constexpr std::string_view kReserved = "#*;?@";  // ABC 2.1, section 8.1

class Scanner {
public:
    Scanner(const MusicText& line, const Dialect& dialect, std::vector<Token>& tokens, base::Diagnostics& diagnostics)
        : line_(line, tokens, diagnostics), dialect_(dialect) {}

    void scan() {
        if (follows_bar()) take_ending();
        while (line_.at < line_.text.size()) {
            const char c = line_.text[line_.at];
            if (is_blank(c) || c == '`')
                ++line_.at;
            else if (is_note_letter(c) || c == '^' || c == '_' || c == '=')
                scan_note(line_);
            else
                scan_sign(c);
        }
        close_open_brackets();
    }

private:
    void scan_sign(char c) {
        switch (c) {
            case '|':
            case ':':
                return scan_bar(line_.at);
            case '[':
                return scan_bracket();
            case ']':
                return scan_closing_bracket();
            case '"':
                return scan_quote();
            case '!':
                return scan_bang();
            case '+':
                return scan_plus();
            case '.':
                return scan_dot();
            case '(':
                return is_digit(line_.peek(1)) ? scan_tuplet(line_) : line_.single(TokenKind::slur);
            case ')':
                return line_.single(TokenKind::slur);
            case '{':
                return scan_grace_open();
            case '}':
                return scan_grace_close();
            case '-':
                return line_.single(TokenKind::tie);
            case '>':
            case '<':
                return line_.run(TokenKind::broken, c);
            case '&':
                return line_.run(TokenKind::overlay, c);
            case '$':
                return line_.single(TokenKind::line_break);
            case '\\':
                return scan_backslash();
            case 'z':
            case 'x':
                return scan_rest(line_, TokenKind::rest);
            case 'Z':
            case 'X':
                return scan_rest(line_, TokenKind::bar_rest);
            case 'y':
                return scan_rest(line_, TokenKind::spacer);
            default:
                return scan_other(c);
        }
    }

    // --- brackets and bars

    bool starts_field(std::size_t at) const {
        return at + 2 < line_.text.size() && line_.text[at] == '[' && is_letter(line_.text[at + 1]) &&
               line_.text[at + 2] == ':' &&
               !(is_note_letter(line_.text[at + 1]) && at + 3 < line_.text.size() && line_.text[at + 3] == '|');
    }

    void scan_bracket() {
        if (starts_field(line_.at)) return scan_inline_field();
        const char next = line_.peek(1);
        if (next == '|' || next == ']' || next == ':' || next == '[') return scan_bar(line_.at);
        if (is_digit(next)) return scan_ending(1);
        if (next == ' ' && is_digit(line_.peek(2))) return scan_ending(2);
        if (next == '"' && is_digit(line_.peek(2))) return scan_quoted_ending();
        if (in_chord_) close_chord("a chord was not closed before the next one");
        line_.single(TokenKind::chord_open);
        in_chord_ = true;
        chord_from_ = line_.at - 1;
    }

    void scan_closing_bracket() {
        const std::size_t from = line_.at++;
        if (!in_chord_) {
            line_.fault(code::kStrayBracket, from, line_.at, "] closes nothing; left out");
            line_.add(TokenKind::skipped, from, line_.at);
            return;
        }
        if (in_grace_ && grace_from_ > chord_from_) close_grace("grace notes inside a chord are open at its end");
        in_chord_ = false;
        const WrittenLength length = line_.take_length();
        put_length(line_.add(TokenKind::chord_close, from, line_.at), length);
    }

    void close_chord(const std::string& why) {
        in_chord_ = false;
        line_.fault(code::kUnclosedChord, chord_from_, chord_from_ + 1, why + "; read as closed there");
        line_.add(TokenKind::chord_close, line_.at, line_.at);
    }
    void close_grace(const std::string& why) {
        in_grace_ = false;
        line_.fault(code::kUnclosedGrace, grace_from_, grace_from_ + 1, why + "; read as closed there");
        line_.add(TokenKind::grace_close, line_.at, line_.at);
    }
    void close_open_brackets() {
        if (in_chord_) close_chord("a chord is open at the end of the line");
        if (in_grace_) close_grace("grace notes are open at the end of the line");
    }

    void scan_inline_field() {
        const std::size_t from = line_.at;
        std::size_t end = line_.text.find(']', line_.at);
        if (end == std::string_view::npos) {
            end = line_.text.size();
            line_.fault(code::kUnclosedField, from, from + 3,
                        "a field in brackets is not closed; read to the end of the line");
        }
        line_.at = std::min(end + 1, line_.text.size());
        Token& token = line_.add(TokenKind::field, from, line_.at);
        token.letter = line_.text[from + 1];
        token.is_inline = true;
        token.text = trim(line_.text.substr(from + 3, end - from - 3));
    }

    // Any run of | [ ] : is a bar, but stops before what begins a chord, an ending or a field.
    void scan_bar(std::size_t from) {
        if (in_chord_) close_chord("a chord is open at a bar line");
        if (in_grace_) close_grace("grace notes are open at a bar line");
        std::size_t end = from;
        while (end < line_.text.size()) {
            const char c = line_.text[end];
            if (c == '[') {
                const char next = end + 1 < line_.text.size() ? line_.text[end + 1] : '\0';
                if (next != '|' && next != ']' && next != '[' && next != ':') break;
            } else if (c != '|' && c != ']' && c != ':') {
                break;
            }
            ++end;
        }
        if (end == from) ++end;
        line_.add(TokenKind::bar, from, end);
        line_.at = end;
        take_ending();
    }

    // A number right behind a bar, or behind blanks there: no note is near whose length it could be.
    void take_ending() {
        std::size_t blanks = 0;
        while (is_blank(line_.peek(blanks))) ++blanks;
        if (is_digit(line_.peek(blanks))) scan_ending(blanks);
    }
    // Whether the line before ends in a bar: an ending may begin the next.
    bool follows_bar() const {
        const auto last = std::find_if(line_.tokens.rbegin(), line_.tokens.rend(),
                                       [](const Token& token) { return token.kind != TokenKind::joined_line; });
        return last != line_.tokens.rend() && last->kind == TokenKind::bar;
    }

    // `lead` bytes stand before the digits. A list or range without blanks: `1,3-5`.
    void scan_ending(std::size_t lead) {
        const std::size_t from = line_.at;
        line_.at += lead;
        const std::size_t list = line_.at;
        while (is_digit(line_.peek(0)) || ((line_.peek(0) == ',' || line_.peek(0) == '-') && is_digit(line_.peek(1))))
            ++line_.at;
        Token& token = line_.add(TokenKind::ending, from, line_.at);
        token.text = line_.text.substr(list, line_.at - list);
        if (line_.peek(0) == '.' && !is_note_letter(line_.peek(1)))
            token.where = line_.span(from, ++line_.at);  // `|1.`
    }

    void scan_quoted_ending() {
        const std::size_t from = line_.at;
        const std::size_t end = line_.text.find('"', line_.at + 2);
        line_.at = end == std::string_view::npos ? line_.text.size() : end + 1;
        std::size_t digits = from + 2;
        while (digits < line_.text.size() && is_digit(line_.text[digits])) ++digits;
        line_.add(TokenKind::ending, from, line_.at).text = line_.text.substr(from + 2, digits - from - 2);
    }

    void scan_grace_open() {
        if (in_grace_) close_grace("grace notes were not closed before the next ones");
        grace_from_ = line_.at;
        in_grace_ = true;
        const std::size_t from = line_.at++;
        if (line_.peek(0) == '/') ++line_.at;
        line_.add(TokenKind::grace_open, from, line_.at);
    }
    void scan_grace_close() {
        if (in_grace_) {
            if (in_chord_ && chord_from_ > grace_from_) close_chord("a chord of grace notes is open at their end");
            in_grace_ = false;
            return line_.single(TokenKind::grace_close);
        }
        line_.fault(code::kStrayBracket, line_.at, line_.at + 1, "} closes nothing; left out");
        line_.single(TokenKind::skipped);
    }

    // --- text and signs

    void scan_quote() {
        const std::size_t from = line_.at;
        std::size_t end = line_.text.find('"', line_.at + 1);
        if (end == std::string_view::npos) {
            end = line_.text.size();
            line_.fault(code::kUnclosedQuote, from, from + 1,
                        "a quoted text is not closed; read to the end of the line as text");
        }
        line_.at = std::min(end + 1, line_.text.size());
        const std::string_view inside = line_.text.substr(from + 1, end - from - 1);
        const bool is_annotation =
            !inside.empty() && std::string_view("^_<>@").find(inside[0]) != std::string_view::npos;
        line_.add(is_annotation ? TokenKind::annotation : TokenKind::chord_symbol, from, line_.at).text = inside;
    }

    // Where the closing sign of `!name!` or `+name+` stands, if one does. ABC 2.1, section 12.2.
    std::size_t decoration_end(char sign) const {
        for (std::size_t at = line_.at + 1; at < line_.text.size(); ++at) {
            if (line_.text[at] == sign) return at;
            if (is_blank(line_.text[at]) || line_.text[at] == '|' || line_.text[at] == '[' || line_.text[at] == ':' ||
                line_.text[at] == ']')
                break;
        }
        return std::string_view::npos;
    }
    void scan_decoration(std::size_t end) {
        const std::size_t from = line_.at;
        line_.at = end + 1;
        line_.add(TokenKind::decoration, from, line_.at).text = line_.text.substr(from + 1, end - from - 1);
    }

    void scan_bang() {
        if (dialect_.bang_breaks_line) return line_.single(TokenKind::line_break);
        const std::size_t end = decoration_end('!');
        if (end != std::string_view::npos) return scan_decoration(end);
        if (dialect_.is_strict) {
            line_.fault(code::kUnknownSign, line_.at, line_.at + 1, "! without a partner; left out");
            return line_.single(TokenKind::skipped);
        }
        line_.fault_once(code::kOldBreak, "!", line_.at, line_.at + 1,
                         "! without a partner; read as a line break of older files");
        line_.single(TokenKind::line_break);
    }

    void scan_plus() {
        const std::size_t end = decoration_end('+');
        const std::string_view inside =
            end == std::string_view::npos ? std::string_view() : line_.text.substr(line_.at + 1, end - line_.at - 1);
        if (dialect_.plus_decorates && end != std::string_view::npos) return scan_decoration(end);
        const bool is_word = !inside.empty() && std::all_of(inside.begin(), inside.end(), is_letter) &&
                             !std::all_of(inside.begin(), inside.end(), is_note_letter);
        if (is_word) {
            line_.fault_once(code::kOldDecoration, inside, line_.at, end + 1,
                             "+" + std::string(inside) + "+ read as the decoration !" + std::string(inside) + "!");
            return scan_decoration(end);
        }
        if (in_old_chord_ || (!inside.empty() && std::any_of(inside.begin(), inside.end(), is_note_letter)))
            return scan_old_chord();
        line_.fault(code::kUnknownSign, line_.at, line_.at + 1, "+ means nothing here; left out");
        line_.single(TokenKind::skipped);
    }
    // `+CEG+` of abc 1.5. ABC 2.1, section 12.1.3.
    void scan_old_chord() {
        if (!in_old_chord_)
            line_.fault(code::kOldChord, line_.at, line_.at + 1, "+...+ around notes read as a chord of older files");
        in_old_chord_ = !in_old_chord_;
        in_chord_ = in_old_chord_;
        chord_from_ = line_.at;
        if (in_old_chord_) return line_.single(TokenKind::chord_open);
        const std::size_t from = line_.at++;
        const WrittenLength length = line_.take_length();
        put_length(line_.add(TokenKind::chord_close, from, line_.at), length);
    }

    void scan_dot() {
        const char next = line_.peek(1);
        if (next == '|') return scan_dotted_bar();
        if (next == '-' || next == '(') {
            line_.add(next == '-' ? TokenKind::tie : TokenKind::slur, line_.at, line_.at + 2);
            line_.at += 2;
            return;
        }
        line_.single(TokenKind::decoration);
    }
    void scan_dotted_bar() {
        const std::size_t from = line_.at++;
        scan_bar(line_.at);
        for (auto token = line_.tokens.rbegin(); token != line_.tokens.rend(); ++token)
            if (token->kind == TokenKind::bar) {
                token->where.begin = line_.source_of(from);
                break;
            }
    }

    void scan_backslash() {
        if (trim(line_.text.substr(line_.at + 1)).empty()) return line_.single(TokenKind::joined_line);
        line_.fault(code::kUnknownSign, line_.at, line_.at + 1, "\\ means nothing inside a line of music; left out");
        line_.single(TokenKind::skipped);
    }

    void scan_other(char c) {
        if (c == '~' || is_letter(c)) {
            Token& token = line_.add(TokenKind::symbol_letter, line_.at, line_.at + 1);
            token.letter = c;
            ++line_.at;
            return;
        }
        const std::size_t from = line_.at;
        if (kReserved.find(c) != std::string_view::npos) {
            while (line_.at < line_.text.size() && line_.text[line_.at] == c) ++line_.at;
            const std::string message = std::string(1, c) + " is kept for later versions of ABC; left out";
            if (c == '#')  // may have been meant for a sharp
                line_.fault(code::kReservedSign, from, line_.at, message);
            else
                line_.fault_once(code::kReservedSign, std::string(1, c), from, line_.at, message);
        } else if (is_digit(c) || c == '/') {
            while (is_digit(line_.peek(0)) || line_.peek(0) == '/') ++line_.at;
            line_.fault(code::kBadLength, from, line_.at,
                        "the length " +
                            std::string(line_.text.substr(from, std::min<std::size_t>(line_.at - from, 20))) +
                            " stands behind no note; left out");
        } else if (c == ',' || c == '\'') {
            ++line_.at;
            line_.fault(code::kUnknownSign, from, line_.at, "an octave mark stands behind no note; left out");
        } else {
            while (line_.at < line_.text.size() && is_unknown(line_.text[line_.at])) ++line_.at;
            if (line_.at == from) ++line_.at;
            line_.fault(code::kUnknownSign, from, line_.at,
                        "\"" + std::string(line_.text.substr(from, std::min<std::size_t>(line_.at - from, 40))) +
                            "\" means nothing in music; left out");
        }
        line_.add(TokenKind::skipped, from, line_.at);
    }
    static bool is_unknown(char c) {
        return static_cast<unsigned char>(c) >= 0x80 || (static_cast<unsigned char>(c) < 0x20 && c != '\t');
    }

    LineScan line_;
    const Dialect& dialect_;
    std::size_t chord_from_ = 0;
    std::size_t grace_from_ = 0;
    bool in_chord_ = false;
    bool in_old_chord_ = false;
    bool in_grace_ = false;
};

}  // namespace

void scan_music(const MusicText& line, const Dialect& dialect, std::vector<Token>& tokens,
                base::Diagnostics& diagnostics) {
    Scanner(line, dialect, tokens, diagnostics).scan();
}

}  // namespace abc
