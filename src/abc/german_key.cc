// Tested by key_field_test.cc.
#include "abc/german_key.h"

#include <array>
#include <string>

#include "abc/characters.h"
#include "base/utf8.h"

namespace abc {

namespace {

using music::Letter;

struct Name {
    std::string_view word;
    music::NoteName name;
};

// Source: common practice of German, no source.
constexpr std::array<Name, 14> kNames{{{"cis", {Letter::C, 1}},
                                       {"dis", {Letter::D, 1}},
                                       {"eis", {Letter::E, 1}},
                                       {"fis", {Letter::F, 1}},
                                       {"gis", {Letter::G, 1}},
                                       {"ais", {Letter::A, 1}},
                                       {"ces", {Letter::C, -1}},
                                       {"des", {Letter::D, -1}},
                                       {"es", {Letter::E, -1}},
                                       {"fes", {Letter::F, -1}},
                                       {"ges", {Letter::G, -1}},
                                       {"as", {Letter::A, -1}},
                                       {"h", {Letter::B, 0}},
                                       {"b", {Letter::B, -1}}}};

std::string_view letters_of(std::string_view text) {
    std::size_t size = 0;
    while (size < text.size() && is_letter(text[size])) ++size;
    return text.substr(0, size);
}

bool is_mode(std::string_view word) {
    return music::parse_mode(word) || german_mode(word) || base::fold(word) == "exp";
}

// What stands behind a name, `glued` in the same run of letters.
bool may_stand_behind(const Name& german, std::string_view glued, std::string_view behind, bool is_small) {
    std::string_view apart = trim(behind);
    if (apart.starts_with('-')) apart.remove_prefix(1);
    const std::string_view next = letters_of(apart);
    if (german.word == "b") return german_mode(glued) || (glued.empty() && german_mode(next));
    if (!glued.empty()) return is_mode(glued);
    if (is_small && !next.empty() && !is_mode(next)) return false;  // `as you like it`
    constexpr std::string_view kEnds = " \t-^_=";
    return behind.empty() || kEnds.find(behind[0]) != std::string_view::npos;
}

}  // namespace

std::optional<GermanTonic> take_german_tonic(std::string_view& text) {
    const std::string_view word = letters_of(text);
    const std::string small = base::fold(word);
    for (const Name& german : kNames) {
        if (!small.starts_with(german.word)) continue;
        const bool is_small = is_lower(word[0]);
        if (!may_stand_behind(german, word.substr(german.word.size()), text.substr(word.size()), is_small)) continue;
        text.remove_prefix(german.word.size());
        return GermanTonic{german.name, is_small};
    }
    return std::nullopt;
}

std::optional<music::Mode> german_mode(std::string_view word) {
    const std::string small = base::fold(word);
    if (small == "dur") return music::Mode::major;
    if (small == "moll" || small == "mol") return music::Mode::minor;
    return std::nullopt;
}

}  // namespace abc
