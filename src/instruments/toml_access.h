// Reading typed values out of a TOML table, with the place of whatever is not as it should be.
#pragma once

#include <toml++/toml.h>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace instruments {

// Thrown by everything below; read_instrument adds the name of the file.
struct Misread {
    std::uint32_t line = 1;
    std::uint32_t column = 1;
    std::string sentence;
};

// Source of both: house choice, far above what a table needs, so that no file takes long to read.
constexpr std::size_t kMostTextBytes = 1000;
constexpr std::size_t kMostTexts = 128;  // in a list

[[noreturn]] void misread(const toml::source_region& where, std::string sentence);

// What toml++ must not see, told as Misread before anything is built. It builds a table for each part of a dotted key
// and takes them down one within the other, so that a key of many thousand parts would exhaust the stack. And its test
// for blanks is undefined for most letters and signs beyond ASCII outside strings, where TOML has none (1.0.0, section
// Keys).
void check_before_parsing(std::string_view text);

// `a, b and c`.
std::string listed(std::span<const std::string_view> words);

// The first key, top to bottom, that is none of `known` is a fault.
void check_keys(const toml::table& table, std::span<const std::string_view> known);

// `what` names the value in faults. A text must have something in it and no more than kMostTextBytes, a list no more
// than kMostTexts.
std::string text_of(const toml::node& node, std::string_view what);
int number_of(const toml::node& node, std::string_view what, int lowest, int highest);
std::vector<std::string> texts_of(const toml::node& node, std::string_view what);  // none may come twice
int note_of(const toml::node& node);                                               // MIDI

// Empty where the table has no such key.
std::optional<std::string> text_at(const toml::table& table, std::string_view key);
std::optional<int> number_at(const toml::table& table, std::string_view key, int lowest, int highest);
std::vector<std::string> texts_at(const toml::table& table, std::string_view key);
const toml::table* table_at(const toml::table& table, std::string_view key);

}  // namespace instruments
