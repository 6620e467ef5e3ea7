// Tested by telling_words_test.cc.
#include "report/words/telling_words.h"

#include <fmt/format.h>

#include "report/words/words.h"

namespace report {

namespace {

std::string until_in_words(const syllabus::Until& until) {
    if (until.date) return "by " + base::in_words(*until.date);
    if (until.lesson) return fmt::format("by lesson {}", *until.lesson);
    if (until.new_tune) return fmt::format("as new tune {}", *until.new_tune);
    return "in this term";
}

// `at most one in 2 lessons, 3 in all`
std::string pace_in_words(const syllabus::TimeForNotes& time) {
    return "at most one in " + counted(time.notes_every, "lesson", "lessons") +
           (time.in_all ? fmt::format(", {} in all", *time.in_all) : "");
}

struct HindranceWords {
    std::string operator()(const syllabus::NoLessonInTime&) const {
        return "no lesson in which something new may come is held in that time";
    }
    std::string operator()(const syllabus::NotOnEveryInstrument& why) const {
        return "it needs " + note_list(why.notes) + ", which is not on everyone's instrument";
    }
    std::string operator()(const syllabus::NoTimeForNotes& why) const {
        const std::string how_many = why.time.notes == 0   ? "no new note can"
                                     : why.time.notes == 1 ? "only one new note can"
                                                           : fmt::format("only {} new notes can", why.time.notes);
        return fmt::format("it needs {}, and {}{} come by lesson {} ({}{})", note_list(why.notes),
                           why.others_need_some ? "with the notes other tunes must have, " : "", how_many, why.lesson,
                           pace_in_words(why.time),
                           why.notes.size() > 1 ? "; more at once only where no single note opens a tune" : "");
    }
    std::string operator()(const syllabus::NoRoom& why) const {
        return fmt::format(
            "{} tunes must have come by lesson {}, with which a new tune can come at the latest, and there is room "
            "for {} ({} makes more)",
            why.tunes, why.lesson, why.room, why.is_last ? "--tunes-each or --lessons" : "--tunes-each");
    }
    std::string operator()(const syllabus::NoPlaceLeft&) const {
        return "the other tunes that must come leave no place for it";
    }
};

struct TellingWords {
    std::string operator()(const syllabus::InWords& told) const { return told.sentence; }
    std::string operator()(const syllabus::CameLate& told) const {
        return fmt::format("\"{}\" was to come {} and came in lesson {}.", told.title, until_in_words(told.until),
                           told.lesson);
    }
    std::string operator()(const syllabus::CannotCome& told) const {
        return fmt::format("\"{}\" cannot come {}: {}.", told.title, until_in_words(told.until),
                           std::visit(HindranceWords{}, told.why)) +
               (told.comes_in ? fmt::format(" It comes in lesson {}.", *told.comes_in) : "");
    }
    std::string operator()(const syllabus::FileGone& told) const {
        return fmt::format("\"{}\" cannot come: its file is gone.", told.title);
    }
    std::string operator()(const syllabus::NotesCannotCome& told) const {
        return note_list(told.notes) + ", which the term was to begin with, cannot come: " +
               (told.time ? fmt::format("there is time for {} ({}).", told.time->notes, pace_in_words(*told.time))
                          : "the tunes that must come leave no place for it.");
    }
    std::string operator()(const syllabus::HadAlready& told) const {
        return note_list(told.notes) + " of --first " + (told.notes.size() == 1 ? "is" : "are") +
               " there from the start.";
    }
    std::string operator()(const syllabus::LearntSince& told) const {
        const bool is_one = told.notes.size() == 1;
        return fmt::format("{} {} not there at the start and {} by now: everyone has learnt {}.", note_list(told.notes),
                           is_one ? "was" : "were", is_one ? "is" : "are", is_one ? "it" : "them");
    }
    std::string operator()(const syllabus::ScrapsLeftAside& told) const { return scraps_in_words(told.tunes); }
    std::string operator()(const syllabus::SettledLeftOut& told) const {
        return counted(told.tunes, "tune is", "tunes are") +
               " left out that the players know already, are learning or will not learn.";
    }
    std::string operator()(const syllabus::ManyNotesAtOnce& told) const {
        return fmt::format(
            "Lesson {} brings {} notes at once, because no fewer open a tune; --first brings them one by one.",
            told.lesson, told.notes);
    }
    std::string operator()(const syllabus::NewInLastLesson&) const {
        return "The last lesson that is held brings something new; --replan settles that.";
    }
    std::string operator()(const syllabus::EmptyPlaces& told) const {
        return counted(told.places, "place for a new tune stays", "places for new tunes stay") +
               " empty: no other tune fits the notes that are there by then.";
    }
    std::string operator()(const syllabus::KnownToSome& told) const {
        std::string who;
        for (std::size_t at = 0; at < told.players.size(); ++at)
            who += (at == 0 ? "" : at + 1 == told.players.size() ? " and " : ", ") + told.players[at];
        return fmt::format("\"{}\" in lesson {}: {} {} already.", told.title, told.lesson, who,
                           told.players.size() == 1 ? "knows it or is learning it" : "know it or are learning it");
    }
    std::string operator()(const syllabus::AfterBreak& told) const {
        return fmt::format("Lesson {} brings nothing new: it is the first after more than two weeks without one.",
                           told.lesson);
    }
    std::string operator()(const syllabus::ReturnsLate& told) const {
        return fmt::format(
            "\"{}\" comes back the second time only after {} days: no lesson that is still to come lies two to three "
            "weeks after it was new.",
            told.title, told.days);
    }
};

}  // namespace

std::string in_words(const syllabus::Telling& telling) { return std::visit(TellingWords{}, telling); }

std::vector<std::string> in_words(const std::vector<syllabus::Telling>& tellings) {
    std::vector<std::string> sentences;
    for (const syllabus::Telling& telling : tellings) sentences.push_back(in_words(telling));
    return sentences;
}

}  // namespace report
