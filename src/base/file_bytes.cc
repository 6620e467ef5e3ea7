#include "base/file_bytes.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>

#include "base/failure.h"

namespace base {

namespace {

class FileDescriptor {
public:
    explicit FileDescriptor(int number) noexcept : number_(number) {}
    ~FileDescriptor() {
        if (number_ >= 0) ::close(number_);
    }
    FileDescriptor(const FileDescriptor&) = delete;
    FileDescriptor& operator=(const FileDescriptor&) = delete;
    int number() const noexcept { return number_; }

private:
    int number_;
};

[[noreturn]] void refuse_too_large(const std::filesystem::path& path) {
    throw Failure("read", path.string(), "it is larger than " + std::to_string(kMaxFileBytes / 1024 / 1024) + " MiB");
}

}  // namespace

std::string read_bytes(const std::filesystem::path& path) {
    const FileDescriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
    if (file.number() < 0) fail_with_errno("read", path.string(), errno);
    struct stat status {};
    if (::fstat(file.number(), &status) != 0) fail_with_errno("read", path.string(), errno);
    if (S_ISDIR(status.st_mode)) fail_with_errno("read", path.string(), EISDIR);
    if (status.st_size > kMaxFileBytes) refuse_too_large(path);
    // Some never end. What a person types at a terminal does.
    const bool is_device = S_ISBLK(status.st_mode) || (S_ISCHR(status.st_mode) && ::isatty(file.number()) == 0);
    if (is_device) throw Failure("read", path.string(), "it is a device, not a file");
    std::string bytes(status.st_size > 0 ? static_cast<std::size_t>(status.st_size) : 0, '\0');
    std::size_t filled = 0;
    for (;;) {
        if (filled == bytes.size()) bytes.resize(filled + (S_ISREG(status.st_mode) && filled > 0 ? 1 : 65536));
        const ssize_t got = ::read(file.number(), bytes.data() + filled, bytes.size() - filled);
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) fail_with_errno("read", path.string(), errno);
        if (got == 0) break;
        filled += static_cast<std::size_t>(got);
        if (filled > static_cast<std::size_t>(kMaxFileBytes)) refuse_too_large(path);  // a pipe may never end
    }
    bytes.resize(filled);
    return bytes;
}

}  // namespace base
