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

[[noreturn]] void misread(const toml::source_region& where, std::string sentence);

// `a, b and c`.
std::string listed(std::span<const std::string_view> words);

// The first key, top to bottom, that is none of `known` is a fault.
void check_keys(const toml::table& table, std::span<const std::string_view> known);

// `what` names the value in faults. A text must have something in it.
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
