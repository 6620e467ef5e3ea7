// One character decides what follows; brackets, dots, bangs and plus signs look a little further. Tested by
// music_line_test.cc and the conformance table.
#include "abc/music_line.h"

#include <algorithm>
#include <string>

#include "abc/characters.h"
#include "abc/report_fault.h"

namespace abc {

namespace {

// The largest term of a written length: far beyond music, well inside exact arithmetic.
constexpr unsigned kMaxLengthTerm = 4096;

constexpr std::string_view kReserved = "#*;?@";  // ABC 2.1, section 8.1

class Scanner {
public:
    Scanner(const MusicText& line, const Dialect& dialect, std::vector<Token>& tokens, base::Diagnostics& diagnostics)
        : line_(line), text_(line.text), dialect_(dialect), tokens_(tokens), diagnostics_(diagnostics) {}

    void scan() {
        if (follows_bar()) take_ending();
        while (at_ < text_.size()) {
            const char c = text_[at_];
            if (is_blank(c) || c == '`')
                ++at_;
            else if (is_note_letter(c) || c == '^' || c == '_' || c == '=')
                scan_note();
            else
                scan_sign(c);
        }
        close_open_brackets();
    }

private:
    char peek(std::size_t ahead) const { return at_ + ahead < text_.size() ? text_[at_ + ahead] : '\0'; }
    std::uint32_t source_of(std::size_t at) const {
        if (line_.places == nullptr) return line_.offset + static_cast<std::uint32_t>(at);
        if (at < line_.places->size()) return line_.offset + (*line_.places)[at];
        return line_.offset + (line_.places->empty() ? 0 : line_.places->back() + 1);
    }
    base::Span span(std::size_t from, std::size_t to) const {
        const std::uint32_t begin = source_of(from);
        return {begin, std::max(begin, to > from ? source_of(to - 1) + 1 : begin)};
    }
    void fault(const Code& code, std::size_t from, std::size_t to, std::string message) {
        report(diagnostics_, code, span(from, to), std::move(message));
    }

    // Of a sign that touches no note.
    void fault_once(const Code& code, std::string_view sign, std::size_t from, std::size_t to, std::string message) {
        report_once(diagnostics_, code, sign, span(from, to), std::move(message));
    }

    Token& add(TokenKind kind, std::size_t from, std::size_t to) {
        Token& token = tokens_.emplace_back();
        token.kind = kind;
        token.in_body = true;
        token.where = span(from, to);
        token.text = text_.substr(from, to - from);
        return token;
    }

    void scan_sign(char c) {
        switch (c) {
            case '|':
            case ':':
                return scan_bar(at_);
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
                return is_digit(peek(1)) ? scan_tuplet() : single(TokenKind::slur);
            case ')':
                return single(TokenKind::slur);
            case '{':
                return scan_grace_open();
            case '}':
                return scan_grace_close();
            case '-':
                return single(TokenKind::tie);
            case '>':
            case '<':
                return scan_run(TokenKind::broken, c);
            case '&':
                return scan_run(TokenKind::overlay, c);
            case '$':
                return single(TokenKind::line_break);
            case '\\':
                return scan_backslash();
            case 'z':
            case 'x':
                return scan_rest(TokenKind::rest);
            case 'Z':
            case 'X':
                return scan_rest(TokenKind::bar_rest);
            case 'y':
                return scan_rest(TokenKind::spacer);
            default:
                return scan_other(c);
        }
    }

    void single(TokenKind kind) {
        add(kind, at_, at_ + 1);
        ++at_;
    }
    void scan_run(TokenKind kind, char c) {
        const std::size_t from = at_;
        while (at_ < text_.size() && text_[at_] == c) ++at_;
        add(kind, from, at_);
    }

    // --- notes and lengths

    unsigned take_digits() {
        unsigned value = 0;
        while (at_ < text_.size() && is_digit(text_[at_])) {
            value = std::min(value * 10 + static_cast<unsigned>(text_[at_] - '0'), 1000000U);
            ++at_;
        }
        return value;
    }

    struct Length {
        unsigned numerator = 1;
        unsigned denominator = 1;
    };

