// Tested by both_test.cc. said_kinds_test.cc of the library has the rules one by one.
#include "collection/said_kinds.h"

#include <utility>

namespace collection {

namespace {

// Semitones up from one setting to another, of 0 to 11.
int move_between(const FamilyMember& from, const FamilyMember& to) {
    int move = 0;
    if (from.melody_class && from.melody_class == to.melody_class && from.first_note && to.first_note)
        move = *to.first_note - *from.first_note;
    else if (from.stated && to.stated)
        move = to.stated->tonic.pitch_class() - from.stated->tonic.pitch_class();
    else if (from.last_note && to.last_note)
        move = *to.last_note - *from.last_note;
    return (move % 12 + 12) % 12;
}

}  // namespace

void SaidKinds::add(const SaidOfFamily& said, std::span<const FamilyMember> members) {
    const FamilyMember* from = nullptr;
    for (const FamilyMember& member : members)
        if (member.own == said.key_of) from = &member;
    for (const FamilyMember& member : members) {
        SaidKind kind{said.rhythm, said.key};
        const int move = said.key && from != nullptr ? move_between(*from, member) : 0;
        if (move != 0) kind.key = music::moved(*said.key, move);
        by_setting_.emplace(member.setting.value, std::move(kind));
    }
}

const SaidKind* SaidKinds::of(tune::SettingId setting) const {
    if (by_setting_.empty()) return nullptr;
    const auto found = by_setting_.find(setting.value);
    return found == by_setting_.end() ? nullptr : &found->second;
}

void SaidKinds::put_into(tune::TuneRecord& record) const {
    const SaidKind* said = of(record.setting);
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

bool SaidKinds::settles(const FoundOddity& found) const {
    const SaidKind* words = found.setting ? of(*found.setting) : nullptr;
    return words != nullptr && ((words->key && found.oddity.kind == tune::OddityKind::key_label) ||
                                (words->rhythm && found.oddity.kind == tune::OddityKind::rhythm_meter));
}

}  // namespace collection
