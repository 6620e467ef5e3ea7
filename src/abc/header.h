// What the fields before the music say. A tune's header starts as a copy of the file's. ABC 2.1, sections 2.2.2 and 3.
#pragma once

#include <array>
#include <bitset>
#include <optional>
#include <string>
#include <vector>

#include "abc/accidentals.h"
#include "abc/key_field.h"
#include "abc/token.h"
#include "base/diagnostics.h"
#include "music/melody.h"
#include "music/meter.h"
#include "tune/setting.h"

namespace abc {

struct VoiceDeclaration {
    std::string id;
    Shift shift;
};

// `V:` splits into an id and properties; those that shift pitch are read, the rest (names, stems ...) only printed.
std::optional<VoiceDeclaration> read_voice_field(std::string_view text);

class Header {
public:
    Header();

    // One field of a header. `value` has its `+:` lines joined on.
    void take(const Token& token, std::string_view value, base::Diagnostics& diagnostics);
    // `%%` or `I:`: what touches pitch or meaning is obeyed, all else is skipped. ABC 2.1, section 3.1.17.
    void take_instruction(const Token& token, std::string_view text, base::Diagnostics& diagnostics);
    void take_symbol(const Token& token, std::string_view value, base::Diagnostics& diagnostics);

    bool knows_symbol(char letter) const { return symbols_.test(static_cast<unsigned char>(letter) & 127U); }
    // What a letter in the music says of the order of playing: `H` a fermata, `S` a segno, unless U: says otherwise.
    std::optional<music::OrderMark::Kind> order_of_symbol(char letter) const {
        return orders_[static_cast<unsigned char>(letter) & 127U];
    }
    music::Duration unit() const;

    std::optional<std::string> number;
    std::vector<std::string> titles;
    std::optional<std::string> rhythm;
    std::vector<tune::HeaderText> texts;
    std::optional<std::string> part_order;
    std::optional<music::Meter> meter;
    std::optional<music::Duration> stated_unit;
    std::optional<tune::Tempo> tempo;
    Reach reach = Reach::every_octave;
    std::optional<KeyField> key;
    std::optional<base::Span> rhythm_where, meter_where, key_where;
    std::vector<VoiceDeclaration> voices;

private:
    void take_number(const Token& token, std::string_view value, base::Diagnostics& diagnostics);

    std::array<std::optional<music::OrderMark::Kind>, 128> orders_{};
    std::bitset<128> symbols_;  // letters with a meaning: the standard's shorthands and what U: sets
};

// M: as a field: what cannot be read is free meter, with a finding.
music::Meter meter_of_field(const Token& token, std::string_view value, base::Diagnostics& diagnostics);
std::optional<music::Duration> unit_of_field(const Token& token, std::string_view value,
                                             base::Diagnostics& diagnostics);
KeyField key_of_field(const Token& token, std::string_view value, base::Diagnostics& diagnostics);

}  // namespace abc
