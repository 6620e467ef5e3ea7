#include "cli/term_words.h"

#include <algorithm>
#include <charconv>
#include <set>

#include "answers/player_named.h"
#include "answers/tune_named.h"
#include "cli/day_option.h"
#include "cli/terminal.h"
#include "instruments/known.h"
#include "music/pitch.h"
#include "people/name_said.h"
#include "report/words.h"
#include "syllabus/term.h"

namespace cli {

namespace {

constexpr std::string_view kBy = " by ";

std::string option_of(const std::string& word) { return word.substr(0, word.find('=')); }

std::string value_of(const std::string& word) { return word.substr(std::min(word.find('='), word.size() - 1) + 1); }

// Options that say whose notes are there.
bool says_who(const std::string& name) { return name == "--have" || name == "--fits" || name == "--for"; }

// A title that no tune has although one has what stands before " by ": a day or a lesson was meant.
void look_for_a_day(const MustWords& must, const collection::Collection& library) {
    const std::size_t at = must.title.rfind(kBy);
    if (must.by_date || must.by_lesson || at == std::string::npos || !library.tunes_titled(must.title).empty()) return;
    if (!library.tunes_titled(must.title.substr(0, at)).empty())
        throw Misuse("--must \"" + must.title + "\": \"" + must.title.substr(at + kBy.size()) +
                     "\" is no day and no lesson; write 2027-02-02, or 3 for lesson 3");
}

// `@Ina` stands for the notes that Ina has when the term is planned: later she may be called otherwise, or be gone.
std::string without_names(const std::string& text, const collection::Collection& library) {
    std::string plain;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find_first_of(" ,", at), text.size());
        std::string item = text.substr(at, end - at);
        if (const std::size_t sign = item.find('@');
            sign != std::string::npos && (sign == 0 || item[sign - 1] == '=' || item[sign - 1] == '-')) {
            const std::string name = item.substr(sign + 1);
            const auto player = instruments::find(name) == nullptr ? library.player_named(name) : std::nullopt;
            if (player) {
                const std::string before = item.substr(0, sign);
                const std::string each = before.ends_with('-') ? "-" : "";
                std::string notes;
                for (const int midi : answers::notes_of(library, *player).midi_numbers())
                    notes += (notes.empty() ? before : " " + each) + music::to_string(music::spell_midi(midi));
                item = notes;
            }
        }
        plain += item;
        if (end < text.size()) plain += text[end];
        at = end + 1;
    }
    return plain;
}

}  // namespace

MustWords read_must(const std::string& text) {
    const std::size_t at = text.rfind(kBy);
    if (at == std::string::npos) return {text, std::nullopt, std::nullopt};
    const std::string title = text.substr(0, at);
    const std::string when = text.substr(at + kBy.size());
    if (when.empty() || when.find_first_not_of("0123456789-") != std::string::npos)
        return {text, std::nullopt, std::nullopt};
    int lesson = 0;
    const auto [end, error] = std::from_chars(when.data(), when.data() + when.size(), lesson);
    if (error == std::errc() && end == when.data() + when.size()) {
        if (lesson < 1 || lesson > syllabus::kMostLessons)
            throw Misuse("--must \"" + text + "\": lessons count from 1 to " + std::to_string(syllabus::kMostLessons));
        return {title, std::nullopt, lesson};
    }
    return {title, date_of("--must \"" + text + "\"", when), std::nullopt};
}

std::vector<std::string> moved_words(const std::vector<std::string>& words, const std::string& from,
                                     const std::vector<std::string>& besides) {
    const base::Date to = date_of("--again-from", from);
    std::set<std::string> given;
    for (const std::string& word : besides) given.insert(option_of(word));
    const bool says_who_anew = std::any_of(given.begin(), given.end(), says_who);
    std::optional<base::Date> was;
    for (const std::string& word : words)
        if (option_of(word) == "--from") was = date_of("--from", value_of(word));
    std::vector<std::string> moved{"--from=" + from};
    for (const std::string& word : words) {
        const std::string name = option_of(word);
        if (name == "--from" || name == "--break" || given.contains(name) || (says_who_anew && says_who(name)))
            continue;
        const MustWords must = name == "--must" ? read_must(value_of(word)) : MustWords();
        if (must.by_date && was)
            moved.push_back("--must=" + must.title + std::string(kBy) + base::to_string(*must.by_date + (to - *was)));
        else
            moved.push_back(word);
    }
    moved.insert(moved.end(), besides.begin(), besides.end());
    return moved;
}

