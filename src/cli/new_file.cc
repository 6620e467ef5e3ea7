#include "cli/new_file.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <utility>

#include "base/failure.h"
#include "cli/terminal.h"

namespace cli {

NewFile::NewFile(std::string file, For whom) : file_(std::move(file)) {
    if (file_.empty()) throw Misuse("--output takes the name of a file, not \"\"");
    handle_ = ::open(file_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, whom == For::owner ? 0600 : 0666);
    if (handle_ >= 0) return;
    if (errno == EEXIST) throw base::Failure("write", file_, "it is there already; only a new file is written");
    fail();
}

NewFile::~NewFile() {
    if (handle_ >= 0) ::close(handle_);
    if (!is_whole_) ::unlink(file_.c_str());
}

void NewFile::write(std::string_view text) {
    while (!text.empty()) {
        const ssize_t written = ::write(handle_, text.data(), text.size());
        if (written < 0 && errno == EINTR) continue;
        if (written <= 0) fail();
        text.remove_prefix(static_cast<std::size_t>(written));
    }
    if (::close(std::exchange(handle_, -1)) != 0) fail();
    is_whole_ = true;
}

void NewFile::fail() const { throw base::Failure("write", file_, std::strerror(errno)); }

}  // namespace cli
