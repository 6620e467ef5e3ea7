// Sorted here and not by SQLite: only the keys are carried about, and with a limit only the front is sorted. Tested by
// tunes_that_test.cc.
#include "library/sort_order.h"

#include <algorithm>
#include <array>
#include <limits>
#include <string>
#include <tuple>
#include <utility>

#include "library/said_kinds.h"
#include "library/sieve.h"
#include "library/statement.h"
#include "music/key.h"
#include "music/pitch.h"

namespace library {

namespace {

constexpr std::array<std::pair<Sort, std::string_view>, 8> kSorts{{{Sort::title, "title"},
                                                                   {Sort::key, "key"},
                                                                   {Sort::rhythm, "rhythm"},
                                                                   {Sort::range, "range"},
                                                                   {Sort::notes, "notes"},
                                                                   {Sort::file, "file"},
                                                                   {Sort::added, "added"},
                                                                   {Sort::heard, "heard"}}};

constexpr std::int64_t kLast = std::numeric_limits<std::int64_t>::max();

// Compared from left to right.
struct SortKey {
    std::int64_t first = 0;  // what `sort` asks for, as a number
    std::string word;        // or as a word: the rhythm
    bool untitled = false;
    std::string title;
    std::size_t file = 0;  // its place among the files by name
    std::int64_t line = 0;
    std::int64_t id = 0;

    friend bool operator<(const SortKey& a, const SortKey& b) {
        return std::tie(a.first, a.word, a.untitled, a.title, a.file, a.line, a.id) <
               std::tie(b.first, b.word, b.untitled, b.title, b.file, b.line, b.id);
    }
};

// By id: the place of each file by its shown name, then its path.
std::vector<std::size_t> file_places(const Database& database) {
    std::vector<std::size_t> places;
    Statement rows(database, "SELECT id FROM file ORDER BY shown, path, id");
    for (std::size_t place = 0; rows.step(); ++place) {
        const std::size_t id = place_of(database, rows.number(0));
        if (id >= places.size()) places.resize(id + 1);
        places[id] = place;
    }
    return places;
}

std::int64_t key_place(const music::Key& key) { return key.tonic.pitch_class() * 16 + static_cast<int>(key.mode); }

std::int64_t key_place(std::string_view tonic, std::string_view mode) {
    const auto name = music::parse_note_name(tonic);
    const auto parsed = music::parse_mode(mode);
    return name && parsed ? key_place(music::Key{*name, *parsed}) : kLast;
}

class KeyReader {
public:
    KeyReader(const Database& database, Sort sort)
        : database_(database),
          sort_(sort),
          files_(file_places(database)),
          note_sets_(note_sets_by_id(database)),
          said_(database) {}

    static constexpr std::string_view kColumns =
        "SELECT id, folded_title, file_id, line, tonic, mode, rhythm, needed_id FROM setting ";

    SortKey read(const Statement& row) const {
        SortKey key;
        key.id = row.number(0);
        key.untitled = row.is_null(1);
        if (sort_ != Sort::file) key.title = row.text(1);
        key.file = files_[place_among(database_, row.number(2), files_.size())];
        key.line = row.number(3);
        const music::NoteSet& needed = note_sets_[place_among(database_, row.number(7), note_sets_.size())];
        const SaidKind* said = said_.of(key.id);
        switch (sort_) {
            case Sort::title:
            case Sort::heard:  // its order is not in the library
                break;
            case Sort::file:
                key.untitled = false;
                break;
            case Sort::key:
                key.first = row.is_null(4) ? kLast : key_place(row.text(4), row.text(5));
                if (said != nullptr && said->key) key.first = key_place(*said->key);
                break;
            case Sort::rhythm:
                key.first = row.is_null(6) ? kLast : 0;
                key.word = row.text(6);
                if (said != nullptr && said->rhythm) std::tie(key.first, key.word) = std::pair(0, *said->rhythm);
                break;
            case Sort::range:
                key.first = needed.empty() ? kLast : needed.highest() - needed.lowest();
                break;
            case Sort::notes:
                key.first = needed.empty() ? kLast : needed.size();
                break;
            case Sort::added:
                key.first = -key.id;
                break;
        }
        return key;
    }

private:
    const Database& database_;
    Sort sort_;
    std::vector<std::size_t> files_;
    std::vector<music::NoteSet> note_sets_;
    SaidKinds said_;
};

std::vector<SortKey> keys_of(const Database& database, const std::vector<std::int64_t>& settings, Sort sort) {
    const KeyReader reader(database, sort);
    const std::string columns(KeyReader::kColumns);
    std::vector<SortKey> keys;
    keys.reserve(settings.size());
    // Few are looked up one by one, many met in one pass. Where few end is a house choice.
    const bool are_many =
        static_cast<std::int64_t>(settings.size()) * 8 > database.number("SELECT max(id) FROM setting");
    if (are_many) {
        Statement rows(database, columns + "ORDER BY id");
        auto wanted = settings.begin();
        while (wanted != settings.end() && rows.step()) {
            if (rows.number(0) != *wanted) continue;
            keys.push_back(reader.read(rows));
            ++wanted;
        }
        return keys;
    }
    Statement row(database, columns + "WHERE id = ?1");
    for (const std::int64_t id : settings) {
        const Reset reset(row);
        if (row.bind(id).step()) keys.push_back(reader.read(row));
    }
    return keys;
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

std::vector<std::int64_t> in_order(const Database& database, const std::vector<std::int64_t>& settings, Sort sort,
                                   std::optional<std::int64_t> limit) {
    std::vector<SortKey> keys = keys_of(database, settings, sort);
    const std::size_t shown =
        limit ? std::min(keys.size(), static_cast<std::size_t>(std::max<std::int64_t>(*limit, 0))) : keys.size();
    if (shown == keys.size())
        std::sort(keys.begin(), keys.end());
    else
        std::partial_sort(keys.begin(), keys.begin() + static_cast<std::ptrdiff_t>(shown), keys.end());
    std::vector<std::int64_t> ordered;
    ordered.reserve(shown);
    for (std::size_t i = 0; i < shown; ++i) ordered.push_back(keys[i].id);
    return ordered;
}

}  // namespace library
