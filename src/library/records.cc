// Tested by tunes_by_id_test.cc and marks_test.cc.
#include "library/records.h"

#include <algorithm>
#include <numeric>
#include <string_view>
#include <unordered_map>

#include "base/failure.h"
#include "library/keys_stored.h"
#include "library/said_kinds.h"
#include "library/statement.h"

namespace library {

namespace {

constexpr const char* kRecordColumns =
    "SELECT s.id, s.tune_id, f.shown, s.number, s.line, s.rhythm, s.rhythm_basis, s.rhythm_stated, s.meter, "
    "s.key_stated,"
    " s.key_candidates, s.key_decided, n.low, n.high, o.low, o.high, s.note_count, s.first_note, s.last_note, s.bars,"
    " s.different_bars, s.errors, s.own_tune_id, s.rhythm_possible, s.form, s.part_keys, s.largest_leap, "
    "s.key_in_force, s.scrap, s.tonic, s.mode"
    " FROM setting s JOIN file f ON f.id = s.file_id"
    " JOIN note_set n ON n.id = s.needed_id JOIN note_set o ON o.id = s.ornaments_id WHERE s.id = ?1";

constexpr const char* kSettingsOfTune = "SELECT count(*) FROM setting WHERE tune_id = ?1 AND gone = 0";

// What a person said of any tune of the family.
constexpr const char* kCount =
    "SELECT CASE count(*) WHEN 0 THEN NULL WHEN 1 THEN max(times) ELSE CAST(min(total(times), 9e18) AS INTEGER) END"
    " FROM tune_count WHERE tune_id = ?1 OR tune_id IN (SELECT id FROM tune WHERE family_id = ?1)";

constexpr const char* kTags =
    "SELECT DISTINCT g.text FROM tune_tag t JOIN tag g ON g.id = t.tag_id"
    " WHERE t.tune_id = ?1 OR t.tune_id IN (SELECT id FROM tune WHERE family_id = ?1) ORDER BY g.folded";

std::vector<std::string> words_in(std::string_view text) {
    std::vector<std::string> words;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(','), text.size());
        words.emplace_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return words;
}

music::NoteSet notes(const Statement& row, int column) {
    return {static_cast<std::uint64_t>(row.number(column)), static_cast<std::uint64_t>(row.number(column + 1))};
}

// What the notes leave open is called by what K: says. That needs no column of its own: it is the key of K:, or one
// that is not the likeliest.
void read_headline(const Statement& row, tune::TuneRecord& record) {
    const std::vector<music::Key> keys = row.is_null(29)
                                             ? std::vector<music::Key>()
                                             : keys_stored(std::string(row.text(29)) + " " + std::string(row.text(30)));
    if (keys.empty()) return;
    record.key = keys.front();
    const bool is_stated =
        !record.key_decided && (record.key_in_force.value_or(record.key_stated) == music::to_string(*record.key) ||
                                !(record.key_candidates.front() == *record.key));
    record.key_basis = is_stated ? tune::Basis::stated : tune::Basis::computed;
}

tune::TuneRecord record_in(const Statement& row) {
    tune::TuneRecord record;
    record.setting = {row.number(0)};
    record.id = {row.number(1)};
    record.file = row.text(2);
    record.number = row.optional_text(3);
    record.line = static_cast<std::uint32_t>(row.number(4));
    if (!row.is_null(5))
        record.rhythm = {std::string(row.text(5)), tune::parse_basis(row.text(6)).value_or(tune::Basis::assumed)};
    record.rhythm_stated = row.optional_text(7);
    record.meter = row.text(8);
    record.key_stated = row.text(9);
    record.key_candidates = keys_stored(row.text(10));
    record.key_decided = row.number(11) != 0;
    record.needed = notes(row, 12);
    record.ornaments = notes(row, 14);
    record.note_count = row.small_number(16);
    record.first_note = row.optional_number(17);
    record.last_note = row.optional_number(18);
    record.bars = row.small_number(19);
    record.different_bars = row.small_number(20);
    record.errors = static_cast<std::size_t>(row.number(21));
    record.own = {row.number(22)};
    record.rhythm_possible = words_in(row.text(23));
    record.form = row.text(24);
    record.part_keys = keys_stored(row.text(25));
    record.largest_leap = row.optional_number(26);
    record.key_in_force = row.optional_text(27);
    read_headline(row, record);
    if (!row.is_null(28)) record.scrap = tune::parse_scrap(row.text(28));
    return record;
}

// What all settings of a tune have in common is asked once of each tune: of a tune of many settings each is looked at.
class OfTunes {
public:
    explicit OfTunes(const Database& database)
        : settings_(database, kSettingsOfTune),
          tags_(database, kTags),
          count_(database, kCount),
          any_tags_(database.number("SELECT EXISTS (SELECT 1 FROM tune_tag)") != 0),
          any_counts_(database.number("SELECT EXISTS (SELECT 1 FROM tune_count)") != 0) {}

    void put_into(tune::TuneRecord& record) {
        const auto [at, is_new] = known_.try_emplace(record.id.value);
        if (is_new) at->second = ask(record.id.value);
        record.settings = at->second.settings;
        record.tags = at->second.tags;
        record.count = at->second.count;
    }

private:
    struct Common {
        int settings = 0;
        std::vector<std::string> tags;
        std::optional<std::int64_t> count;
    };

    Common ask(std::int64_t tune) {
        Common common;
        const Reset reset_settings(settings_);
        if (settings_.bind(tune).step()) common.settings = settings_.small_number(0);
        if (any_counts_) {
            const Reset reset(count_);
            if (count_.bind(tune).step() && !count_.is_null(0)) common.count = count_.number(0);
        }
        if (any_tags_) {
            const Reset reset(tags_);
            tags_.bind(tune);
            while (tags_.step()) common.tags.emplace_back(tags_.text(0));
        }
        return common;
    }

    Statement settings_, tags_, count_;
    bool any_tags_, any_counts_;
    std::unordered_map<std::int64_t, Common> known_;
};

}  // namespace

std::vector<tune::TuneRecord> records_of(const Database& database, const std::vector<std::int64_t>& settings) {
    // Fetched in the order they lie in the file, which reads each page once, and put where they belong.
    std::vector<std::size_t> by_id(settings.size());
    std::iota(by_id.begin(), by_id.end(), std::size_t{0});
    std::sort(by_id.begin(), by_id.end(), [&](std::size_t a, std::size_t b) { return settings[a] < settings[b]; });

    Statement row(database, kRecordColumns);
    Statement titles(database, "SELECT text FROM title WHERE setting_id = ?1 ORDER BY place");
    OfTunes of_tunes(database);
    const collection::SaidKinds said = said_kinds_of(database);
    std::vector<tune::TuneRecord> records(settings.size());
    bool all_are_known = true;
    for (const std::size_t place : by_id) {
        const Reset reset_row(row);
        const Reset reset_titles(titles);
        if (!row.bind(settings[place]).step()) {
            all_are_known = false;
            continue;
        }
        records[place] = record_in(row);
        said.put_into(records[place]);
        titles.bind(settings[place]);
        while (titles.step()) records[place].titles.emplace_back(titles.text(0));
        of_tunes.put_into(records[place]);
    }
    if (!all_are_known)
        std::erase_if(records, [](const tune::TuneRecord& record) { return record.setting.value == 0; });
    return records;
}

}  // namespace library
