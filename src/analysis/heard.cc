// Tested by heard_test.cc.
#include "analysis/heard.h"

#include <algorithm>
#include <optional>
#include <string>

#include "base/utf8.h"
#include "music/key.h"
#include "music/pitch.h"

namespace analysis {

namespace {

constexpr std::string_view kSharp = "\xE2\x99\xAF", kFlat = "\xE2\x99\xAD", kNatural = "\xE2\x99\xAE";

bool is_digit(char c) { return c >= '0' && c <= '9'; }

bool has_sign(std::string_view text) {
    for (const std::string_view sign : {"#", "^", "_", "="})
        if (text.find(sign) != std::string_view::npos) return true;
    for (const std::string_view sign : {kSharp, kFlat, kNatural})
        if (text.find(sign) != std::string_view::npos) return true;
    return false;
}

bool is_by_name(std::string_view text) {
    for (const char c : text)
        if (c == '#' || is_digit(c)) return true;
    return text.find(kSharp) != std::string_view::npos || text.find(kFlat) != std::string_view::npos;
}

// Notes of one name in a row are one.
std::vector<std::uint8_t> pitch_runs_of(const std::vector<int>& notes) {
    std::vector<std::uint8_t> runs;
    for (const int midi : notes) {
        const auto pitch_class = static_cast<std::uint8_t>((midi + 120) % 12);
        if (runs.empty() || runs.back() != pitch_class) runs.push_back(pitch_class);
    }
    return runs;
}

class Reader {
public:
    explicit Reader(std::string_view text) : text_(text), by_name_(is_by_name(text)) {}

    Heard read() {
        Heard heard;
        std::vector<std::optional<int>> numbers;
        while (skip_blanks(), at_ < text_.size()) {
            const std::size_t from = at_;
            const Typed note = read_note();
            heard.notes.push_back(note.midi);
            numbers.push_back(note.number);
            if (heard.notes.size() > kMostHeard)
                fail(from, "at most " + std::to_string(kMostHeard) + " notes can be looked for");
        }
        heard.pitch_classes = pitch_runs_of(heard.notes);
        if (heard.pitch_classes.size() < kFewestHeard)
            fail(at_,
                 "at least " + std::to_string(kFewestHeard) +
                     " different notes in a row are needed; a repeated note, or one in another octave, counts once");
        const bool all_numbered =
            std::all_of(numbers.begin(), numbers.end(), [](const auto& number) { return number; });
        heard.tells_octaves = all_numbered || has_marks_ || (has_small_ && has_capital_);
        for (std::size_t note = 0; all_numbered && note < numbers.size(); ++note)
            heard.notes[note] += 12 * (*numbers[note] - octave_of_[note]);
        return heard;
    }

private:
    struct Typed {
        int midi = 60;              // as ABC has it
        std::optional<int> number;  // behind it: an octave where all have one, else a length
    };

    [[noreturn]] void fail(std::size_t at, const std::string& why) const {
        std::size_t column = 1;
        for (const char c : text_.substr(0, at)) column += base::is_continuation_byte(c) ? 0 : 1;
        throw HeardFault("column " + std::to_string(column) + ": " + why);
    }
    char peek() const { return at_ < text_.size() ? text_[at_] : '\0'; }
    bool take(std::string_view sign) {
        if (!text_.substr(at_).starts_with(sign)) return false;
        at_ += sign.size();
        return true;
    }
    void skip_blanks() {
        while (at_ < text_.size() &&
               (text_[at_] == ' ' || text_[at_] == '\t' || text_[at_] == '\n' || text_[at_] == '|'))
            ++at_;
    }
    // The character at the cursor as the message shows it.
    std::string shown() const {
        if (at_ >= text_.size()) return "the end";
        std::size_t end = at_ + 1;
        while (end < text_.size() && base::is_continuation_byte(text_[end])) ++end;
        return "`" + base::printable(text_.substr(at_, end - at_)) + "`";
    }
    Typed read_note() {
        int accidental = 0;
        const std::size_t from = at_;
        if (take("^^"))
            accidental = 2;
        else if (take("^"))
            accidental = 1;
        else if (take("__"))
            accidental = -2;
        else if (take("_"))
            accidental = -1;
        else
            take("=");
        const bool has_sign_before = at_ > from;
        constexpr std::string_view kLetters = "CDEFGAB";
        const char letter = peek() >= 'a' && peek() <= 'g' ? static_cast<char>(peek() - 'a' + 'A') : peek();
        const std::size_t step = kLetters.find(letter);
        if (at_ >= text_.size() || step == std::string_view::npos)
            fail(at_, shown() + (has_sign_before ? " is no note for the sign before it" : " is no note") +
                          ". Notes are the letters A to G");
        const bool is_small = peek() >= 'a';
        (is_small ? has_small_ : has_capital_) = true;
        ++at_;
        if (by_name_ && !has_sign_before) accidental = read_sign_behind();
        int octave = is_small ? 5 : 4;
        for (; peek() == '\'' || peek() == ','; ++at_) {
            octave = std::clamp(octave + (peek() == ',' ? -1 : 1), -1, 9);
            has_marks_ = true;
        }
        octave_of_.push_back(octave);
        Typed note{12 * (octave + 1) + music::kNaturalSemitones[step] + accidental, std::nullopt};
        for (; is_digit(peek()); ++at_) note.number = std::min(note.number.value_or(0) * 10 + (peek() - '0'), 9);
        return note;
    }
    int read_sign_behind() {
        int accidental = 0;
        for (int sign = 0; sign < 2; ++sign) {
            if (accidental >= 0 && (take("#") || take(kSharp)))
                ++accidental;
            else if (accidental <= 0 && (take("b") || take(kFlat)))
                --accidental;
        }
        if (accidental == 0) take(kNatural);
        return accidental;
    }

    std::string_view text_;
    std::size_t at_ = 0;
    bool by_name_;
    bool has_small_ = false, has_capital_ = false, has_marks_ = false;
    std::vector<int> octave_of_;  // by ABC
};

}  // namespace

Heard read_heard(std::string_view text) {
    if (!base::is_utf8(text)) throw HeardFault("column 1: notes must be UTF-8");
    return Reader(text).read();
}

std::vector<Heard> readings_of(std::string_view text) {
    std::vector<Heard> readings{read_heard(text)};
    const bool names_a_flat = is_by_name(text) && text.find('b') != std::string_view::npos;
    if (has_sign(text) || names_a_flat) return readings;
    for (const int fifths : {1, 2, 3, -1, -2, -3}) {
        const music::Signature signature = music::signature_of_fifths(fifths);
        Heard signed_heard = readings.front();
        for (std::size_t letter = 0; letter < music::kLetters; ++letter) {
            if (signature[letter] == 0) continue;
            const int natural = music::kNaturalSemitones[letter];
            const std::vector<int>& typed = readings.front().notes;
            for (std::size_t note = 0; note < typed.size(); ++note)
                if ((typed[note] + 120) % 12 == natural) signed_heard.notes[note] = typed[note] + signature[letter];
        }
        signed_heard.pitch_classes = pitch_runs_of(signed_heard.notes);
        if (signed_heard.pitch_classes.size() < kFewestHeard) continue;
        if (std::find(readings.begin(), readings.end(), signed_heard) == readings.end())
            readings.push_back(std::move(signed_heard));
    }
    return readings;
}

}  // namespace analysis
