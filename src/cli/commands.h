// The commands, each in a file of its own: what it takes, and what it does with it.
#pragma once

#include <CLI/CLI.hpp>
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "answers/tunes_asked.h"
#include "answers/twins.h"
#include "base/date.h"
#include "cli/filter_options.h"
#include "cli/follow_option.h"
#include "cli/heard_option.h"
#include "cli/instrument_option.h"
#include "cli/limit_options.h"
#include "cli/match_option.h"
#include "cli/new_file.h"
#include "cli/path_goal.h"
#include "cli/syllabus_request.h"
#include "cli/terminal.h"
#include "cli/ways_option.h"
#include "hands/move.h"
#include "library/library.h"
#include "library/syllabi.h"
#include "repertoire/evening.h"
#include "repertoire/learning_load.h"
#include "report/handling_page.h"
#include "report/syllabus_page.h"
#include "syllabus/name.h"
#include "tune/player.h"
#include "tune/setting.h"

namespace cli {

class ReadAnswer;
struct ReadFile;

// `add_to` puts the command on the program; `run` answers with an exit code. Both may throw Misuse, `run` also
// base::Failure and Unanswered.
class Command {
public:
    virtual ~Command() = default;
    virtual CLI::App* add_to(CLI::App& program) = 0;
    virtual int run() = 0;

    // Whether the library has been changed: what fails after that has not undone it, and must not read as if it had.
    bool has_kept() const noexcept { return has_kept_; }

protected:
    bool has_kept_ = false;
};

class ReadCommand : public Command {
public:
    CLI::App* add_to(CLI::App& program) override;
    int run() override;

private:
    bool answer_for(ReadFile& file, ReadAnswer& answer) const;

    std::vector<std::string> files_;
    std::string as_ = "facts";
    Format format_;
};

class ImportCommand : public Command {
public:
    CLI::App* add_to(CLI::App& program) override;
    int run() override;

private:
    std::vector<std::string> paths_;
    std::string library_;
    Format format_;
};

class TunesCommand : public Command {
public:
    CLI::App* add_to(CLI::App& program) override;
    int run() override;

private:
    int match() const;
    int follow();

    std::string library_;
    FilterOptions filter_;
    ListOptions list_;
    HeardOption heard_;
    MatchOption match_;
    FollowOption follow_;
    Format format_;
};

class TuneCommand : public Command {
public:
    CLI::App* add_to(CLI::App& program) override;
    int run() override;

private:
    std::optional<report::InHand> in_hand(const collection::Collection& library, const tune::Setting& setting,
                                          const tune::TuneFacts& facts);

    std::string which_;
    std::optional<std::string> beside_;
    InstrumentOption instrument_;
    std::optional<std::string> have_;
    WaysOption ways_;
    std::optional<instruments::Instrument> limited_;  // the instrument with the notes of --have alone
    std::string library_;
    Format format_;
};

class TunebookCommand : public Command {
public:
    CLI::App* add_to(CLI::App& program) override;
    int run() override;

private:
    bool is_best() const { return move_ == "best"; }
    std::optional<int> semitones() const;
    std::vector<tune::TuneRecord> chosen(const answers::TunesAsked& asked) const;
    std::optional<hands::Move> best_move(const tune::Setting& setting, const tune::TuneRecord& record,
                                         const instruments::Instrument& instrument) const;
    bool add(const answers::TunesAsked& asked, const tune::TuneRecord& record, int number, std::string& book) const;

    std::vector<std::string> which_;
    std::optional<std::string> move_, output_;
    FilterOptions filter_;
    ListOptions list_;
    std::string library_;
};

class EveningCommand : public Command {
public:
    CLI::App* add_to(CLI::App& program) override;
    int run() override;

private:
    repertoire::EveningGoal goal() const;

    int minutes_ = 0, times_ = 3, in_set_ = 3;
    std::string pace_ = "easy";
    bool dance_ = false;
    std::string library_;
    FilterOptions filter_;
    Format format_;
};

class NextCommand : public Command {
public:
    CLI::App* add_to(CLI::App& program) override;
    int run() override;

private:
    void check() const;
    repertoire::LoadWeights weights() const;

    std::string name_;
    std::optional<std::string> towards_, today_;
    std::vector<std::string> weigh_;
    std::optional<std::int64_t> limit_;
    bool is_review_ = false, is_short_ = false;
    WaysOption ways_;
    std::string library_;
    FilterOptions filter_;
    Format format_;
};

class DrillCommand : public Command {
public:
    CLI::App* add_to(CLI::App& program) override;
    int run() override;

private:
    std::optional<std::string> have_, fresh_;
    InstrumentOption instrument_;
    WaysOption ways_;
    std::string library_;
    bool abc_ = false;
    Format format_;
};

class TogetherCommand : public Command {
public:
    CLI::App* add_to(CLI::App& program) override;
    int run() override;

private:
    std::string library_;
    FilterOptions filter_;
    Format format_;
};

class InstrumentCommand : public Command {
public:
    CLI::App* add_to(CLI::App& program) override;
    int run() override;

private:
    int list() const;
    int show() const;
    int fit() const;