    // `3`, `3/2`, `/`, `//`, `3/`. ABC 2.1, section 4.3. A slash without a number halves.
    Length take_length() {
        const std::size_t from = at_;
        Length length;
        bool is_legal = true;
        if (is_digit(peek(0))) {
            length.numerator = take_digits();
            is_legal = length.numerator > 0 && length.numerator <= kMaxLengthTerm;
        }
        while (peek(0) == '/') {
            ++at_;
            const unsigned divisor = is_digit(peek(0)) ? take_digits() : 2;
            is_legal = is_legal && divisor > 0 && divisor <= kMaxLengthTerm;
            if (is_legal) length.denominator *= divisor;
            is_legal = is_legal && length.denominator <= kMaxLengthTerm;
        }
        if (at_ > from && peek(0) == '.' && is_digit(peek(1))) {
            const std::size_t dot = at_++;
            take_digits();
            fault(code::kBadLength, dot, at_,
                  "a length has no decimals; " + std::string(text_.substr(dot, at_ - dot)) + " left out");
        }
        if (is_legal) return length;
        fault(code::kBadLength, from, at_,
              "the length " + std::string(text_.substr(from, std::min<std::size_t>(at_ - from, 20))) +
                  " means nothing; read as one unit");
        return {};
    }

    void put_length(Token& token, Length length) {
        token.numerator = static_cast<std::uint16_t>(length.numerator);
        token.denominator = static_cast<std::uint16_t>(length.denominator);
    }

    void scan_note() {
        const std::size_t from = at_;
        std::int8_t accidental = Token::kNoAccidental;
        if (!is_note_letter(text_[at_])) {
            accidental = take_accidental();
            while (at_ < text_.size() && is_blank(text_[at_]) && is_note_letter(peek(1))) ++at_;
            if (at_ >= text_.size() || !is_note_letter(text_[at_])) {
                fault(code::kLoneAccidental, from, at_,
                      "the sign " + std::string(text_.substr(from, at_ - from)) + " stands before no note; left out");
                add(TokenKind::skipped, from, at_);
                return;
            }
        }
        const char letter = text_[at_++];
        int octave = is_upper(letter) ? 4 : 5;
        while (peek(0) == ',' || peek(0) == '\'') {
            octave += peek(0) == '\'' ? 1 : -1;
            ++at_;
        }
        const Length length = take_length();
        Token& token = add(TokenKind::note, from, at_);
        token.letter = letter;
        token.accidental = accidental;
        token.note = static_cast<music::Letter>(((is_upper(letter) ? letter - 'A' : letter - 'a') + 5) % 7);
        token.octave = static_cast<std::int8_t>(std::clamp(octave, -20, 30));  // beyond MIDI either way
        put_length(token, length);
    }

    std::int8_t take_accidental() {
        const std::size_t from = at_;
        const char sign = text_[at_];
        while (at_ < text_.size() && text_[at_] == sign) ++at_;
        const std::size_t count = at_ - from;
        const std::size_t most = sign == '=' ? 1 : 2;
        if (count > most)
            fault(code::kLoneAccidental, from, at_,
                  "more signs than a note can carry; the nearest one or two are read");
        if (sign != '=' && (peek(0) == '/' || (is_digit(peek(0)) && peek(1) == '/'))) {
            take_length();
            fault(
                code::kMicrotone, from, at_,
                "quarter tones are no part of ABC 2.1; read as a plain " + std::string(sign == '^' ? "sharp" : "flat"));
        }
        const int size = static_cast<int>(std::min(count, most));
        return static_cast<std::int8_t>(sign == '^' ? size : sign == '_' ? -size : 0);
    }

    void scan_rest(TokenKind kind) {
        const std::size_t from = at_++;
        const Length length = take_length();
        Token& token = add(kind, from, at_);
        token.letter = text_[from];
        put_length(token, length);
    }

