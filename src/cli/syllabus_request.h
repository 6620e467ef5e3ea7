// What a term is asked for, on the command line of `gamut syllabus`.
#pragma once

#include <CLI/CLI.hpp>
#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "cli/filter_options.h"
#include "library/library.h"
#include "syllabus/course.h"
#include "syllabus/term.h"

namespace cli {

class SyllabusRequest {
public:
    // With `--library`, which must live as long as this.
    void add_to(CLI::App& command, std::string& library);

    // The words that ask for a term, in a shape that read_again understands, whatever else stood beside them.
    std::vector<std::string> words() const;
    bool is_given() const { return !words().empty(); }
    static SyllabusRequest read_again(std::vector<std::string> words, std::string& library);

    // The words for the same term from another day: breaks are left out, days by which a tune must come move along, and
    // what is asked for in `besides` stands in the place of what was: notes and players in that of both. Throws Misuse.
    static std::vector<std::string> moved(const std::vector<std::string>& words, const std::string& from,
                                          const std::vector<std::string>& besides);

    // The same words with tunes named by their ids, so that they mean the same tunes whatever becomes of titles, and
    // the notes of a player (@NAME) as they are now. Empty where one is no tune, which has been said; throws Misuse
    // where one may be several.
    static std::optional<std::vector<std::string>> with_ids(const std::vector<std::string>& words,
                                                            const library::Library& library);

    // The same words without players that are no longer there, which `notices` tells; where nobody is left, `have`
    // stands in their place.
    static std::vector<std::string> for_those_left(const std::vector<std::string>& words,
                                                   const library::Library& library, const music::NoteSet& have,
                                                   std::vector<std::string>& notices);

    // The tunes that --must, --begin and --without name, once they are named by ids.
    static std::vector<tune::TuneId> tunes_in(const std::vector<std::string>& words);
    // The players of --for.
    static std::vector<std::string> players_in(const std::vector<std::string>& words);
    // The same words with another name for one of them.
    static std::vector<std::string> renamed(std::vector<std::string> words, const tune::PlayerName& from,
                                            const std::string& to);

    // Each throws Misuse with one sentence for what cannot be understood. `notices` is added to.
    std::vector<syllabus::Lesson> lessons(std::vector<std::string>& notices) const;

    // Tunes are named by their ids, as with_ids does. `is_lenient`: one whose file is gone is left out and told among
    // `missing`, unless it is among those `taught` already. Borrows the library.
    syllabus::Course course(const library::Library& library, bool is_lenient, const std::set<tune::TuneId>& taught,
                            std::vector<std::string>& missing) const;

private:
    syllabus::TermDates dates() const;
    syllabus::Pace pace() const;
    std::vector<planner::Member> players() const;

    std::optional<std::string> from_, on_, have_, first_;
    std::int64_t lessons_ = 10, notes_every_ = 2, tunes_each_ = 1, max_states_ = 300'000;
    std::optional<std::int64_t> steps_;
    std::vector<std::string> breaks_, musts_, without_, begin_;
    FilterOptions filter_;
    std::vector<const CLI::Option*> options_;
};

}  // namespace cli
