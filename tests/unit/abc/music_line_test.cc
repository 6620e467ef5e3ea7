#include "abc/music_line.h"

#include <catch2/catch.hpp>
#include <string>

#include "abc/macro.h"

namespace {

std::string number(int value) { return std::to_string(value); }

std::string length_words(const abc::Token& token) {
    if (token.numerator == 1 && token.denominator == 1) return "";
    return token.denominator == 1 ? "*" + number(token.numerator)
                                  : "*" + number(token.numerator) + "/" + number(token.denominator);
}

std::string note_words(const abc::Token& token) {
    const music::NoteName name{token.note,
                               token.accidental == abc::Token::kNoAccidental ? std::int8_t{0} : token.accidental};
    std::string sign = token.accidental == 0 ? "n" : "";
    return music::to_string(name) + sign + number(token.octave) + length_words(token);
}

// One word a token: what kind it is and what it says.
std::string word_of(const abc::Token& token) {
    using Kind = abc::TokenKind;
    switch (token.kind) {
        case Kind::note:
            return note_words(token);
        case Kind::rest:
        case Kind::bar_rest:
        case Kind::spacer:
            return std::string(1, token.letter) + length_words(token);
        case Kind::chord_open:
            return "[";
        case Kind::chord_close:
            return "]" + length_words(token);
        case Kind::grace_open:
            return "{";
        case Kind::grace_close:
            return "}";
        case Kind::bar:
            return "bar(" + std::string(token.text) + ")";
        case Kind::ending:
            return "ending(" + std::string(token.text) + ")";
        case Kind::tuplet:
            return "tuplet(" + number(token.tuplet_p) + ":" + number(token.tuplet_q) + ":" + number(token.tuplet_r) +
                   ")";
        case Kind::broken:
            return std::string(token.text);
        case Kind::tie:
            return "tie";
        case Kind::slur:
            return "slur";
        case Kind::overlay:
            return std::string(token.text);
        case Kind::decoration:
            return "deco(" + std::string(token.text) + ")";
        case Kind::symbol_letter:
            return "symbol(" + std::string(1, token.letter) + ")";
        case Kind::chord_symbol:
            return "chord(" + std::string(token.text) + ")";
        case Kind::annotation:
            return "note(" + std::string(token.text) + ")";
        case Kind::field:
            return "field(" + std::string(1, token.letter) + ":" + std::string(token.text) + ")";
        case Kind::line_break:
            return "break";
        case Kind::joined_line:
            return "join";
        case Kind::skipped:
            return "skip";
        case Kind::continued:
        case Kind::directive:
        case Kind::comment:
            return "?";
    }
    return "?";
}

struct Scan {
    std::string words;
    std::string codes;
    std::vector<abc::Token> tokens;
};

Scan scan(std::string_view line, const abc::Dialect& dialect = {}) {
    Scan result;
    base::Diagnostics diagnostics;
    abc::scan_music({line, 0, nullptr}, dialect, result.tokens, diagnostics);
    for (const abc::Token& token : result.tokens) result.words += (result.words.empty() ? "" : " ") + word_of(token);
    for (const base::Diagnostic& diagnostic : diagnostics.kept())
        result.codes += (result.codes.empty() ? "" : " ") + std::string(diagnostic.code) + "@" +
                        number(static_cast<int>(diagnostic.where.begin));
    return result;
}

struct LineCase {
    const char* line;
    const char* words;
    const char* codes = "";
};

void check(std::initializer_list<LineCase> cases, const abc::Dialect& dialect = {}) {
    for (const LineCase& one : cases) {
        CAPTURE(one.line);
        const Scan result = scan(one.line, dialect);
        CHECK(result.words == one.words);
        CHECK(result.codes == one.codes);
    }
}

}  // namespace

TEST_CASE("music line: letters, octave marks and accidentals make notes", "[abc][music_line]") {
    // Source: ABC standard 2.1, sections 4.1 and 4.2.
    check({{"CDEFGAB", "C4 D4 E4 F4 G4 A4 B4"},
           {"cdefgab", "C5 D5 E5 F5 G5 A5 B5"},
           {"C,, c'' C' c,", "C2 C7 C5 C4"},
           {"C,', c',,", "C3 C4"},
           {"^c _B =f ^^g __A", "C#5 Bb4 Fn5 G##5 Abb4"},
           {"^ c", "C#5"},
           {"G`A`B", "G4 A4 B4"},
           {"G \t A", "G4 A4"}});
}

