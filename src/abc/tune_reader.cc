// Tested by tune_reader_test.cc, the conformance table and two published collections.
#include "abc/tune_reader.h"

#include <string>

#include "abc/characters.h"
#include "abc/line.h"
#include "abc/number_fields.h"
#include "abc/order_word.h"
#include "abc/report_fault.h"

namespace abc {

namespace {

// More voices, or more layers in one tune, than anybody writes. Source: house choice, against hostile files.
constexpr std::size_t kMaxVoices = 256;
constexpr std::size_t kMaxLayers = 4096;

// The value of the field at `index` with its `+:` lines, parted by one blank each. ABC 2.1, section 3.3.
std::string_view joined_value(const std::vector<Token>& tokens, std::size_t index, std::string& storage) {
    bool is_joined = false;
    for (std::size_t next = index + 1; next < tokens.size(); ++next) {
        const TokenKind kind = tokens[next].kind;
        if (kind == TokenKind::comment || kind == TokenKind::directive) continue;
        if (kind != TokenKind::continued) break;
        if (!is_joined) storage = tokens[index].text;
        is_joined = true;
        storage += ' ';
        storage += tokens[next].text;
    }
    return is_joined ? std::string_view(storage) : tokens[index].text;
}

// Of two letters and more: a single one is as often the name of a note or a finger. `-`, `_`, `*`, `|` and blanks stand
// between. ABC 2.1, section 5.1.
int count_syllables(std::string_view words) {
    int syllables = 0;
    int letters = 0;
    for (const char c : words) {
        if (is_letter(c) || static_cast<unsigned char>(c) >= 0xC0)  // the first byte of a letter beyond ASCII
            syllables += ++letters == 2 ? 1 : 0;
        else if (is_blank(c) || c == '-' || c == '_' || c == '*' || c == '|' || c == '~')
            letters = 0;
    }
    return syllables;
}

}  // namespace

TuneReader::TuneReader(const std::vector<Token>& tokens, Header header, base::Diagnostics& diagnostics)
    : tokens_(tokens), header_(std::move(header)), diagnostics_(diagnostics) {}

void TuneReader::take(std::size_t index) {
    const Token& token = tokens_[index];
    if (!token.in_body)
        read_header_token(token, index);
    else
        read_body_token(token, index);
}

const Voice& TuneReader::voice() {
    begin_body();
    return target();
}

void TuneReader::read_header_token(const Token& token, std::size_t index) {
    std::string storage;
    if (token.kind == TokenKind::field)
        header_.take(token, joined_value(tokens_, index, storage), diagnostics_);
    else if (token.kind == TokenKind::directive)
        header_.take_instruction(token, token.text, diagnostics_);
}

void TuneReader::begin_body() {
    if (!voices_.empty()) return;
    VoiceState state;
    state.accidentals.reach = header_.reach;
    state.meter = header_.meter.value_or(music::Meter{});
    state.unit = header_.unit();
    header_.stated_unit = state.unit;  // a meter in the body never changes it
    if (header_.key) {
        state.key = header_.key->key.value_or(music::StatedKey{});
        key_in_force_ = state.key;
        state.accidentals.signature = header_.key->signature;
        state.apply(header_.key->shift);
    }
    start_ = state;
    for (const VoiceDeclaration& declared : header_.voices) find_voice(declared);
    if (voices_.empty()) voices_.emplace_back("", start_, diagnostics_);
    current_ = &voices_.front();
}

// The voice of that name, made when new. A first voice without a name takes the first name that comes.
Voice& TuneReader::find_voice(const VoiceDeclaration& declared) {
    for (Voice& voice : voices_)
        if (voice.id() == declared.id) return voice.state().apply(declared.shift), voice;
    const bool first_is_unnamed = voices_.size() == 1 && voices_.front().id().empty();
    if (first_is_unnamed || voices_.size() >= kMaxVoices) {
        Voice& voice = first_is_unnamed ? voices_.front() : voices_.back();
        voice.rename(declared.id);
        voice.state().apply(declared.shift);
        return voice;
    }
    Voice& voice = voices_.emplace_back(declared.id, start_, diagnostics_);
    voice.state().apply(declared.shift);
    return voice;
}

void TuneReader::read_body_token(const Token& token, std::size_t index) {
    begin_body();
    switch (token.kind) {
        case TokenKind::note:
            return target().take_note(token);
        case TokenKind::bar:
            return read_bar(token);
        case TokenKind::rest:
            return target().take_rest(token);
        case TokenKind::bar_rest:
            return target().take_bar_rest(token);
        case TokenKind::chord_open:
            return target().open_chord(token);
        case TokenKind::chord_close:
            return target().close_chord(token);
        case TokenKind::grace_open:
            return target().open_grace();
        case TokenKind::grace_close:
            return target().close_grace();
        case TokenKind::tie:
            return target().take_tie(token);
        case TokenKind::broken:
            return target().take_broken(token);
        case TokenKind::tuplet:
            return target().take_tuplet(token);
        case TokenKind::ending:
            return target().take_ending(token);
        case TokenKind::overlay:
            return open_layer(token);
        case TokenKind::symbol_letter:
            if (const auto kind = header_.order_of_symbol(token.letter)) target().mark_order(*kind);
            return check_symbol(token);
        case TokenKind::decoration:
        case TokenKind::chord_symbol:
        case TokenKind::annotation:
            if (const auto kind = read_order_word(token.text)) target().mark_order(*kind);
            return;
        case TokenKind::field:
            return read_body_field(token, index);
        case TokenKind::directive:
            return read_instruction(token, token.text);
        case TokenKind::continued:
        case TokenKind::comment:
        case TokenKind::spacer:
        case TokenKind::slur:
        case TokenKind::line_break:
        case TokenKind::joined_line:
        case TokenKind::skipped:
            return;
    }
}

void TuneReader::read_body_field(const Token& token, std::size_t index) {
    std::string storage;
    const std::string_view value = joined_value(tokens_, index, storage);
    switch (token.letter) {
        case 'K': {
            const KeyField field = key_of_field(token, value, diagnostics_);
            if (field.key && opens_melody(token)) {
                key_in_force_ = *field.key;
                header_.key_where = token.where;
            }
            return for_voices(token, [&](Voice& voice) { voice.change_key(field); });
        }
        case 'M': {
            const music::Meter meter = meter_of_field(token, value, diagnostics_);
            if (opens_melody(token)) {
                header_.meter = meter;
                header_.meter_where = token.where;
            }
            return for_voices(token, [&](Voice& voice) { voice.change_meter(meter); });
        }
        case 'L':
            if (const auto unit = unit_of_field(token, value, diagnostics_)) {
                if (opens_melody(token)) header_.stated_unit = unit;
                for_voices(token, [&](Voice& voice) { voice.state().unit = *unit; });
            }
            return;
        case 'R':
        case 'Q':
            if (opens_melody(token)) header_.take(token, value, diagnostics_);
            return;
        case 'w':
            sung_syllables_ += count_syllables(value);
            return;
        case 'P':
            return target().mark_part(std::string(value));
        case 'V':
            return switch_voice(token, value);
        case 'I':
            return read_instruction(token, value);
        case 'U':
            return header_.take_symbol(token, value, diagnostics_);
        default:  // T: N: s: ... hold nothing that sounds
            if (token.is_inline && !is_defined_field(token.letter)) tell_unknown_field(token);
            return;
    }
}

bool TuneReader::opens_melody(const Token& token) const {
    const Voice& melody = voices_.front();
    if (!melody.so_far().heads.empty() || layer_) return false;
    return current_ == &melody || (!token.is_inline && !voice_was_named_);
}

// A field on its own line before any voice is named counts for all voices; else for the voice it stands in.
// Section 7.3.
template <typename Change>
void TuneReader::for_voices(const Token& token, Change change) {
    if (token.is_inline) return change(target());
    if (layer_) change(*layer_);
    if (voice_was_named_) return change(*current_);
    for (Voice& voice : voices_) change(voice);
    start_ = current_->state();
    start_.accidentals.forget_bar();
}

void TuneReader::read_instruction(const Token& token, std::string_view text) {
    header_.take_instruction(token, text, diagnostics_);
    for (Voice& voice : voices_) voice.state().accidentals.reach = header_.reach;
}

void TuneReader::switch_voice(const Token& token, std::string_view value) {
    close_layer();
    const auto declared = read_voice_field(value);
    if (!declared) {
        report(diagnostics_, code::kBadVoice, token.where, "V: without a name; the voice before goes on");
        return;
    }
    current_->settle();
    voice_was_named_ = true;
    if (voices_.size() >= kMaxVoices)
        report(diagnostics_, code::kBadVoice, token.where,
               "more than " + std::to_string(kMaxVoices) + " voices; what follows goes into the last");
    current_ = &find_voice(*declared);
}

// --- overlay, section 7.4

void TuneReader::open_layer(const Token& token) {
    close_layer();
    current_->settle();
    layer_.emplace(current_->layer_over_bar());
    layer_bars_ = token.text.size();
}

void TuneReader::close_layer() {
    if (!layer_) return;
    layer_->settle();
    if (layers_.size() < kMaxLayers) layers_.push_back({"&", layer_->finish()});
    layer_.reset();
}

void TuneReader::read_bar(const Token& token) {
    if (layer_ && --layer_bars_ > 0) return layer_->take_bar(token);
    close_layer();
    current_->take_bar(token);
}

void TuneReader::tell_unknown_field(const Token& token) {
    const std::string head = "[" + std::string(1, token.letter) + ":";
    report_once(diagnostics_, code::kUnknownField, head, token.where, head + "...] is no field of ABC 2.1; left out");
}

void TuneReader::check_symbol(const Token& token) {
    if (header_.knows_symbol(token.letter)) return;
    report_once(diagnostics_, code::kUnknownLetter, std::string_view(&token.letter, 1), token.where,
                std::string(1, token.letter) + " has no meaning in music here; left out");
}

tune::Setting TuneReader::finish() {
    begin_body();
    close_layer();
    tune::Setting setting;
    setting.number = std::move(header_.number);
    setting.titles = std::move(header_.titles);
    setting.rhythm = std::move(header_.rhythm);
    setting.texts = std::move(header_.texts);
    setting.part_order = std::move(header_.part_order);
    setting.meter_is_stated = header_.meter.has_value();
    setting.meter = header_.meter.value_or(music::Meter{});
    setting.unit = header_.unit();
    setting.tempo = std::move(header_.tempo);
    setting.sung_syllables = sung_syllables_;
    setting.rhythm_where = header_.rhythm_where;
    setting.meter_where = header_.meter_where;
    setting.key_where = header_.key_where;
    if (header_.key) setting.key = header_.key->key.value_or(music::StatedKey{});
    setting.key_in_force = key_in_force_;
    setting.melody = voices_.front().finish();
    for (std::size_t other = 1; other < voices_.size(); ++other)
        setting.others.push_back({voices_[other].id(), voices_[other].finish()});
    for (tune::OtherVoice& layer : layers_) setting.others.push_back(std::move(layer));
    return setting;
}

tune::Setting read_tune(const Tokens& tokens, Header header, base::Diagnostics& diagnostics) {
    TuneReader reader(tokens.all, std::move(header), diagnostics);
    for (std::size_t index = 0; index < tokens.all.size(); ++index) reader.take(index);
    return reader.finish();
}

void read_file_header(const Tokens& tokens, Header& header, base::Diagnostics& diagnostics) {
    for (std::size_t index = 0; index < tokens.all.size(); ++index) {
        const Token& token = tokens.all[index];
        std::string storage;
        if (token.kind == TokenKind::directive) header.take_instruction(token, token.text, diagnostics);
        if (token.kind != TokenKind::field) continue;
        const std::string_view value = joined_value(tokens.all, index, storage);
        if (token.letter == 'K' || token.letter == 'X' || token.letter == 'T' || token.letter == 'V' ||
            token.letter == 'P')
            report(diagnostics, code::kStrayField, token.where,
                   std::string(1, token.letter) + ": belongs to a tune, not to a file header; left out");
        else
            header.take(token, value, diagnostics);
    }
}

}  // namespace abc
