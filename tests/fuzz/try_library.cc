// A library of a few tunes, with something of all that can be said of them, is made once; every run asks a copy of it.
// Bytes that begin with `!` are the library themselves. Else they say what to change in the copy, a line for each:
//     @ OFFSET HEX               bytes of the file
//     TABLE COLUMN ROW VALUE     a value; all three by their places from 0; iNUMBER, rNUMBER, tTEXT, bHEX, or nothing
// Numbers wrap round, so that any will do, and other lines are passed over.
#include <sqlite3.h>

#include <algorithm>
#include <charconv>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <memory>
#include <vector>

#include "base/date.h"
#include "base/failure.h"
#include "base/file_bytes.h"
#include "base/invariant.h"
#include "importer/import.h"
#include "library/holdings.h"
#include "library/library.h"
#include "library/marks.h"
#include "library/players.h"
#include "library/salvage.h"
#include "library/syllabi.h"
#include "library/verdicts.h"
#include "support/scratch.h"
#include "syllabus/stored_syllabus.h"
#include "targets.h"
#include "tune/tag.h"

namespace fuzz {

namespace {

namespace fs = std::filesystem;

using Sqlite = std::unique_ptr<sqlite3, decltype(&sqlite3_close)>;
using Row = std::unique_ptr<sqlite3_stmt, decltype(&sqlite3_finalize)>;

constexpr std::string_view kTunes =
    "X:1\nT:The Leaking Rowlock\nR:reel\nM:4/4\nL:1/8\nK:D\nD2FA d2cB|A2FE D2EF|G2BG F2AF|E2=c^A E4:|\n\n"
    "X:2\nT:Rowlock, The\nR:jig\nM:6/8\nL:1/8\nK:G\nGAB d2B|{c}ded BAG|GAB d2g|e3 d3|BAG A2B|G3 G3|]\n\n"
    "X:3\nT:The Leaking Rowlock\nM:4/4\nL:1/8\nK:D\nD2FA d2cB|A2FE D2EF|G2BG F2AF|E2=c^A E4:|\n\n"
    "X:4\nT:Lamp on the Landing\nK:Am\n(3ABc !odd! [\n";

Sqlite opened(const fs::path& file) {
    sqlite3* handle = nullptr;
    sqlite3_open_v2(file.c_str(), &handle, SQLITE_OPEN_READWRITE, nullptr);
    return {handle, sqlite3_close};
}

Row prepared(const Sqlite& database, const std::string& sql) {
    sqlite3_stmt* statement = nullptr;
    sqlite3_prepare_v2(database.get(), sql.c_str(), -1, &statement, nullptr);
    return {statement, sqlite3_finalize};
}

std::vector<std::string> texts(const Sqlite& database, const std::string& sql) {
    std::vector<std::string> found;
    const Row row = prepared(database, sql);
    while (row && sqlite3_step(row.get()) == SQLITE_ROW)
        if (const auto* text = sqlite3_column_text(row.get(), 0))
            found.emplace_back(reinterpret_cast<const char*>(text));
    return found;
}

void say_everything(const fs::path& file) {
    const base::Date day = base::read_date("2026-12-01");
    library::Players players = library::Players::change(file);
    music::NoteSet notes;
    notes.add(62);
    const auto ina = players.add({{}, tune::read_player_name("Ina"), "whistle-d", notes});
    const auto uli = players.add({{}, tune::read_player_name("Uli"), std::nullopt, std::nullopt});
    INVARIANT(ina && uli);
    players.record(*ina, {1}, {day, tune::PlayerEvent::known});
    players.record(*ina, {1}, {day, tune::PlayerEvent::played});
    players.record(*uli, {2}, {day, tune::PlayerEvent::learning});
    players.wish(*uli, {1}, true);
    players.exclude(*uli, {4}, "too fast");
    players.commit();
    library::Marks marks = library::Marks::change(file);
    marks.add_tag({1}, tune::read_tag("for the lock"));
    marks.set_count({2}, 7);
    marks.set_rhythm({4}, "air");
    marks.set_key({2}, music::Key{});
    marks.commit();
    library::say_same(file, {1}, {2}, false);
    syllabus::Syllabus term;
    term.name = "Tuesdays";
    term.planned_on = day;
    term.lessons.push_back({day, syllabus::LessonState::taught, false, {}, {}, {}});
    INVARIANT(library::keep_syllabus(file, {"tuesdays", "Tuesdays", syllabus::write_stored(term)}, std::nullopt));
}

struct Seed {
    support::Scratch scratch;  // where every copy comes to lie
    fs::path tunes, copy;
    std::string bytes;

