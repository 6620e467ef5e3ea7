// What asks for notes is decided here on bit sets, what asks for words by SQLite in the same pass. Judging every
// setting by every filter, rather than letting an index find the few that match, is what makes it possible to say why
// the others were left out. Tested by tunes_that_test.cc against a slow filter over records.
#include "library/sieve.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <utility>

#include "base/failure.h"
#include "base/utf8.h"
#include "library/said_kinds.h"
#include "library/statement.h"
#include "library/tallying.h"
#include "music/pitch.h"
#include "tune/tag.h"
#include "tune/title.h"

namespace library {

namespace {

// In the order of Selection.
constexpr std::array<std::string_view, 18> kFilters{"fits",  "missing", "uses",      "avoids",  "rhythm", "meter",
                                                    "tonic", "mode",    "starts-on", "ends-on", "span",   "octave",
                                                    "title", "file",    "tag",       "state",   "goes",   "scraps"};
enum Filter : std::uint32_t {
    fits,
    missing,
    uses,
    avoids,
    rhythm,
    meter,
    tonic,
    mode,
    starts_on,
    ends_on,
    span,
    octave,
    title,
    file,
    tag,
    state,
    goes,
    scraps
};

constexpr std::uint32_t bit(Filter filter) { return std::uint32_t{1} << filter; }

// `failed` with the bit of a filter as it is to be.
constexpr std::uint32_t with(Filter filter, bool fails, std::uint32_t failed) {
    return fails ? failed | bit(filter) : failed & ~bit(filter);
}

std::uint32_t filters_given(const Selection& s) {
    std::uint32_t given = 0;
    const auto note = [&](Filter filter, bool is_given) { given |= is_given ? bit(filter) : 0; };
    note(fits, s.fits.has_value());
    note(missing, s.missing.has_value());
    note(uses, !s.uses.empty());
    note(avoids, s.avoids.has_value());
    note(rhythm, s.rhythm.has_value());
    note(meter, s.meter.has_value());
    note(tonic, s.tonic.has_value());
    note(mode, s.mode.has_value());
    note(starts_on, s.starts_on.has_value());
    note(ends_on, s.ends_on.has_value());
    note(span, s.span.has_value());
    note(octave, s.octave.has_value());
    note(title, s.title.has_value());
    note(file, s.file.has_value());
    note(tag, s.tag.has_value());
    note(state, s.state.has_value());
    note(goes, s.goes.has_value());
    note(scraps, !s.scraps);
    return given;
}

// Each word as the beginning of a word; quoted, so that no word is taken for an operator. Empty when there is no word.
std::string words_to_match(const std::string& title) {
    const std::string folded = tune::fold_title(title);
    std::string match;
    for (std::size_t at = 0; at < folded.size();) {
        const std::size_t end = std::min(folded.find(' ', at), folded.size());
        if (end > at) match += (match.empty() ? "\"" : " \"") + folded.substr(at, end - at) + "\"*";
        at = end + 1;
    }
    return match;
}

std::vector<bool> files_named(const Database& database, const std::string& part) {
    const std::string folded = base::fold(part);
    std::vector<bool> named;
    Statement rows(database, "SELECT id, shown FROM file ORDER BY id");
    while (rows.step()) {
        const std::size_t id = place_of(database, rows.number(0));
        named.resize(id + 1, false);
        named[id] = base::fold(rows.text(1)).find(folded) != std::string::npos;
    }
    return named;
}

// By tune id, as far as the last one that has it.
std::vector<bool> tunes_tagged(const Database& database, const std::string& written) {
    const std::string folded = tune::fold_tag(written);
    std::vector<bool> tagged;
    Statement rows(database,
                   "SELECT DISTINCT coalesce(t.family_id, t.id) FROM tune_tag g JOIN tune t ON t.id = g.tune_id"
                   " WHERE g.tag_id = (SELECT id FROM tag WHERE folded = ?1) ORDER BY 1");
    rows.bind(folded);
    while (rows.step()) {
        const std::size_t id = place_of(database, rows.number(0));
        tagged.resize(id + 1, false);
        tagged[id] = true;
    }
    return tagged;
}

// By tune id, as far as the last that is named.
std::vector<bool> tunes_named(const TuneChoice& choice) {
    std::vector<bool> named;
    for (const tune::TuneId tune : choice.tunes) {
        const auto id = static_cast<std::size_t>(tune.value);
        if (id >= named.size()) named.resize(id + 1, false);
        named[id] = true;
    }
    return named;
}

// By setting id, as far as the last: its place in `found`, from 1.
std::vector<std::uint32_t> ranks_of(const std::vector<tune::SettingId>& found) {
    std::vector<std::uint32_t> ranks;
    std::uint32_t rank = 0;
    for (const tune::SettingId setting : found) {
        const auto id = static_cast<std::size_t>(setting.value);
        if (id >= ranks.size()) ranks.resize(id + 1, 0);
        ranks[id] = ++rank;
    }
    return ranks;
}

std::uint32_t failed_by_notes(const Selection& s, const music::NoteSet& needed) {
    std::uint32_t failed = 0;
    if (s.fits && !needed.is_within(*s.fits)) failed |= bit(fits);
    if (s.missing && needed.without(s.missing->have).size() > s.missing->at_most) failed |= bit(missing);
    for (const music::NoteSet& alternatives : s.uses)
        if ((needed & alternatives).empty()) failed |= bit(uses);
    if (s.avoids && !(needed & *s.avoids).empty()) failed |= bit(avoids);
    const int semitones = needed.empty() ? -1 : needed.highest() - needed.lowest();
    if (s.span && (semitones < 0 || semitones > *s.span)) failed |= bit(span);
    if (s.octave == OctaveRange::any && (semitones < 0 || semitones > 12)) failed |= bit(octave);
    return failed;
}

// `tonic_name` is empty where no key was found.
std::uint32_t failed_by_tonic(const Selection& s, const music::NoteSet& needed, std::string_view tonic_name) {
    const auto name = music::parse_note_name(tonic_name);
    const bool is_home_octave = name && !needed.empty() && needed.lowest() % 12 == name->pitch_class() &&
                                needed.highest() - needed.lowest() == 12;
    std::uint32_t failed = 0;
    if (s.tonic && !(name && name->pitch_class() == *s.tonic)) failed |= bit(tonic);
    if (s.octave == OctaveRange::home && !is_home_octave) failed |= bit(octave);
    return failed;
}

// Whether a candidate of `A dorian,A minor` is what was asked for.
bool has_candidate(const Selection& s, std::string_view candidates) {
    while (!candidates.empty()) {
        const std::string_view one = candidates.substr(0, candidates.find(','));
        candidates.remove_prefix(std::min(one.size() + 1, candidates.size()));
        const auto key = music::parse_stated_key(one);
        if (key && (!s.tonic || key->key.tonic.pitch_class() == *s.tonic) && (!s.mode || key->key.mode == *s.mode))
            return true;
    }
    return false;
}

// Columns of the pass beyond the first four; what no filter looks at is not fetched.
struct Columns {
    std::string sql;
    int next = 4;

