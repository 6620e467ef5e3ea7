// Where answers and diagnostics go: the only place that knows the terminal, the environment and the clock.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>

#include "base/date.h"
#include "report/document.h"
#include "report/write.h"
#include "report/writers/text.h"

namespace cli {

// The command was misused: one sentence for the user, exit 2.
class Misuse : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

// The answer could not be written: what the system said.
class Unanswered : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

constexpr int kDone = 0;
constexpr int kDoneInPart = 1;  // some input was skipped, or the asked-for thing could not be met
constexpr int kMisused = 2;
constexpr int kWorldFailed = 3;

// How an answer is wanted, as typed: at most one of them.
struct Format {
    bool json = false;
    bool csv = false;
    bool html = false;

    report::Format wanted() const noexcept {
        return json   ? report::Format::json
               : csv  ? report::Format::csv
               : html ? report::Format::html
                      : report::Format::text;
    }
};

// Standard output. On a terminal, control characters are made blanks and line ends are kept: what a stranger's file
// holds must not drive it; into a file or a pipe the bytes go as they are. A closed pipe ends the program quietly with
// exit 0; throws Unanswered when it cannot be written.
void write_answer(std::string_view text);
void write_answer(const report::Document& document);

// From now on answers go into this new file, for its owner alone to read, in one go at the end: `finish_answer`. What
// is there already is never written over. Both throw base::Failure, the first also Misuse for a name that is empty.
void answer_into(const std::string& file);
void finish_answer();         // nothing where answers go to standard output
void answer_here() noexcept;  // to standard output again; the file is gone as if it had never been made
void write_document(const Format& format, const report::Document& document);  // as text or as HTML
void write_rendered(std::string_view text);  // by report::render_text: harmless already, and coloured

// Whether anything was written there.
bool has_answered() noexcept;

// Standard error; what cannot be said there is not said. Control characters are made blanks, line ends are kept.
void write_fault(std::string_view text);   // why there is no answer
void write_notice(std::string_view text);  // all else; nothing after be_quiet()
std::string last_said();                   // of both, written or not; empty where there was nothing
void be_quiet() noexcept;
bool is_quiet() noexcept;
void write_progress(std::string_view text);  // as it is: for a terminal, and for words of our own alone

// `$COLUMNS`, else the terminal's, else 80. Colour on a terminal unless `NO_COLOR` is set.
report::Page page_of_terminal();
// Rows of a table that stay on the screen with what is said around it; nothing where answers go elsewhere.
std::optional<std::int64_t> rows_of_terminal();
bool notices_go_to_terminal();

// `--library FILE`, else `$GAMUT_LIBRARY`, else `$XDG_DATA_HOME/gamut/library.db`, else
// `~/.local/share/gamut/library.db`.
std::filesystem::path library_file(const std::string& option);

// To be called first. A stream that the caller has closed is taken by nothing, so that no file comes to stand in its
// place and is written to for it.
void keep_standard_streams();

std::int64_t now_ns();  // nanoseconds since 1970
// By the clock and the zone of this machine, unless `$GAMUT_TODAY` says another day: for tests, and for asking ahead.
base::Date today();

}  // namespace cli
