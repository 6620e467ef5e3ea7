// Line by line, for what a sign can mean depends on where it stands: `=60` is a tempo in Q: and a code in a title. A
// tune is judged as a whole, before anything in it is changed. Tested by mail_residue_test.cc and
// tests/rules/real-folders.md.
#include "abc/mail_residue.h"

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "abc/line.h"
#include "abc/report_fault.h"

namespace abc {

namespace {

// Signs that ABC cannot mean, of one tune; of the whole file where the tune has one itself. Source: house choice: the
// standard makes every one of them an error, so that two are no accident.
constexpr int kSignsOfTune = 2;
constexpr int kSignsOfFile = 3;

// A `=` alone at a line's end is such a sign where the line is as long as lines are that were broken for mail (76 at
// most: RFC 2045, section 6.7, rule 5; some programs count a little otherwise).
constexpr std::size_t kShortestBroken = 50;
constexpr std::size_t kLongestBroken = 80;

enum class Words : std::uint8_t { music, text, instruction, tempo };

constexpr std::optional<int> hex_digit(char c) noexcept {
    if (is_digit(c)) return c - '0';
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    return std::nullopt;
}
constexpr bool is_mark(int value) noexcept {  // of ASCII, neither letter nor digit: nobody encodes those
    return value > 0x20 && value < 0x7F && !is_letter(static_cast<char>(value)) && !is_digit(static_cast<char>(value));
}
constexpr bool is_space(int value) noexcept { return value == ' ' || value == '\t' || value == '\r' || value == '\n'; }

struct Found {
    base::Rewriting change;
    bool is_sign = false;  // one that ABC cannot mean
};

// One line, from left to right.
class MailLineScan {
public:
    MailLineScan(std::string_view line, std::uint32_t begin, Words words, bool joins_next, std::vector<Found>& mail,
                 std::vector<base::Rewriting>& page)
        : line_(line), begin_(begin), words_(words), joins_next_(joins_next), mail_(mail), page_(page) {}

    // `line_end` bytes end the line in the file.
    void scan(std::uint32_t line_end) {
        for (at_ = 0; at_ < line_.size();) {
            const char c = line_[at_];
            if (c == '=' && take_equals(line_end)) continue;
            if (c == '&' && takes_entities() && take_entity()) continue;
            if (c == '<' && take_tag()) continue;
            if (c == '"') in_quotes_ = !in_quotes_;
            if (c == '"') quoted_by_page_ = false;
            if (c == '[' && words_ == Words::music && !in_quotes_ && at_ + 2 < line_.size() && line_[at_ + 2] == ':' &&
                is_letter(line_[at_ + 1]))
                in_field_ = true;
            if (c == ']') in_field_ = false;
            ++at_;
        }
    }

private:
    Words words_here() const {
        if (words_ != Words::music) return words_;
        return in_quotes_ ? Words::text : in_field_ ? Words::instruction : Words::music;
    }
    // The value of `=20` at a place.
    std::optional<int> code_at(std::size_t at) const {
        if (at + 2 >= line_.size() || line_[at] != '=') return std::nullopt;
        const auto high = hex_digit(line_[at + 1]), low = hex_digit(line_[at + 2]);
        const bool is_written_large = !is_lower(line_[at + 1]) && !is_lower(line_[at + 2]);
        if (!high || !low || !(is_written_large || is_digit(line_[at + 1]))) return std::nullopt;
        return *high * 16 + *low;
    }
    bool is_blank_from(std::size_t at) const {
        for (; at < line_.size(); ++at) {
            if (is_blank(line_[at])) continue;
            if (const auto value = code_at(at); !value || !is_space(*value)) return false;
            at += 2;
        }
        return true;
    }

    void put_mail(std::size_t length, std::string read, bool is_sign) {
        mail_.push_back({{{place(at_), place(at_ + length)}, std::move(read)}, is_sign});
        at_ += length;
    }
    std::uint32_t place(std::size_t at) const { return begin_ + static_cast<std::uint32_t>(at); }

    bool take_equals(std::uint32_t line_end) {
        const std::string_view behind = trim(line_.substr(at_ + 1));
        if (behind.empty()) return take_soft_end(line_end);
        const std::optional<int> value = code_at(at_);
        if (!value) return false;
        switch (words_here()) {
            case Words::music:
                return take_in_music(*value);
            case Words::text:
                return take_in_text();
            case Words::instruction:
                return take_in_instruction(*value);
            case Words::tempo:
                return take_in_tempo(*value);
        }
        return false;
    }

