// Tested by said_kinds_test.cc.
#include "library/said_kinds.h"

#include <map>
#include <string>
#include <vector>

#include "base/failure.h"
#include "library/journal_rows.h"
#include "library/statement.h"

namespace library {

namespace {

// The first two by the partial indexes of present and gone settings.
constexpr const char* kSettingsOfFamily =
    "SELECT id, own_tune_id, melody_class, first_note, last_note, coalesce(key_in_force, key_stated)"
    " FROM setting WHERE tune_id = ?1 AND gone = 0 UNION ALL"
    " SELECT id, own_tune_id, melody_class, first_note, last_note, coalesce(key_in_force, key_stated)"
    " FROM setting WHERE tune_id = ?1 AND gone = 1";

std::vector<collection::FamilyMember> members_of(Statement& rows, std::int64_t family) {
    std::vector<collection::FamilyMember> members;
    const Reset reset(rows);
    rows.bind(family);
    while (rows.step()) {
        collection::FamilyMember& member = members.emplace_back();
        member.setting = {rows.number(0)};
        member.own = {rows.number(1)};
        if (!rows.is_null(2)) member.melody_class = static_cast<std::uint64_t>(rows.number(2));
        member.first_note = rows.optional_number(3);
        member.last_note = rows.optional_number(4);
        member.stated = music::key_stated_in(rows.text(5));
    }
    return members;
}

music::Key said_key_in(const Database& database, const Statement& row, int column) {
    const auto tonic = music::parse_note_name(row.text(column));
    const auto mode = music::parse_mode(row.text(column + 1));
    if (!tonic || !mode) throw base::Failure("read", database.file(), "a key that was said is damaged");
    return {*tonic, *mode};
}

}  // namespace

collection::SaidKinds said_kinds_of(const Database& database) {
    require_sound(database, people::Subject::marks);
    std::map<std::int64_t, collection::SaidOfFamily> families;
    Statement rhythms(database,
                      "SELECT coalesce(t.family_id, t.id), r.rhythm FROM tune_rhythm r JOIN tune t ON t.id = r.tune_id"
                      " ORDER BY r.said");
    while (rhythms.step()) families[rhythms.number(0)].rhythm = std::string(rhythms.text(1));
    Statement keys(database,
                   "SELECT coalesce(t.family_id, t.id), k.tonic, k.mode, k.tune_id FROM tune_key k"
                   " JOIN tune t ON t.id = k.tune_id ORDER BY k.said");
    while (keys.step()) {
        collection::SaidOfFamily& family = families[keys.number(0)];
        family.key = said_key_in(database, keys, 1);
        family.key_of = {keys.number(3)};
    }
    collection::SaidKinds said;
    if (families.empty()) return said;
    Statement settings(database, kSettingsOfFamily);
    for (const auto& [id, words] : families) said.add(words, members_of(settings, id));
    return said;
}

}  // namespace library
