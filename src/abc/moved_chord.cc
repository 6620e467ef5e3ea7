// A chord is read by a small grammar, so that a word that only begins like one stays a word. Tested by
// moved_chord_test.cc.
#include "abc/moved_chord.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <vector>

#include "abc/characters.h"
#include "abc/edits.h"

namespace abc {

namespace {

// What may stand right behind a root, and what may stand anywhere after it; the longest first. Source: ABC 2.1, section
// 4.18; the rest is common practice, no source.
constexpr std::array<std::string_view, 8> kTriads{"min", "Min", "mi", "ma", "Ma", "m", "M", "-"};
constexpr std::array<std::string_view, 20> kQualities{
    " maj", " min", " dim", " aug", " sus", "omit",           "maj",   "Maj", "MAJ", "dim", "aug", "sus", "add",
    "alt",  "dom",  "no",   "+",    ",",    "\u00B0" /* ° */, "\u00F8" /* ø */};
constexpr std::string_view kForte = "f";              // loud, far more often than the chord of F in small letters
constexpr std::string_view kMajorSeventh = "\u0394";  // Δ

struct Sign {
    std::string_view text;
    int semitones;
};
// The escapes are those of ABC 2.1, section 8.2. No sign is last.
constexpr std::array<Sign, 10> kSigns{{{"#", 1},
                                       {"b", -1},
                                       {"\u266F", 1},
                                       {"\u266D", -1},
                                       {"\u266E", 0},
                                       {"\\u266F", 1},
                                       {"\\u266f", 1},
                                       {"\\u266D", -1},
                                       {"\\u266d", -1},
                                       {"", 0}}};

struct ChordName {
    base::Span where;
    music::NoteName name;
    std::string_view sign;
};

class ChordText {
public:
    explicit ChordText(std::string_view text) : text_(text) {}

    // Every name in it, or false where the text is no chord.
    bool read() {
        while (true) {
            if (!take_chord()) return false;
            if (at_ == text_.size()) return true;
            const std::size_t gap = at_;
            while (at_ < text_.size() && (is_blank(text_[at_]) || text_[at_] == ';')) ++at_;
            if (at_ == text_.size()) return true;
            if (at_ == gap) return false;
        }
    }
    const std::vector<ChordName>& names() const { return names_; }

private:
    bool take(std::string_view word) {
        if (!text_.substr(at_).starts_with(word)) return false;
        at_ += word.size();
        return true;
    }
    bool peek_digit() const { return at_ < text_.size() && is_digit(text_[at_]); }

    bool take_name() {
        if (at_ >= text_.size() || !is_note_letter(text_[at_])) return false;
        const std::size_t from = at_;
        const char c = text_[at_++];
        const auto letter = static_cast<music::Letter>(((is_upper(c) ? c - 'A' : c - 'a') + 5) % music::kLetters);
        for (const Sign& sign : kSigns) {
            if (!take(sign.text)) continue;
            names_.push_back({{static_cast<std::uint32_t>(from), static_cast<std::uint32_t>(at_)},
                              {letter, static_cast<std::int8_t>(sign.semitones)},
                              sign.text});
            break;
        }
        return true;
    }

    // `7`, `b9`, `#11`, `sus4`, `6/9`; not the slash of a bass.
    bool take_quality() {
        if (peek_digit()) return ++at_, true;
        for (const Sign& sign : kSigns) {
            const std::string_view rest = text_.substr(at_);
            const bool is_altered = !sign.text.empty() && rest.starts_with(sign.text) &&
                                    rest.size() > sign.text.size() && is_digit(rest[sign.text.size()]);
            if (is_altered) return at_ += sign.text.size(), true;
        }
        if (at_ + 1 < text_.size() && text_[at_] == '/' && is_digit(text_[at_ + 1])) return ++at_, true;
        if (take("o7")) return true;  // but `Do` is a word
        for (const std::string_view quality : kQualities)
            if (take(quality)) return true;
        return take(kMajorSeventh);
    }
    void take_triad() {
        if (text_.substr(at_).starts_with("maj")) return;
        for (const std::string_view triad : kTriads)
            if (take(triad)) return;
    }

    // `(no3)` changes the chord, `(Em)` is another one.
    bool take_brackets() {
        const std::size_t from = at_;
        const std::size_t names = names_.size();
        if (!take("(")) return false;
        while (take_quality()) {
        }
        if (take(")")) return true;
        at_ = from + 1;
        if (take_chord() && take(")")) return true;
        at_ = from;
        names_.resize(names);
        return false;
    }

    bool take_bass() {
        const std::size_t from = at_;
        if (take("/") && take_name()) return true;
        at_ = from;
        return false;
    }

    bool take_chord() {
        if (!take_name()) return take_bass() || take_brackets();
        take_triad();
        while (take_quality() || take_brackets()) {
        }
        if (take_bass())
            while (take_brackets()) {
            }
        return true;
    }

    std::string_view text_;
    std::size_t at_ = 0;
    std::vector<ChordName> names_;
};

// Cb, Fb, E#, B# and double signs only where the signature has them: elsewhere the name of the white key, or the
// signature's own spelling. Source: common practice, no source.
music::NoteName as_players_read(music::NoteName name, int fifths) {
    const int own = music::signature_of_fifths(fifths)[static_cast<std::size_t>(name.letter)];
    const bool is_double = name.accidental < -1 || name.accidental > 1;
    const auto* natural =
        std::find(music::kNaturalSemitones.begin(), music::kNaturalSemitones.end(), name.pitch_class());
    const bool is_white = natural != music::kNaturalSemitones.end();
    if (name.accidental == 0 || (!is_double && !is_white) || (!is_double && own == name.accidental)) return name;
    if (is_white) return {static_cast<music::Letter>(natural - music::kNaturalSemitones.begin()), 0};
    return music::spell(name.pitch_class(), fifths);
}

std::string written_name(const ChordName& old, std::string_view text, const Interval& interval, int fifths) {
    const music::NoteName name = as_players_read(moved(old.name, interval), fifths);
    const char letter =
        (is_upper(text[old.where.begin]) ? "CDEFGAB" : "cdefgab")[static_cast<std::size_t>(name.letter)];
    if (old.sign.empty() || is_letter(old.sign[0]) || old.sign[0] == '#' || name.accidental == 0)
        return letter + music::to_string(name).substr(1);
    const std::string_view sharp = old.sign[0] == '\\' ? "\\u266F" : "\u266F";
    const std::string_view flat = old.sign[0] == '\\' ? "\\u266D" : "\u266D";
    std::string written(1, letter);
    for (int sign = 0; sign < std::abs(name.accidental); ++sign) written += name.accidental > 0 ? sharp : flat;
    return written;
}

}  // namespace

std::string moved_chord(std::string_view text, const Interval& interval, int fifths) {
    ChordText chord(text);
    if (interval.semitones % 12 == 0 || text == kForte || !chord.read()) return std::string(text);
    Edits edits;
    for (const ChordName& name : chord.names()) edits.replace(name.where, written_name(name, text, interval, fifths));
    return edits.applied_to(text);
}

std::string moved_quoted_chords(std::string_view text, const Interval& interval, int fifths) {
    std::string result;
    while (true) {
        const std::size_t open = text.find('"');
        const std::size_t close = open == std::string_view::npos ? open : text.find('"', open + 1);
        if (close == std::string_view::npos) return result.append(text);
        result.append(text.substr(0, open + 1));
        result += moved_chord(text.substr(open + 1, close - open - 1), interval, fifths) + '"';
        text.remove_prefix(close + 1);
    }
}

}  // namespace abc
