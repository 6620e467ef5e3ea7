// Tested by instrument_named_test.cc.
#include "answers/instrument_named.h"

#include <algorithm>
#include <cctype>
#include <string_view>
#include <vector>

#include "instruments/known.h"

namespace answers {

namespace {

constexpr std::size_t kMostSuggested = 5;  // Source: house choice

std::size_t shared_beginning(std::string_view a, std::string_view b) {
    const auto ends = std::mismatch(a.begin(), a.end(), b.begin(), b.end(), [](char one, char other) {
        return std::tolower(static_cast<unsigned char>(one)) == other;
    });
    return static_cast<std::size_t>(ends.first - a.begin());
}

// In any case; none for an empty word.
std::vector<std::string> ids_beginning(const std::string& word) {
    std::vector<std::string> begun = instruments::ids();
    std::erase_if(begun, [&](const std::string& id) { return shared_beginning(word, id) < word.size(); });
    return word.empty() ? std::vector<std::string>() : begun;
}

// Ids that begin as the word does, the likest first.
std::vector<std::string> ids_like(const std::string& word) {
    std::vector<std::string> likely = instruments::ids();
    std::erase_if(likely, [&](const std::string& id) { return shared_beginning(word, id) < 2; });
    std::stable_sort(likely.begin(), likely.end(), [&](const std::string& a, const std::string& b) {
        return shared_beginning(word, a) > shared_beginning(word, b);
    });
    if (likely.size() > kMostSuggested) likely.resize(kMostSuggested);
    return likely;
}

}  // namespace

const instruments::Instrument& instrument_named(const std::string& name, Part part) {
    if (const instruments::Instrument* known = instruments::find(name)) return *known;
    std::vector<std::string> begun = ids_beginning(name);
    if (begun.size() > 1) throw Refused({part, Reason::several_instruments, name, std::move(begun)});
    if (begun.empty()) throw Refused({part, Reason::unknown_instrument, name, ids_like(name)});
    return *instruments::find(begun.front());
}

}  // namespace answers
