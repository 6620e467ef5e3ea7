#include "report/words/syllabus_words.h"

#include "report/words/words.h"

namespace report {

std::string notes_in_words(const syllabus::Lesson& lesson) {
    return lesson.notes ? note_list(lesson.notes->notes) : std::string();
}

std::string news_in_words(const syllabus::Lesson& lesson) {
    const std::string notes = notes_in_words(lesson);
    const std::string titles = titles_in_words(lesson.tunes);
    return notes + (notes.empty() || titles.empty() ? "" : ": ") + titles;
}

std::string titles_in_words(const std::vector<syllabus::TermTune>& tunes) {
    std::string titles;
    for (const syllabus::TermTune& tune : tunes) titles += (titles.empty() ? "" : "; ") + tune.title;
    return titles;
}

std::string titles_with_rhythm(const std::vector<syllabus::TermTune>& tunes) {
    std::string titles;
    for (const syllabus::TermTune& tune : tunes)
        titles += (titles.empty() ? "" : "; ") + tune.title + (tune.rhythm.empty() ? "" : " (" + tune.rhythm + ")");
    return titles;
}

std::string lesson_in_words(const syllabus::Lesson& lesson) {
    if (!lesson.is_held()) return "lost";
    std::string words = lesson.only_goes_over ? "nothing new" : "";
    const auto add = [&words](const std::string& label, const std::string& what) {
        if (!what.empty()) words += (words.empty() ? "" : ". ") + label + what;
    };
    add("New note: ", notes_in_words(lesson));
    add(lesson.tunes.size() > 1 ? "New tunes: " : "New tune: ", titles_with_rhythm(lesson.tunes));
    add("Again: ", titles_in_words(lesson.again));
    return words.empty() ? "nothing new" : words;
}

std::string minutes_in_words(int seconds) {
    return "about " + counted((seconds + 30) / 60 < 1 ? 1 : (seconds + 30) / 60, "minute", "minutes");
}

std::string criterion_in_words(syllabus::Criterion criterion) {
    using syllabus::Criterion;
    switch (criterion) {
        case Criterion::wishes_missed:
            return "tunes and notes that must come and do not in time";
        case Criterion::wishes_late:
            return "lessons that these are late, added up";
        case Criterion::empty_places:
            return "places for a new tune left empty";
        case Criterion::left_behind:
            return "tunes that were planned and now do not come (of a lost lesson counted twice)";
        case Criterion::tunes_late:
            return "lessons before the new tunes, added up";
        case Criterion::tunes_lacking:
            return "tunes missing of the two to practise each new note";
        case Criterion::notes_alone:
            return "new notes without a new tune in their lesson that uses them";
        case Criterion::out_of_turn:
            return "tunes where a new note comes often before one where it comes seldom";
        case Criterion::rhythm_runs:
            return "third or later tunes of a rhythm running";
        case Criterion::notes_not_taught:
            return "new notes (more is better)";
        case Criterion::not_asked_for:
            return "counts of the tunes, by gamut mark --count, and players' wishes (more is better)";
        case Criterion::hardness:
            return "points of hardness of the tunes";
        case Criterion::lateness:
            return "lessons before the new notes, added up";
    }
    return "";
}

}  // namespace report
