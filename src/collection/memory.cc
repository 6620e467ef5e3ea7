// Tested by both_test.cc against a library of the same tunes.
#include "collection/memory.h"

#include <algorithm>
#include <numeric>
#include <set>
#include <tuple>
#include <utility>

#include "collection/families.h"
#include "collection/sieve.h"
#include "collection/sort_order.h"
#include "tune/record_facts.h"
#include "tune/tag.h"
#include "tune/title.h"

namespace collection {

namespace {

// Sums of counts stay below what a number holds, as a library keeps them.
constexpr std::int64_t kMostTimes = 9'000'000'000'000'000'000;

std::optional<music::Key> stated_key(const StoredSetting& setting) {
    const auto stated = music::parse_stated_key(setting.key_in_force.value_or(setting.key_stated));
    if (!stated || stated->kind != music::StatedKey::Kind::tonic_and_mode) return std::nullopt;
    return stated->key;
}

std::optional<std::uint8_t> small(const std::optional<int>& midi) {
    return midi ? std::optional(static_cast<std::uint8_t>(*midi)) : std::nullopt;
}

// Values that are told apart by a key, each with its place.
template <typename Key, typename Value>
class Table {
public:
    explicit Table(std::vector<Value>& values) : values_(values) {}

    Sheet::Place place(const Key& key, const Value& value) {
        const auto [at, is_new] = places_.try_emplace(key, static_cast<Sheet::Place>(values_.size()));
        if (is_new) values_.push_back(value);
        return at->second;
    }

private:
    std::vector<Value>& values_;
    std::map<Key, Sheet::Place> places_;
};

std::string text_of(const std::vector<music::Key>& keys) {
    std::string text;
    for (const music::Key& key : keys) (text += music::to_string(key)) += ',';
    return text;
}

}  // namespace

void Memory::take(std::vector<StoredFile> files) {
    for (StoredFile& file : files) {
        std::vector<StoredSetting> settings = std::exchange(file.settings, {});
        for (StoredSetting& setting : settings) settings_.push_back({files_.size(), std::move(setting), {}});
        files_.push_back(std::move(file));
    }
    settle();
}

void Memory::keep(people::Kept kept) {
    kept_ = std::move(kept);
    settle();
}

void Memory::settle() {
    std::vector<LoneTune> tunes;
    for (std::size_t place = 0; place < settings_.size(); ++place) {
        const auto& melody_class = settings_[place].setting.facts.melody_class;
        tunes.push_back({own_of(place).value,
                         melody_class ? std::optional(static_cast<std::int64_t>(*melody_class)) : std::nullopt});
    }
    const std::vector<std::int64_t> heads = heads_of(tunes, verdicts());
    family_.clear();
    for (std::size_t place = 0; place < settings_.size(); ++place) {
        settings_[place].head = {heads[place]};
        family_[heads[place]].push_back(place);
    }

    std::map<std::int64_t, SaidOfFamily> families;
    const auto in_order = [](const auto& said) {
        std::vector<typename std::decay_t<decltype(said)>::const_iterator> all;
        for (auto one = said.begin(); one != said.end(); ++one) all.push_back(one);
        std::sort(all.begin(), all.end(), [](auto a, auto b) { return a->second.said < b->second.said; });
        return all;
    };
    for (const auto one : in_order(kept_.rhythms)) families[head_of({one->first}).value].rhythm = one->second.rhythm;
    for (const auto one : in_order(kept_.keys)) {
        SaidOfFamily& family = families[head_of({one->first}).value];
        family.key = one->second.key;
        family.key_of = {one->first};
    }
    said_ = {};
    for (const auto& [head, said] : families) {
        std::vector<FamilyMember> those;
        for (const std::size_t place : members({head})) {
            const StoredSetting& setting = settings_[place].setting;
            those.push_back({id_of(place), own_of(place), setting.facts.melody_class, setting.facts.first_note,
                             setting.facts.last_note, stated_key(setting)});
        }
        said_.add(said, those);
    }

    marks_.clear();
    tags_.clear();
    for (const auto& [tune, times] : kept_.counts) {
        TuneMark& mark = marks_[head_of({tune}).value];
        mark.count = std::min(kMostTimes - std::min(times, kMostTimes), mark.count.value_or(0)) + times;
    }
    std::map<std::int64_t, std::set<std::string>> folded;
    for (const auto& [tune, tag] : kept_.tunes_tagged) folded[head_of({tune}).value].insert(tag);
    for (const auto& [head, tags] : folded) {
        marks_[head].tags.assign(tags.begin(), tags.end());
        for (const std::string& tag : tags) tags_[head].push_back(kept_.tags.at(tag));
    }
    for (auto& [head, mark] : marks_) mark.id = {head};
    fill_sheet();
}

void Memory::fill_sheet() {
    Sheet& sheet = sheet_;
    sheet = {};
    Table<std::pair<std::uint64_t, std::uint64_t>, music::NoteSet> note_sets(sheet.note_sets);
    Table<std::string, std::vector<music::Key>> candidates(sheet.candidate_lists);
    Table<std::string, std::string> words(sheet.words);
    const auto word = [&](const std::string& text) { return words.place(text, text); };
    const auto notes = [&](const music::NoteSet& set) { return note_sets.place({set.low(), set.high()}, set); };
    for (const StoredFile& file : files_) sheet.file_names.push_back({file.shown, file.path});
    for (const auto& [head, places] : family_)
        for (const std::size_t place : places) {
            const StoredSetting& setting = settings_[place].setting;
            const tune::TuneRecord record = record_at(place);
            sheet.tunes.push_back({head});
            sheet.settings.push_back(id_of(place));
            sheet.needed.push_back(notes(record.needed));
            sheet.ornaments.push_back(notes(record.ornaments));
            sheet.first_notes.push_back(small(record.first_note));
            sheet.last_notes.push_back(small(record.last_note));
            sheet.keys.push_back(record.key);
            sheet.are_keys_said.push_back(record.key_basis == tune::Basis::said);
            sheet.candidates.push_back(candidates.place(text_of(record.key_candidates), record.key_candidates));
            sheet.rhythms.push_back(word(record.rhythm ? record.rhythm->value : ""));
            sheet.meters.push_back(word(record.meter));
            sheet.files.push_back(static_cast<Sheet::Place>(settings_[place].file));
            sheet.lines.push_back(setting.line);
            std::string titles;
            for (const std::string& title : setting.titles) (titles += tune::fold_title(title)) += '\n';
            sheet.first_titles.push_back(
                setting.titles.empty() ? std::nullopt : std::optional(tune::fold_title(setting.titles.front())));
            sheet.titles.push_back(std::move(titles));
            sheet.are_scraps.push_back(record.scrap.has_value());
        }
    for (const auto& [tune, tag] : kept_.tunes_tagged) sheet.tagged[tag].push_back(head_of({tune}));
}

const Memory::Held* Memory::held(std::int64_t id) const {
    if (id < 1 || id > static_cast<std::int64_t>(settings_.size())) return nullptr;
    return &settings_[static_cast<std::size_t>(id - 1)];
}

tune::TuneId Memory::head_of(tune::TuneId tune) const {
    const Held* its = held(tune.value);
    return its != nullptr ? its->head : tune;
}

std::vector<std::size_t> Memory::members(tune::TuneId head) const {
    const auto found = family_.find(head.value);
    return found == family_.end() ? std::vector<std::size_t>() : found->second;
}

tune::TuneRecord Memory::record_at(std::size_t place) const {
    const Held& held = settings_[place];
    const StoredSetting& setting = held.setting;
    tune::TuneRecord record;
    tune::put_facts(record, setting.facts);
    record.id = held.head;
    record.own = own_of(place);
    record.setting = id_of(place);
    record.settings = static_cast<int>(members(held.head).size());
    record.titles = setting.titles;
    record.file = files_[held.file].shown;
    record.number = setting.number;
    record.line = setting.line;
    record.rhythm_stated = setting.rhythm_stated;
    record.key_stated = setting.key_stated;
    record.key_in_force = setting.key_in_force;
    record.form = setting.form;
    record.errors = setting.errors;
    said_.put_into(record);
    if (const auto tags = tags_.find(held.head.value); tags != tags_.end()) record.tags = tags->second;
    if (const auto mark = marks_.find(held.head.value); mark != marks_.end()) record.count = mark->second.count;
    return record;
}

std::vector<tune::TuneRecord> Memory::records_at(const std::vector<std::size_t>& places) const {
    std::vector<tune::TuneRecord> records;
    for (const std::size_t place : places) records.push_back(record_at(place));
    return records;
}

Answer Memory::select_tunes(const Selection& selection) const {
    Sifting sifting = sift(sheet_, selection);
    Answer answer{std::move(sifting.tally), {}};
    std::vector<std::size_t> rows;
    if (selection.sort == Sort::heard && selection.goes) {
        std::sort(sifting.passed.begin(), sifting.passed.end(),
                  [](const Sifted& a, const Sifted& b) { return a.rank < b.rank; });
        for (const Sifted& passed : sifting.passed) rows.push_back(passed.row);
    } else {
        std::vector<bool> has_passed(sheet_.size(), false);
        for (const Sifted& passed : sifting.passed) has_passed[passed.row] = true;
        for (const std::size_t row : in_order(sheet_, selection.sort, std::nullopt))
            if (has_passed[row]) rows.push_back(row);
    }
    const auto most = static_cast<std::size_t>(std::max<std::int64_t>(selection.limit.value_or(answer.matched), 0));
    rows.resize(std::min(rows.size(), most));
    for (const std::size_t row : rows)
        answer.rows.push_back(record_at(static_cast<std::size_t>(sheet_.settings[row].value - 1)));
    return answer;
}

NotesAnswer Memory::select_notes(const Selection& selection) const {
    Sifting sifting = sift(sheet_, selection);
    NotesAnswer answer{std::move(sifting.tally), {}};
    for (const Sifted& passed : sifting.passed)
        answer.rows.push_back({passed.tune, sheet_.settings[passed.row], passed.needed, passed.has_other_notes});
    return answer;
}

std::vector<std::size_t> Memory::places_titled(std::string_view title, bool one_a_tune) const {
    const std::string folded = tune::fold_title(title);
    if (folded.empty()) return {};
    std::vector<std::size_t> exactly, partly;
    std::set<std::int64_t> exact_tunes, part_tunes;
    for (std::size_t place = 0; place < settings_.size(); ++place) {
        bool is_exact = false, is_part = false;
        for (const std::string& its : settings_[place].setting.titles) {
            const std::string known = tune::fold_title(its);
            is_exact = is_exact || known == folded;
            is_part = is_part || (known != folded && known.find(folded) != std::string::npos);
        }
        const std::int64_t head = settings_[place].head.value;
        if (is_exact && (!one_a_tune || exact_tunes.insert(head).second)) exactly.push_back(place);
        if (is_part && (!one_a_tune || part_tunes.insert(head).second)) partly.push_back(place);
    }
    return exactly.empty() ? partly : exactly;
}

std::vector<tune::TuneRecord> Memory::tunes_titled(std::string_view title) const {
    const std::vector<std::size_t> places = places_titled(title, true);
    std::vector<tune::TuneRecord> records;
    for (const std::size_t row : in_order(sheet_, Sort::title, std::nullopt)) {
        const auto place = static_cast<std::size_t>(sheet_.settings[row].value - 1);
        if (std::find(places.begin(), places.end(), place) != places.end()) records.push_back(record_at(place));
    }
    return records;
}

std::vector<tune::TuneRecord> Memory::settings_titled(std::string_view title) const {
    return records_at(places_titled(title, false));
}

std::vector<tune::TitledTune> Memory::titled_tunes() const {
    std::vector<tune::TitledTune> tunes;
    for (const auto& [head, places] : family_)
        for (const std::size_t place : places)
            for (const std::string& title : settings_[place].setting.titles) {
                if (tunes.empty() || tunes.back().id.value != head) tunes.push_back({{head}, title, {}});
                tunes.back().folded.push_back(tune::fold_title(title));
            }
    return tunes;
}

std::vector<tune::TuneRecord> Memory::tunes_by_id(std::span<const tune::TuneId> ids) const {
    std::vector<tune::TuneRecord> records;
    for (const tune::TuneId id : ids)
        if (held(id.value) != nullptr) records.push_back(record_at(members(head_of(id)).front()));
    return records;
}

std::optional<tune::TuneRecord> Memory::setting_of_own(tune::TuneId own) const {
    if (held(own.value) == nullptr) return std::nullopt;
    return record_at(static_cast<std::size_t>(own.value - 1));
}

std::vector<tune::TuneRecord> Memory::settings_of(tune::TuneId id) const { return records_at(members(head_of(id))); }

std::vector<std::string> Memory::first_titles(std::span<const tune::SettingId> settings) const {
    std::vector<std::string> titles;
    for (const tune::SettingId id : settings) {
        const Held* its = held(id.value);
        titles.push_back(its == nullptr || its->setting.titles.empty() ? "" : its->setting.titles.front());
    }
    return titles;
}

std::vector<tune::TuneId> Memory::own_ids(std::span<const tune::SettingId> settings) const {
    std::vector<tune::TuneId> ids;
    for (const tune::SettingId id : settings) ids.push_back({held(id.value) != nullptr ? id.value : 0});
    return ids;
}

std::vector<SettingKind> Memory::setting_kinds() const {
    std::vector<SettingKind> kinds;
    for (std::size_t place = 0; place < settings_.size(); ++place) {
        const tune::TuneRecord record = record_at(place);
        kinds.push_back({record.setting, record.rhythm ? record.rhythm->value : "",
                         record.key ? music::to_string(*record.key) : ""});
    }
    return kinds;
}

std::vector<tune::SettingId> Memory::scraps() const {
    std::vector<tune::SettingId> scraps;
    for (std::size_t place = 0; place < settings_.size(); ++place)
        if (settings_[place].setting.facts.scrap) scraps.push_back(id_of(place));
    return scraps;
}

void Memory::visit_outlines(const std::function<void(const StoredOutline&)>& visit) const {
    for (std::size_t place = 0; place < settings_.size(); ++place)
        visit({id_of(place), settings_[place].head, own_of(place), settings_[place].setting.outline});
}

std::optional<tune::Outline> Memory::outline_of(tune::SettingId setting) const {
    const Held* its = held(setting.value);
    return its == nullptr ? std::nullopt : tune::decode_outline(its->setting.outline);
}

std::optional<AbcText> Memory::abc_of(tune::SettingId setting) const {
    const Held* its = held(setting.value);
    if (its == nullptr) return std::nullopt;
    const StoredFile& file = files_[its->file];
    // An empty line ends a file header.
    return AbcText{(file.header.empty() ? "" : file.header + "\n\n") + its->setting.abc, file.shown, its->setting.line,
                   false};
}

FoundOddity Memory::found_at(std::size_t place) const {
    FoundOddity found;
    found.tune = settings_[place].head;
    found.setting = id_of(place);
    const auto& titles = settings_[place].setting.titles;
    if (!titles.empty()) found.title = titles.front();
    return found;
}

std::vector<FoundOddity> Memory::oddities() const {
    struct Placed {
        const StoredFile* file;
        FoundOddity found;
    };
    std::vector<Placed> placed;
    for (std::size_t place = 0; place < settings_.size(); ++place)
        for (const StoredOddity& oddity : settings_[place].setting.oddities) {
            placed.push_back({&files_[settings_[place].file], found_at(place)});
            placed.back().found.oddity = oddity;
        }
    for (std::size_t at = 0; at < files_.size(); ++at)
        for (const StoredDiagnostic& told : files_[at].diagnostics) {
            // It belongs to the last setting that begins at or before its line.
            std::optional<std::size_t> of;
            for (std::size_t place = 0; place < settings_.size(); ++place)
                if (settings_[place].file == at && settings_[place].setting.line <= told.line &&
                    (!of || settings_[place].setting.line > settings_[*of].setting.line))
                    of = place;
            placed.push_back({&files_[at], of ? found_at(*of) : FoundOddity{}});
            const tune::OddityKind kind = tune::kind_of_code(told.code);
            placed.back().found.oddity = {told.line,     told.column,  kind,
                                          told.severity, told.message, std::string(tune::oddity_advice(kind))};
        }
    std::erase_if(placed, [&](const Placed& one) { return said_.settles(one.found); });
    std::stable_sort(placed.begin(), placed.end(), [](const Placed& a, const Placed& b) {
        const auto key = [](const Placed& one) {
            return std::tie(one.file->shown, one.file->path, one.found.oddity.line, one.found.oddity.column);
        };
        return key(a) < key(b);
    });
    std::vector<FoundOddity> found;
    for (Placed& one : placed) {
        one.found.file = one.file->shown;
        found.push_back(std::move(one.found));
    }
    return found;
}

std::vector<FileDiagnostic> Memory::diagnostics() const {
    struct Placed {
        const StoredFile* file;
        const StoredDiagnostic* told;
    };
    std::vector<Placed> placed;
    for (const StoredFile& file : files_)
        for (const StoredDiagnostic& told : file.diagnostics) placed.push_back({&file, &told});
    std::stable_sort(placed.begin(), placed.end(), [](const Placed& a, const Placed& b) {
        const auto key = [](const Placed& one) {
            return std::tie(one.file->shown, one.file->path, one.told->line, one.told->column);
        };
        return key(a) < key(b);
    });
    std::vector<FileDiagnostic> found;
    for (const Placed& one : placed) found.push_back({one.file->shown, *one.told});
    return found;
}

Counts Memory::counts() const {
    Counts counts;
    counts.files = static_cast<std::int64_t>(files_.size());
    counts.tunes = static_cast<std::int64_t>(family_.size());
    counts.settings = static_cast<std::int64_t>(settings_.size());
    return counts;
}

std::vector<TuneMark> Memory::marks() const {
    std::vector<TuneMark> marks;
    for (const auto& [head, mark] : marks_) marks.push_back(mark);
    return marks;
}

std::vector<Verdict> Memory::verdicts() const {
    std::vector<std::pair<std::int64_t, Verdict>> said;
    for (const auto& [tunes, verdict] : kept_.verdicts)
        said.push_back({verdict.said, {{tunes.first}, {tunes.second}, verdict.is_same}});
    std::sort(said.begin(), said.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<Verdict> verdicts;
    for (const auto& [rank, verdict] : said) verdicts.push_back(verdict);
    return verdicts;
}

PlayerRecord Memory::record_of(people::PlayerNumber number, const people::KeptPlayer& player) const {
    PlayerRecord record;
    record.player = {{number}, {player.name, player.folded}, player.instrument, player.notes};
    std::map<std::int64_t, tune::PlayerTune> tunes;
    const auto tune_of = [&](people::TuneNumber tune) -> tune::PlayerTune& {
        const tune::TuneId head = head_of({tune});
        tune::PlayerTune& its = tunes[head.value];
        its.tune = head;
        return its;
    };
    std::vector<std::tuple<base::Date, std::int64_t, std::int64_t, const people::KeptEvent*>> events;
    for (const auto& [rank, event] : kept_.events)
        if (event.player == number) events.emplace_back(event.what.day, event.place.value_or(rank), rank, &event);
    std::sort(events.begin(), events.end());
    for (const auto& [day, place, rank, event] : events) tune_of(event->tune).events.push_back(event->what);
    for (const auto& [whose, tune] : kept_.wishes)
        if (whose == number) tune_of(tune).wished = true;
    for (const auto& [whose, reason] : kept_.exclusions)
        if (whose.first == number) tune_of(whose.second).excluded = reason;
    for (auto& [head, its] : tunes) record.tunes.push_back(std::move(its));
    return record;
}

std::optional<PlayerRecord> Memory::player_named(std::string_view name) const {
    const std::string folded = tune::fold_player_name(name);
    for (const auto& [number, player] : kept_.players)
        if (player.folded == folded) return record_of(number, player);
    return std::nullopt;
}

std::vector<PlayerRecord> Memory::players() const {
    std::vector<PlayerRecord> records;
    for (const auto& [number, player] : kept_.players) records.push_back(record_of(number, player));
    std::sort(records.begin(), records.end(),
              [](const PlayerRecord& a, const PlayerRecord& b) { return a.player.name.folded < b.player.name.folded; });
    return records;
}

std::vector<PlayerHappening> Memory::history_of(tune::PlayerId player) const {
    std::vector<std::tuple<base::Date, std::int64_t, std::int64_t, PlayerHappening>> all;
    for (const auto& [rank, event] : kept_.events)
        if (event.player == player.value)
            all.emplace_back(event.what.day, event.place.value_or(rank), rank,
                             PlayerHappening{head_of({event.tune}), event.what});
    std::sort(all.begin(), all.end(), [](const auto& a, const auto& b) {
        return std::tie(std::get<0>(b), std::get<1>(b), std::get<2>(b)) <
               std::tie(std::get<0>(a), std::get<1>(a), std::get<2>(a));
    });
    std::vector<PlayerHappening> history;
    for (const auto& one : all) history.push_back(std::get<3>(one));
    return history;
}

}  // namespace collection