    void scan_tuplet() {
        const std::size_t from = at_++;
        unsigned numbers[3] = {take_digits(), 0, 0};
        for (int place = 1; place < 3 && peek(0) == ':'; ++place) {
            // `(3:|` ends a tuplet sign before a repeat.
            if (place == 1 && peek(1) == '|') break;
            ++at_;
            if (is_digit(peek(0))) numbers[place] = take_digits();
        }
        Token& token = add(TokenKind::tuplet, from, at_);
        token.tuplet_p = static_cast<std::uint16_t>(std::min(numbers[0], 1000U));
        token.tuplet_q = static_cast<std::uint16_t>(std::min(numbers[1], 1000U));
        token.tuplet_r = static_cast<std::uint16_t>(std::min(numbers[2], 1000U));
    }

    // --- brackets and bars

    bool starts_field(std::size_t at) const {
        return at + 2 < text_.size() && text_[at] == '[' && is_letter(text_[at + 1]) && text_[at + 2] == ':' &&
               !(is_note_letter(text_[at + 1]) && at + 3 < text_.size() && text_[at + 3] == '|');
    }

    void scan_bracket() {
        if (starts_field(at_)) return scan_inline_field();
        const char next = peek(1);
        if (next == '|' || next == ']' || next == ':' || next == '[') return scan_bar(at_);
        if (is_digit(next)) return scan_ending(1);
        if (next == ' ' && is_digit(peek(2))) return scan_ending(2);
        if (next == '"' && is_digit(peek(2))) return scan_quoted_ending();
        if (in_chord_) close_chord("a chord was not closed before the next one");
        single(TokenKind::chord_open);
        in_chord_ = true;
        chord_from_ = at_ - 1;
    }

    void scan_closing_bracket() {
        const std::size_t from = at_++;
        if (!in_chord_) {
            fault(code::kStrayBracket, from, at_, "] closes nothing; left out");
            add(TokenKind::skipped, from, at_);
            return;
        }
        if (in_grace_ && grace_from_ > chord_from_) close_grace("grace notes inside a chord are open at its end");
        in_chord_ = false;
        const Length length = take_length();
        put_length(add(TokenKind::chord_close, from, at_), length);
    }

    void close_chord(const std::string& why) {
        in_chord_ = false;
        fault(code::kUnclosedChord, chord_from_, chord_from_ + 1, why + "; read as closed there");
        add(TokenKind::chord_close, at_, at_);
    }
    void close_grace(const std::string& why) {
        in_grace_ = false;
        fault(code::kUnclosedGrace, grace_from_, grace_from_ + 1, why + "; read as closed there");
        add(TokenKind::grace_close, at_, at_);
    }
    void close_open_brackets() {
        if (in_chord_) close_chord("a chord is open at the end of the line");
        if (in_grace_) close_grace("grace notes are open at the end of the line");
    }

    void scan_inline_field() {
        const std::size_t from = at_;
        std::size_t end = text_.find(']', at_);
        if (end == std::string_view::npos) {
            end = text_.size();
            fault(code::kUnclosedField, from, from + 3,
                  "a field in brackets is not closed; read to the end of the line");
        }
        at_ = std::min(end + 1, text_.size());
        Token& token = add(TokenKind::field, from, at_);
        token.letter = text_[from + 1];
        token.is_inline = true;
        token.text = trim(text_.substr(from + 3, end - from - 3));
    }

    // Any run of | [ ] : is a bar, but stops before what begins a chord, an ending or a field.
    void scan_bar(std::size_t from) {
        if (in_chord_) close_chord("a chord is open at a bar line");
        if (in_grace_) close_grace("grace notes are open at a bar line");
        std::size_t end = from;
        while (end < text_.size()) {
            const char c = text_[end];
            if (c == '[') {
                const char next = end + 1 < text_.size() ? text_[end + 1] : '\0';
                if (next != '|' && next != ']' && next != '[' && next != ':') break;
            } else if (c != '|' && c != ']' && c != ':') {
                break;
            }
            ++end;
        }
        if (end == from) ++end;
        add(TokenKind::bar, from, end);
        at_ = end;
        take_ending();
    }

    // A number right behind a bar, or behind blanks there: no note is near whose length it could be.
    void take_ending() {
        std::size_t blanks = 0;
        while (is_blank(peek(blanks))) ++blanks;
        if (is_digit(peek(blanks))) scan_ending(blanks);
    }
    // Whether the line before ends in a bar: an ending may begin the next.
    bool follows_bar() const {
        const auto last = std::find_if(tokens_.rbegin(), tokens_.rend(),
                                       [](const Token& token) { return token.kind != TokenKind::joined_line; });
        return last != tokens_.rend() && last->kind == TokenKind::bar;
    }

