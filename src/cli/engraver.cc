// Tested by tests/golden/handout/staff.test and tests/outside/handouts.py.
#include "cli/engraver.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <chrono>
#include <cstdlib>
#include <string_view>

namespace cli {

namespace {

constexpr const char* kProgram = "abcm2ps";
constexpr std::chrono::seconds kLongest{10};
constexpr std::size_t kMostBytes = 4U << 20U;  // of a picture; no part of a tune comes near it

struct Pipe {
    std::array<int, 2> ends{-1, -1};

    Pipe() {
        if (::pipe(ends.data()) != 0) ends = {-1, -1};
    }
    ~Pipe() {
        close(0);
        close(1);
    }
    Pipe(const Pipe&) = delete;
    Pipe& operator=(const Pipe&) = delete;
    void close(std::size_t end) {
        if (ends[end] >= 0) ::close(ends[end]);
        ends[end] = -1;
    }
    bool is_open() const { return ends[0] >= 0; }
};

[[noreturn]] void become_engraver(const Pipe& in, const Pipe& out) {
    ::dup2(in.ends[0], STDIN_FILENO);
    ::dup2(out.ends[1], STDOUT_FILENO);
    if (const int nowhere = ::open("/dev/null", O_WRONLY); nowhere >= 0) ::dup2(nowhere, STDERR_FILENO);
    for (const int end : {in.ends[0], in.ends[1], out.ends[0], out.ends[1]}) ::close(end);
    const rlimit seconds{10, 10};
    ::setrlimit(RLIMIT_CPU, &seconds);
    ::signal(SIGPIPE, SIG_DFL);
    // Secure mode, quiet, one SVG a tune, from standard input to standard output.
    ::execlp(kProgram, kProgram, "-S", "-q", "-g", "-O", "-", "-", static_cast<char*>(nullptr));
    ::_exit(127);
}

// Gives the text and takes the picture at the same time, so that neither waits for the other for ever.
std::string exchange(Pipe& in, Pipe& out, std::string_view text) {
    std::string picture;
    const auto end = std::chrono::steady_clock::now() + kLongest;
    while (std::chrono::steady_clock::now() < end && picture.size() < kMostBytes) {
        std::array<pollfd, 2> waits{pollfd{out.ends[0], POLLIN, 0}, pollfd{in.ends[1], POLLOUT, 0}};
        if (::poll(waits.data(), in.ends[1] >= 0 ? 2 : 1, 100) < 0 && errno != EINTR) return {};
        if (in.ends[1] >= 0 && (waits[1].revents & (POLLOUT | POLLERR)) != 0) {
            const ssize_t written = ::write(in.ends[1], text.data(), text.size());
            if (written > 0) text.remove_prefix(static_cast<std::size_t>(written));
            if (text.empty() || (written < 0 && errno != EINTR)) in.close(1);
        }
        if ((waits[0].revents & (POLLIN | POLLHUP)) == 0) continue;
        std::array<char, 4096> bytes;
        const ssize_t read = ::read(out.ends[0], bytes.data(), bytes.size());
        if (read < 0 && errno == EINTR) continue;
        if (read <= 0) return picture;
        picture.append(bytes.data(), static_cast<std::size_t>(read));
    }
    return {};
}

}  // namespace

std::string engrave(const std::string& abc) {
    Pipe in, out;
    if (!in.is_open() || !out.is_open()) return {};
    const pid_t child = ::fork();
    if (child < 0) return {};
    if (child == 0) become_engraver(in, out);
    in.close(0);
    out.close(1);
    std::string picture = exchange(in, out, abc);
    in.close(1);
    out.close(0);
    if (picture.empty()) ::kill(child, SIGKILL);
    int status = 0;
    while (::waitpid(child, &status, 0) < 0 && errno == EINTR) continue;
    const bool is_well = WIFEXITED(status) && WEXITSTATUS(status) == 0;
    const std::size_t begin = picture.find("<svg");
    const std::size_t end = picture.rfind("</svg>");
    if (!is_well || begin == std::string::npos || end == std::string::npos) return {};
    return picture.substr(begin, end + 6 - begin);
}

bool has_engraver() {
    const char* path = std::getenv("PATH");
    std::string_view folders = path ? path : "";
    while (!folders.empty()) {
        const std::size_t end = std::min(folders.find(':'), folders.size());
        if (::access((std::string(folders.substr(0, end)) + "/" + kProgram).c_str(), X_OK) == 0) return true;
        folders.remove_prefix(std::min(end + 1, folders.size()));
    }
    return false;
}

}  // namespace cli
