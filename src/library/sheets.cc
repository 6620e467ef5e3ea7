// Tested by tunes_that_test.cc.
#include "library/sheets.h"

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>

#include "base/failure.h"
#include "collection/sort_order.h"
#include "library/keys_stored.h"
#include "library/said_kinds.h"
#include "library/statement.h"
#include "tune/tag.h"

namespace library {

namespace {

using collection::Column;
using collection::Columns;
using collection::Sheet;

// An id as a place in a table that is held in memory: more rows than that are in no library. Source: house choice.
constexpr std::int64_t kMostRows = 100'000'000;

std::size_t place_of(const Database& database, std::int64_t id) {
    if (id < 0 || id > kMostRows)
        throw base::Failure("read", database.file(),
                            "it is damaged (a row has an impossible id); gamut library check tells more");
    return static_cast<std::size_t>(id);
}

Sheet::Place place_among(const Database& database, std::int64_t id, std::size_t held) {
    const std::size_t place = place_of(database, id);
    if (place >= held)
        throw base::Failure("read", database.file(),
                            "it is damaged (a row points nowhere); gamut library check tells more");
    return static_cast<Sheet::Place>(place);
}

// Many equal texts, each made a value once.
template <typename Value, typename Make>
class Once {
public:
    explicit Once(Make make) : make_(make) {}

    const Value& operator()(std::string_view text) {
        if (const auto found = known_.find(text); found != known_.end()) return found->second;
        return known_.emplace(std::string(text), make_(text)).first->second;
    }

private:
    struct Hash : std::hash<std::string_view> {
        using is_transparent = void;
    };
    Make make_;
    std::unordered_map<std::string, Value, Hash, std::equal_to<>> known_;
};

class SheetReader {
public:
    SheetReader(const Database& database, const Columns& columns)
        : database_(database), columns_(columns), said_(said_kinds_of(database)) {
        read_note_sets();
        if (columns.has(Column::file)) read_files();
        ornaments_ = add(Column::ornaments, "s.ornaments_id");
        first_ = add(Column::ends, "s.first_note");
        last_ = add(Column::ends, "s.last_note");
        key_ = add(Column::key, "s.tonic || ' ' || s.mode");
        candidates_ = add(Column::candidates, "s.key_candidates");
        rhythm_ = add(Column::rhythm, "s.rhythm");
        meter_ = add(Column::meter, "s.meter");
        file_ = add(Column::file, "s.file_id");
        line_ = add(Column::line, "s.line");
        title_ = add(Column::first_title, "s.folded_title");
        scrap_ = add(Column::scrap, "s.scrap IS NOT NULL");
    }

    // What no column asks for is not fetched: the index setting_present holds most of it.
    std::string query(std::string_view which) const {
        return "SELECT s.tune_id, s.id, s.needed_id" + sql_ + " FROM setting s WHERE " + std::string(which);
    }

    void take(const Statement& row) {
        const std::int64_t setting = row.number(1);
        sheet_.tunes.push_back({static_cast<std::int64_t>(place_of(database_, row.number(0)))});
        sheet_.settings.push_back({static_cast<std::int64_t>(place_of(database_, setting))});
        const auto notes_at = [&](int column) {
            return place_among(database_, row.number(column), sheet_.note_sets.size());
        };
        sheet_.needed.push_back(notes_at(2));
        if (ornaments_ > 0) sheet_.ornaments.push_back(notes_at(ornaments_));
        if (first_ > 0) {
            sheet_.first_notes.push_back(note(row, first_));
            sheet_.last_notes.push_back(note(row, last_));
        }
        const collection::SaidKind* said = said_.of({setting});
        if (key_ > 0) {
            const bool is_said = said != nullptr && said->key;
            sheet_.are_keys_said.push_back(is_said);
            sheet_.keys.push_back(is_said ? said->key : key_once_(row.text(key_)));
        }
        if (candidates_ > 0) sheet_.candidates.push_back(candidates_once_(row.text(candidates_)));
        if (rhythm_ > 0)
            sheet_.rhythms.push_back(said != nullptr && said->rhythm ? word_once_(*said->rhythm)
                                                                     : word_once_(row.text(rhythm_)));
        if (meter_ > 0) sheet_.meters.push_back(word_once_(row.text(meter_)));
        if (file_ > 0) sheet_.files.push_back(place_among(database_, row.number(file_), sheet_.file_names.size()));
        if (line_ > 0) sheet_.lines.push_back(static_cast<std::uint32_t>(row.number(line_)));
        if (title_ > 0) sheet_.first_titles.push_back(row.optional_text(title_));
        if (scrap_ > 0) sheet_.are_scraps.push_back(row.number(scrap_) != 0);
    }

    void read_titles() {
        sheet_.titles.resize(sheet_.size());
        std::vector<std::optional<std::size_t>> rows_by_setting;
        for (std::size_t row = 0; row < sheet_.size(); ++row) {
            const auto id = static_cast<std::size_t>(sheet_.settings[row].value);
            if (id >= rows_by_setting.size()) rows_by_setting.resize(id + 1);
            rows_by_setting[id] = row;
        }
        Statement titles(database_, "SELECT setting_id, folded FROM title ORDER BY setting_id, place");
        while (titles.step()) {
            const std::size_t id = place_of(database_, titles.number(0));
            if (id >= rows_by_setting.size() || !rows_by_setting[id]) continue;
            (sheet_.titles[*rows_by_setting[id]] += titles.text(1)) += '\n';
        }
    }

