// What a term is asked for, on the command line of `gamut syllabus`.
#pragma once

#include <CLI/CLI.hpp>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "answers/term_request.h"
#include "cli/filter_options.h"
#include "syllabus/syllabus.h"

namespace cli {

class SyllabusRequest {
public:
    // With `--library`, which must live as long as this.
    void add_to(CLI::App& command, std::string& library);

    // Something of a term is asked for.
    bool is_given() const;

    // Throws Misuse with one sentence for what cannot be understood.
    answers::TermRequest request() const;

private:
    std::optional<std::string> from_, on_, have_, first_;
    std::optional<std::int64_t> lessons_, notes_every_, tunes_each_, steps_, max_states_;
    std::vector<std::string> breaks_, musts_, without_, begin_;
    FilterOptions filter_;
    std::vector<const CLI::Option*> options_;
};

// What is to be told of the dates: a first day that is no lesson, a break that takes none away.
std::vector<std::string> told_of_dates(const answers::TermRequest& request,
                                       const std::vector<syllabus::Lesson>& lessons);

}  // namespace cli