std::vector<std::string> words_with_ids(const std::vector<std::string>& words, const collection::Collection& library) {
    std::vector<std::string> kept;
    for (const std::string& word : words) {
        const std::string name = option_of(word);
        if (name == "--have" || name == "--fits") {
            kept.push_back(name + "=" + without_names(value_of(word), library));
            continue;
        }
        if (name != "--must" && name != "--begin" && name != "--without") {
            kept.push_back(word);
            continue;
        }
        const MustWords must = name == "--must" ? read_must(value_of(word)) : MustWords{value_of(word), {}, {}};
        if (name == "--must") look_for_a_day(must, library);
        const tune::TuneRecord record = answers::tune_named(library, must.title);
        std::string when;
        if (must.by_date) when = std::string(kBy) + base::to_string(*must.by_date);
        if (must.by_lesson) when = std::string(kBy) + std::to_string(*must.by_lesson);
        kept.push_back(name + "=" + std::to_string(record.id.value) + when);
    }
    return kept;
}

std::vector<std::string> words_for_those_left(const std::vector<std::string>& words,
                                              const collection::Collection& library, const music::NoteSet& have,
                                              std::vector<std::string>& notices) {
    std::vector<std::string> left;
    bool is_anybody_left = false;
    for (const std::string& word : words) {
        if (option_of(word) == "--for" && !library.player_named(value_of(word))) {
            const std::string name = value_of(word);
            notices.push_back(name == kRemovedPlayer
                                  ? "A player of the term was removed; it goes on without."
                                  : "There is no player \"" + name + "\" any longer; the term goes on without.");
            continue;
        }
        is_anybody_left = is_anybody_left || says_who(option_of(word));
        left.push_back(word);
    }
    const bool are_players_left =
        std::any_of(left.begin(), left.end(), [](const std::string& word) { return option_of(word) == "--for"; });
    if (!are_players_left)
        std::erase_if(left, [&](const std::string& word) {
            if (option_of(word) != "--state") return false;
            notices.push_back("Nobody is left whose tunes " + word.substr(2) + " could mean; it is left out.");
            return true;
        });
    if (!is_anybody_left) left.push_back("--have=" + report::note_list(have));
    return left;
}

std::vector<tune::TuneId> tunes_in_words(const std::vector<std::string>& words) {
    std::vector<tune::TuneId> ids;
    for (const std::string& word : words) {
        if (option_of(word) != "--must" && option_of(word) != "--begin" && option_of(word) != "--without") continue;
        const std::string value = value_of(word);
        std::int64_t id = 0;
        if (std::from_chars(value.data(), value.data() + value.size(), id).ec == std::errc()) ids.push_back({id});
    }
    return ids;
}

std::vector<std::string> players_in_words(const std::vector<std::string>& words) {
    std::vector<std::string> names;
    for (const std::string& word : words)
        if (option_of(word) == "--for") names.push_back(value_of(word));
    return names;
}

std::vector<std::string> words_renamed(std::vector<std::string> words, const tune::PlayerName& from,
                                       const std::string& to) {
    for (std::string& word : words)
        if (option_of(word) == "--for" && tune::fold_player_name(value_of(word)) == from.folded) word = "--for=" + to;
    return words;
}

std::vector<std::string> words_unnamed(std::vector<std::string> words, const tune::PlayerName& name) {
    const std::string nobody(kRemovedPlayer);
    words = words_renamed(std::move(words), name, nobody);
    for (std::string& word : words) {
        const std::string option = option_of(word);
        if (option != "--for" && people::says_name(value_of(word), name)) word = option + "=" + nobody;
    }
    return words;
}

}  // namespace cli
