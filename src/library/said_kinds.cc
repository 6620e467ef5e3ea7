// Tested by said_kinds_test.cc.
#include "library/said_kinds.h"

#include <map>
#include <string_view>
#include <vector>

#include "base/failure.h"
#include "library/journal_rows.h"
#include "library/statement.h"

namespace library {

namespace {

struct SaidOfFamily {
    std::optional<std::string> rhythm;
    std::optional<music::Key> key;
    std::int64_t key_of = 0;  // the own tune of the setting whose key it is
};

// The first two by the partial indexes of present and gone settings.
constexpr const char* kSettingsOfFamily =
    "SELECT id, own_tune_id, melody_class, first_note, last_note, coalesce(key_in_force, key_stated)"
    " FROM setting WHERE tune_id = ?1 AND gone = 0 UNION ALL"
    " SELECT id, own_tune_id, melody_class, first_note, last_note, coalesce(key_in_force, key_stated)"
    " FROM setting WHERE tune_id = ?1 AND gone = 1";

struct Member {
    std::int64_t id = 0;
    std::int64_t own = 0;
    std::optional<std::int64_t> melody_class;
    std::optional<int> first_note;
    std::optional<int> last_note;
    std::optional<music::Key> stated;
};

std::vector<Member> members_of(Statement& rows, std::int64_t family) {
    std::vector<Member> members;
    const Reset reset(rows);
    rows.bind(family);
    while (rows.step()) {
        Member member{rows.number(0), rows.number(1), {}, rows.optional_number(3), rows.optional_number(4), {}};
        if (!rows.is_null(2)) member.melody_class = rows.number(2);
        if (const auto stated = music::parse_stated_key(rows.text(5));
            stated && stated->kind == music::StatedKey::Kind::tonic_and_mode)
            member.stated = stated->key;
        members.push_back(member);
    }
    return members;
}

// Semitones up from one setting to another, of 0 to 11.
int move_between(const Member& from, const Member& to) {
    int move = 0;
    if (from.melody_class && from.melody_class == to.melody_class && from.first_note && to.first_note)
        move = *to.first_note - *from.first_note;
    else if (from.stated && to.stated)
        move = to.stated->tonic.pitch_class() - from.stated->tonic.pitch_class();
    else if (from.last_note && to.last_note)
        move = *to.last_note - *from.last_note;
    return (move % 12 + 12) % 12;
}

music::Key said_key_in(const Database& database, const Statement& row, int column) {
    const auto tonic = music::parse_note_name(row.text(column));
    const auto mode = music::parse_mode(row.text(column + 1));
    if (!tonic || !mode) throw base::Failure("read", database.file(), "a key that was said is damaged");
    return {*tonic, *mode};
}

}  // namespace

SaidKinds::SaidKinds(const Database& database) {
    require_sound(database, people::Subject::marks);
    std::map<std::int64_t, SaidOfFamily> families;
    Statement rhythms(database,
                      "SELECT coalesce(t.family_id, t.id), r.rhythm FROM tune_rhythm r JOIN tune t ON t.id = r.tune_id"
                      " ORDER BY r.said");
    while (rhythms.step()) families[rhythms.number(0)].rhythm = std::string(rhythms.text(1));
    Statement keys(database,
                   "SELECT coalesce(t.family_id, t.id), k.tonic, k.mode, k.tune_id FROM tune_key k"
                   " JOIN tune t ON t.id = k.tune_id ORDER BY k.said");
    while (keys.step()) {
        SaidOfFamily& family = families[keys.number(0)];
        family.key = said_key_in(database, keys, 1);
        family.key_of = keys.number(3);
    }
    if (families.empty()) return;

    Statement settings(database, kSettingsOfFamily);
    for (const auto& [id, said] : families) {
        const std::vector<Member> members = members_of(settings, id);
        const Member* from = nullptr;
        for (const Member& member : members)
            if (member.own == said.key_of) from = &member;
        for (const Member& member : members) {
            SaidKind kind{said.rhythm, said.key};
            const int move = said.key && from != nullptr ? move_between(*from, member) : 0;
            if (move != 0) kind.key = music::moved(*said.key, move);
            by_setting_.emplace(member.id, std::move(kind));
        }
    }
}

const SaidKind* SaidKinds::of(std::int64_t setting) const {
    if (by_setting_.empty()) return nullptr;
    const auto found = by_setting_.find(setting);
    return found == by_setting_.end() ? nullptr : &found->second;
}

void SaidKinds::put_into(tune::TuneRecord& record) const {
    const SaidKind* said = of(record.setting.value);
    if (said == nullptr) return;
    if (said->rhythm) {
        record.rhythm = {*said->rhythm, tune::Basis::said};
        record.rhythm_possible.clear();
    }
    if (said->key) {
        record.key = said->key;
        record.key_basis = tune::Basis::said;
        record.key_decided = true;
    }
}

}  // namespace library