    // `lead` bytes stand before the digits. A list or range without blanks: `1,3-5`.
    void scan_ending(std::size_t lead) {
        const std::size_t from = at_;
        at_ += lead;
        const std::size_t list = at_;
        while (is_digit(peek(0)) || ((peek(0) == ',' || peek(0) == '-') && is_digit(peek(1)))) ++at_;
        Token& token = add(TokenKind::ending, from, at_);
        token.text = text_.substr(list, at_ - list);
        if (peek(0) == '.' && !is_note_letter(peek(1))) token.where = span(from, ++at_);  // `|1.`
    }

    void scan_quoted_ending() {
        const std::size_t from = at_;
        const std::size_t end = text_.find('"', at_ + 2);
        at_ = end == std::string_view::npos ? text_.size() : end + 1;
        std::size_t digits = from + 2;
        while (digits < text_.size() && is_digit(text_[digits])) ++digits;
        add(TokenKind::ending, from, at_).text = text_.substr(from + 2, digits - from - 2);
    }

    void scan_grace_open() {
        if (in_grace_) close_grace("grace notes were not closed before the next ones");
        grace_from_ = at_;
        in_grace_ = true;
        const std::size_t from = at_++;
        if (peek(0) == '/') ++at_;
        add(TokenKind::grace_open, from, at_);
    }
    void scan_grace_close() {
        if (in_grace_) {
            if (in_chord_ && chord_from_ > grace_from_) close_chord("a chord of grace notes is open at their end");
            in_grace_ = false;
            return single(TokenKind::grace_close);
        }
        fault(code::kStrayBracket, at_, at_ + 1, "} closes nothing; left out");
        single(TokenKind::skipped);
    }

    // --- text and signs

    void scan_quote() {
        const std::size_t from = at_;
        std::size_t end = text_.find('"', at_ + 1);
        if (end == std::string_view::npos) {
            end = text_.size();
            fault(code::kUnclosedQuote, from, from + 1,
                  "a quoted text is not closed; read to the end of the line as text");
        }
        at_ = std::min(end + 1, text_.size());
        const std::string_view inside = text_.substr(from + 1, end - from - 1);
        const bool is_annotation =
            !inside.empty() && std::string_view("^_<>@").find(inside[0]) != std::string_view::npos;
        add(is_annotation ? TokenKind::annotation : TokenKind::chord_symbol, from, at_).text = inside;
    }

    // Where the closing sign of `!name!` or `+name+` stands, if one does. ABC 2.1, section 12.2.
    std::size_t decoration_end(char sign) const {
        for (std::size_t at = at_ + 1; at < text_.size(); ++at) {
            if (text_[at] == sign) return at;
            if (is_blank(text_[at]) || text_[at] == '|' || text_[at] == '[' || text_[at] == ':' || text_[at] == ']')
                break;
        }
        return std::string_view::npos;
    }
    void scan_decoration(std::size_t end) {
        const std::size_t from = at_;
        at_ = end + 1;
        add(TokenKind::decoration, from, at_).text = text_.substr(from + 1, end - from - 1);
    }

    void scan_bang() {
        if (dialect_.bang_breaks_line) return single(TokenKind::line_break);
        const std::size_t end = decoration_end('!');
        if (end != std::string_view::npos) return scan_decoration(end);
        if (dialect_.is_strict) {
            fault(code::kUnknownSign, at_, at_ + 1, "! without a partner; left out");
            return single(TokenKind::skipped);
        }
        fault_once(code::kOldBreak, "!", at_, at_ + 1, "! without a partner; read as a line break of older files");
        single(TokenKind::line_break);
    }

