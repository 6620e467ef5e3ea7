#include "cli/member_option.h"

#include "cli/instrument_option.h"
#include "cli/notes_option.h"

namespace cli {

namespace {

constexpr std::string_view kOn = " on ";

std::string trimmed(const std::string& text) {
    const std::size_t begin = text.find_first_not_of(' ');
    if (begin == std::string::npos) return {};
    return text.substr(begin, text.find_last_not_of(' ') - begin + 1);
}

}  // namespace

planner::Member read_member(const std::string& option, const std::string& text, const instruments::Instrument* usual,
                            const music::NamedNotes& named) {
    const std::size_t equals = text.find('=');
    std::string who = equals == std::string::npos ? std::string() : text.substr(0, equals);
    std::string notes = equals == std::string::npos ? text : text.substr(equals + 1);
    if (equals == std::string::npos && text.find(kOn) != std::string::npos) std::swap(who, notes);
    const instruments::Instrument* instrument = usual;
    if (const std::size_t on = who.rfind(kOn); on != std::string::npos) {
        instrument = &instrument_named(trimmed(who.substr(on + kOn.size())));
        who.resize(on);
    }
    planner::Member member{trimmed(who), {}, instrument ? instrument->note_set() : music::every_note()};
    if (instrument != nullptr && trimmed(notes).empty())
        member.have = member.reach;
    else
        member.have = notes_of(option, notes, instrument, named);
    return member;
}

}  // namespace cli
