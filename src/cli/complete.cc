// Tested by tests/outside/completions.py.
#include "cli/complete.h"

#include <algorithm>
#include <exception>
#include <iterator>
#include <optional>
#include <set>
#include <utility>

#include "analysis/rhythm_words.h"
#include "base/utf8.h"
#include "cli/command_words.h"
#include "cli/terminal.h"
#include "guide/pages.h"
#include "instruments/known.h"
#include "library/library.h"
#include "library/syllabi.h"
#include "tune/oddity.h"
#include "tune/title_match.h"

namespace cli {

namespace {

struct Candidate {
    std::string word;
    std::string text;
};
using collection::Sort;
using Candidates = std::vector<Candidate>;

// What a value is, where its own choices do not say it.
enum class Kind {
    any,
    file,
    instrument,
    rhythm,
    mode,
    sort,
    state,
    standing,
    kind,
    player,
    tag,
    title,
    term,
    weekday,
    topic,
    command
};

struct Place {
    std::string_view command;  // `gamut player tune`; empty: any
    std::string_view name;     // of an option or of a word
    Kind kind;
};

constexpr Place kPlaces[] = {
    {"gamut syllabus", "--on", Kind::weekday},
    {"gamut player played", "--on", Kind::any},
    {"gamut player tune", "--on", Kind::any},
    {"gamut tune", "--on", Kind::instrument},
    {"gamut instrument show", "NAME", Kind::instrument},
    {"gamut player tune", "STATE", Kind::standing},
    {"gamut player add", "NAME", Kind::any},
    {"gamut player", "NAME", Kind::player},
    {"gamut player", "TITLES", Kind::title},
    {"gamut next", "PLAYER", Kind::player},
    {"gamut syllabus", "NAME", Kind::term},
    {"gamut guide", "TOPIC", Kind::topic},
    {"gamut handout", "--term", Kind::term},
    {"gamut handout", "--tune", Kind::title},
    {"gamut handout", "--week", Kind::player},
    {"gamut help", "COMMAND", Kind::command},
    {"", "--compare", Kind::term},
    {"", "--instrument", Kind::instrument},
    {"", "--rhythm", Kind::rhythm},
    {"", "--mode", Kind::mode},
    {"", "--sort", Kind::sort},
    {"", "--state", Kind::state},
    {"", "--kind", Kind::kind},
    {"", "--for", Kind::player},
    {"", "--tag", Kind::tag},
    {"", "--untag", Kind::tag},
    {"", "TUNE", Kind::title},
    {"", "--beside", Kind::title},
    {"", "--after", Kind::title},
    {"", "--towards", Kind::title},
    {"", "--must", Kind::title},
    {"", "--begin", Kind::title},
    {"", "--without", Kind::title},
    {"", "--knows", Kind::title},
    {"", "--title", Kind::title},
    {"", "FILE", Kind::file},
    {"", "PATH", Kind::file},
};

Kind kind_of(const CommandWords& command, const OptionWords& option) {
    const std::string name = command.name();
    for (const Place& place : kPlaces) {
        const bool is_here =
            place.command.empty() || name == place.command || name.starts_with(std::string(place.command) + " ");
        if (is_here && std::find(option.names.begin(), option.names.end(), place.name) != option.names.end())
            return place.kind;
    }
    return option.value == "FILE" ? Kind::file : Kind::any;
}

void add_words(Candidates& all, std::initializer_list<const char*> words) {
    for (const char* word : words) all.push_back({word, ""});
}

void add_known(Candidates& all, Kind kind) {
    if (kind == Kind::instrument)
        for (const std::string& id : instruments::ids()) all.push_back({id, instruments::find(id)->title});
    if (kind == Kind::rhythm)
        for (const std::string& rhythm : analysis::known_rhythms()) all.push_back({rhythm, ""});
    if (kind == Kind::mode) add_words(all, {"major", "minor", "dorian", "phrygian", "lydian", "mixolydian", "locrian"});
    if (kind == Kind::sort)
        for (const Sort sort :
             {Sort::title, Sort::key, Sort::rhythm, Sort::range, Sort::notes, Sort::file, Sort::added, Sort::heard})
            all.push_back({std::string(collection::sort_token(sort)), ""});
    if (kind == Kind::state) add_words(all, {"learning", "known", "rusty", "none"});
    if (kind == Kind::standing)
        add_words(all, {"learning", "known", "rusty", "forgotten", "wished", "unwished", "unwanted", "allowed"});
    if (kind == Kind::weekday)
        add_words(all, {"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"});
    if (kind == Kind::kind)
        for (const tune::OddityKind oddity : tune::kOddityKinds)
            all.push_back({std::string(tune::oddity_token(oddity)), ""});
    if (kind == Kind::topic)
        for (const guide::Page& page : guide::pages())
            all.push_back({std::string(page.topic), std::string(page.question)});
}

void add_kept(Candidates& all, Kind kind, const std::filesystem::path& file) {
    if (kind == Kind::term)
        for (const library::KeptSyllabus& term : library::kept_syllabi(file)) all.push_back({term.name, ""});
    if (kind != Kind::rhythm && kind != Kind::player && kind != Kind::tag && kind != Kind::title) return;
    const library::Library library = library::Library::open_existing(file);
    if (kind == Kind::player) {
        for (const collection::PlayerRecord& one : library.players()) all.push_back({one.player.name.text, ""});
        for (const collection::PlayerClass& one : library.player_classes()) all.push_back({one.name.text, "class"});
    }
    if (kind == Kind::title)
        for (const tune::TitledTune& tune : library.titled_tunes()) all.push_back({tune.title, ""});
    std::set<std::string> words;
    if (kind == Kind::tag)
        for (const collection::TuneMark& mark : library.marks()) words.insert(mark.tags.begin(), mark.tags.end());
    if (kind == Kind::rhythm) {
        for (const collection::SettingKind& setting : library.setting_kinds()) words.insert(setting.rhythm);
        for (const Candidate& known : all) words.erase(known.word);
        words.erase("");
    }
    for (const std::string& word : words) all.push_back({word, ""});
}

// As it was meant, when the shell leaves its quotes around it.
std::string without_quotes(const std::string& typed) {
    std::string word;
    char quote = 0;
    for (std::size_t at = 0; at < typed.size(); ++at) {
        const char c = typed[at];
        if (c == '\\' && quote != '\'' && at + 1 < typed.size())
            word += typed[++at];
        else if (quote == 0 && (c == '"' || c == '\''))
            quote = c;
        else if (c == quote)
            quote = 0;
        else
            word += c;
    }
    return word;
}

// `--rhythm=re` in one word or, as some shells part it, in three: `--rhythm` and `re`.
std::vector<std::string> meant(const std::vector<std::string>& typed) {
    std::vector<std::string> words;
    for (std::size_t at = 0; at < typed.size(); ++at) {
        const std::string word = without_quotes(typed[at]);
        const std::size_t sign = word.find('=');
        if (word == "=" && !words.empty() && words.back().starts_with("--")) {
            if (at + 1 == typed.size()) words.emplace_back();
        } else if (word.starts_with("--") && sign != std::string::npos) {
            words.push_back(word.substr(0, sign));
            words.push_back(word.substr(sign + 1));
        } else {
            words.push_back(word);
        }
    }
    return words;
}

// Where the words have got to.
struct Reached {
    const CommandWords* command = nullptr;
    const OptionWords* awaits = nullptr;  // the option whose value comes next
    std::size_t words = 0;                // that stand by themselves so far
    std::string library;                  // --library, if it was said
};

const OptionWords* option_named(const CommandWords& command, const std::string& name) {
    for (const OptionWords& option : command.options)
        if (std::find(option.names.begin(), option.names.end(), name) != option.names.end()) return &option;
    return nullptr;
}

Reached reached(const CommandWords& program, const std::vector<std::string>& words) {
    Reached at;
    at.command = &program;
    for (const std::string& word : words) {
        if (at.awaits != nullptr) {
            if (at.awaits->names.back() == "--library") at.library = word;
            at.awaits = nullptr;
        } else if (word.starts_with("-")) {
            const OptionWords* option = option_named(*at.command, word);
            if (option != nullptr && !option->value.empty()) at.awaits = option;
        } else {
            const auto below = std::find_if(at.command->below.begin(), at.command->below.end(),
                                            [&](const CommandWords& one) { return one.typed.back() == word; });
            if (below != at.command->below.end())
                at.command = &*below;
            else
                ++at.words;
        }
    }
    return at;
}

void add_values(Candidates& all, const CommandWords& program, const Reached& at, const OptionWords& option) {
    for (const std::string& choice : option.choices) all.push_back({choice, ""});
    const Kind kind = kind_of(*at.command, option);
    if (kind == Kind::file) all.push_back({":files", ""});
    if (kind == Kind::command)
        for (const CommandWords& one : program.below) all.push_back({one.typed.back(), one.text});
    add_known(all, kind);
    try {
        add_kept(all, kind, library_file(at.library));
    } catch (const std::exception&) {  // no library, or none that can be read: then without what it holds
    }
}

Candidates candidates(const CommandWords& program, std::vector<std::string> words) {
    Candidates all;
    const std::string last = words.back();
    words.pop_back();
    const Reached at = reached(program, words);
    if (at.awaits != nullptr) {
        add_values(all, program, at, *at.awaits);
    } else if (last.starts_with("-")) {
        for (const OptionWords& option : at.command->options)
            for (const std::string& name : option.names)
                if (name.starts_with("--")) all.push_back({name, option.text});
    } else {
        if (at.words == 0)
            for (const CommandWords& below : at.command->below) all.push_back({below.typed.back(), below.text});
        const std::vector<OptionWords>& places = at.command->words;
        const std::size_t place = std::min(at.words, places.empty() ? 0 : places.size() - 1);
        if (!places.empty() && (at.words < places.size() || places[place].may_repeat))
            add_values(all, program, at, places[place]);
    }
    const std::string begun = base::fold(last);
    std::erase_if(
        all, [&](const Candidate& one) { return one.word != ":files" && !base::fold(one.word).starts_with(begun); });
    return all;
}

}  // namespace

std::string complete(const CLI::App& program, const std::vector<std::string>& words) noexcept {
    try {
        std::string lines;
        if (words.empty()) return lines;
        for (const Candidate& one : candidates(command_words(program), meant(words))) {
            const std::string word = base::printable(one.word);
            if (word != one.word) continue;  // no shell could type it
            lines += word + (one.text.empty() ? "" : "\t" + base::printable(one.text)) + "\n";
        }
        return lines;
    } catch (const std::exception&) {
        return {};
    }
}

}  // namespace cli
