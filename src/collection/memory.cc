// What it holds, and selecting of it. Tested by both_test.cc against a library of the same tunes.
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
                             setting.facts.last_note,
                             music::key_stated_in(setting.key_in_force.value_or(setting.key_stated))});
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
        for (const std::size_t row :
             in_order(sheet_, selection.sort, std::nullopt, selection.notes_at_hand().value_or(music::NoteSet())))
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

}  // namespace collection
