#include "cli/numbers_typed.h"

#include <charconv>
#include <cstdint>
#include <string_view>

#include "cli/terminal.h"

namespace cli {

namespace {

template <typename Number>
std::errc read_as(std::string_view text) {
    if (text.starts_with('+')) text.remove_prefix(1);
    Number number{};
    const char* const end = text.data() + text.size();
    const auto read = std::from_chars(text.data(), end, number);
    return read.ptr == end ? read.ec : std::errc::invalid_argument;
}

void expect_number(CLI::Option& option) {
    const std::string type = option.get_type_name();
    const bool is_whole = type == "N" || type == "K" || type == "MIB";
    if (!is_whole && type != "S") return;
    const std::string name = option.get_name();
    option.check([is_whole, name](const std::string& text) {
        const std::errc fault = is_whole ? read_as<std::int64_t>(text) : read_as<double>(text);
        if (fault == std::errc::result_out_of_range) throw Misuse(name + " cannot be \"" + text + "\"");
        if (fault != std::errc())
            throw Misuse(name + " takes a " + (is_whole ? "whole number" : "number") + ", not \"" + text + "\"");
        return std::string();
    });
}

}  // namespace

void expect_numbers(CLI::App& command) {
    for (CLI::Option* option : command.get_options()) expect_number(*option);
    for (CLI::App* below : command.get_subcommands([](const CLI::App*) { return true; })) expect_numbers(*below);
}

std::string sentence_of(const CLI::ConversionError& error) {
    constexpr std::string_view kPrefix = "Could not convert: ";  // Source: CLI11, Error.hpp, ConversionError
    constexpr std::string_view kBetween = " = ";
    const std::string text = error.what();
    const std::size_t between = text.find(kBetween);
    if (!text.starts_with(kPrefix) || between == std::string::npos) return text;
    return text.substr(kPrefix.size(), between - kPrefix.size()) + " cannot be \"" +
           text.substr(between + kBetween.size()) + "\"";
}

}  // namespace cli
