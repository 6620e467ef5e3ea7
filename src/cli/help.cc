#include "cli/help.h"

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/utf8.h"

namespace cli {

namespace {

constexpr std::size_t kTextColumn =
    30;  // where what an option does begins. Source: house choice: most names fit before it
constexpr std::size_t kNarrowestText = 24;  // Source: house choice: narrower, hardly three words stand on a line
constexpr std::size_t kWidestHelp = 100;    // Source: house choice: longer lines are hard to follow with the eye
constexpr std::size_t kIndent = 2;

// Parted at blanks that are not between quotation marks.
std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> words(1);
    bool is_quoted = false;
    for (const char c : text) {
        if (c == '"') is_quoted = !is_quoted;
        if (c != ' ' || is_quoted)
            words.back() += c;
        else if (!words.back().empty())
            words.emplace_back();
    }
    if (words.back().empty()) words.pop_back();
    return words;
}

// An option with what it takes, so that the two stay together.
std::vector<std::string> parts_of_command(std::string_view text) {
    std::vector<std::string> parts;
    for (std::string& word : words_of(text))
        if (!parts.empty() && parts.back().starts_with("--") && !word.starts_with("--") &&
            parts.back().find(' ') == std::string::npos)
            parts.back() += " " + word;
        else
            parts.push_back(std::move(word));
    return parts;
}

// `first` stands before the first line, so many blanks before the others; `more` ends each that goes on.
std::string wrapped(std::string first, const std::vector<std::string>& words, std::size_t indent, std::size_t columns,
                    std::string_view more = "") {
    std::string lines, line = std::move(first);
    bool is_begun = false;
    for (const std::string& word : words) {
        if (is_begun && base::display_width(line) + 1 + base::display_width(word) + more.size() > columns) {
            lines += line + std::string(more) + "\n";
            line = std::string(indent, ' ');
            is_begun = false;
        }
        line += (is_begun ? " " : "") + word;
        is_begun = true;
    }
    return lines + line + "\n";
}

// Where the command of an example begins: `Example:  gamut path`.
std::size_t command_in(const std::string& line) {
    const std::size_t at = line.find("gamut ");
    if (at == std::string::npos || at < 2 || line.compare(at - 2, 2, "  ") != 0) return std::string::npos;
    return at;
}

std::string wrapped_line(const std::string& line, std::size_t columns) {
    if (base::display_width(line) <= columns) return line + "\n";
    const std::size_t command = command_in(line);
    if (command == std::string::npos) {
        const std::size_t indent = std::min(line.find_first_not_of(' '), line.size());
        return wrapped(line.substr(0, indent), words_of(std::string_view(line).substr(indent)), indent, columns);
    }
    return wrapped(line.substr(0, command), parts_of_command(std::string_view(line).substr(command)), command + kIndent,
                   columns, " \\");
}

class HelpFormatter : public CLI::Formatter {
public:
    explicit HelpFormatter(std::size_t columns)
        : columns_(columns),
          text_column_(std::min(kTextColumn, columns > kNarrowestText ? columns - kNarrowestText : 2 * kIndent)) {}

    std::string make_option(const CLI::Option* option, bool is_positional) const override {
        return entry(make_option_name(option, is_positional) + make_option_opts(option), make_option_desc(option));
    }
    std::string make_subcommand(const CLI::App* command) const override {
        return entry(command->get_display_name(true), command->get_description());
    }
    std::string make_description(const CLI::App* app) const override {
        return fitted(Formatter::make_description(app));
    }
    std::string make_usage(const CLI::App* app, std::string name) const override {
        return fitted(Formatter::make_usage(app, std::move(name)));
    }
    std::string make_footer(const CLI::App* app) const override { return fitted(Formatter::make_footer(app)); }

private:
    // A name and what it means; below, where the name leaves no room beside it.
    std::string entry(const std::string& name, const std::string& text) const {
        std::string lines = wrapped(std::string(kIndent, ' '), words_of(name), 2 * kIndent, columns_);
        if (text.empty()) return lines;
        const std::size_t last = lines.rfind('\n', lines.size() - 2) + 1;  // 0 where there is one line
        const std::size_t width = base::display_width(std::string_view(lines).substr(last, lines.size() - 1 - last));
        std::string first(text_column_, ' ');
        if (width < text_column_) {
            first = lines.substr(last, lines.size() - 1 - last) + std::string(text_column_ - width, ' ');
            lines.erase(last);
        }
        return lines + wrapped(first, words_of(text), text_column_, columns_);
    }

    std::string fitted(const std::string& text) const {
        std::string lines;
        for (std::size_t at = 0; at < text.size();) {
            const std::size_t end = std::min(text.find('\n', at), text.size());
            lines += wrapped_line(text.substr(at, end - at), columns_);
            at = end + 1;
        }
        return lines;
    }

    std::size_t columns_;
    std::size_t text_column_;
};

}  // namespace

std::shared_ptr<CLI::Formatter> help_for(std::size_t columns) {
    return std::make_shared<HelpFormatter>(std::min(columns, kWidestHelp));
}

}  // namespace cli
