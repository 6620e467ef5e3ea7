#include "tune/outline.h"

#include <catch2/catch.hpp>
#include <random>

using tune::decode_outline;
using tune::encode_outline;
using tune::Outline;
using tune::OutlineBar;

namespace {

// Any outline that is allowed, plain and odd values mixed.
Outline random_outline(std::mt19937& random) {
    const auto below = [&](unsigned limit) { return static_cast<std::uint32_t>(random() % limit); };
    Outline outline;
    std::int32_t number = 0;
    for (std::uint32_t bars = below(12); bars > 0; --bars) {
        OutlineBar bar;
        bar.first_note = static_cast<std::uint32_t>(outline.notes.size());
        bar.length = below(4) == 0 ? below(tune::kMostTicks) : tune::kTicksPerWhole;
        number = below(8) == 0 ? static_cast<std::int32_t>(below(0x7FFFFFFF)) : number + (number < 0x7FFFFFFF ? 1 : 0);
        bar.number = number;
        bar.endings = below(4) == 0 ? static_cast<std::uint16_t>(below(0x10000)) : std::uint16_t{0};
        bar.is_pickup = below(2) == 0;
        bar.begins_part = below(2) == 0;
        bar.repeat_opens = below(2) == 0;
        bar.repeat_closes = below(2) == 0;
        std::uint32_t at = below(3) == 0 ? below(5000) : 0;
        for (std::uint32_t notes = below(12); notes > 0; --notes) {
            outline.notes.push_back({at, static_cast<std::uint8_t>(below(3) == 0 ? below(128) : 60 + below(12))});
            at += below(3) == 0 ? below(10000000) : 1680;
        }
        outline.bars.push_back(bar);
    }
    const auto notes = static_cast<std::uint32_t>(outline.notes.size());
    if (notes > 0 && below(2) == 0) outline.end = below(notes) + 1;
    return outline;
}

// Bars of eight even quavers.
Outline plain_outline(std::uint32_t bars) {
    Outline outline;
    for (std::uint32_t bar = 0; bar < bars; ++bar) {
        OutlineBar written;
        written.first_note = bar * 8;
        written.length = tune::kTicksPerWhole;
        written.number = static_cast<std::int32_t>(bar) + 1;
        outline.bars.push_back(written);
        for (std::uint32_t note = 0; note < 8; ++note)
            outline.notes.push_back({note * 1680, static_cast<std::uint8_t>(60 + (bar + note * 5) % 12)});
    }
    return outline;
}

}  // namespace

TEST_CASE("outline: what is stored is read back", "[tune][outline]") {
    std::mt19937 random(1);
    for (int round = 0; round < 3000; ++round) {
        const Outline outline = random_outline(random);
        const auto back = decode_outline(encode_outline(outline));
        REQUIRE(back.has_value());
        REQUIRE(*back == outline);
    }
}

TEST_CASE("outline: plain rhythm takes a byte a note and one a bar", "[tune][outline]") {
    const std::string stored = encode_outline(plain_outline(32));
    CHECK(stored.size() == 2 + 32 + 32 * 8);
}

TEST_CASE("outline: bytes cut short, gone on or of another version give nothing", "[tune][outline]") {
    const std::string stored = encode_outline(plain_outline(6));
    REQUIRE(decode_outline(stored).has_value());
    for (std::size_t size = 0; size < stored.size(); ++size)
        CHECK_FALSE(decode_outline(stored.substr(0, size)).has_value());
    CHECK_FALSE(decode_outline(stored + '\0').has_value());
    std::string newer = stored;
    ++newer[0];
    CHECK_FALSE(decode_outline(newer).has_value());  // this version has an end behind the bars
    newer += '\x01';
    CHECK(decode_outline(newer)->end == 1);
    newer.back() = '\0';
    CHECK_FALSE(decode_outline(newer).has_value());
    newer.back() = '\x31';  // 49 of 48 notes
    CHECK_FALSE(decode_outline(newer).has_value());
    newer[0] = 3;
    CHECK_FALSE(decode_outline(newer).has_value());
}

TEST_CASE("outline: values out of range give nothing", "[tune][outline]") {
    using namespace std::string_literals;
    CHECK_FALSE(decode_outline("\x01\xFF\xFF\xFF\xFF\x07"s).has_value());              // two thousand million bars
    CHECK_FALSE(decode_outline("\x01\x01\x80\xFF\xFF\xFF\xFF\x07"s).has_value());      // as many notes
    CHECK_FALSE(decode_outline("\x01\x01\x10\xFF\xFF\xFF\xFF\xFF\xFF"s).has_value());  // a number without an end
    CHECK_FALSE(decode_outline("\x01\x01\x80\x01\x3F\x80"s).has_value());              // pitch 128
    CHECK_FALSE(decode_outline("\x01\x01\x80\x01\x40"s).has_value());  // a first note timed by those before it
    CHECK_FALSE(decode_outline("\x01\x01\x80\x01\xC0"s).has_value());  // a time of no kind
    CHECK(decode_outline("\x01\x01\x80\x01\x3F\x7F"s)->notes.front().midi == 127);
    CHECK(decode_outline("\x01\x00"s)->bars.empty());
}

TEST_CASE("outline: any bytes are read without harm, and what is read is an outline", "[tune][outline]") {
    std::mt19937 random(2);
    int read = 0;
    for (int round = 0; round < 20000; ++round) {
        std::string bytes = encode_outline(random_outline(random));
        for (int change = 0; change < 2; ++change)
            bytes[1 + random() % (bytes.size() - 1)] = static_cast<char>(random());
        const auto outline = decode_outline(bytes);
        if (!outline) continue;
        ++read;
        REQUIRE(decode_outline(encode_outline(*outline)) == outline);
    }
    CHECK(read > 1000);
}