    int add(bool is_needed, std::string_view column) {
        if (!is_needed) return 0;
        sql += ", " + std::string(column);
        return next++;
    }
};

// The bits of the filters on words, worked out by SQLite.
std::string failed_by_words(std::uint32_t given) {
    std::string sum = "0";
    const auto add = [&](Filter filter, std::string_view test) {
        if ((given & bit(filter)) != 0) sum += " | ((" + std::string(test) + ") << " + std::to_string(filter) + ")";
    };
    add(rhythm, "s.rhythm IS NOT ?1");
    add(meter, "s.meter IS NOT ?2");
    add(scraps, "s.scrap IS NOT NULL");
    add(mode, "s.mode IS NOT ?3");
    add(title, "s.id NOT IN (SELECT rowid FROM title_search WHERE title_search MATCH ?4)");
    return sum;
}

std::int64_t count_gone(const Database& database, bool settings) {
    if (settings) return database.number("SELECT count(*) FROM setting WHERE gone = 1");
    return database.number(
        "SELECT count(*) FROM (SELECT DISTINCT g.tune_id FROM setting g WHERE g.gone = 1 AND NOT EXISTS"
        " (SELECT 1 FROM setting p WHERE p.tune_id = g.tune_id AND p.gone = 0))");
}

void judge_all(const Database& database, const Selection& s, std::uint32_t given, Tallying& tallying) {
    const std::vector<music::NoteSet> note_sets = note_sets_by_id(database);
    const std::vector<bool> files = s.file ? files_named(database, *s.file) : std::vector<bool>();
    const std::vector<bool> tagged = s.tag ? tunes_tagged(database, *s.tag) : std::vector<bool>();
    const std::vector<bool> in_state = s.state ? tunes_named(*s.state) : std::vector<bool>();
    const std::vector<std::uint32_t> ranks = s.goes ? ranks_of(*s.goes) : std::vector<std::uint32_t>();
    const std::string rhythm_token = s.rhythm ? base::fold(*s.rhythm) : "";
    const SaidKinds said(database);
    const std::string words = s.title ? words_to_match(*s.title) : "";
    if (words.empty()) given &= ~bit(title);  // a title without a letter is in every title

    Columns columns;
    const bool asks_tonic = s.tonic || s.octave == OctaveRange::home;
    const int ornaments_column = columns.add(s.ornaments, "s.ornaments_id");
    const int file_column = columns.add(s.file.has_value(), "s.file_id");
    const int first_column = columns.add(s.starts_on.has_value(), "s.first_note");
    const int last_column = columns.add(s.ends_on.has_value(), "s.last_note");
    const int tonic_column = columns.add(asks_tonic, "s.tonic");
    const int candidates_column = columns.add(s.tonic || s.mode, "s.key_candidates");
    Statement rows(database, "SELECT s.tune_id, s.id, s.needed_id, " + failed_by_words(given) + columns.sql +
                                 " FROM setting s WHERE s.gone = 0 ORDER BY s.tune_id, s.id");
    if (s.rhythm) rows.bind_one(1, rhythm_token);
    if (s.meter) rows.bind_one(2, *s.meter);
    if (s.mode) rows.bind_one(3, music::mode_token(*s.mode));
    if (!words.empty()) rows.bind_one(4, words);

    const auto at = [&](int column) { return static_cast<std::size_t>(rows.number(column)); };
    const auto is_one_of = [&](const music::NoteSet& notes, int column) {
        return !rows.is_null(column) && notes.has(rows.small_number(column));
    };
    while (rows.step()) {
        Sifted row;
        row.tune = rows.number(0);
        row.setting = rows.number(1);
        row.failed = static_cast<std::uint32_t>(rows.number(3));
        row.needed = note_sets[place_among(database, rows.number(2), note_sets.size())];
        if (s.ornaments)
            row.needed = row.needed | note_sets[place_among(database, rows.number(ornaments_column), note_sets.size())];
        row.failed |= failed_by_notes(s, row.needed);
        if (s.nearest_to) row.lacking = row.needed.without(*s.nearest_to).size();
        if (s.file && !files[place_among(database, rows.number(file_column), files.size())]) row.failed |= bit(file);
        if (s.tag && (at(0) >= tagged.size() || !tagged[at(0)])) row.failed |= bit(tag);
        if (s.state && (at(0) < in_state.size() && in_state[at(0)]) == s.state->is_left_out) row.failed |= bit(state);
        if (s.goes) {
            row.rank = at(1) < ranks.size() ? ranks[at(1)] : 0;
            if (row.rank == 0) row.failed |= bit(goes);
        }
        if (s.starts_on && !is_one_of(*s.starts_on, first_column)) row.failed |= bit(starts_on);
        if (s.ends_on && !is_one_of(*s.ends_on, last_column)) row.failed |= bit(ends_on);
        const SaidKind* words_said = said.of(row.setting);
        if (words_said != nullptr && words_said->rhythm && s.rhythm)
            row.failed = with(rhythm, *words_said->rhythm != rhythm_token, row.failed);
        const std::optional<music::Key> key_said = words_said != nullptr ? words_said->key : std::nullopt;
        if (key_said && s.mode) row.failed = with(mode, key_said->mode != *s.mode, row.failed);
        if (asks_tonic)
            row.failed |= failed_by_tonic(
                s, row.needed, key_said ? music::to_string(key_said->tonic) : std::string(rows.text(tonic_column)));
        constexpr std::uint32_t kOfKey = bit(tonic) | bit(mode);
        row.is_open_key = !key_said && row.failed != 0 && (row.failed & ~kOfKey) == 0 &&
                          has_candidate(s, rows.text(candidates_column));
        tallying.take(row);
    }
}

}  // namespace

std::size_t place_of(const Database& database, std::int64_t id) {
    // More rows than that are in no library. Source: house choice.
    constexpr std::int64_t kMostRows = 100'000'000;
    if (id < 0 || id > kMostRows)
        throw base::Failure("read", database.file(),
                            "it is damaged (a row has an impossible id); gamut library check"
                            " tells more");
    return static_cast<std::size_t>(id);
}

std::size_t place_among(const Database& database, std::int64_t id, std::size_t held) {
    const std::size_t place = place_of(database, id);
    if (place >= held)
        throw base::Failure("read", database.file(),
                            "it is damaged (a row points nowhere); gamut library check tells"
                            " more");
    return place;
}

std::vector<music::NoteSet> note_sets_by_id(const Database& database) {
    std::vector<music::NoteSet> sets;
    Statement rows(database, "SELECT id, low, high FROM note_set ORDER BY id");
    while (rows.step()) {
        const std::size_t id = place_of(database, rows.number(0));
        sets.resize(id + 1);
        sets[id] = {static_cast<std::uint64_t>(rows.number(1)), static_cast<std::uint64_t>(rows.number(2))};
    }
    return sets;
}

Sifting sift(const Database& database, const Selection& s) {
    const std::uint32_t given = filters_given(s);
    Tallying tallying(kFilters, given, s.settings);
    judge_all(database, s, given, tallying);
    Sifting sifting = tallying.finish();
    sifting.tally.gone = count_gone(database, s.settings);
    return sifting;
}

}  // namespace library
