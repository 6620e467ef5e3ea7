// Text fields add up, instruction fields replace. Tested by header_test.cc.
#include "abc/header.h"

#include <algorithm>

#include "abc/characters.h"
#include "abc/number_fields.h"
#include "abc/order_word.h"
#include "abc/report_fault.h"
#include "abc/text_string.h"

namespace abc {

namespace {

constexpr std::string_view kStandardSymbols = "~HLMOPSTuv";  // ABC 2.1, section 4.16
constexpr std::string_view kCarriedTexts = "ABCDFGHNOSZ";

bool is_symbol_letter(char c) { return c == '~' || (c >= 'H' && c <= 'W') || (c >= 'h' && c <= 'w'); }

}  // namespace

std::optional<VoiceDeclaration> read_voice_field(std::string_view text) {
    std::string_view rest = text;
    VoiceDeclaration voice{std::string(take_word(rest)), {}};
    if (voice.id.empty()) return std::nullopt;
    while (!rest.empty()) {
        const std::size_t quote = rest.find('"');
        const std::size_t blank = rest.find_first_of(" \t");
        if (quote < blank) {  // name="Low voice": the quoted text may hold blanks
            const std::size_t end = rest.find('"', quote + 1);
            rest = trim(end == std::string_view::npos ? std::string_view() : rest.substr(end + 1));
            continue;
        }
        read_clef_word(take_word(rest), voice.shift);
    }
    return voice;
}

Header::Header() {
    for (const char letter : kStandardSymbols) symbols_.set(static_cast<unsigned char>(letter));
    orders_['H'] = music::OrderMark::Kind::fermata;  // ABC 2.1, section 4.16
    orders_['S'] = music::OrderMark::Kind::segno;
}

music::Duration Header::unit() const {
    return stated_unit ? *stated_unit : default_unit(meter.value_or(music::Meter{}));
}

void Header::take(const Token& token, std::string_view value, base::Diagnostics& diagnostics) {
    const char letter = token.letter;
    if (kCarriedTexts.find(letter) != std::string_view::npos) {
        if (!value.empty()) texts.push_back({letter, plain_text(value)});
        return;
    }
    switch (letter) {
        case 'X':
            return take_number(token, value, diagnostics);
        case 'T':
            if (!value.empty()) titles.push_back(plain_text(value));
            return;
        case 'R':
            if (value.empty()) return;
            rhythm = plain_text(value);
            rhythm_where = token.where;
            return;
        case 'P':
            part_order = std::string(value);
            return;
        case 'M':
            meter = meter_of_field(token, value, diagnostics);
            meter_where = token.where;
            return;
        case 'L':
            if (const auto unit = unit_of_field(token, value, diagnostics)) stated_unit = unit;
            return;
        case 'Q':
            if (!value.empty()) tempo = read_tempo(plain_text(value));
            return;
        case 'K':
            key = key_of_field(token, value, diagnostics);
            key_where = token.where;
            return;
        case 'I':
            return take_instruction(token, value, diagnostics);
        case 'U':
            return take_symbol(token, value, diagnostics);
        case 'V':
            if (auto voice = read_voice_field(value))
                voices.push_back(std::move(*voice));
            else
                report(diagnostics, code::kBadVoice, token.where, "V: without a name; left out");
            return;
        default:
            return;  // r: remark, W: w: words, m: macros: nothing that sounds
    }
}

void Header::take_number(const Token& token, std::string_view value, base::Diagnostics& diagnostics) {
    std::size_t digits = 0;
    while (digits < value.size() && is_digit(value[digits])) ++digits;
    if (digits < value.size())
        report(diagnostics, code::kBadNumber, token.where,
               "X: takes a whole number; " +
                   (digits > 0 ? "the rest of the line is left out" : std::string("read as a tune without a number")));
    std::string_view text = value.substr(0, digits);
    while (text.size() > 1 && text[0] == '0') text.remove_prefix(1);
    if (!text.empty()) number = std::string(text.substr(0, 20));
}

void Header::take_instruction(const Token& token, std::string_view text, base::Diagnostics& diagnostics) {
    const std::string_view name = take_word(text);
    if (name == "propagate-accidentals") {
        if (text == "not")
            reach = Reach::this_note;
        else if (text == "octave")
            reach = Reach::same_octave;
        else if (text == "pitch")
            reach = Reach::every_octave;
        else
            report(diagnostics, code::kBadInstruction, token.where,
                   "propagate-accidentals takes not, octave or pitch; left as it was");
    } else if (name == "abc-include") {
        report(diagnostics, code::kIncludeNotRead, token.where,
               "files named by abc-include are not read; what they set does not count");
    }
}

void Header::take_symbol(const Token& token, std::string_view value, base::Diagnostics& diagnostics) {
    const std::string_view letter = trim(value.substr(0, std::min(value.size(), value.find('='))));
    if (letter.size() != 1 || !is_symbol_letter(letter[0]) || value.find('=') == std::string_view::npos) {
        report(diagnostics, code::kBadSymbol, token.where, "U: takes a letter H-W, h-w or ~, = and a symbol; left out");
        return;
    }
    const std::string_view meaning = trim(value.substr(value.find('=') + 1));
    symbols_.set(static_cast<unsigned char>(letter[0]), meaning != "!nil!" && meaning != "!none!");
    orders_[static_cast<unsigned char>(letter[0]) & 127U] = read_order_word(meaning);
}

music::Meter meter_of_field(const Token& token, std::string_view value, base::Diagnostics& diagnostics) {
    if (value.empty()) {
        report(diagnostics, code::kBadMeter, token.where, "an empty M:; read as free meter");
        return {};
    }
    if (const auto meter = read_meter(value)) return *meter;
    report(diagnostics, code::kBadMeter, token.where,
           "\"" + std::string(value.substr(0, 40)) + "\" is no meter; read as free meter");
    return {};
}

std::optional<music::Duration> unit_of_field(const Token& token, std::string_view value,
                                             base::Diagnostics& diagnostics) {
    const auto unit = read_unit(value);
    if (!unit)
        report(diagnostics, code::kBadUnit, token.where,
               "\"" + std::string(value.substr(0, 40)) + "\" is no unit note length; left as it was");
    return unit;
}

KeyField key_of_field(const Token& token, std::string_view value, base::Diagnostics& diagnostics) {
    KeyField field = read_key_field(value);
    for (const FieldFault& fault : field.faults) report(diagnostics, fault.code, token.where, fault.message);
    return field;
}

}  // namespace abc
