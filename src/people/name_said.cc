// Tested by name_said_test.cc.
#include "people/name_said.h"

#include <cctype>
#include <string>

namespace people {

namespace {

// In folded text: a letter, a digit, or a byte of a letter beyond ASCII.
bool is_of_word(char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte >= 0x80 || std::isalnum(byte) != 0;
}

struct SaysName {
    const tune::PlayerName& name;

    bool operator()(const TagGiven& said) const { return says_name(said.tag, name); }
    bool operator()(const TagTaken& said) const { return says_name(said.tag, name); }
    bool operator()(const AliasSaid& said) const { return says_name(said.alias, name); }
    bool operator()(const AliasGone& said) const { return says_name(said.folded, name); }
    bool operator()(const RhythmSaid& said) const { return said.rhythm && says_name(*said.rhythm, name); }
    bool operator()(const ExclusionSaid& said) const { return said.reason && says_name(*said.reason, name); }
    bool operator()(const ClassSaid& said) const { return says_name(said.name, name); }
    bool operator()(const ClassGone& said) const { return says_name(said.folded, name); }
    // The folded name decides, so that no saying of a term stays behind.
    bool operator()(const TermSaid& said) const { return says_name(said.folded, name); }
    bool operator()(const TermGone& said) const { return says_name(said.folded, name); }
    template <typename Other>
    bool operator()(const Other&) const {
        return false;
    }
};

}  // namespace

bool says_name(std::string_view text, const tune::PlayerName& name) {
    const std::string folded = tune::fold_player_name(text);
    for (auto at = folded.find(name.folded); at != std::string::npos; at = folded.find(name.folded, at + 1))
        if (at == 0 || !is_of_word(folded[at - 1])) return true;
    return false;
}

std::vector<const Entry*> entries_saying(std::span<const Entry> entries, const tune::PlayerName& name) {
    std::vector<const Entry*> found;
    for (const Entry& entry : entries)
        if (std::visit(SaysName{name}, entry.saying.words)) found.push_back(&entry);
    return found;
}

}  // namespace people
