#include "cli/terminal.h"

#include <fcntl.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <chrono>
#include <cstdlib>
#include <ctime>
#include <memory>
#include <system_error>

#include "base/utf8.h"
#include "cli/new_file.h"

namespace cli {

namespace {

constexpr std::size_t kNarrowestPage = 40;
constexpr std::size_t kWidestPage = 200;  // longer rows are hard to follow with the eye

const char* environment(const char* name) {
    const char* value = std::getenv(name);
    return value != nullptr && *value != '\0' ? value : nullptr;
}

}  // namespace

namespace {

// SQLite's name for what is forgotten at the end.
std::filesystem::path library_named(const std::string& where, const std::string& file) {
    if (file == ":memory:") throw Misuse(where + " takes the name of a file; in \":memory:\" nothing would be kept");
    return file;
}

// The file that answers go into, and what stands in it so far.
struct AnswerFile {
    explicit AnswerFile(const std::string& name) : file(name, NewFile::For::owner) {}

    NewFile file;
    std::string text;
};
std::unique_ptr<AnswerFile> answer_file;

bool answers_go_to_terminal() { return !answer_file && ::isatty(STDOUT_FILENO) == 1; }

std::string harmless(std::string_view text) {
    std::string lines;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        const std::size_t next = std::min(end + 1, text.size());
        const std::size_t content = end > 0 && next > end && text[end - 1] == '\r' ? end - 1 : end;
        lines += base::printable(text.substr(0, content));
        lines += text.substr(content, next - content);
        text.remove_prefix(next);
    }
    return lines;
}

// Of the program that runs: what has been said, and whether little is to be said.
bool answered = false, quiet = false;
std::string said;

void write_bytes(std::string_view text) {
    answered = answered || !text.empty();
    if (answer_file) {
        answer_file->text += text;
        return;
    }
    while (!text.empty()) {
        const ssize_t written = ::write(STDOUT_FILENO, text.data(), text.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0 && errno == EPIPE) std::_Exit(kDone);
        if (written < 0) throw Unanswered(std::generic_category().message(errno));
        text.remove_prefix(static_cast<std::size_t>(written));
    }
}

}  // namespace

void write_answer(std::string_view text) {
    if (answers_go_to_terminal())
        write_bytes(harmless(text));
    else
        write_bytes(text);
}

void answer_into(const std::string& file) { answer_file = std::make_unique<AnswerFile>(file); }

void finish_answer() {
    if (!answer_file) return;
    answer_file->file.write(answer_file->text);
    answer_file.reset();
}

void answer_here() noexcept { answer_file.reset(); }

void write_answer(const report::Document& document) {
    write_rendered(report::render_text(document, page_of_terminal()));
}

void write_document(const Format& format, const report::Document& document) {
    if (format.html)
        write_bytes(report::render_html(document));
    else
        write_answer(document);
}

void write_rendered(std::string_view text) { write_bytes(text); }

bool has_answered() noexcept { return answered; }

void write_fault(std::string_view text) {
    said = text;
    write_progress(harmless(text));
}

void write_notice(std::string_view text) {
    if (!text.empty()) said = text;
    if (!quiet) write_progress(harmless(text));
}

std::string last_said() { return said; }
void be_quiet() noexcept { quiet = true; }
bool is_quiet() noexcept { return quiet; }

void write_progress(std::string_view text) {
    while (!text.empty()) {
        const ssize_t written = ::write(STDERR_FILENO, text.data(), text.size());
        if (written < 0 && errno != EINTR) return;
        if (written > 0) text.remove_prefix(static_cast<std::size_t>(written));
    }
}

report::Page page_of_terminal() {
    report::Page page;
    winsize size{};
    if (const char* columns = environment("COLUMNS"))
        page.width_chars = std::strtoul(columns, nullptr, 10);
    else if (::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0)
        page.width_chars = size.ws_col;
    page.width_chars =
        std::clamp(page.width_chars == 0 ? std::size_t{80} : page.width_chars, kNarrowestPage, kWidestPage);
    page.color = answers_go_to_terminal() && environment("NO_COLOR") == nullptr;
    return page;
}

std::optional<std::int64_t> rows_of_terminal() {
    constexpr std::int64_t kAround = 8, kFewest = 10;  // lines of heading, summary and prompt. Source: house choice
    winsize size{};
    if (!answers_go_to_terminal() || ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0) return std::nullopt;
    return std::max(std::int64_t{size.ws_row} - kAround, kFewest);
}

bool notices_go_to_terminal() { return ::isatty(STDERR_FILENO) == 1; }

std::filesystem::path library_file(const std::string& option) {
    if (!option.empty()) return library_named("--library", option);
    if (const char* library = environment("GAMUT_LIBRARY")) return library_named("GAMUT_LIBRARY", library);
    if (const char* share = environment("XDG_DATA_HOME")) return std::filesystem::path(share) / "gamut" / "library.db";
    if (const char* home = environment("HOME"))
        return std::filesystem::path(home) / ".local" / "share" / "gamut" / "library.db";
    throw Misuse("no place for the library: give --library FILE or set GAMUT_LIBRARY");
}

void keep_standard_streams() {
    // Each the wrong way round: what is read or written there fails, as it did when it was closed.
    for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
        if (::fcntl(stream, F_GETFD) < 0 && errno == EBADF)
            if (::open("/dev/null", stream == STDIN_FILENO ? O_WRONLY : O_RDONLY) < 0) std::_Exit(kWorldFailed);
}

std::int64_t now_ns() {
    return std::chrono::duration_cast<std::chrono::nanoseconds>(std::chrono::system_clock::now().time_since_epoch())
        .count();
}

base::Date today() {
    if (const char* said = environment("GAMUT_TODAY")) {
        try {
            return base::read_date(said);
        } catch (const base::DateFault& fault) {
            throw Misuse(std::string("GAMUT_TODAY: ") + fault.what());
        }
    }
    const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
    std::tm local{};
    ::localtime_r(&now, &local);
    return std::chrono::year_month_day(std::chrono::year(local.tm_year + 1900),
                                       std::chrono::month(static_cast<unsigned>(local.tm_mon + 1)),
                                       std::chrono::day(static_cast<unsigned>(local.tm_mday)));
}

}  // namespace cli
