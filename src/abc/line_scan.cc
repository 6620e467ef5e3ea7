// Tested by music_line_test.cc.
#include "abc/line_scan.h"

#include <algorithm>

#include "abc/characters.h"

namespace abc {

namespace {

// The largest term of a written length: far beyond music, well inside exact arithmetic.
constexpr unsigned kMaxLengthTerm = 4096;

}  // namespace

std::uint32_t LineScan::source_of(std::size_t place) const {
    if (line_.places == nullptr) return line_.offset + static_cast<std::uint32_t>(place);
    if (place < line_.places->size()) return line_.offset + (*line_.places)[place];
    return line_.offset + (line_.places->empty() ? 0 : line_.places->back() + 1);
}

base::Span LineScan::span(std::size_t from, std::size_t to) const {
    const std::uint32_t begin = source_of(from);
    return {begin, std::max(begin, to > from ? source_of(to - 1) + 1 : begin)};
}

void LineScan::fault(const Code& code, std::size_t from, std::size_t to, std::string message) {
    report(diagnostics_, code, span(from, to), std::move(message));
}

void LineScan::fault_once(const Code& code, std::string_view sign, std::size_t from, std::size_t to,
                          std::string message) {
    report_once(diagnostics_, code, sign, span(from, to), std::move(message));
}

Token& LineScan::add(TokenKind kind, std::size_t from, std::size_t to) {
    Token& token = tokens.emplace_back();
    token.kind = kind;
    token.in_body = true;
    token.where = span(from, to);
    token.text = text.substr(from, to - from);
    return token;
}

void LineScan::single(TokenKind kind) {
    add(kind, at, at + 1);
    ++at;
}

void LineScan::run(TokenKind kind, char c) {
    const std::size_t from = at;
    while (at < text.size() && text[at] == c) ++at;
    add(kind, from, at);
}

unsigned LineScan::take_digits() {
    unsigned value = 0;
    while (at < text.size() && is_digit(text[at])) {
        value = std::min(value * 10 + static_cast<unsigned>(text[at] - '0'), 1000000U);
        ++at;
    }
    return value;
}

WrittenLength LineScan::take_length() {
    const std::size_t from = at;
    WrittenLength length;
    bool is_legal = true;
    if (is_digit(peek(0))) {
        length.numerator = take_digits();
        is_legal = length.numerator > 0 && length.numerator <= kMaxLengthTerm;
    }
    while (peek(0) == '/') {
        ++at;
        const unsigned divisor = is_digit(peek(0)) ? take_digits() : 2;
        is_legal = is_legal && divisor > 0 && divisor <= kMaxLengthTerm;
        if (is_legal) length.denominator *= divisor;
        is_legal = is_legal && length.denominator <= kMaxLengthTerm;
    }
    if (at > from && peek(0) == '.' && is_digit(peek(1))) {
        const std::size_t dot = at++;
        take_digits();
        fault(code::kBadLength, dot, at,
              "a length has no decimals; " + std::string(text.substr(dot, at - dot)) + " left out");
    }
    if (is_legal) return length;
    fault(code::kBadLength, from, at,
          "the length " + std::string(text.substr(from, std::min<std::size_t>(at - from, 20))) +
              " means nothing; read as one unit");
    return {};
}

void put_length(Token& token, WrittenLength length) {
    token.numerator = static_cast<std::uint16_t>(length.numerator);
    token.denominator = static_cast<std::uint16_t>(length.denominator);
}

}  // namespace abc