    void scan_plus() {
        const std::size_t end = decoration_end('+');
        const std::string_view inside =
            end == std::string_view::npos ? std::string_view() : text_.substr(at_ + 1, end - at_ - 1);
        if (dialect_.plus_decorates && end != std::string_view::npos) return scan_decoration(end);
        const bool is_word = !inside.empty() && std::all_of(inside.begin(), inside.end(), is_letter) &&
                             !std::all_of(inside.begin(), inside.end(), is_note_letter);
        if (is_word) {
            fault_once(code::kOldDecoration, inside, at_, end + 1,
                       "+" + std::string(inside) + "+ read as the decoration !" + std::string(inside) + "!");
            return scan_decoration(end);
        }
        if (in_old_chord_ || (!inside.empty() && std::any_of(inside.begin(), inside.end(), is_note_letter)))
            return scan_old_chord();
        fault(code::kUnknownSign, at_, at_ + 1, "+ means nothing here; left out");
        single(TokenKind::skipped);
    }
    // `+CEG+` of abc 1.5. ABC 2.1, section 12.1.3.
    void scan_old_chord() {
        if (!in_old_chord_) fault(code::kOldChord, at_, at_ + 1, "+...+ around notes read as a chord of older files");
        in_old_chord_ = !in_old_chord_;
        in_chord_ = in_old_chord_;
        chord_from_ = at_;
        if (in_old_chord_) return single(TokenKind::chord_open);
        const std::size_t from = at_++;
        const Length length = take_length();
        put_length(add(TokenKind::chord_close, from, at_), length);
    }

    void scan_dot() {
        const char next = peek(1);
        if (next == '|') return scan_dotted_bar();
        if (next == '-' || next == '(') {
            add(next == '-' ? TokenKind::tie : TokenKind::slur, at_, at_ + 2);
            at_ += 2;
            return;
        }
        single(TokenKind::decoration);
    }
    void scan_dotted_bar() {
        const std::size_t from = at_++;
        scan_bar(at_);
        for (auto token = tokens_.rbegin(); token != tokens_.rend(); ++token)
            if (token->kind == TokenKind::bar) {
                token->where.begin = source_of(from);
                break;
            }
    }

    void scan_backslash() {
        if (trim(text_.substr(at_ + 1)).empty()) return single(TokenKind::joined_line);
        fault(code::kUnknownSign, at_, at_ + 1, "\\ means nothing inside a line of music; left out");
        single(TokenKind::skipped);
    }

    void scan_other(char c) {
        if (c == '~' || is_letter(c)) {
            Token& token = add(TokenKind::symbol_letter, at_, at_ + 1);
            token.letter = c;
            ++at_;
            return;
        }
        const std::size_t from = at_;
        if (kReserved.find(c) != std::string_view::npos) {
            while (at_ < text_.size() && text_[at_] == c) ++at_;
            const std::string message = std::string(1, c) + " is kept for later versions of ABC; left out";
            if (c == '#')  // may have been meant for a sharp
                fault(code::kReservedSign, from, at_, message);
            else
                fault_once(code::kReservedSign, std::string(1, c), from, at_, message);
        } else if (is_digit(c) || c == '/') {
            while (is_digit(peek(0)) || peek(0) == '/') ++at_;
            fault(code::kBadLength, from, at_,
                  "the length " + std::string(text_.substr(from, std::min<std::size_t>(at_ - from, 20))) +
                      " stands behind no note; left out");
        } else if (c == ',' || c == '\'') {
            ++at_;
            fault(code::kUnknownSign, from, at_, "an octave mark stands behind no note; left out");
        } else {
            while (at_ < text_.size() && is_unknown(text_[at_])) ++at_;
            if (at_ == from) ++at_;
            fault(code::kUnknownSign, from, at_,
                  "\"" + std::string(text_.substr(from, std::min<std::size_t>(at_ - from, 40))) +
                      "\" means nothing in music; left out");
        }
        add(TokenKind::skipped, from, at_);
    }
    static bool is_unknown(char c) {
        return static_cast<unsigned char>(c) >= 0x80 || (static_cast<unsigned char>(c) < 0x20 && c != '\t');
    }

    const MusicText& line_;
    std::string_view text_;
    const Dialect& dialect_;
    std::vector<Token>& tokens_;
    base::Diagnostics& diagnostics_;
    std::size_t at_ = 0;
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
