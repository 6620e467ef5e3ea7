#include "report/pages/listing.h"

#include <algorithm>

#include "report/words/json.h"
#include "report/words/words.h"

namespace report {

namespace {

constexpr std::int64_t kMany = 40;         // tunes; from there on how to ask for fewer is told. Source: house choice
constexpr std::size_t kMostFamilies = 12;  // named below a listing. Source: house choice: a line or two

Cell text_or_nothing(const std::optional<std::string>& text) { return text ? Cell(*text) : Cell(); }

Cell list_or_nothing(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : "; ") + word;
    return text.empty() ? Cell() : Cell(text);
}

// The likeliest key, marked where the notes do not decide.
std::string marked_key(const tune::TuneRecord& record) {
    if (!record.key) return "-";
    return music::to_string(*record.key) + (record.key_decided ? "" : " ?");
}

// `bar 5`, `start, 1 off`, `part at bar 9, up 2`.
Cell heard_in_words(const answers::TunesAnswer& listing, const tune::TuneRecord& record) {
    const auto at = listing.heard.find(record.setting);
    if (at == listing.heard.end()) return {};
    const answers::HeardAt& heard = at->second;
    std::string words = heard.begins == "tune" ? "start"
                        : heard.bar == 0
                            ? "pick-up"
                            : (heard.begins == "part" ? "part at bar " : "bar ") + std::to_string(heard.bar);
    if (heard.errors > 0) words += ", " + std::to_string(heard.errors) + " off";
    if (heard.semitones != 0)
        words += heard.semitones > 0 ? ", up " + std::to_string(heard.semitones)
                                     : ", down " + std::to_string(-heard.semitones);
    return words;
}

// `In several settings: 12 (2), 59 (3).` Empty where there are none, or where each is listed for itself.
std::string families_of(const answers::TunesAnswer& listing) {
    if (listing.by_setting) return {};
    std::string words;
    std::size_t named = 0, families = 0;
    for (const tune::TuneRecord& record : listing.rows) {
        if (record.settings < 2 || ++families > kMostFamilies) continue;
        words +=
            (++named == 1 ? "" : ", ") + std::to_string(record.id.value) + " (" + std::to_string(record.settings) + ")";
    }
    if (families == 0) return {};
    if (families > named) words += " and " + std::to_string(families - named) + " more";
    return "In several versions: " + words + "; --versions lists each.";
}

std::string summary_of(const answers::TunesAnswer& listing) {
    const std::string what = listing.by_setting ? "version" : "tune";
    std::string text = counted(listing.matched, what + " matches", what + "s match");
    const auto shown = static_cast<std::int64_t>(listing.rows.size());
    if (shown < listing.matched)
        text += " (" + std::to_string(shown) + (listing.is_screenful ? " shown; --all shows all)" : " shown, --limit)");
    text += "; " + std::to_string(listing.left_out) + " left out";
    std::string reasons;
    for (const answers::Sieve& sieve : listing.why)
        if (sieve.fails > 0)
            reasons += (reasons.empty() ? " (" : ", ") + std::to_string(sieve.fails) +
                       (sieve.filter == "reach" ? " by what the instrument has" : " by --" + std::string(sieve.filter));
    const auto filters_that_fail = std::count_if(listing.why.begin(), listing.why.end(),
                                                 [](const answers::Sieve& sieve) { return sieve.fails > 0; });
    if (!reasons.empty()) reasons += filters_that_fail > 1 ? ", some by several)" : ")";
    text += reasons + ".";
    if (listing.open_keys > 0)
        text += " Of these, " + counted(listing.open_keys, "has", "have") +
                " that key among the candidates; the notes leave it open.";
    if (listing.gone > 0)
        text += " " + counted(listing.gone, what + " is", what + "s are") + " kept aside because the file is gone.";
    return text;
}

}  // namespace