    Seed() : tunes(scratch.write("tunes/lock.abc", kTunes)), copy(scratch / "copy/library.db") {
        const fs::path file = scratch / "library.db";
        importer::ImportOptions options;
        options.workers = 1;
        importer::import_paths({tunes}, file, options);
        say_everything(file);
        // Small pages, so that a change of a byte more often touches something.
        sqlite3_exec(opened(file).get(), "PRAGMA journal_mode = DELETE; PRAGMA page_size = 512; VACUUM", nullptr,
                     nullptr, nullptr);
        bytes = base::read_bytes(file);
        fs::create_directories(copy.parent_path());
    }

    void put(const std::string& written) const {
        for (const auto& entry : fs::directory_iterator(copy.parent_path())) fs::remove_all(entry.path());
        std::ofstream(copy, std::ios::binary) << written;
    }
};

const Seed& seed() {
    static const Seed made;
    return made;
}

std::string_view taken_word(std::string_view& rest) {
    const std::size_t end = std::min(rest.find(' '), rest.size());
    const std::string_view word = rest.substr(0, end);
    rest.remove_prefix(std::min(end + 1, rest.size()));
    return word;
}

std::int64_t number_in(std::string_view word) {
    std::int64_t number = 0;
    std::from_chars(word.data(), word.data() + word.size(), number);
    return number;
}

std::size_t place_in(std::string_view word, std::size_t size) {
    return static_cast<std::size_t>(static_cast<std::uint64_t>(number_in(word)) % size);
}

std::string from_hex(std::string_view digits) {
    std::string bytes;
    for (std::size_t at = 0; at + 2 <= digits.size(); at += 2) {
        unsigned byte = 0;
        std::from_chars(digits.data() + at, digits.data() + at + 2, byte, 16);
        bytes += static_cast<char>(byte);
    }
    return bytes;
}

void bind(const Row& change, std::string_view value) {
    const std::string_view rest = value.substr(std::min<std::size_t>(1, value.size()));
    const std::string text = value.starts_with('b') ? from_hex(rest) : std::string(rest);
    const int size = static_cast<int>(text.size());
    if (value.starts_with('i'))
        sqlite3_bind_int64(change.get(), 1, number_in(rest));
    else if (value.starts_with('r'))
        sqlite3_bind_double(change.get(), 1, std::strtod(text.c_str(), nullptr));
    else if (value.starts_with('t'))
        sqlite3_bind_text(change.get(), 1, text.data(), size, SQLITE_TRANSIENT);
    else if (value.starts_with('b'))
        sqlite3_bind_blob(change.get(), 1, text.data(), size, SQLITE_TRANSIENT);
}

// Whatever the tables would refuse: a row can rot.
void change_value(const Sqlite& database, std::string_view line) {
    const std::vector<std::string> tables = texts(
        database, "SELECT name FROM sqlite_schema WHERE type = 'table' AND sql LIKE 'CREATE TABLE%' ORDER BY name");
    if (tables.empty()) return;
    const std::string& table = tables[place_in(taken_word(line), tables.size())];
    const std::vector<std::string> columns = texts(database, "SELECT name FROM pragma_table_info('" + table + "')");
    if (columns.empty()) return;
    const std::string& column = columns[place_in(taken_word(line), columns.size())];
    const auto rows = texts(database, "SELECT count(*) FROM \"" + table + "\"");
    const auto count = rows.empty() ? 0 : static_cast<std::size_t>(number_in(rows.front()));
    if (count == 0) return;
    const std::size_t row = place_in(taken_word(line), count);
    const Row change =
        prepared(database, "UPDATE \"" + table + "\" SET \"" + column + "\" = ?1 WHERE rowid = (SELECT rowid FROM \"" +
                               table + "\" ORDER BY rowid LIMIT 1 OFFSET " + std::to_string(row) + ")");
    if (!change) return;
    bind(change, line);
    sqlite3_step(change.get());
}

void change_values(const std::vector<std::string_view>& lines) {
    if (lines.empty()) return;
    const Sqlite database = opened(seed().copy);
    sqlite3_db_config(database.get(), SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, nullptr);
    sqlite3_exec(database.get(),
                 "PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON; PRAGMA synchronous = OFF; BEGIN",
                 nullptr, nullptr, nullptr);
    for (const std::string_view line : lines) change_value(database, line);
    sqlite3_exec(database.get(), "COMMIT", nullptr, nullptr, nullptr);
}

void lay_out_copy(std::string_view bytes) {
    if (bytes.starts_with('!')) return seed().put(std::string(bytes.substr(1)));
    std::string file = seed().bytes;
    std::vector<std::string_view> values;
    for (std::size_t at = 0; at < bytes.size();) {
        const std::size_t end = std::min(bytes.find('\n', at), bytes.size());
        std::string_view line = bytes.substr(at, end - at);
        at = end + 1;
        if (!line.starts_with("@ ")) {
            if (!line.empty()) values.push_back(line);
            continue;
        }
        line.remove_prefix(2);
        const std::size_t offset = place_in(taken_word(line), file.size());
        const std::string written = from_hex(line);
        file.replace(offset, std::min(written.size(), file.size() - offset), written);
    }
    seed().put(file);
    change_values(values);
}

// An answer or a sentence: anything else ends the run.
template <class Ask>
void asked(const Ask& ask) {
    try {
        ask();
    } catch (const base::Failure& failure) {
        INVARIANT(!std::string_view(failure.what()).empty());
    }
}

void ask_all(const fs::path& file) {
    std::unique_ptr<library::Library> opened;
    asked([&] { opened = std::make_unique<library::Library>(library::Library::open_existing(file)); });
    if (!opened) return;
    const library::Library& library = *opened;
    collection::Selection selection;
    asked([&] { library.select_tunes(selection); });
    selection.title = "row";
    selection.rhythm = "reel";
    selection.settings = true;
    selection.scraps = false;
    selection.tag = "for the lock";
    selection.span = 24;
    selection.sort = collection::Sort::key;
    asked([&] { library.select_tunes(selection); });
    asked([&] { library.select_notes({}); });
    asked([&] { library.tunes_titled("leaking rowlock"); });
    asked([&] { library.settings_titled("rowlock"); });
    asked([&] { library.titled_tunes(); });
    asked([&] { library.marks(); });
    asked([&] { library.setting_kinds(); });
    asked([&] { library.scraps(); });
    asked([&] { library.oddities(); });
    asked([&] { library.verdicts(); });
    asked([&] { library.counts(); });
    asked([&] { library.diagnostics(); });
    asked(
        [&] { library.visit_outlines([](const collection::StoredOutline& one) { tune::decode_outline(one.bytes); }); });
    for (const std::int64_t id : {1, 2, 3, 4}) {
        const std::vector<tune::SettingId> setting{{id}};
        asked([&] { library.tune_by_id({id}); });
        asked([&] { library.settings_of({id}); });
        asked([&] { library.setting_of_own({id}); });
        asked([&] { library.first_titles(setting); });
        asked([&] { library.own_ids(setting); });
        asked([&] { library.outline_of({id}); });
        asked([&] { library.abc_of({id}); });
        asked([&] { library.history_of({id}); });
    }
    asked([&] { library.player_named("ina"); });
    asked([&] { library.players(); });
}

void read_term(const std::string& text) { syllabus::read_stored(text); }

void look_after(const fs::path& file) {
    asked([&] { library::holdings_of(file); });
    asked([&] { library::look_through(file, read_term); });
    asked([&] { library::kept_syllabi(file); });
    asked([&] {
        library::Players players = library::Players::change(file);
        if (const auto ina = players.named(tune::read_player_name("Ina"))) {
            players.said_of(ina->id, {1});
            players.record(ina->id, {2}, {base::read_date("2026-12-08"), tune::PlayerEvent::played});
            players.commit();
        }
    });
    asked([&] {
        library::Players players = library::Players::change(file);
        if (const auto uli = players.named(tune::read_player_name("Uli"))) players.take_back(uli->id);
        players.commit();
    });
    asked([&] {
        library::Marks marks = library::Marks::change(file);
        marks.add_tag({2}, tune::read_tag("at the lock"));
        marks.commit();
    });
    asked([&] { library::say_same(file, {2}, {3}, true); });
}

// What is left is a library that opens; and a folder can be imported into whatever opens.
void mend(const fs::path& file) {
    const fs::path saved = file.parent_path() / "saved.db";
    asked([&] {
        library::salvage(file, saved);
        library::Library::open_existing(saved);
    });
    asked([&] {
        importer::ImportOptions options;
        options.workers = 1;
        importer::import_paths({seed().tunes}, file, options);
    });
}

}  // namespace

void try_library(const std::string& bytes) {
    lay_out_copy(bytes);
    ask_all(seed().copy);
    look_after(seed().copy);
    if (bytes.size() % 4 == 0) mend(seed().copy);  // it takes as long as all the rest
}

}  // namespace fuzz
