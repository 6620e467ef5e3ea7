// A line of music while it is being cut: how far it is cut, and the tokens that came of it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "abc/music_text.h"
#include "abc/report_fault.h"
#include "abc/token.h"

namespace abc {

// In units of L:, each from 1 to 4096.
struct WrittenLength {
    unsigned numerator = 1;
    unsigned denominator = 1;
};

void put_length(Token& token, WrittenLength length);

class LineScan {
public:
    LineScan(const MusicText& line, std::vector<Token>& into, base::Diagnostics& findings)
        : text(line.text), tokens(into), line_(line), diagnostics_(findings) {}

    // 0 behind the end.
    char peek(std::size_t ahead) const { return at + ahead < text.size() ? text[at + ahead] : '\0'; }

    // Where bytes of `text` stand in the source.
    std::uint32_t source_of(std::size_t place) const;
    base::Span span(std::size_t from, std::size_t to) const;

    void fault(const Code& code, std::size_t from, std::size_t to, std::string message);
    // Of a sign that touches no note.
    void fault_once(const Code& code, std::string_view sign, std::size_t from, std::size_t to, std::string message);

    Token& add(TokenKind kind, std::size_t from, std::size_t to);
    // These go on behind what they take: one byte, as many as are `c`, a number (0 where there is none).
    void single(TokenKind kind);
    void run(TokenKind kind, char c);
    unsigned take_digits();
    // `3`, `3/2`, `/`, `//`, `3/`. ABC 2.1, section 4.3. A slash without a number halves.
    WrittenLength take_length();

    std::string_view text;
    std::size_t at = 0;  // into `text`: what stands before is cut
    std::vector<Token>& tokens;

private:
    const MusicText& line_;
    base::Diagnostics& diagnostics_;
};

}  // namespace abc