Document describe(const answers::TunesAnswer& listing) {
    Document document;
    document.blocks.emplace_back(Title{"Tunes", true});
    const auto lacks = [&](const tune::TuneRecord& record) {
        return listing.have && !record.needed.is_within(*listing.have);
    };
    const bool any_lacks = std::any_of(listing.rows.begin(), listing.rows.end(), lacks);
    Table table;
    const bool is_by_ear = !listing.heard.empty();  // where the phrase is found then stands where range and notes do
    table.columns = {{"id"}, {"title", Fit::cut, 16}, {"rhythm"}, {"meter"}, {"key"}};
    if (!is_by_ear) {
        table.columns.push_back({"range"});
        table.columns.push_back({"notes"});
    }
    if (any_lacks) table.columns.push_back({"missing", Fit::wrapped, 8});
    if (listing.by_setting) {
        table.columns.front().title = "own id";
        table.columns.push_back({"from"});
    }
    if (is_by_ear) table.columns.push_back({"heard", Fit::wrapped, 12});
    bool any_open = false, any_guessed = false;
    for (const tune::TuneRecord& record : listing.rows) {
        const int fifths = tune::spelling_fifths(record);
        auto& row = table.rows.emplace_back();
        row = {Cell(listing.by_setting ? record.own.value : record.id.value),
               Cell(answers::title_beside_rhythm(record)),
               record.rhythm ? Cell(marked_rhythm(record.rhythm->value, is_rhythm_guessed(record))) : Cell(),
               Cell(record.meter), Cell(marked_key(record))};
        if (!is_by_ear) {
            row.emplace_back(range_of(record.needed, fifths));
            row.emplace_back(std::int64_t{record.needed.size()});
        }
        if (any_lacks) row.emplace_back(Notes{record.needed.without(*listing.have), fifths});
        if (listing.by_setting) row.emplace_back(record.file + ":" + std::to_string(record.line));
        if (is_by_ear) row.push_back(heard_in_words(listing, record));
        any_open = any_open || (record.key && !record.key_decided);
        any_guessed = any_guessed || is_rhythm_guessed(record);
    }
    if (!table.rows.empty()) document.blocks.emplace_back(std::move(table));
    document.blocks.emplace_back(Paragraph{summary_of(listing)});
    if (const std::string families = families_of(listing); !families.empty())
        document.blocks.emplace_back(Paragraph{families});
    if (!listing.heard.empty() && !listing.rows.empty())
        document.blocks.emplace_back(
            Paragraph{"heard: where the phrase begins, how many of its notes differ, and how many semitones the tune "
                      "lies above or below it."});
    if (any_open)
        document.blocks.emplace_back(
            Paragraph{"? the notes leave the mode or the home note open; gamut tune TUNE names the candidates."});
    if (any_guessed) document.blocks.emplace_back(Paragraph{kRhythmGuessed});
    if (listing.matched > kMany && listing.why.empty() && listing.heard.empty())
        document.blocks.emplace_back(Hint{
            "Fewer: --fits NOTES, --for PLAYER, --rhythm jig, --title WORD and other filters (gamut tunes --help)."});
    return document;
}