    CLI::App* list_ = nullptr;
    CLI::App* show_ = nullptr;
    CLI::App* fit_ = nullptr;
    std::optional<std::string> name_, file_, where_;
    std::string library_;
    FilterOptions filter_;
    Format format_;
};

class CheckCommand : public Command {
public:
    CLI::App* add_to(CLI::App& program) override;
    int run() override;

private:
    std::optional<music::NoteSet> reach_of(const answers::TunesAsked& asked) const;

    std::vector<std::string> kinds_;
    std::optional<std::string> severity_, reach_;
    std::optional<std::int64_t> limit_;
    bool all_ = false;
    bool strict_ = false;
    std::string library_;
    FilterOptions filter_;
    Format format_;
};

class SameCommand : public Command {
public:
    CLI::App* add_to(CLI::App& program) override;
    int run() override;

private:
    int list(const collection::Collection& library) const;
    int list_kin_of(const collection::Collection& library) const;
    double least() const;  // of a likeness; throws Misuse
    int write_list(const collection::Collection& library, const std::vector<answers::Twin>& twins,
                   const std::optional<tune::TuneRecord>& of) const;

    std::vector<std::string> which_;
    bool is_not_ = false;
    std::optional<std::int64_t> limit_;
    std::optional<double> least_;
    std::string library_;
    Format format_;
};

class MarkCommand : public Command {
public:
    CLI::App* add_to(CLI::App& program) override;
    int run() override;

private:
    std::vector<std::string> which_, tags_, untags_;
    std::optional<std::int64_t> count_;
    bool forgets_count_ = false;
    std::optional<std::string> rhythm_, key_;
    bool forgets_rhythm_ = false;
    bool forgets_key_ = false;
    std::string library_;
    Format format_;
};

class PlayerCommand : public Command {
public:
    CLI::App* add_to(CLI::App& program) override;
    int run() override;

private:
    CLI::App* word(CLI::App& parent, const char* name, const char* help, int (PlayerCommand::*run)());
    int add();
    int change();
    int remove();
    int list();
    int show();
    int notes();
    music::NoteSet notes(answers::Part part, const std::string& text, const tune::Player& player) const;
    int tune();
    int played();
    int take_back();
    int history();
    int write();
    int read();

    std::vector<std::pair<CLI::App*, int (PlayerCommand::*)()>> words_;
    std::string name_, titles_, what_, file_read_;
    std::vector<std::string> names_;
    std::optional<std::string> new_name_, instrument_, notes_, more_, less_, knows_, shaky_, because_, on_;
    bool from_tunes_ = false, is_sure_ = false;
    std::string library_;
    Format format_;
};

class PathCommand : public Command {
public:
    CLI::App* add_to(CLI::App& program) override;
    int run() override;

private:
    std::optional<std::string> have_;
    bool is_brief_ = false;
    PathGoal goal_;
    std::string library_;
    FilterOptions filter_;
    Format format_;
};

class NotesCommand : public Command {
public:
    CLI::App* add_to(CLI::App& program) override;
    int run() override;

private:
    std::optional<std::string> have_;
    std::string by_ = "pitch";
    std::vector<int> percents_{50, 80, 90, 95};
    std::optional<std::int64_t> best_start_;
    LimitOptions limits_;
    std::string library_;
    FilterOptions filter_;
    Format format_;
};

class SyllabusCommand : public Command {
public:
    CLI::App* add_to(CLI::App& program) override;
    int run() override;

private:
    void check() const;
    int list() const;
    int forget();
    int take_back(report::SyllabusPage& page);
    int compare(const syllabus::Syllabus& plan) const;
    int tell_missed(const syllabus::Syllabus& plan) const;
    int again(const syllabus::Name& name);
    int plan(const syllabus::Name& name, const std::vector<std::string>& typed);
    int change(const syllabus::Name& name, report::SyllabusPage page);
    bool lay_out(const SyllabusRequest& request, std::vector<syllabus::Lesson> lessons, std::size_t fixed,
                 TermSoFar so_far, syllabus::Syllabus& plan) const;
    std::size_t mark_given(std::vector<syllabus::Lesson>& lessons) const;
    TermSoFar lose(std::vector<syllabus::Lesson>& lessons, std::size_t& fixed) const;
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

// `--json`, `--csv`; not both.
void add_format(CLI::App& command, Format& format);
void add_library(CLI::App& command, std::string& library);

}  // namespace cli