    // A line goes on below; where a field or nothing follows, the sign alone is dropped.
    bool take_soft_end(std::uint32_t line_end) {
        if (at_ > 0 && line_[at_ - 1] == '=') return false;  // a line drawn under something
        const std::size_t length = line_.size() - at_;
        const bool is_sign = line_.size() >= kShortestBroken && line_.size() <= kLongestBroken;
        put_mail(length + (joins_next_ ? line_end : 0), "", is_sign);
        at_ = line_.size();
        return true;
    }

    // No natural stands before a digit. `=3D20` and `=3D3D` were encoded twice.
    bool take_in_music(int value) {
        if (line_.substr(at_).starts_with("=C2=A0")) return put_mail(6, " ", false), true;
        if (value == 0xA0) return put_mail(3, " ", false), true;  // no note is nought long
        if (!is_digit(line_[at_ + 1])) return false;
        std::size_t length = 3;
        if (value == '=') {
            const auto again = [&](std::string_view code) { return line_.substr(at_ + length).starts_with(code); };
            while (again("3D") || again("3d")) length += 2;
            if (again("20")) value = ' ', length += 2;
        }
        if (value == '\r') return put_mail(length, "", true), true;
        if (!is_space(value) && !is_mark(value)) return false;
        if (value == '"') in_quotes_ = !in_quotes_;
        put_mail(length, std::string(1, static_cast<char>(value)), is_space(value) || value == '=');
        return true;
    }

    // A run of codes is UTF-8 where it can be, else Windows-1252, as files without a charset are read.
    bool take_in_text() {
        std::string bytes;
        std::size_t length = 0;
        bool is_sign = false;
        while (true) {
            const std::optional<int> value = code_at(at_ + length);
            if (!value || !(*value >= 0x80 || is_space(*value) || is_mark(*value))) break;
            if (bytes.empty() && is_number(*value)) break;
            if (value == '=' || (is_space(*value) && is_blank_from(at_ + length))) is_sign = true;
            if (value != '\r') bytes += static_cast<char>(*value);
            length += 3;
        }
        if (length == 0) return false;
        const bool is_utf8 = base::is_utf8(bytes);
        if (is_utf8 && bytes.size() > 1 && static_cast<unsigned char>(bytes[0]) >= 0x80) is_sign = true;
        put_mail(length, is_utf8 ? bytes : base::decode(bytes, base::Charset::windows_1252), is_sign);
        return true;
    }
    // `1/4=96`, `tempo=84`: digits that may well be a number, unless letters go on behind (`don=92t`).
    bool is_number(int value) const {
        if (!is_digit(line_[at_ + 2]) || !is_digit(line_[at_ + 1])) return false;
        const bool is_behind_digit = at_ > 0 && is_digit(line_[at_ - 1]);
        if (is_space(value)) return is_behind_digit && (!is_blank_from(at_) || is_fraction());
        if (value < 0x80) return is_behind_digit;
        return at_ + 3 >= line_.size() || !(is_letter(line_[at_ + 3]) || line_[at_ + 3] == '=');
    }
    bool is_fraction() const {
        std::size_t at = at_;
        while (at > 0 && is_digit(line_[at - 1])) --at;
        return at > 0 && line_[at - 1] == '/';
    }

    // `transpose=24` and `octave=1` are plain; an encoded sign and encoded blanks at the end are not.
    bool take_in_instruction(int value) {
        if (value == '=') return put_mail(3, "=", true), true;
        if (words_ == Words::music || !is_space(value) || !is_blank_from(at_)) return false;
        return put_mail(3, value == '\r' ? "" : " ", true), true;
    }
    bool take_in_tempo(int value) {
        if (value == '=') return tempo_is_encoded_ = true, put_mail(3, "=", true), true;
        const bool is_end = tempo_is_encoded_ || (at_ > 0 && (is_blank(line_[at_ - 1]) || line_[at_ - 1] == '"'));
        return is_end && take_in_instruction(value);
    }

    // --- what a web page leaves