TEST_CASE("music line: lengths are numbers and slashes", "[abc][music_line]") {
    // Source: ABC standard 2.1, section 4.3.
    check({{"A2 A3/2 A/2 A/ A// A/// A/4", "A4*2 A4*3/2 A4*1/2 A4*1/2 A4*1/4 A4*1/8 A4*1/4"},
           {"A3/ A3// A16", "A4*3/2 A4*3/4 A4*16"},
           {"^c,2 _b'/2", "C#4*2 Bb6*1/2"},
           {"A0 A/0", "A4 A4", "abc-bad-length@1 abc-bad-length@4"},
           {"A1.5", "A4", "abc-bad-length@2"},
           {"A99999", "A4", "abc-bad-length@1"},
           {"2A", "skip A4", "abc-bad-length@0"}});
}

TEST_CASE("music line: a sign without a note is reported", "[abc][music_line]") {
    check({{"^ |", "skip bar(|)", "abc-lone-accidental@0"},
           {"A^", "A4 skip", "abc-lone-accidental@1"},
           {"^z", "skip z", "abc-lone-accidental@0"},
           {"^^^c", "C##5", "abc-lone-accidental@0"},
           {"==c", "Cn5", "abc-lone-accidental@0"}});
}

TEST_CASE("music line: quarter tones are read as plain signs", "[abc][music_line]") {
    check({{"^/c _3/2B", "C#5 Bb4", "abc-microtone@0 abc-microtone@4"}});
}

TEST_CASE("music line: rests and spacers", "[abc][music_line]") {
    // Source: ABC standard 2.1, sections 4.5 and 6.1.2.
    check({{"z2 x/ Z Z4 X2 y y30", "z*2 x*1/2 Z Z*4 X*2 y y*30"}});
}

TEST_CASE("music line: every bar sign is one bar", "[abc][music_line]") {
    // Source: ABC standard 2.1, section 4.8.
    check({{"A|B", "A4 bar(|) B4"},
           {"A||B", "A4 bar(||) B4"},
           {"A|]B", "A4 bar(|]) B4"},
           {"A[|B", "A4 bar([|) B4"},
           {"|:A:|", "bar(|:) A4 bar(:|)"},
           {"A::B", "A4 bar(::) B4"},
           {"A:|:B", "A4 bar(:|:) B4"},
           {"A:||:B", "A4 bar(:||:) B4"},
           {"|::A::|", "bar(|::) A4 bar(::|)"},
           {"A.|B", "A4 bar(|) B4"},
           {"A[|]B", "A4 bar([|]) B4"},
           {"A|[|]B", "A4 bar(|[|]) B4"},
           {"A:|]", "A4 bar(:|])"},
           {"A:|||:B", "A4 bar(:|||:) B4"}});
}

TEST_CASE("music line: a bar run stops before a chord, an ending or a field", "[abc][music_line]") {
    check({{"A|[CE]", "A4 bar(|) [ C4 E4 ]"},
           {"A|[1B", "A4 bar(|) ending(1) B4"},
           {"A|[K:D]B", "A4 bar(|) field(K:D) B4"},
           {"A:|[2B", "A4 bar(:|) ending(2) B4"}});
}

TEST_CASE("music line: endings are numbers right behind a bar or a bracket", "[abc][music_line]") {
    // Source: ABC standard 2.1, sections 4.9 and 4.10.
    check({{"A|1B", "A4 bar(|) ending(1) B4"},
           {"A:|2B", "A4 bar(:|) ending(2) B4"},
           {"A | [1 B", "A4 bar(|) ending(1) B4"},
           {"A:| 2 B", "A4 bar(:|) ending(2) B4"},
           {"A[1,3B", "A4 ending(1,3) B4"},
           {"A[1-3B", "A4 ending(1-3) B4"},
           {"A[1,3,5-7 B", "A4 ending(1,3,5-7) B4"},
           {"A|[ 1 B", "A4 bar(|) ending(1) B4"},
           {"A|1.B", "A4 bar(|) ending(1) deco(.) B4"},
           {"A|1. B", "A4 bar(|) ending(1) B4"},
           {"A|[\"1st\" B", "A4 bar(|) ending(1) B4"},
           {"A| 1", "A4 bar(|) ending(1)"}});
}

TEST_CASE("music line: chords hold notes and take an outer length", "[abc][music_line]") {
    // Source: ABC standard 2.1, section 4.17.
    check({{"[CEG]2", "[ C4 E4 G4 ]*2"},
           {"[C2E2]3", "[ C4*2 E4*2 ]*3"},
           {"[^c_b]/", "[ C#5 Bb5 ]*1/2"},
           {"[CE", "[ C4 E4 ]", "abc-unclosed-chord@0"},
           {"[CE|F", "[ C4 E4 ] bar(|) F4", "abc-unclosed-chord@0"},
           {"[CE[FA]", "[ C4 E4 ] [ F4 A4 ]", "abc-unclosed-chord@0"},
           {"A]", "A4 skip", "abc-stray-bracket@1"},
           {"[C\"text\"E]", "[ C4 chord(text) E4 ]"}});
}

