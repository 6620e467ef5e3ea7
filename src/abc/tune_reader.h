// The tokens of one tune made into a Setting: fields obeyed where they stand, notes given to their voice.
#pragma once

#include <cstddef>
#include <deque>
#include <optional>
#include <string_view>
#include <vector>

#include "abc/header.h"
#include "abc/tune_tokens.h"
#include "abc/voice.h"
#include "base/diagnostics.h"
#include "tune/setting.h"

namespace abc {

// `header` holds what the file header set. The place of the block (line, where) is the caller's to fill in.
tune::Setting read_tune(const Tokens& tokens, Header header, base::Diagnostics& diagnostics);

// Fields of a file header, obeyed into `header`.
void read_file_header(const Tokens& tokens, Header& header, base::Diagnostics& diagnostics);

// The same a token at a time, for who must know what holds at each. `tokens` is looked ahead into and outlives the
// reader; every index is taken once, in order.
class TuneReader {
public:
    TuneReader(const std::vector<Token>& tokens, Header header, base::Diagnostics& diagnostics);

    void take(std::size_t index);
    // The voice or layer the next note of the body goes into.
    const Voice& voice();
    tune::Setting finish();

private:
    void read_header_token(const Token& token, std::size_t index);
    void begin_body();
    Voice& find_voice(const VoiceDeclaration& declared);
    Voice& target() { return layer_ ? *layer_ : *current_; }
    void read_body_token(const Token& token, std::size_t index);
    void read_body_field(const Token& token, std::size_t index);
    // Whether a field is of what holds at the melody's first note.
    bool opens_melody(const Token& token) const;
    template <typename Change>
    void for_voices(const Token& token, Change change);
    void read_instruction(const Token& token, std::string_view text);
    void switch_voice(const Token& token, std::string_view value);
    void open_layer(const Token& token);
    void close_layer();
    void read_bar(const Token& token);
    void check_symbol(const Token& token);
    void tell_unknown_field(const Token& token);

    const std::vector<Token>& tokens_;
    Header header_;
    base::Diagnostics& diagnostics_;
    music::StatedKey key_in_force_;  // at the melody's first note
    VoiceState start_;
    std::deque<Voice> voices_;  // the first is the melody; a deque, for `current_` points into it
    Voice* current_ = nullptr;
    std::optional<Voice> layer_;
    std::size_t layer_bars_ = 0;
    std::vector<tune::OtherVoice> layers_;
    bool voice_was_named_ = false;
    int sung_syllables_ = 0;
};

}  // namespace abc