    bool takes_entities() const {
        if (words_ == Words::instruction || words_ == Words::tempo) return true;
        return words_ == Words::music && (!in_quotes_ || quoted_by_page_);
    }
    // At an ampersand; `&amp;quot;` was encoded twice.
    bool take_entity() {
        std::size_t length = 1;
        while (line_.substr(at_ + length).starts_with("amp;")) length += 4;
        struct Entity {
            std::string_view name;
            std::string_view read;
        };
        // Source: HTML 4.01, section 24.4 (markup-significant characters); `apos` of XML 1.0, section 4.6.
        static constexpr std::array<Entity, 14> kEntities{{{"quot;", "\""},
                                                           {"#34;", "\""},
                                                           {"lt;", "<"},
                                                           {"#60;", "<"},
                                                           {"gt;", ">"},
                                                           {"#62;", ">"},
                                                           {"apos;", "'"},
                                                           {"#39;", "'"},
                                                           {"#039;", "'"},
                                                           {"nbsp;", " "},
                                                           {"#160;", " "},
                                                           {"#38;", "&"},
                                                           {"#61;", "="},
                                                           {"#124;", "|"}}};
        for (const Entity& entity : kEntities) {
            if (!line_.substr(at_ + length).starts_with(entity.name)) continue;
            if (entity.read == "\"") {
                in_quotes_ = !in_quotes_;
                quoted_by_page_ = in_quotes_;
            }
            return put_page(length + entity.name.size(), entity.read), true;
        }
        return length > 1 && (put_page(length, "&"), true);
    }
    // `<br>` and the marks of paragraphs, at the ends of a line.
    bool take_tag() {
        const std::size_t close = line_.find('>', at_);
        if (close == std::string_view::npos) return false;
        if (!trim(line_.substr(0, at_)).empty() && !trim(line_.substr(close + 1)).empty()) return false;
        std::string name;
        for (const char c : trim(line_.substr(at_ + 1, close - at_ - 1)))
            if (c != '/' && c != ' ') name += static_cast<char>(is_upper(c) ? c - 'A' + 'a' : c);
        constexpr std::array<std::string_view, 5> kTags{"br", "p", "pre", "html", "body"};
        for (const std::string_view tag : kTags)
            if (name == tag) return put_page(close + 1 - at_, ""), true;
        return false;
    }
    void put_page(std::size_t length, std::string_view read) {
        page_.push_back({{place(at_), place(at_ + length)}, std::string(read)});
        at_ += length;
    }

    std::string_view line_;
    std::uint32_t begin_;
    Words words_;
    bool joins_next_;
    std::vector<Found>& mail_;
    std::vector<base::Rewriting>& page_;
    std::size_t at_ = 0;
    bool in_quotes_ = false;
    bool quoted_by_page_ = false;
    bool in_field_ = false;
    bool tempo_is_encoded_ = false;
};

// Most files hold nothing of it: a look at the few bytes behind each such sign.
bool may_begin_residue(char sign, std::string_view next) {
    if (next.empty()) return sign == '=';
    const char c = next[0];
    if (sign == '&') return is_lower(c) || c == '#';
    if (sign == '<') return std::string_view("/bBpPhH").find(c) != std::string_view::npos && next.find('>') < 7;
    constexpr std::array<std::string_view, 6> kCodes{"20", "3D", "3d", "09", "0D", "0A"};
    for (const std::string_view code : kCodes)
        if (next.starts_with(code)) return true;
    return is_blank(c) || c == '\r' || c == '\n' || (c >= 'C' && c <= 'F' && next.size() > 2 && next[2] == '=');
}
bool may_hold_residue(std::string_view text) {
    for (const char sign : {'=', '&', '<'})
        for (std::size_t at = text.find(sign); at != std::string_view::npos; at = text.find(sign, at + 1))
            if (may_begin_residue(sign, text.substr(at + 1, 8))) return true;
    return false;
}

class FileScan {
public:
    explicit FileScan(std::string_view text) : text_(text) {}

    std::vector<base::Rewriting> changes() {
        LineWalk walk(text_, 0, static_cast<std::uint32_t>(text_.size()));
        bool has_line = walk.next();
        while (has_line) {
            const std::string_view line = walk.line;
            const std::uint32_t begin = walk.begin;
            has_line = walk.next();
            const auto end = begin + static_cast<std::uint32_t>(line.size());
            const std::uint32_t line_end = (has_line ? walk.begin : static_cast<std::uint32_t>(text_.size())) - end;
            take(line, begin, line_end, has_line && goes_on(walk.line));
        }
        close_tune();
        return merged();
    }

private:
    struct TuneSigns {
        std::size_t first = 0;  // of its own in mail_
        int signs = 0;
    };

    static bool goes_on(std::string_view next) {
        const bool is_field_line = has_field_head(next) && !(next.size() > 2 && (next[2] == '|' || next[2] == ':'));
        return !is_empty_line(next) && !is_field_line && next[0] != '%';
    }