    void read_tagged(const std::string& folded) {
        Statement rows(database_,
                       "SELECT DISTINCT coalesce(t.family_id, t.id) FROM tune_tag g JOIN tune t ON t.id = g.tune_id"
                       " WHERE g.tag_id = (SELECT id FROM tag WHERE folded = ?1)");
        rows.bind(folded);
        std::vector<tune::TuneId>& tunes = sheet_.tagged[folded];
        while (rows.step()) tunes.push_back({static_cast<std::int64_t>(place_of(database_, rows.number(0)))});
    }

    void count_gone() {
        sheet_.gone_settings = database_.number("SELECT count(*) FROM setting WHERE gone = 1");
        if (sheet_.gone_settings > 0)
            sheet_.gone_tunes = database_.number(
                "SELECT count(*) FROM (SELECT DISTINCT g.tune_id FROM setting g WHERE g.gone = 1 AND NOT EXISTS"
                " (SELECT 1 FROM setting p WHERE p.tune_id = g.tune_id AND p.gone = 0))");
    }

    Sheet finish() { return std::move(sheet_); }

private:
    int add(Column column, std::string_view expression) {
        if (!columns_.has(column)) return 0;
        (sql_ += ", ") += expression;
        return next_++;
    }

    void read_note_sets() {
        Statement rows(database_, "SELECT id, low, high FROM note_set ORDER BY id");
        while (rows.step()) {
            const std::size_t id = place_of(database_, rows.number(0));
            sheet_.note_sets.resize(id + 1);
            sheet_.note_sets[id] = {static_cast<std::uint64_t>(rows.number(1)),
                                    static_cast<std::uint64_t>(rows.number(2))};
        }
    }

    void read_files() {
        Statement rows(database_, "SELECT id, shown, path FROM file ORDER BY id");
        while (rows.step()) {
            const std::size_t id = place_of(database_, rows.number(0));
            sheet_.file_names.resize(id + 1);
            sheet_.file_names[id] = {std::string(rows.text(1)), std::string(rows.text(2))};
        }
    }

    static std::optional<std::uint8_t> note(const Statement& row, int column) {
        const auto midi = row.optional_number(column);
        return midi ? std::optional(static_cast<std::uint8_t>(*midi)) : std::nullopt;
    }

    const Database& database_;
    const Columns columns_;
    const collection::SaidKinds said_;
    std::string sql_;
    int next_ = 3;
    int ornaments_ = 0, first_ = 0, last_ = 0, key_ = 0, candidates_ = 0, rhythm_ = 0, meter_ = 0, file_ = 0, line_ = 0,
        title_ = 0, scrap_ = 0;  // columns of a row; 0: not asked for
    Sheet sheet_;

    struct AddWord {
        Sheet& sheet;
        Sheet::Place operator()(std::string_view text) const {
            sheet.words.emplace_back(text);
            return static_cast<Sheet::Place>(sheet.words.size() - 1);
        }
    };
    struct AddCandidates {
        Sheet& sheet;
        Sheet::Place operator()(std::string_view text) const {
            sheet.candidate_lists.push_back(keys_stored(text));
            return static_cast<Sheet::Place>(sheet.candidate_lists.size() - 1);
        }
    };
    Once<Sheet::Place, AddWord> word_once_{AddWord{sheet_}};
    Once<Sheet::Place, AddCandidates> candidates_once_{AddCandidates{sheet_}};
    Once<std::optional<music::Key>, std::optional<music::Key> (*)(std::string_view)> key_once_{&music::key_stated_in};
};

}  // namespace

Sheet sheet_for(const Database& database, const collection::Selection& selection) {
    const Columns columns = columns_of(selection);
    SheetReader reader(database, columns);
    Statement rows(database, reader.query("s.gone = 0 ORDER BY s.tune_id, s.id"));
    while (rows.step()) reader.take(rows);
    if (columns.has(Column::titles)) reader.read_titles();
    if (selection.tag) reader.read_tagged(tune::fold_tag(*selection.tag));
    reader.count_gone();
    return reader.finish();
}

Sheet sheet_for(const Database& database, const std::vector<std::int64_t>& settings, collection::Sort sort) {
    SheetReader reader(database, columns_of(sort));
    // Few are looked up one by one, many met in one pass. Where few end is a house choice.
    const bool are_many =
        static_cast<std::int64_t>(settings.size()) * 8 > database.number("SELECT max(id) FROM setting");
    if (are_many) {
        Statement rows(database, reader.query("true ORDER BY s.id"));
        auto wanted = settings.begin();
        while (wanted != settings.end() && rows.step()) {
            if (rows.number(1) != *wanted) continue;
            reader.take(rows);
            ++wanted;
        }
        return reader.finish();
    }
    Statement row(database, reader.query("s.id = ?1"));
    for (const std::int64_t id : settings) {
        const Reset reset(row);
        if (row.bind(id).step()) reader.take(row);
    }
    return reader.finish();
}

std::vector<std::int64_t> settings_sorted(const Database& database, const std::vector<std::int64_t>& settings,
                                          collection::Sort sort, std::optional<std::int64_t> limit,
                                          const music::NoteSet& have) {
    const Sheet sheet = sheet_for(database, settings, sort);
    std::vector<std::int64_t> sorted;
    for (const std::size_t row : collection::in_order(sheet, sort, limit, have))
        sorted.push_back(sheet.settings[row].value);
    return sorted;
}

}  // namespace library
