#include "tune/oddity.h"

#include <catch2/catch.hpp>
#include <map>
#include <set>
#include <string>
#include <string_view>

#include "abc/codes.h"

using tune::OddityKind;

TEST_CASE("oddity: every kind has a token of its own that reads back, a heading and an advice", "[tune][oddity]") {
    std::set<std::string_view> tokens, headings;
    for (std::size_t at = 0; at < tune::kOddityKinds.size(); ++at) {
        const OddityKind kind = tune::kOddityKinds[at];
        CHECK(static_cast<std::size_t>(kind) == at);
        CHECK(tune::parse_oddity_kind(tune::oddity_token(kind)) == kind);
        CHECK(tune::oddity_advice(kind).ends_with("."));
        CHECK(tune::oddity_token(kind).find_first_not_of("abcdefghijklmnopqrstuvwxyz-") == std::string_view::npos);
        tokens.insert(tune::oddity_token(kind));
        headings.insert(tune::oddity_heading(kind));
    }
    CHECK(tokens.size() == tune::kOddityKinds.size());
    CHECK(headings.size() == tune::kOddityKinds.size());
    CHECK(tune::oddity_token(OddityKind::bar_length) == "bar-length");
    CHECK(tune::oddity_token(OddityKind::outdated) == "outdated");
    CHECK_FALSE(tune::parse_oddity_kind("bar_length"));
    CHECK_FALSE(tune::parse_oddity_kind(""));
}

TEST_CASE("oddity: each finding of the reader has its kind", "[tune][oddity]") {
    // One line for each kind that is met; codes in the reader's own order.
    std::map<OddityKind, std::string> codes;
    for (const abc::Code& code : abc::all_codes()) {
        REQUIRE(code.token.starts_with("abc-"));
        std::string& list = codes[tune::kind_of_code(code.token)];
        list += (list.empty() ? "" : " ") + std::string(code.token.substr(4));
    }
    CHECK(codes[OddityKind::missing_field] ==
          "no-number bad-number no-title no-key unknown-key bad-meter rest-without-meter");
    CHECK(codes[OddityKind::no_music] == "no-music");
    CHECK(codes[OddityKind::twice_numbered] == "number-again");
    CHECK(codes[OddityKind::encoding] == "guessed-charset");
    CHECK(codes[OddityKind::bar_length] == "bad-tuplet short-tuplet lone-broken lengths-too-fine");
    CHECK(codes[OddityKind::outdated] == "old-continuation old-break old-decoration old-chord");
    CHECK(codes[OddityKind::unreadable] ==
          "no-blank-line fields-outside music-outside text-in-header indented-field unknown-field stray-field "
          "unclosed-field odd-key words-after-key unknown-specifier bad-unit "
          "bad-macro bad-symbol bad-voice bad-instruction include-not-read mail-residue page-residue long-line "
          "long-tune bad-length "
          "lone-accidental microtone out-of-range unknown-letter "
          "unknown-sign reserved-sign unclosed-quote unclosed-chord unclosed-grace stray-bracket lone-tie");
    CHECK(codes.size() == 7);
}

TEST_CASE("oddity: every code of the reader is listed, and no other", "[tune][oddity]") {
    std::set<std::string_view> known;
    for (const std::string_view code : tune::codes_with_kind()) known.insert(code);
    std::set<std::string_view> all;
    for (const abc::Code& code : abc::all_codes()) all.insert(code.token);
    CHECK(known == all);
    CHECK(tune::kind_of_code("abc-not-a-code") == OddityKind::unreadable);
}
