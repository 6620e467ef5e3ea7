#include "cli/syllabus_request.h"

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <map>
#include <set>
#include <tuple>

#include "abc/read.h"
#include "analysis/note_uses.h"
#include "base/source_file.h"
#include "cli/notes_option.h"
#include "cli/player_named.h"
#include "cli/terminal.h"
#include "cli/tune_named.h"
#include "instruments/known.h"
#include "music/pitch.h"
#include "repertoire/evening.h"
#include "report/words.h"
#include "syllabus/hardness.h"
#include "tune/title.h"

namespace cli {

namespace {

constexpr const char* kDates = "When";
constexpr const char* kPace = "How fast, and what the term keeps to";
constexpr std::string_view kBy = " by ";
constexpr std::int64_t kMostStates = 20'000'000;  // Source: house choice; some gigabytes
constexpr std::chrono::days kWeek{7};
constexpr std::int64_t kMostAskedFor = 1'000'000;  // a count beyond weighs no more, so that sums stay exact

int in_range(const std::string& option, std::int64_t value, std::int64_t least, std::int64_t most) {
    if (value < least || value > most)
        throw Misuse(option + " takes a whole number from " + std::to_string(least) + " to " + std::to_string(most) +
                     ", not " + std::to_string(value));
    return static_cast<int>(value);
}

base::Date date_of(const std::string& option, const std::string& text) {
    try {
        return base::read_date(text);
    } catch (const base::DateFault& fault) {
        throw Misuse(option + ": " + fault.what());
    }
}

// `TUNE by DATE`, `TUNE by 3`, `TUNE`; what follows the last " by " belongs to the title where it is more than digits.
struct MustWords {
    std::string title;
    std::optional<base::Date> by_date;
    std::optional<int> by_lesson;
};

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

std::string name_of(const std::string& word) { return word.substr(0, word.find('=')); }
std::string value_of(const std::string& word) { return word.substr(std::min(word.find('='), word.size() - 1) + 1); }

// Options that say whose notes are there.
bool says_who(const std::string& name) { return name == "--have" || name == "--fits" || name == "--for"; }

std::vector<tune::NoteUse> uses_of(const library::Library& library, tune::SettingId setting) {
    const auto kept = library.abc_of(setting);
    if (!kept) return {};
    base::Diagnostics unheard;
    const auto settings = abc::read_settings(base::SourceFile(kept->file, kept->text), unheard);
    return settings.empty() ? std::vector<tune::NoteUse>() : analysis::find_note_uses(settings.back().melody).uses;
}

// A tune whose rhythm has no beat to count is taken as a reel, so that the minutes are not too few.
int seconds_to_play(const library::Library& library, const tune::TuneRecord& record) {
    const auto outline = library.outline_of(record.setting);
    auto shape = outline ? repertoire::shape_of(record, *outline) : std::nullopt;
    if (!shape) return 0;
    if (!repertoire::pace_of(shape->rhythm)) shape->rhythm = "reel";
    repertoire::EveningGoal goal;
    goal.times = syllabus::kTimesThrough;
    return repertoire::seconds_of(*shape, goal).value_or(0);
}

syllabus::CourseTune course_tune(const library::Library& library, const tune::TuneRecord& record, bool ornaments) {
    syllabus::CourseTune one;
    one.tune.id = record.id;
    one.tune.title = report::title_of(record);
    one.tune.rhythm = record.rhythm ? record.rhythm->value : "";
    one.tune.needed = ornaments ? record.needed | record.ornaments : record.needed;
    one.tune.hardness = syllabus::hardness_of(one.tune.needed, record.largest_leap, record.different_bars);
    one.tune.seconds = seconds_to_play(library, record);
    one.asked_for = std::min(record.count.value_or(0), kMostAskedFor);
    return one;
}

// A note to begin with must be there on all instruments; one that all have already is told.
void look_at_first(syllabus::Course& course) {
    music::NoteSet reach = music::every_note(), common = music::every_note();
    for (const planner::Member& player : course.players) {
        reach = reach & player.reach;
        common = common & player.have;
    }
    music::NoteSet out, had;
    for (const int midi : course.first) {
        if (common.has(midi))
            had.add(midi);
        else if (!reach.has(midi))
            out.add(midi);
    }
    if (!out.empty()) throw Misuse("--first: " + report::note_list(out) + ": not on everyone's instrument");
    if (!had.empty())
        course.remarks.push_back(report::note_list(had) + " of --first " + (had.size() == 1 ? "is" : "are") +
                                 " there from the start.");
}

// `@Ina` stands for the notes that Ina has when the term is planned: later she may be called otherwise, or be gone.
std::string without_names(const std::string& text, const library::Library& library) {
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
                for (const int midi : notes_of(library, *player).midi_numbers())
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

// Two tunes of one title are most often one tune that nobody has said to be one (gamut same): a class learns the one
// that lacks fewest notes, then the easier. What a teacher insists on stays.
void keep_one_of_each_title(syllabus::Course& course) {
    music::NoteSet common = course.players.front().have;
    for (const planner::Member& player : course.players) common = common & player.have;
    std::set<tune::TuneId> named(course.begin.begin(), course.begin.end());
    for (const syllabus::Must& must : course.musts) named.insert(must.id);
    const auto rank = [&](const syllabus::CourseTune& one) {
        return std::tuple(!named.contains(one.tune.id), one.tune.needed.without(common).size(), one.tune.hardness,
                          one.tune.id);
    };
    std::map<std::string, std::size_t> best;
    for (std::size_t at = 0; at < course.tunes.size(); ++at) {
        const std::string title = tune::fold_title(course.tunes[at].tune.title);
        const auto [place, is_new] = best.try_emplace(title, at);
        if (!is_new && rank(course.tunes[at]) < rank(course.tunes[place->second])) place->second = at;
    }
    for (std::size_t at = 0; at < course.tunes.size(); ++at) {
        const syllabus::TermTune& tune = course.tunes[at].tune;
        course.tunes[at].may_come =
            tune.title == tune::kNoTitle || best.at(tune::fold_title(tune.title)) == at || named.contains(tune.id);
    }
}

}  // namespace

void SyllabusRequest::add_to(CLI::App& command, std::string& library) {
    const std::size_t before = command.get_options().size();
    command.add_option("--from", from_, "no lesson before this day, such as 2027-01-12; with it a term is planned")
        ->type_name("DATE")
        ->group(kDates);
    command.add_option("--on", on_, "tuesday ...; the weekday of --from when left out")
        ->type_name("WEEKDAY")
        ->group(kDates);
    command.add_option("--lessons", lessons_, "how many are held, one a week (default 10)")
        ->type_name("N")
        ->group(kDates);
    command.add_option("--break", breaks_, "no lesson on this day, or on FIRST..LAST; may be given again")
        ->type_name("DATE")
        ->group(kDates)
        ->allow_extra_args(false);
    command
        .add_option("--have", have_,
                    "the notes that are there, such as \"G:major&D:major A3..B5\"; for several players "
                    "--fits, once for each")
        ->type_name("NOTES")
        ->group(kPace);
    command.add_option("--notes-every", notes_every_, "lessons from one new note to the next (default 2)")
        ->type_name("N")
        ->group(kPace);
    command.add_option("--tunes-each", tunes_each_, "new tunes a lesson at most (default 1)")
        ->type_name("N")
        ->group(kPace);
    command.add_option("--steps", steps_, "new notes in the term at most; 0 for none")->type_name("K")->group(kPace);
    command.add_option("--first", first_, "the first new notes, in this order; else as gamut path has them")
        ->type_name("NOTES")
        ->group(kPace);
    command
        .add_option("--must", musts_,
                    "this tune must come: \"TUNE\", \"TUNE by DATE\" or \"TUNE by 3\" for lesson 3; "
                    "may be given again")
        ->type_name("TUNE")
        ->group(kPace)
        ->allow_extra_args(false);
    command.add_option("--begin", begin_, "the first new tunes, in this order; may be given again")
        ->type_name("TUNE")
        ->group(kPace)
        ->allow_extra_args(false);
    command.add_option("--without", without_, "never this tune; may be given again")
        ->type_name("TUNE")
        ->group(kPace)
        ->allow_extra_args(false);
    command.add_option("--max-states", max_states_, "of the search for the best timetable (default 300000)")
        ->type_name("N")
        ->group(kPace);
    filter_.add_to(command, library);
    const auto all = std::as_const(command).get_options();
    options_.assign(all.begin() + static_cast<std::ptrdiff_t>(before), all.end());
}

namespace {

// What was typed, so that it means the same in another folder and can be read again.
std::string as_kept(const std::string& name, const std::string& value) {
    if (value.empty()) throw Misuse(name + " says nothing; give it a value or leave it out");
    return name == "--instrument-file" ? std::filesystem::absolute(value).lexically_normal().string() : value;
}

}  // namespace

std::vector<std::string> SyllabusRequest::words() const {
    std::vector<std::string> words;
    for (const CLI::Option* option : options_) {
        const std::string name = option->get_name();
        if (option->count() == 0 || name == "--library") continue;  // where a term is kept is no part of it
        if (option->get_expected_max() == 0 || option->get_type_size() == 0)
            words.push_back(name);
        else
            for (const std::string& value : option->results()) words.push_back(name + "=" + as_kept(name, value));
    }
    return words;
}

SyllabusRequest SyllabusRequest::read_again(std::vector<std::string> words, std::string& library) {
    SyllabusRequest request;
    CLI::App app;
    request.add_to(app, library);
    std::reverse(words.begin(), words.end());
    try {
        app.parse(std::move(words));
    } catch (const CLI::ParseError& error) {
        throw Misuse(std::string("this gamut does not understand what the term was asked for with: ") + error.what());
    }
    request.options_.clear();  // they go with the app
    return request;
}

std::vector<std::string> SyllabusRequest::moved(const std::vector<std::string>& words, const std::string& from,
                                                const std::vector<std::string>& besides) {
    const base::Date to = date_of("--again-from", from);
    std::set<std::string> given;
    for (const std::string& word : besides) given.insert(name_of(word));
    const bool says_who_anew = std::any_of(given.begin(), given.end(), says_who);
    std::optional<base::Date> was;
    for (const std::string& word : words)
        if (name_of(word) == "--from") was = date_of("--from", value_of(word));
    std::vector<std::string> moved{"--from=" + from};
    for (const std::string& word : words) {
        const std::string name = name_of(word);
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

std::optional<std::vector<std::string>> SyllabusRequest::with_ids(const std::vector<std::string>& words,
                                                                  const library::Library& library) {
    std::vector<std::string> kept;
    bool are_all_tunes = true;
    for (const std::string& word : words) {
        const std::string name = name_of(word);
        if (name == "--have" || name == "--fits") {
            kept.push_back(name + "=" + without_names(value_of(word), library));
            continue;
        }
        if (name != "--must" && name != "--begin" && name != "--without") {
            kept.push_back(word);
            continue;
        }
        const MustWords must = name == "--must" ? read_must(value_of(word)) : MustWords{value_of(word), {}, {}};
        const auto record = tune_named(library, must.title);
        are_all_tunes = are_all_tunes && record;
        if (!record) continue;
        std::string when;
        if (must.by_date) when = std::string(kBy) + base::to_string(*must.by_date);
        if (must.by_lesson) when = std::string(kBy) + std::to_string(*must.by_lesson);
        kept.push_back(name + "=" + std::to_string(record->id.value) + when);
    }
    return are_all_tunes ? std::optional(kept) : std::nullopt;
}

std::vector<std::string> SyllabusRequest::for_those_left(const std::vector<std::string>& words,
                                                         const library::Library& library, const music::NoteSet& have,
                                                         std::vector<std::string>& notices) {
    std::vector<std::string> left;
    bool is_anybody_left = false;
    for (const std::string& word : words) {
        if (name_of(word) == "--for" && !library.player_named(value_of(word))) {
            notices.push_back("There is no player \"" + value_of(word) + "\" any longer; the term goes on without.");
            continue;
        }
        is_anybody_left = is_anybody_left || says_who(name_of(word));
        left.push_back(word);
    }
    const bool are_players_left =
        std::any_of(left.begin(), left.end(), [](const std::string& word) { return name_of(word) == "--for"; });
    if (!are_players_left)
        std::erase_if(left, [&](const std::string& word) {
            if (name_of(word) != "--state") return false;
            notices.push_back("Nobody is left whose tunes " + word.substr(2) + " could mean; it is left out.");
            return true;
        });
    if (!is_anybody_left) left.push_back("--have=" + report::note_list(have));
    return left;
}

std::vector<tune::TuneId> SyllabusRequest::tunes_in(const std::vector<std::string>& words) {
    std::vector<tune::TuneId> ids;
    for (const std::string& word : words) {
        if (name_of(word) != "--must" && name_of(word) != "--begin" && name_of(word) != "--without") continue;
        const std::string value = value_of(word);
        std::int64_t id = 0;
        if (std::from_chars(value.data(), value.data() + value.size(), id).ec == std::errc()) ids.push_back({id});
    }
    return ids;
}

std::vector<std::string> SyllabusRequest::players_in(const std::vector<std::string>& words) {
    std::vector<std::string> names;
    for (const std::string& word : words)
        if (name_of(word) == "--for") names.push_back(value_of(word));
    return names;
}

std::vector<std::string> SyllabusRequest::renamed(std::vector<std::string> words, const tune::PlayerName& from,
                                                  const std::string& to) {
    for (std::string& word : words)
        if (name_of(word) == "--for" && tune::fold_player_name(value_of(word)) == from.folded) word = "--for=" + to;
    return words;
}

syllabus::TermDates SyllabusRequest::dates() const {
    if (!from_) throw Misuse("a term needs --from DATE: when does it begin?");
    syllabus::TermDates term;
    term.from = date_of("--from", *from_);
    if (on_) {
        term.on = base::parse_weekday(*on_);
        if (!term.on) throw Misuse("--on: \"" + *on_ + "\" is no weekday; write monday, tuesday ...");
    }
    term.lessons = in_range("--lessons", lessons_, 1, syllabus::kMostLessons);
    for (const std::string& text : breaks_) {
        try {
            term.breaks.push_back(syllabus::read_break(text));
        } catch (const syllabus::TermFault& fault) {
            throw Misuse(std::string("--break: ") + fault.what());
        }
    }
    return term;
}

std::vector<syllabus::Lesson> SyllabusRequest::lessons(std::vector<std::string>& notices) const {
    const syllabus::TermDates term = dates();
    std::vector<syllabus::Lesson> lessons;
    try {
        for (const base::Date day : syllabus::lesson_dates(term)) lessons.push_back({day, {}, false, {}, {}, {}});
    } catch (const syllabus::TermFault& fault) {
        throw Misuse(fault.what());
    }
    if (term.on && base::weekday_of(term.from) != *term.on)
        notices.push_back(base::to_string(term.from) + " is a " +
                          std::string(base::weekday_name(base::weekday_of(term.from))) +
                          "; the first lesson is on the first " + std::string(base::weekday_name(*term.on)) +
                          " from then on, " + base::in_words(lessons.front().date) + ".");
    if (lessons.front().date - term.from >= kWeek)
        notices.push_back("No lesson is held before " + base::in_words(lessons.front().date) + ": the weeks from " +
                          base::to_string(term.from) + " on are in a break.");
    const std::chrono::weekday on = term.on.value_or(base::weekday_of(term.from));
    for (const syllabus::DateRange& range : term.breaks) {
        base::Date day = range.first;
        day += on - base::weekday_of(day);
        if (day > range.last)
            notices.push_back("The break " + base::to_string(range.first) +
                              (range.first == range.last ? "" : ".." + base::to_string(range.last)) + " has no " +
                              std::string(base::weekday_name(on)) + " in it and takes no lesson away.");
    }
    return lessons;
}

syllabus::Pace SyllabusRequest::pace() const {
    syllabus::Pace pace;
    pace.notes_every = in_range("--notes-every", notes_every_, 1, syllabus::kMostLessons);
    pace.tunes_each = in_range("--tunes-each", tunes_each_, 1, syllabus::kMostTunesEach);
    if (steps_) pace.steps = in_range("--steps", *steps_, 0, music::kMidiNotes);
    return pace;
}

std::vector<planner::Member> SyllabusRequest::players() const {
    if (filter_.asks_for_missing()) throw Misuse("a term brings what is missing by itself; leave out --missing");
    std::vector<planner::Member> players = filter_.members();
    if (have_ && !players.empty())
        throw Misuse("say which notes are there with --have, or for players with --fits and --for; leave out one");
    if (have_) {
        const instruments::Instrument* instrument = filter_.instrument();
        players.push_back(
            {"", filter_.notes_of("--have", *have_), instrument ? instrument->note_set() : music::every_note()});
    }
    if (players.empty())
        throw Misuse(
            "a term needs --have NOTES, or --for PLAYER or --fits once for each player: which notes are there?");
    return players;
}

syllabus::Course SyllabusRequest::course(const library::Library& library, bool is_lenient,
                                         const std::set<tune::TuneId>& taught,
                                         std::vector<std::string>& missing) const {
    syllabus::Course course;
    course.players = players();
    course.pace = pace();
    course.max_states = static_cast<std::size_t>(in_range("--max-states", max_states_, 1, kMostStates));
    if (first_)
        course.first = read_option("--first", *first_, [&](const std::string& text) {
            std::vector<int> order;
            for (const music::NoteItem& item : music::read_notes_in_order(text, filter_.compass()))
                for (const int midi : item.notes.midi_numbers()) order.push_back(midi);
            return order;
        });
    look_at_first(course);
    library::Selection selection = filter_.selection_without_notes();
    if (selection.settings) throw Misuse("a term teaches tunes and not settings; leave out --settings");
    music::NoteSet common = course.players.front().have;
    for (const planner::Member& player : course.players) common = common & player.have;
    selection.nearest_to = common;
    const std::vector<tune::TuneId> settled = filter_.settled_for_players();
    const std::map<tune::TuneId, std::int64_t> wishes = filter_.wishes_of_players();
    course.known_by = filter_.known_by_players();
    std::vector<tune::SettingId> settings;
    const auto add = [&](const tune::TuneRecord& record) {
        syllabus::CourseTune one = course_tune(library, record, filter_.ornaments());
        if (one.tune.needed.empty()) return;
        if (const auto wish = wishes.find(record.id); wish != wishes.end()) one.asked_for += wish->second;
        course.tunes.push_back(std::move(one));
        settings.push_back(record.setting);
    };
    const auto named = [&](const std::string& option, const std::string& which) {
        std::optional<tune::TuneRecord> record = tune_named(library, which);
        if (record && library.settings_of(record->id).empty()) {
            if (!is_lenient) throw Misuse(option + " \"" + which + "\": the file of that tune is gone");
            if (!taught.contains(record->id))
                missing.push_back("\"" + report::title_of(*record) + "\" cannot come: its file is gone.");
            record.reset();
        }
        return record;
    };
    std::set<tune::TuneId> without;
    for (const std::string& which : without_)
        if (const auto record = tune_named(library, which)) without.insert(record->id);
    std::int64_t left_out = 0;
    for (const tune::TuneRecord& record : library.select_tunes(selection).rows) {
        if (without.contains(record.id)) continue;
        if (std::binary_search(settled.begin(), settled.end(), record.id))
            ++left_out;
        else
            add(record);
    }
    if (left_out > 0)
        course.remarks.push_back(report::counted(left_out, "tune is", "tunes are") +
                                 " left out that the players know already or will not learn.");
    const auto require = [&](const std::string& option, const tune::TuneRecord& record) {
        const auto has = [&] {
            return std::any_of(course.tunes.begin(), course.tunes.end(),
                               [&](const syllabus::CourseTune& one) { return one.tune.id == record.id; });
        };
        if (without.contains(record.id))
            throw Misuse(option + " and --without both name \"" + report::title_of(record) + "\"; which of them?");
        if (!has()) add(record);
        if (!has()) throw Misuse(option + ": no note sounds in \"" + report::title_of(record) + "\"");
    };
    for (const std::string& which : begin_) {
        const auto record = named("--begin", which);
        if (!record || std::find(course.begin.begin(), course.begin.end(), record->id) != course.begin.end()) continue;
        require("--begin", *record);
        course.begin.push_back(record->id);
    }
    for (const std::string& text : musts_) {
        const MustWords must = read_must(text);
        const auto record = named("--must", must.title);
        if (!record) continue;
        require("--must", *record);
        if (std::any_of(course.musts.begin(), course.musts.end(),
                        [&](const syllabus::Must& other) { return other.id == record->id; }))
            throw Misuse("--must names \"" + report::title_of(*record) + "\" twice; once is enough");
        course.musts.push_back({record->id, must.by_date, must.by_lesson});
    }
    keep_one_of_each_title(course);
    course.uses_of = [&library, settings](std::size_t at) { return uses_of(library, settings[at]); };
    return course;
}

}  // namespace cli
