// Tested by markdown_test.cc.
#include "guide/markdown.h"

#include <algorithm>
#include <cctype>
#include <string>
#include <utility>
#include <vector>

namespace guide {

namespace {

constexpr std::string_view kFence = "```";

std::vector<std::string_view> lines_of(std::string_view text) {
    std::vector<std::string_view> lines;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        lines.push_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return lines;
}

std::string_view trimmed(std::string_view text) {
    while (text.starts_with(' ')) text.remove_prefix(1);
    while (text.ends_with(' ')) text.remove_suffix(1);
    return text;
}

// `- ` or `12. ` at the beginning, as long as it is; 0: none.
std::size_t bullet_length(std::string_view line) {
    if (line.starts_with("- ")) return 2;
    std::size_t digits = 0;
    while (digits < line.size() && std::isdigit(static_cast<unsigned char>(line[digits]))) ++digits;
    return digits > 0 && line.substr(digits).starts_with(". ") ? digits + 2 : 0;
}

std::size_t heading_level(std::string_view line) {
    const std::size_t level = std::min(line.find_first_not_of('#'), line.size());
    return level > 0 && line.substr(level).starts_with(" ") ? level : 0;
}

bool begins_block(std::string_view line) {
    return trimmed(line).empty() || line.starts_with(kFence) || line.starts_with("|") || heading_level(line) > 0 ||
           bullet_length(line) > 0;
}

// Of `[text](target)` at the beginning, its length; 0 where there is none.
std::size_t link_length(std::string_view text) {
    const std::size_t middle = text.find("](");
    if (!text.starts_with("[") || middle == std::string_view::npos) return 0;
    const std::size_t end = text.find(')', middle);
    return end == std::string_view::npos ? 0 : end + 1;
}

std::string without_signs(std::string_view text);

std::string link_in_words(std::string_view link) {
    const std::size_t middle = link.find("](");
    const std::string words = without_signs(link.substr(1, middle - 1));
    const std::string_view target = link.substr(middle + 2, link.size() - middle - 3);
    constexpr std::string_view kPage = ".md";
    if (target.ends_with(kPage) && target.find('/') == std::string_view::npos)
        return words + " (gamut guide " + std::string(target.substr(0, target.size() - kPage.size())) + ")";
    return words + " (" + std::string(target) + ")";
}

// A star is a sign where it stands at the edge of a word, as Markdown has it.
bool is_sign(std::string_view text, std::size_t at) {
    const auto is_blank = [&](std::size_t place) { return place >= text.size() || text[place] == ' '; };
    return text[at] == '*' && !(is_blank(at + 1) && (at == 0 || is_blank(at - 1)));
}

// Nothing but blanks stands outside typewriter signs.
bool is_all_code(std::string_view text) {
    bool in_code = false;
    for (const char c : text) {
        if (c == '`')
            in_code = !in_code;
        else if (!in_code && c != ' ')
            return false;
    }
    return true;
}

// Typewriter signs stay around several words, where they show what belongs together, but not where nothing else is
// said.
std::string without_signs(std::string_view text) {
    const bool keeps_signs = !is_all_code(text);
    std::string words;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t closed = text[at] == '`' ? text.find('`', at + 1) : std::string_view::npos;
        if (closed != std::string_view::npos) {  // in there nothing else is a sign
            const std::string code(text.substr(at + 1, closed - at - 1));
            words += keeps_signs && code.find(' ') != std::string::npos ? "`" + code + "`" : code;
            at = closed + 1;
        } else if (const std::size_t link = link_length(text.substr(at)); link > 0) {
            words += link_in_words(text.substr(at, link));
            at += link;
        } else {
            if (!is_sign(text, at)) words += text[at];
            ++at;
        }
    }
    return words;
}

// The cells of `| a | b |`. A bar between typewriter signs parts nothing.
std::vector<std::string> cells_of(std::string_view row) {
    row = trimmed(row);
    row.remove_prefix(1);
    if (row.ends_with("|")) row.remove_suffix(1);
    std::vector<std::string> cells;
    bool in_code = false;
    std::size_t begin = 0;
    for (std::size_t at = 0; at <= row.size(); ++at) {
        if (at < row.size() && row[at] == '`') in_code = !in_code;
        if (at < row.size() && (row[at] != '|' || in_code)) continue;
        cells.push_back(without_signs(trimmed(row.substr(begin, at - begin))));
        begin = at + 1;
    }
    return cells;
}

bool is_rule(std::string_view row) { return row.find_first_not_of("|-: ") == std::string_view::npos; }

// What is left to read of a page, and what has been made of it.
class Reading {
public:
    explicit Reading(std::string_view text) : lines_(lines_of(text)) {}

    report::Document document() {
        while (at_ < lines_.size()) {
            const std::string_view line = lines_[at_];
            if (trimmed(line).empty())
                ++at_;
            else if (line.starts_with(kFence))
                read_fenced();
            else if (line.starts_with("|"))
                read_table();
            else if (heading_level(line) > 0)
                read_heading();
            else if (bullet_length(line) > 0)
                read_list();
            else
                add(report::Paragraph{read_joined(line)});
        }
        return std::move(document_);
    }

private:
    void add(report::DocumentBlock block) { document_.blocks.push_back(std::move(block)); }

    void read_heading() {
        const std::string_view line = lines_[at_++];
        const std::size_t level = heading_level(line);
        std::string text = without_signs(trimmed(line.substr(level)));
        if (level == 1 && document_.blocks.empty())
            add(report::Title{std::move(text)});
        else
            add(report::Heading{std::move(text)});
    }

    // `first` and the lines that go on with it.
    std::string read_joined(std::string_view first) {
        std::string text(trimmed(first));
        for (++at_; at_ < lines_.size() && !begins_block(lines_[at_]); ++at_)
            text += " " + std::string(trimmed(lines_[at_]));
        return without_signs(text);
    }

    void read_fenced() {
        report::Example block;
        for (++at_; at_ < lines_.size() && !lines_[at_].starts_with(kFence); ++at_)
            block.text += std::string(lines_[at_]) + "\n";
        ++at_;
        add(std::move(block));
    }

    void read_table() {
        report::Table table;
        for (std::string& title : cells_of(lines_[at_++])) {
            report::Column column;
            column.title = std::move(title);
            column.fit = report::Fit::wrapped;
            table.columns.push_back(std::move(column));
        }
        for (; at_ < lines_.size() && lines_[at_].starts_with("|"); ++at_) {
            if (is_rule(lines_[at_])) continue;
            std::vector<report::Cell> row;
            for (std::string& cell : cells_of(lines_[at_])) row.emplace_back(std::move(cell));
            row.resize(table.columns.size(), std::string());
            table.rows.push_back(std::move(row));
        }
        add(std::move(table));
    }

    void read_list() {
        report::List list;
        list.is_numbered = !lines_[at_].starts_with("-");
        while (at_ < lines_.size() && bullet_length(lines_[at_]) > 0 &&
               lines_[at_].starts_with("-") != list.is_numbered) {
            const std::string_view line = lines_[at_];
            list.items.push_back(read_joined(line.substr(bullet_length(line))));
        }
        add(std::move(list));
    }

    std::vector<std::string_view> lines_;
    std::size_t at_ = 0;
    report::Document document_{{}, true};
};

}  // namespace

report::Document document_of(std::string_view markdown) { return Reading(markdown).document(); }

}  // namespace guide