TEST_CASE("music line: an inline field is one token, whatever it holds", "[abc][music_line]") {
    // Source: ABC standard 2.1, section 3.2.
    check({{"A[M:6/8]B", "A4 field(M:6/8) B4"},
           {"A[K: G ]B", "A4 field(K:G) B4"},
           {"A[N:abc def]B", "A4 field(N:abc def) B4"},
           {"[r:GABc][P:A]c", "field(r:GABc) field(P:A) C5"},
           {"[I:linebreak $]c", "field(I:linebreak $) C5"},
           {"A[M:6/8 B", "A4 field(M:6/8 B)", "abc-unclosed-field@1"}});
}

TEST_CASE("music line: an open bracket, a blank and a letter with a colon is no field", "[abc][music_line]") {
    CHECK(scan("[ K:D]").words.find("field") == std::string::npos);
}

TEST_CASE("music line: a parenthesis and a digit is a tuplet, any other a slur", "[abc][music_line]") {
    // Source: ABC standard 2.1, sections 4.11 and 4.13.
    check({{"(3abc", "tuplet(3:0:0) A5 B5 C5"},
           {"(3:2:4c2B2AG", "tuplet(3:2:4) C5*2 B4*2 A4 G4"},
           {"(3:2c", "tuplet(3:2:0) C5"},
           {"(3::4c", "tuplet(3:0:4) C5"},
           {"(3::c", "tuplet(3:0:0) C5"},
           {"((3abc d)", "slur tuplet(3:0:0) A5 B5 C5 D5 slur"},
           {"(3(abc)", "tuplet(3:0:0) slur A5 B5 C5 slur"},
           {"(3 abc", "tuplet(3:0:0) A5 B5 C5"},
           {"(ab) .(cd)", "slur A5 B5 slur slur C5 D5 slur"},
           {"(10:8abc", "tuplet(10:8:0) A5 B5 C5"}});
}

TEST_CASE("music line: ties and broken rhythm", "[abc][music_line]") {
    // Source: ABC standard 2.1, sections 4.4 and 4.11.
    check({{"A-A A2-|A", "A4 tie A4 A4*2 tie bar(|) A4"},
           {"A.-A", "A4 tie A4"},
           {"A>B A<B A>>B A<<<B", "A4 > B4 A4 < B4 A4 >> B4 A4 <<< B4"},
           {"A > B", "A4 > B4"},
           {"A-> A", "A4 tie > A4"}});
}

TEST_CASE("music line: graces stand in braces", "[abc][music_line]") {
    // Source: ABC standard 2.1, section 4.12.
    check({{"{g}A {/g}A {gab}c", "{ G5 } A4 { G5 } A4 { G5 A5 B5 } C5"},
           {"{gA", "{ G5 A4 }", "abc-unclosed-grace@0"},
           {"{g|A", "{ G5 } bar(|) A4", "abc-unclosed-grace@0"},
           {"{g{a}b", "{ G5 } { A5 } B5", "abc-unclosed-grace@0"},
           {"A}", "A4 skip", "abc-stray-bracket@1"}});
}

TEST_CASE("music line: quoted text holds no notes", "[abc][music_line]") {
    // Source: ABC standard 2.1, sections 4.18 and 4.19.
    check({{"\"Am7/G\"A", "chord(Am7/G) A4"},
           {"\"^slowly\"A \"_b\"A \"<c\"A \">d\"A \"@1,2 e\"A",
            "note(^slowly) A4 note(_b) A4 note(<c) A4 note(>d) A4 note(@1,2 e) A4"},
           {"\"A|B\"c", "chord(A|B) C5"},
           {"A\"no end B", "A4 chord(no end B)", "abc-unclosed-quote@1"},
           {"\"\"A", "chord() A4"}});
}

TEST_CASE("music line: decorations are named between bangs or by one letter", "[abc][music_line]") {
    // Source: ABC standard 2.1, section 4.14.
    check({{"!trill!A !D.C.!|", "deco(trill) A4 deco(D.C.) bar(|)"},
           {"!nosuchthing!A", "deco(nosuchthing) A4"},
           {".A ~A HA LA MA OA PA SA TA uA vA",
            "deco(.) A4 symbol(~) A4 symbol(H) A4 symbol(L) A4 symbol(M) A4 symbol(O) A4 symbol(P) A4 symbol(S) A4 "
            "symbol(T) A4 symbol(u) A4 symbol(v) A4"},
           {"~ A", "symbol(~) A4"}});
}

TEST_CASE("music line: a bang without a partner is an old line break", "[abc][music_line]") {
    // Source: ABC standard 2.1, section 12.2.
    check({{"A!", "A4 break", "abc-old-break@1"},
           {"A!B|c", "A4 break B4 bar(|) C5", "abc-old-break@1"},
           {"A! B!c", "A4 break B4 break C5", "abc-old-break@1"}});
}

