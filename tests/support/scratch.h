// A folder of a test's own, removed with all that is in it when the test ends; and rights a test can do without.
#pragma once

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <string_view>

namespace support {

class Scratch {
public:
    Scratch() {
        std::string pattern = (std::filesystem::temp_directory_path() / "gamut-test-XXXXXX").string();
        if (::mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("could not make " + pattern);
        path_ = pattern;
    }
    ~Scratch() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;

    const std::filesystem::path& path() const { return path_; }
    std::filesystem::path operator/(std::string_view name) const { return path_ / name; }

    // Makes the folders above it too.
    std::filesystem::path write(std::string_view name, std::string_view text) const {
        const std::filesystem::path file = path_ / name;
        std::filesystem::create_directories(file.parent_path());
        std::ofstream(file, std::ios::binary) << text;
        return file;
    }
    std::string read(std::string_view name) const {
        std::ifstream file(path_ / name, std::ios::binary);
        return {std::istreambuf_iterator<char>(file), {}};
    }
    // Times in nanoseconds since 1970.
    void set_mtime(std::string_view name, std::int64_t mtime_ns) const {
        const timespec when{mtime_ns / 1'000'000'000, mtime_ns % 1'000'000'000};
        const timespec times[2] = {when, when};
        if (::utimensat(AT_FDCWD, (path_ / name).c_str(), times, 0) != 0)
            throw std::runtime_error("could not set a time");
    }

private:
    std::filesystem::path path_;
};

// For tests of what may not be read or written: the superuser goes on as nobody in particular. A Scratch must be made
// while this lives, and end before it.
class Unprivileged {
public:
    Unprivileged() {
        if (::geteuid() == 0 && ::seteuid(kNobody) == 0) is_lowered_ = true;
    }
    ~Unprivileged() {
        if (is_lowered_ && ::seteuid(0) != 0) std::abort();
    }
    Unprivileged(const Unprivileged&) = delete;
    Unprivileged& operator=(const Unprivileged&) = delete;

    // False where the superuser cannot lower himself either.
    static bool holds() { return ::geteuid() != 0; }

private:
    static constexpr uid_t kNobody = 65534;
    bool is_lowered_ = false;
};

}  // namespace support
