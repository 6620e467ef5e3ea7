// A chord is read by a small grammar, so that a word that only begins like one stays a word. Tested by
// moved_chord_test.cc.
#include "abc/moved_chord.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <vector>

#include "abc/characters.h"
#include "abc/edits.h"
#include "abc/order_word.h"

namespace abc {

namespace {

// What may stand right behind a root, and what may stand anywhere after it; the longest first. Source: ABC 2.1, section
// 4.18; the rest is common practice, no source.
constexpr std::array<std::string_view, 11> kTriads{"minor", "major", "min.", "min", "Min", "mi",
                                                   "ma",    "Ma",    "m",    "M",   "-"};
constexpr std::array<std::string_view, 24> kQualities{
    " minor", " major", "dim.", "aug.", " maj", " min", " dim", " aug", " sus", "omit",           "maj",   "Maj", "MAJ",
    "dim",    "aug",    "sus",  "add",  "alt",  "dom",  "no",   "+",    ",",    "\u00B0" /* ° */, "\u00F8" /* ø */};
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

    bool is_end(std::size_t at) const {
        return at >= text_.size() || is_blank(text_[at]) || is_digit(text_[at]) ||
               std::string_view("/;()").find(text_[at]) != std::string_view::npos;
    }

    // `f+` as older collections have it: a sharp in a bass, and before the m of a minor chord, which none augmented
    // has. Source: common practice, no source.
    bool is_plus_sharp(bool is_bass) const {
        const std::string_view rest = text_.substr(std::min(at_, text_.size()));
        return rest.starts_with('+') && (is_bass || (rest.starts_with("+m") && !rest.starts_with("+ma")));
    }

    bool take_name(bool is_bass = false) {
        if (at_ >= text_.size() || !is_note_letter(text_[at_])) return false;
        const std::size_t from = at_;
        const char c = text_[at_++];
        const auto letter = static_cast<music::Letter>(((is_upper(c) ? c - 'A' : c - 'a') + 5) % music::kLetters);
        if (is_plus_sharp(is_bass)) {
            ++at_;
            names_.push_back(
                {{static_cast<std::uint32_t>(from), static_cast<std::uint32_t>(at_)}, {letter, 1}, kSigns[0].text});
            return true;
        }
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
        if (text_.substr(at_).starts_with("maj") && !text_.substr(at_).starts_with("major")) return;
        if (takes_diminished()) return;
        for (const std::string_view triad : kTriads)
            if (take(triad)) return;
    }