Document tabulate(const answers::TunesAnswer& listing) {
    Table table;
    for (const char* title : {"id",
                              "title",
                              "file",
                              "number",
                              "line",
                              "rhythm",
                              "rhythm_basis",
                              "meter",
                              "key_stated",
                              "tonic",
                              "mode",
                              "key_candidates",
                              "key_decided",
                              "lowest",
                              "highest",
                              "semitones",
                              "notes",
                              "ornaments",
                              "note_count",
                              "first_note",
                              "last_note",
                              "bars",
                              "different_bars",
                              "missing",
                              "tags",
                              "count",
                              "own_id",
                              "setting_count",
                              "rhythm_possible",
                              "form",
                              "part_keys",
                              "largest_leap",
                              "heard_bar",
                              "heard_begins",
                              "heard_off",
                              "heard_semitones",
                              "key_basis"})
        table.columns.push_back({title});
    for (const tune::TuneRecord& record : listing.rows) {
        const int fifths = tune::spelling_fifths(record);
        const bool has_notes = !record.needed.empty();
        std::string candidates;
        for (const music::Key& key : record.key_candidates)
            candidates += (candidates.empty() ? "" : "; ") + music::to_string(key);
        std::vector<std::string> part_keys;
        for (const music::Key& key : record.part_keys) part_keys.push_back(music::to_string(key));
        std::string tags;
        for (const std::string& tag : record.tags) tags += (tags.empty() ? "" : "; ") + tag;
        table.rows.push_back({Cell(record.id.value),
                              record.titles.empty() ? Cell() : Cell(record.titles.front()),
                              Cell(record.file),
                              text_or_nothing(record.number),
                              Cell(std::int64_t{record.line}),
                              record.rhythm ? Cell(record.rhythm->value) : Cell(),
                              record.rhythm ? Cell(std::string(tune::basis_token(record.rhythm->basis))) : Cell(),
                              Cell(record.meter),
                              Cell(record.key_stated),
                              record.key ? Cell(music::to_string(record.key->tonic)) : Cell(),
                              record.key ? Cell(std::string(music::mode_token(record.key->mode))) : Cell(),
                              Cell(candidates),
                              Cell(std::string(record.key_decided ? "yes" : "no")),
                              has_notes ? Cell(note_or_dash(record.needed.lowest(), fifths)) : Cell(),
                              has_notes ? Cell(note_or_dash(record.needed.highest(), fifths)) : Cell(),
                              has_notes ? Cell(std::int64_t{record.needed.highest() - record.needed.lowest()}) : Cell(),
                              has_notes ? Cell(Notes{record.needed, fifths}) : Cell(),
                              record.ornaments.empty() ? Cell() : Cell(Notes{record.ornaments, fifths}),
                              Cell(std::int64_t{record.note_count}),
                              record.first_note ? Cell(note_or_dash(record.first_note, fifths)) : Cell(),
                              record.last_note ? Cell(note_or_dash(record.last_note, fifths)) : Cell(),
                              Cell(std::int64_t{record.bars}),
                              Cell(std::int64_t{record.different_bars}),
                              listing.have && !record.needed.is_within(*listing.have)
                                  ? Cell(Notes{record.needed.without(*listing.have), fifths})
                                  : Cell(),
                              record.tags.empty() ? Cell() : Cell(tags),
                              record.count ? Cell(*record.count) : Cell(),
                              record.own.value > 0 ? Cell(record.own.value) : Cell(),
                              record.own.value > 0 ? Cell(std::int64_t{record.settings}) : Cell(),
                              list_or_nothing(record.rhythm_possible),
                              record.form.empty() ? Cell() : Cell(record.form),
                              list_or_nothing(part_keys),
                              record.largest_leap ? Cell(std::int64_t{*record.largest_leap}) : Cell()});
        const auto heard = listing.heard.find(record.setting);
        const bool is_heard = heard != listing.heard.end();
        auto& row = table.rows.back();
        row.push_back(is_heard ? Cell(std::int64_t{heard->second.bar}) : Cell());
        row.push_back(is_heard ? Cell(std::string(heard->second.begins)) : Cell());
        row.push_back(is_heard ? Cell(std::int64_t{heard->second.errors}) : Cell());
        row.push_back(is_heard ? Cell(std::int64_t{heard->second.semitones}) : Cell());
        row.push_back(record.key ? Cell(std::string(tune::basis_token(record.key_basis))) : Cell());
    }
    return {{std::move(table)}};
}

std::string as_json(const answers::TunesAnswer& listing) {
    Json json;
    json["version"] = 1;
    json["tunes"] = Json::array();
    for (const tune::TuneRecord& record : listing.rows) {
        Json row = row_json(record, listing.have);
        if (const auto heard = listing.heard.find(record.setting); heard != listing.heard.end())
            row["heard"] = {{"bar", heard->second.bar},
                            {"begins", heard->second.begins},
                            {"off", heard->second.errors},
                            {"semitones", heard->second.semitones}};
        json["tunes"].push_back(std::move(row));
    }
    json["matched"] = listing.matched;
    json["left_out"] = listing.left_out;
    json["shown"] = listing.rows.size();
    json["gone"] = listing.gone;
    json["open_keys"] = listing.open_keys;
    json["why"] = Json::array();
    for (const answers::Sieve& sieve : listing.why)
        json["why"].push_back({{"filter", sieve.filter}, {"fails", sieve.fails}});
    return finish(json);
}

}  // namespace report
