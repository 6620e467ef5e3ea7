// Tested by music_line_test.cc and the conformance table.
#include "abc/note_scan.h"

#include <algorithm>

#include "abc/characters.h"

namespace abc {

namespace {

std::int8_t take_accidental(LineScan& line) {
    const std::size_t from = line.at;
    const char sign = line.text[line.at];
    while (line.at < line.text.size() && line.text[line.at] == sign) ++line.at;
    const std::size_t count = line.at - from;
    const std::size_t most = sign == '=' ? 1 : 2;
    if (count > most)
        line.fault(code::kLoneAccidental, from, line.at,
                   "more signs than a note can carry; the nearest one or two are read");
    if (sign != '=' && (line.peek(0) == '/' || (is_digit(line.peek(0)) && line.peek(1) == '/'))) {
        line.take_length();
        line.fault(
            code::kMicrotone, from, line.at,
            "quarter tones are no part of ABC 2.1; read as a plain " + std::string(sign == '^' ? "sharp" : "flat"));
    }
    const int size = static_cast<int>(std::min(count, most));
    return static_cast<std::int8_t>(sign == '^' ? size : sign == '_' ? -size : 0);
}

}  // namespace

void scan_note(LineScan& line) {
    const std::size_t from = line.at;
    std::int8_t accidental = Token::kNoAccidental;
    if (!is_note_letter(line.text[line.at])) {
        accidental = take_accidental(line);
        while (line.at < line.text.size() && is_blank(line.text[line.at]) && is_note_letter(line.peek(1))) ++line.at;
        if (line.at >= line.text.size() || !is_note_letter(line.text[line.at])) {
            line.fault(
                code::kLoneAccidental, from, line.at,
                "the sign " + std::string(line.text.substr(from, line.at - from)) + " stands before no note; left out");
            line.add(TokenKind::skipped, from, line.at);
            return;
        }
    }
    const char letter = line.text[line.at++];
    int octave = is_upper(letter) ? 4 : 5;
    while (line.peek(0) == ',' || line.peek(0) == '\'') {
        octave += line.peek(0) == '\'' ? 1 : -1;
        ++line.at;
    }
    const WrittenLength length = line.take_length();
    Token& token = line.add(TokenKind::note, from, line.at);
    token.letter = letter;
    token.accidental = accidental;
    token.note = static_cast<music::Letter>(((is_upper(letter) ? letter - 'A' : letter - 'a') + 5) % 7);
    token.octave = static_cast<std::int8_t>(std::clamp(octave, -20, 30));  // beyond MIDI either way
    put_length(token, length);
}

void scan_rest(LineScan& line, TokenKind kind) {
    const std::size_t from = line.at++;
    const WrittenLength length = line.take_length();
    Token& token = line.add(kind, from, line.at);
    token.letter = line.text[from];
    put_length(token, length);
}

void scan_tuplet(LineScan& line) {
    const std::size_t from = line.at++;
    unsigned numbers[3] = {line.take_digits(), 0, 0};
    for (int place = 1; place < 3 && line.peek(0) == ':'; ++place) {
        // `(3:|` ends a tuplet sign before a repeat.
        if (place == 1 && line.peek(1) == '|') break;
        ++line.at;
        if (is_digit(line.peek(0))) numbers[place] = line.take_digits();
    }
    Token& token = line.add(TokenKind::tuplet, from, line.at);
    token.tuplet_p = static_cast<std::uint16_t>(std::min(numbers[0], 1000U));
    token.tuplet_q = static_cast<std::uint16_t>(std::min(numbers[1], 1000U));
    token.tuplet_r = static_cast<std::uint16_t>(std::min(numbers[2], 1000U));
}

}  // namespace abc
