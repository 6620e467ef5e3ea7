#include "abc/read.h"

#include <algorithm>
#include <unordered_map>

#include "abc/line.h"
#include "abc/mail_residue.h"
#include "abc/report_fault.h"
#include "abc/tune_reader.h"

namespace abc {

namespace {

// What a reading of the whole file carries from block to block.
struct FileState {
    Dialect dialect;
    Header header;
    std::unordered_map<std::string, int> numbers;
};

void report_charset(const base::SourceFile& source, base::Diagnostics& diagnostics) {
    if (source.decoding() != base::Decoding::assumed_windows_1252) return;
    const std::string_view text = source.text();
    const auto first =
        std::find_if(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) >= 0x80; });
    const auto at = static_cast<std::uint32_t>(first - text.begin());
    report(diagnostics, code::kGuessedCharset, {at, at + 1},
           "the file is not UTF-8 and names no charset; read as Windows-1252");
}

// A tune's line is that of its X:, though comments, directives or a title may stand above it in the same block. Returns
// where findings about the tune as a whole point.
base::Span place_setting(const base::SourceFile& source, const Block& block, const Tokens& tokens,
                         tune::Setting& setting) {
    setting.where = block.where;
    const bool is_as_written = source.rewritings().empty();  // then lines are counted without an index of them
    setting.line = is_as_written ? block.line : source.place_of(block.where.begin).line;
    const auto number = std::find_if(tokens.all.begin(), tokens.all.end(), [](const Token& token) {
        return token.in_body || (token.kind == TokenKind::field && token.letter == 'X');
    });
    std::uint32_t begin = block.where.begin;
    if (number != tokens.all.end() && !number->in_body) {
        LineWalk walk(source.text(), block.where.begin, block.where.end);
        while (walk.next() && walk.begin + walk.line.size() < number->where.begin) ++setting.line;
        if (!is_as_written) setting.line = source.place_of(number->where.begin).line;
        begin = number->where.begin;
    }
    return {begin, std::min(begin + 2, block.where.end)};
}

void check_identity(const tune::Setting& setting, base::Span start, FileState& state, base::Diagnostics& diagnostics) {
    if (!setting.number)
        report(diagnostics, code::kNoNumber, start, "a tune without a number; it is known by its melody");
    else if (state.numbers[*setting.number]++ > 0)
        report(diagnostics, code::kNumberAgain, start,
               "the number X:" + *setting.number + " stands in this file before");
    if (setting.titles.empty()) report(diagnostics, code::kNoTitle, start, "a tune without a title");
    if (std::none_of(setting.melody.sounds.begin(), setting.melody.sounds.end(),
                     [](const music::Sound& sound) { return sound.kind == music::Sound::Kind::note; }))
        report(diagnostics, code::kNoMusic, start, "a tune without a note");
}

}  // namespace

std::vector<tune::Setting> read_settings(const base::SourceFile& source, base::Diagnostics& diagnostics) {
    std::vector<tune::Setting> settings;
    read_each_setting(source, diagnostics, [&](tune::Setting&& setting) { settings.push_back(std::move(setting)); });
    return settings;
}

void read_each_setting(const base::SourceFile& source, base::Diagnostics& diagnostics,
                       const std::function<void(tune::Setting&&)>& take) {
    report_charset(source, diagnostics);
    report_residue(source, diagnostics);
    const Tunebook book = split_tunebook(source, diagnostics);
    FileState state;
    state.dialect.is_strict = book.is_strict;
    Tokens tokens;
    for (const Block& block : book.blocks) {
        if (block.kind == Block::Kind::file_header) {
            read_tokens(source, block, state.dialect, tokens, diagnostics);
            read_file_header(tokens, state.header, diagnostics);
        } else if (block.kind == Block::Kind::tune) {
            Dialect dialect = state.dialect;  // what a tune sets ends with it
            const std::size_t errors_before = diagnostics.count(base::Severity::error);
            read_tokens(source, block, dialect, tokens, diagnostics);
            tune::Setting setting = read_tune(tokens, state.header, diagnostics);
            const base::Span start = place_setting(source, block, tokens, setting);
            check_identity(setting, start, state, diagnostics);
            setting.errors = diagnostics.count(base::Severity::error) - errors_before;
            take(std::move(setting));
        }
    }
    diagnostics.order_by_place();
}

void walk_tokens(const base::SourceFile& source, base::Diagnostics& diagnostics,
                 const std::function<void(const Block&, const Tokens&)>& visit) {
    const Tunebook book = split_tunebook(source, diagnostics);
    Dialect file_dialect;
    file_dialect.is_strict = book.is_strict;
    Tokens tokens;
    for (const Block& block : book.blocks) {
        if (block.kind == Block::Kind::free_text) {
            tokens.clear();
        } else {
            Dialect dialect = file_dialect;
            read_tokens(source, block, dialect, tokens, diagnostics);
            if (block.kind == Block::Kind::file_header) file_dialect = dialect;
        }
        visit(block, tokens);
    }
    diagnostics.order_by_place();
}

}  // namespace abc
