// Tested by sieve_test.cc.
#include "collection/sort_order.h"

#include <algorithm>
#include <array>
#include <limits>
#include <numeric>
#include <string_view>
#include <tuple>
#include <utility>

namespace collection {

namespace {

constexpr std::array<std::pair<Sort, std::string_view>, 9> kSorts{{{Sort::title, "title"},
                                                                   {Sort::key, "key"},
                                                                   {Sort::rhythm, "rhythm"},
                                                                   {Sort::range, "range"},
                                                                   {Sort::notes, "notes"},
                                                                   {Sort::missing, "missing"},
                                                                   {Sort::file, "file"},
                                                                   {Sort::added, "added"},
                                                                   {Sort::heard, "heard"}}};

constexpr std::int64_t kLast = std::numeric_limits<std::int64_t>::max();

// Compared from left to right; texts are those of the sheet.
struct SortKey {
    std::int64_t first = 0;  // what `sort` asks for, as a number
    std::string_view word;   // or as a word: the rhythm
    bool untitled = false;
    std::string_view title;
    std::size_t file = 0;  // its place among the files by name
    std::uint32_t line = 0;
    tune::SettingId id;
    std::size_t row = 0;

    friend bool operator<(const SortKey& a, const SortKey& b) {
        return std::tie(a.first, a.word, a.untitled, a.title, a.file, a.line, a.id) <
               std::tie(b.first, b.word, b.untitled, b.title, b.file, b.line, b.id);
    }
};

// The place of each file by its shown name, then its path.
std::vector<std::size_t> file_places(const Sheet& sheet) {
    std::vector<std::size_t> by_name(sheet.file_names.size());
    std::iota(by_name.begin(), by_name.end(), std::size_t{0});
    std::sort(by_name.begin(), by_name.end(), [&](std::size_t a, std::size_t b) {
        const SheetFile& one = sheet.file_names[a];
        const SheetFile& other = sheet.file_names[b];
        return std::tie(one.shown, one.path, a) < std::tie(other.shown, other.path, b);
    });
    std::vector<std::size_t> places(by_name.size());
    for (std::size_t place = 0; place < by_name.size(); ++place) places[by_name[place]] = place;
    return places;
}

std::int64_t key_place(const music::Key& key) { return key.tonic.pitch_class() * 16 + static_cast<int>(key.mode); }

std::int64_t asked_for(const Sheet& sheet, std::size_t row, Sort sort, const music::NoteSet& have) {
    const music::NoteSet& needed = sheet.note_sets[sheet.needed[row]];
    switch (sort) {
        case Sort::title:
        case Sort::heard:
        case Sort::file:
            return 0;
        case Sort::key:
            return sheet.keys[row] ? key_place(*sheet.keys[row]) : kLast;
        case Sort::rhythm:
            return sheet.words[sheet.rhythms[row]].empty() ? kLast : 0;
        case Sort::range:
            return needed.empty() ? kLast : needed.highest() - needed.lowest();
        case Sort::notes:
            return needed.empty() ? kLast : needed.size();
        case Sort::missing:
            return needed.without(have).size();
        case Sort::added:
            return -sheet.settings[row].value;
    }
    return 0;
}

}  // namespace

std::string_view sort_token(Sort sort) noexcept {
    for (const auto& [value, token] : kSorts)
        if (value == sort) return token;
    return "title";
}

std::optional<Sort> parse_sort(std::string_view token) noexcept {
    for (const auto& [value, known] : kSorts)
        if (known == token) return value;
    return std::nullopt;
}

std::vector<std::size_t> in_order(const Sheet& sheet, Sort sort, std::optional<std::int64_t> limit,
                                  const music::NoteSet& have) {
    const std::vector<std::size_t> places = file_places(sheet);
    std::vector<SortKey> keys(sheet.size());
    for (std::size_t row = 0; row < sheet.size(); ++row) {
        SortKey& key = keys[row];
        key.row = row;
        key.first = asked_for(sheet, row, sort, have);
        if (sort == Sort::rhythm) key.word = sheet.words[sheet.rhythms[row]];
        if (sort != Sort::file) {
            key.untitled = !sheet.first_titles[row];
            if (!key.untitled) key.title = *sheet.first_titles[row];
        }
        key.file = places[sheet.files[row]];
        key.line = sheet.lines[row];
        key.id = sheet.settings[row];
    }
    const std::size_t shown =
        limit ? std::min(keys.size(), static_cast<std::size_t>(std::max<std::int64_t>(*limit, 0))) : keys.size();
    // With a limit only the front is sorted.
    if (shown == keys.size())
        std::sort(keys.begin(), keys.end());
    else
        std::partial_sort(keys.begin(), keys.begin() + static_cast<std::ptrdiff_t>(shown), keys.end());
    std::vector<std::size_t> ordered;
    ordered.reserve(shown);
    for (std::size_t i = 0; i < shown; ++i) ordered.push_back(keys[i].row);
    return ordered;
}

}  // namespace collection
