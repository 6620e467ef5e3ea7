// flock(2) is apart from the POSIX locks SQLite takes, so the two do not meet. Tested by import_lock_test.cc.
#include "library/import_lock.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>

#include "base/failure.h"
#include "library/library_file.h"

namespace library {

namespace {

const std::filesystem::path& made_unless_there(const std::filesystem::path& file) {
    make_unless_there(file);
    require_ordinary(file);
    return file;
}

}  // namespace

ImportLock::ImportLock(const std::filesystem::path& file) : ImportLock(made_unless_there(file), Existing{}) {}

ImportLock ImportLock::of_existing(const std::filesystem::path& file) { return {file, Existing{}}; }

ImportLock::ImportLock(const std::filesystem::path& file, Existing) {
    descriptor_ = ::open(file.c_str(), O_RDWR | O_CLOEXEC);
    if (descriptor_ < 0) base::fail_with_errno("open", file.string(), errno);
    int result = 0;
    do {
        result = ::flock(descriptor_, LOCK_EX | LOCK_NB);
    } while (result != 0 && errno == EINTR);
    if (result == 0) return;
    const int error = errno;
    ::close(descriptor_);
    if (error == EWOULDBLOCK)
        throw base::Failure("import", "into the library", "another import is writing to " + file.string());
    base::fail_with_errno("lock", file.string(), error);
}

ImportLock::~ImportLock() { ::close(descriptor_); }

}  // namespace library