    void take(std::string_view line, std::uint32_t begin, std::uint32_t line_end, bool joins_next) {
        const bool starts_tune = is_field(line, 'X');
        if (is_empty_when_read(line) || starts_tune) close_tune();
        const Words words = words_of(line);
        if (is_field(line, 'K')) in_body_ = true;
        MailLineScan(line, begin, words, joins_next, mail_, page_).scan(line_end);
    }
    static bool is_empty_when_read(std::string_view line) {
        line = trim(line);
        while (line.starts_with("=20") || line.starts_with("=09")) line = trim(line.substr(3));
        return line.empty();
    }
    Words words_of(std::string_view line) const {
        constexpr std::string_view kInstructions = "KVmUIMLPX";
        if (is_directive(line)) return Words::instruction;
        if (is_comment(line)) return Words::text;
        const bool is_bar = line.size() > 2 && (line[2] == '|' || line[2] == ':');
        if (!has_field_head(line) || (in_body_ && is_bar)) return in_body_ ? Words::music : Words::text;
        if (line[0] == 'Q') return Words::tempo;
        return kInstructions.find(line[0]) != std::string_view::npos ? Words::instruction : Words::text;
    }

    void close_tune() {
        for (std::size_t at = tune_.first; at < mail_.size(); ++at) tune_.signs += mail_[at].is_sign ? 1 : 0;
        in_file_ += tune_.signs;
        if (tune_.first < mail_.size()) tunes_.push_back(tune_);
        tune_ = {mail_.size(), 0};
        in_body_ = false;
    }

    std::vector<base::Rewriting> merged() {
        std::vector<base::Rewriting> changes;
        std::size_t next_page = 0;
        const auto take_pages_before = [&](std::uint32_t end) {
            while (next_page < page_.size() && page_[next_page].written.begin < end)
                changes.push_back(std::move(page_[next_page++]));
        };
        for (std::size_t tune = 0; tune < tunes_.size(); ++tune) {
            const bool is_mail =
                tunes_[tune].signs >= kSignsOfTune || (tunes_[tune].signs > 0 && in_file_ >= kSignsOfFile);
            const std::size_t end = tune + 1 < tunes_.size() ? tunes_[tune + 1].first : mail_.size();
            for (std::size_t at = tunes_[tune].first; is_mail && at < end; ++at) {
                take_pages_before(mail_[at].change.written.begin);
                changes.push_back(std::move(mail_[at].change));
            }
        }
        take_pages_before(static_cast<std::uint32_t>(text_.size()));
        return changes;
    }

    std::string_view text_;
    std::vector<Found> mail_;
    std::vector<base::Rewriting> page_;
    std::vector<TuneSigns> tunes_;  // those with anything in mail_
    TuneSigns tune_;
    int in_file_ = 0;
    bool in_body_ = false;
};

struct Residue {
    std::size_t count = 0;
    base::Span first;  // of those that leave something behind to point at
};

void report_kind(const Residue& residue, const Code& code, const std::string& signs, base::Diagnostics& diagnostics) {
    if (residue.count == 0) return;
    const std::string count = residue.count == 1 ? "" : " (" + std::to_string(residue.count) + " in this file)";
    report(diagnostics, code, residue.first, signs + count + "; read as what they stand for");
}

}  // namespace

base::SourceFile without_residue(base::SourceFile source) {
    if (!may_hold_residue(source.text())) return source;
    std::vector<base::Rewriting> changes = FileScan(source.text()).changes();
    return std::move(source).rewritten(std::move(changes));
}

void report_residue(const base::SourceFile& source, base::Diagnostics& diagnostics) {
    Residue mail, page;
    std::uint32_t read = 0, written = 0;  // to where the file has been gone through
    for (const base::Rewriting& change : source.rewritings()) {
        read += change.written.begin - written;
        const auto end = read + static_cast<std::uint32_t>(change.read.size());
        Residue& residue = source.written()[change.written.begin] == '=' ? mail : page;
        if (++residue.count == 1 || residue.first.begin == residue.first.end) residue.first = {read, end};
        read = end;
        written = change.written.end;
    }
    report_kind(mail, code::kMailResidue, "signs that a mail program wrote, such as =20 and =3D", diagnostics);
    report_kind(page, code::kPageResidue, "signs of a web page, such as &quot; and &gt;", diagnostics);
}

}  // namespace abc