    // `Gd`, `F#o`: diminished in short. A `d` stands behind a capital only; `Do` and `Go` are words.
    bool takes_diminished() {
        if (at_ >= text_.size() || !is_end(at_ + 1)) return false;
        const char root = text_[names_.back().where.begin];
        const bool is_d = text_[at_] == 'd' && is_upper(root);
        const bool is_o =
            text_[at_] == 'o' && (!names_.back().sign.empty() || (root != 'D' && root != 'G' && is_upper(root)));
        if (is_d || is_o) ++at_;
        return is_d || is_o;
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
        if (take("/") && take_name(true)) return true;
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

// --- texts that mean a chord without being understood

bool starts_with_any(std::string_view text, std::initializer_list<std::string_view> beginnings) {
    return std::any_of(beginnings.begin(), beginnings.end(),
                       [&](std::string_view beginning) { return text.starts_with(beginning); });
}

// What may stand behind the name of a chord in another language: nothing, a quality, a number.
bool is_quality_of_other_name(std::string_view rest) {
    return rest.empty() || is_digit(rest[0]) || rest == "m" || rest == "-" || rest == "moll" || rest == "dur" ||
           starts_with_any(rest, {"m7", "m6", "min", "maj", "dim", "sus", "#", "b", "/"});
}

// `H7`, `Fism` as in German; `Sol7`, `Rem` as in French or Spanish. Source: common practice, no source.
bool is_foreign_chord(std::string_view word) {
    if (word.starts_with('H') && is_quality_of_other_name(word.substr(1))) return true;
    if (is_note_letter(word[0]) && word.substr(1).starts_with("is") && is_quality_of_other_name(word.substr(3)))
        return true;
    for (const std::string_view name : {"Sol", "Do", "Re", "Mi", "Fa", "La", "Si"})
        if (word.starts_with(name) && is_quality_of_other_name(word.substr(name.size()))) return true;
    return word == "Go";
}

// A word with a number in it (`Gfoo7`) means a chord up to this length. Source: house choice.
constexpr std::size_t kLongestSymbol = 8;

bool means_chord(std::string_view word) {
    if (is_foreign_chord(word)) return true;
    if (!is_note_letter(word[0])) return false;
    ChordText chord(word);
    const bool is_short_word = word.size() == 2 && (word[1] == 'd' || word[1] == 'o');
    if (word.size() > 1 && chord.read()) return !is_short_word;
    if (!is_upper(word[0])) return false;
    std::string_view rest = word.substr(1);
    if (starts_with_any(rest, {"bb", "bm", "b7", "#"})) return true;
    if (rest.starts_with('b')) rest.remove_prefix(1);
    if (rest.empty()) return false;
    const bool is_short = word.size() <= kLongestSymbol && word.find('.') == std::string_view::npos;
    if (is_short && std::any_of(rest.begin(), rest.end(), is_digit)) return true;
    const bool is_sign = is_digit(rest[0]) || std::string_view("/+*?\\").find(rest[0]) != std::string_view::npos;
    return is_sign || starts_with_any(rest, {"maj", "min", "dim", "aug", "sus", "add", "m7", "\u00B0", "\u00F8",
                                             "\u0394", "\u266F", "\u266D"});
}

bool holds_chord(std::string_view text) {
    if (text.empty() || std::string_view("^_<>@").find(text[0]) != std::string_view::npos) return false;
    bool all_roots = true;
    int words = 0;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find_first_of(" \t,;|>&-"), text.size());
        std::string_view word = text.substr(0, end);
        text.remove_prefix(std::min(end + 1, text.size()));
        while (!word.empty() && std::string_view(".!:?").find(word.back()) != std::string_view::npos) {
            if (word.back() == '?' && word.size() == 2 && is_note_letter(word[0])) return true;
            word.remove_suffix(1);
        }
        if (word.empty()) continue;
        if (means_chord(word)) return true;
        ++words;
        all_roots = all_roots && word.size() == 1 && is_upper(word[0]) && is_note_letter(word[0]);
    }
    return all_roots && words > 1;
}

}  // namespace

std::optional<std::string> moved_chord(std::string_view text, const Interval& interval, int fifths) {
    if (interval.semitones % 12 == 0 || text == kForte || read_order_word(text)) return std::string(text);
    ChordText chord(text);
    if (!chord.read()) {
        if (holds_chord(text)) return std::nullopt;
        return std::string(text);
    }
    Edits edits;
    for (const ChordName& name : chord.names()) edits.replace(name.where, written_name(name, text, interval, fifths));
    return edits.applied_to(text);
}

std::string moved_quoted_chords(std::string_view text, const Interval& interval, int fifths, std::string_view instead,
                                std::vector<std::string>& lost) {
    std::string result;
    while (true) {
        const std::size_t open = text.find('"');
        const std::size_t close = open == std::string_view::npos ? open : text.find('"', open + 1);
        if (close == std::string_view::npos) return result.append(text);
        result.append(text.substr(0, open));
        const std::string_view quoted = text.substr(open + 1, close - open - 1);
        if (const auto chord = moved_chord(quoted, interval, fifths)) {
            result += '"' + *chord + '"';
        } else {
            result += instead;
            lost.emplace_back(quoted);
        }
        text.remove_prefix(close + 1);
    }
}

}  // namespace abc
