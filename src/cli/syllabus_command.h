// `gamut syllabus`: its options and what they ask for.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "answers/term_change.h"
#include "answers/term_request.h"
#include "cli/commands.h"
#include "cli/new_file.h"
#include "cli/syllabus_request.h"
#include "cli/terminal.h"
#include "library/syllabi.h"
#include "report/pages/syllabus_page.h"
#include "report/writers/syllabus_calendar.h"
#include "syllabus/name.h"

namespace cli {

class SyllabusCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    void check() const;
    int list() const;
    int forget();
    int take_back(report::SyllabusPage& page);
    int compare(const syllabus::Syllabus& plan) const;
    int tell_missed(const syllabus::Syllabus& plan) const;
    int again(const syllabus::Name& name);
    int plan(const syllabus::Name& name, const answers::TermRequest& typed);
    int change(const syllabus::Name& name, report::SyllabusPage page);
    answers::TermNews news(const syllabus::Syllabus& kept) const;
    void tell_players(const syllabus::Syllabus& plan, std::vector<std::string>& notices) const;
    void keep(const syllabus::Name& name, const syllabus::Syllabus& plan);
    report::SyllabusPage with_titles(report::SyllabusPage page) const;
    int show(const report::SyllabusPage& page) const;
    template <typename Answer>
    void write(const Answer& answer) const;
    void write_calendar(const syllabus::Syllabus& plan) const;
    std::optional<report::ClockTime> time() const;

    std::optional<std::string> name_, missed_, compared_, again_from_, as_, today_, at_, output_;
    std::optional<std::int64_t> taught_, lasts_;
    std::vector<std::string> lost_;
    bool replaces_ = false, replans_ = false, forgets_ = false, takes_back_ = false, is_sure_ = false,
         is_calendar_ = false, tells_players_ = false;
    SyllabusRequest request_;
    Format format_;
    std::string library_;
    std::filesystem::path file_;
    std::optional<library::KeptSyllabus> kept_;  // as it was read
    std::unique_ptr<NewFile> to_;                // null: the terminal
};

}  // namespace cli
