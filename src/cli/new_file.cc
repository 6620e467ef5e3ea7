#include "cli/new_file.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

#include "base/failure.h"

namespace cli {

void write_new_file(const std::string& file, std::string_view text) {
    const int handle = ::open(file.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (handle < 0)
        throw base::Failure("write", file,
                            errno == EEXIST ? "it is there already; only a new file is written" : std::strerror(errno));
    while (!text.empty()) {
        const ssize_t written = ::write(handle, text.data(), text.size());
        if (written < 0 && errno == EINTR) continue;
        if (written <= 0) {
            const std::string why = std::strerror(errno);
            ::close(handle);
            throw base::Failure("write", file, why);
        }
        text.remove_prefix(static_cast<std::size_t>(written));
    }
    if (::close(handle) != 0) throw base::Failure("write", file, std::strerror(errno));
}

}  // namespace cli
