// What a term is asked for, on the command line of `gamut syllabus`.
#pragma once

#include <CLI/CLI.hpp>
#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "answers/tunes_asked.h"
#include "cli/filter_options.h"
#include "library/library.h"
#include "syllabus/course.h"
#include "syllabus/term.h"

namespace cli {

// What a term holds already.
struct TermSoFar {
    bool is_planned_again = false;
    std::set<tune::TuneId> given;  // new in lessons that stand
    // New in any lesson, each with what it is promised (syllabus::Piece): that a player is learning one by now is the
    // term's own doing.
    std::map<tune::TuneId, int> own;
    music::NoteSet undone;  // of lessons that were lost after all: nobody has these, whatever was written down
};

class SyllabusRequest {
public:
    // With `--library`, which must live as long as this.
    void add_to(CLI::App& command, std::string& library);

    // The words that ask for a term, in a shape that read_again understands, whatever else stood beside them.
    std::vector<std::string> words() const;
    bool is_given() const { return !words().empty(); }
    static SyllabusRequest read_again(std::vector<std::string> words, std::string& library);

    // Each throws Misuse with one sentence for what cannot be understood. `notices` is added to.
    std::vector<syllabus::Lesson> lessons(std::vector<std::string>& notices) const;

    // Tunes are named by their ids, as words_with_ids does. Where the term is planned again one whose file is gone is
    // left out and told among `missing`, unless it was given. Borrows the library.
    syllabus::Course course(const collection::Collection& library, const TermSoFar& so_far,
                            std::vector<std::string>& missing) const;

private:
    syllabus::TermDates dates() const;
    syllabus::Pace pace() const;
    std::size_t max_states() const;
    std::vector<planner::Member> players(const answers::TunesAsked& asked) const;

    std::optional<std::string> from_, on_, have_, first_;
    std::int64_t lessons_ = 10, notes_every_ = 2, tunes_each_ = 1, max_states_ = 300'000;
    std::optional<std::int64_t> steps_;
    std::vector<std::string> breaks_, musts_, without_, begin_;
    FilterOptions filter_;
    std::vector<const CLI::Option*> options_;
};

}  // namespace cli