TEST_CASE("music line: an instruction may turn the bang into a line break and plus into decorations",
          "[abc][music_line]") {
    // Source: ABC standard 2.1, sections 6.1.1 and 12.1.
    abc::Dialect old;
    old.bang_breaks_line = true;
    old.plus_decorates = true;
    check({{"A!B!c", "A4 break B4 break C5"}, {"+trill+A", "deco(trill) A4"}, {"+fed+A", "deco(fed) A4"}}, old);
}

TEST_CASE("music line: plus signs of older files", "[abc][music_line]") {
    check({{"+trill+A", "deco(trill) A4", "abc-old-decoration@0"},
           {"+CEG+A", "[ C4 E4 G4 ] A4", "abc-old-chord@0"},
           {"+CEG+2A", "[ C4 E4 G4 ]*2 A4", "abc-old-chord@0"},
           {"A+", "A4 skip", "abc-unknown-sign@1"},
           {"++", "skip skip", "abc-unknown-sign@0 abc-unknown-sign@1"}});
}

TEST_CASE("music line: line breaks and continuation", "[abc][music_line]") {
    // Source: ABC standard 2.1, section 6.1.1.
    check({{"A$B", "A4 break B4"},
           {"AB\\", "A4 B4 join"},
           {"AB \\  ", "A4 B4 join"},
           {"A\\B", "A4 skip B4", "abc-unknown-sign@1"}});
}

TEST_CASE("music line: overlays, reserved and unknown signs", "[abc][music_line]") {
    // Source: ABC standard 2.1, sections 7.4 and 8.1.
    check({{"A&B&&c", "A4 & B4 && C5"},
           {"c#d", "C5 skip D5", "abc-reserved-sign@1"},
           {"A**B;c?d@e", "A4 skip B4 skip C5 skip D5 skip E5",
            "abc-reserved-sign@1 abc-reserved-sign@4 abc-reserved-sign@6 abc-reserved-sign@8"},
           {"A,'B 'c", "A4 B4 skip C5", "abc-unknown-sign@5"},
           {"A é B", "A4 skip B4", "abc-unknown-sign@2"},
           {"qA", "symbol(q) A4"}});
}

TEST_CASE("music line: every byte that is no blank lies in a token or is reported", "[abc][music_line]") {
    const std::string alphabet = "ABcz^_=,'23/>< -()[]{}|:\"!+~.&$\\#*yZHq1K%\xC3\xA9\x01`";
    unsigned state = 12345;
    for (int round = 0; round < 20000; ++round) {
        std::string line;
        for (int at = 0; at < 24; ++at) {
            state = state * 1664525U + 1013904223U;
            line += alphabet[(state >> 16) % alphabet.size()];
        }
        std::vector<abc::Token> tokens;
        base::Diagnostics diagnostics;
        abc::scan_music({line, 100, nullptr}, {}, tokens, diagnostics);
        std::vector<bool> covered(line.size(), false);
        const auto cover = [&](base::Span span) {
            if (span.begin < 100 || span.end > 100 + line.size() || span.begin > span.end) FAIL("outside: " << line);
            for (std::uint32_t at = span.begin; at < span.end; ++at) covered[at - 100] = true;
        };
        std::uint32_t last = 100;
        for (const abc::Token& token : tokens) {
            if (token.where.begin == token.where.end) continue;  // a bracket closed where none was written
            if (token.where.begin < last) FAIL("out of order: " << line);
            last = token.where.begin;
            cover(token.where);
        }
        for (const base::Diagnostic& diagnostic : diagnostics.kept()) cover(diagnostic.where);
        for (std::size_t at = 0; at < line.size(); ++at)
            if (!covered[at] && line[at] != ' ' && line[at] != '`') FAIL("byte " << at << " of " << line);
    }
    SUCCEED();
}

TEST_CASE("music line: after a macro the tokens point at what was written", "[abc][music_line]") {
    std::vector<abc::Macro> macros;
    abc::set_macro(macros, *abc::read_macro("~G2 = GAG^"));
    const auto expanded = abc::expand_macros("c ~G2|", macros);
    REQUIRE(expanded);
    std::vector<abc::Token> tokens;
    base::Diagnostics diagnostics;
    abc::scan_music({expanded->text, 50, &expanded->places}, {}, tokens, diagnostics);
    REQUIRE(tokens.size() == 6);
    CHECK(tokens[0].where.begin == 50);
    CHECK(tokens[1].where.begin == 52);
    CHECK(tokens[3].where.begin == 52);
    CHECK(tokens[5].where.begin == 55);
    REQUIRE(diagnostics.kept().size() == 1);
    CHECK(diagnostics.kept()[0].where.begin == 52);
}
