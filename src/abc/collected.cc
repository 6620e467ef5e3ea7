#include "abc/collected.h"

#include <vector>

#include "abc/line.h"
#include "abc/tunebook.h"

namespace abc {

namespace {

std::vector<std::string_view> lines_of(const base::SourceFile& source, const Block& block) {
    std::vector<std::string_view> lines;
    LineWalk walk(source.text(), block.where.begin, block.where.end);
    while (walk.next()) lines.push_back(walk.line);
    return lines;
}

// Of meter, unit and tempo the tune's own word counts alone.
bool is_said_by(const std::vector<std::string_view>& tune, std::string_view line) {
    constexpr std::string_view kOnce = "MLQ";
    if (line.empty() || kOnce.find(line[0]) == std::string_view::npos || !is_field(line, line[0])) return false;
    for (const std::string_view own : tune) {
        if (is_field(own, line[0])) return true;
        if (is_field(own, 'K')) return false;
    }
    return false;
}

}  // namespace

std::string collected(const base::SourceFile& source, int number, std::string_view from) {
    base::Diagnostics unheard;  // were told when the file was imported
    std::vector<std::string_view> header, tune;
    for (const Block& block : split_tunebook(source, unheard).blocks) {
        if (block.kind == Block::Kind::file_header) header = lines_of(source, block);
        if (block.kind == Block::Kind::tune) tune = lines_of(source, block);
    }
    std::string text = "X:" + std::to_string(number) + "\n% from " + std::string(from) + "\n";
    std::size_t at = !tune.empty() && is_field(tune[0], 'X') ? 1 : 0;
    for (; at < tune.size() && is_field(tune[at], 'T'); ++at) text.append(tune[at]) += '\n';
    for (const std::string_view line : header)
        // A comment of the header tells of its file, not of the tune.
        if (!is_comment(line) && !is_said_by(tune, line)) text.append(line) += '\n';
    for (; at < tune.size(); ++at) text.append(tune[at]) += '\n';
    return text + "\n";
}

}  // namespace abc
