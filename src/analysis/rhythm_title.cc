// Words are folded, and what stands behind the kind (a number, a version, words in brackets) is left out. Tested by
// rhythm_title_test.cc.
#include "analysis/rhythm_title.h"

#include <algorithm>
#include <array>
#include <vector>

#include "analysis/rhythm_words.h"
#include "base/utf8.h"
#include "tune/title.h"

namespace analysis {

namespace {

using Words = std::vector<std::string>;

bool is_among(std::string_view word, std::initializer_list<std::string_view> words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

Words words_of(std::string_view folded_title) {
    Words words(1);
    for (const char c : folded_title) {
        if (c != ' ')
            words.back() += c;
        else if (!words.back().empty())
            words.emplace_back();
    }
    if (words.back().empty()) words.pop_back();
    return words;
}

// The title, and each part of it in brackets by itself.
std::vector<Words> parts_of(std::string_view title) {
    std::string outside;
    std::vector<std::string> inside;
    int depth = 0;
    for (const char c : title) {
        if (c == '(' || c == '[') {
            if (depth++ == 0) inside.emplace_back();
        } else if (c == ')' || c == ']') {
            depth = std::max(0, depth - 1);
        } else {
            (depth > 0 ? inside.back() : outside) += c;
        }
    }
    std::vector<Words> parts{words_of(tune::fold_title(outside))};
    for (const std::string& part : inside) parts.push_back(words_of(tune::fold_title(part)));
    return parts;
}

// `no 2`, `2`, `version 2`, `setting`, `in g`: what counts a tune among others.
void leave_out_tail(Words& words) {
    const auto is_number = [](const std::string& word) {
        return std::all_of(word.begin(), word.end(), [](char c) { return c >= '0' && c <= '9'; }) ||
               is_among(word, {"i", "ii", "iii", "iv", "1st", "2nd", "3rd", "first", "second", "third"});
    };
    while (words.size() > 1 &&
           (is_number(words.back()) || is_among(words.back(), {"no", "nr", "number", "version", "setting"})))
        words.pop_back();
}

// Words that are as often something else than a kind of tune.
bool is_common_word(std::string_view word) {
    return is_among(word, {"highland", "slide", "slow", "air", "march", "fling", "rant"});
}

std::optional<std::string> kind_at_end(const Words& words) {
    for (const std::size_t count : {3U, 2U, 1U}) {
        if (words.size() < count) continue;
        std::string phrase;
        for (std::size_t at = words.size() - count; at < words.size(); ++at)
            phrase += (phrase.empty() ? "" : " ") + words[at];
        const auto kind = known_rhythm(phrase);
        if (!kind) continue;
        const std::string_view before = words.size() > count ? std::string_view(words[words.size() - count - 1]) : "";
        if (is_among(before,
                     {"of", "in", "on", "to", "at", "a", "an", "and", "or", "into", "from", "with", "for", "my"}))
            return std::nullopt;
        if (count == 1 && is_common_word(phrase) && (before.empty() || before == "the")) return std::nullopt;
        return kind;
    }
    return std::nullopt;
}

std::optional<std::string> kind_at_beginning(const Words& words) {
    if (words.size() < 2) return std::nullopt;
    if (words[0] == "planxty" || words[0] == "slow") return known_rhythm(words[0]);
    for (const std::size_t count : {2U, 1U}) {
        if (words.size() < count + 2 || !is_among(words[count], {"of", "for"})) continue;
        const std::string phrase = count == 1 ? words[0] : words[0] + " " + words[1];
        if (auto kind = known_rhythm(phrase)) return kind;
    }
    return std::nullopt;
}

}  // namespace

std::optional<std::string> rhythm_of_title(std::string_view title) {
    std::vector<Words> parts = parts_of(title);
    for (Words& words : parts) {
        leave_out_tail(words);
        if (auto kind = kind_at_end(words)) return kind;
        const bool is_aside = &words != &parts.front();
        if (is_aside && words.size() == 1 && words[0] == "slow") return known_rhythm("slow");
    }
    return kind_at_beginning(parts.front());
}

}  // namespace analysis
