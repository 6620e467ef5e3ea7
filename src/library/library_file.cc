// Tested by library_file_test.cc.
#include "library/library_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>

#include "base/failure.h"
#include "library/database.h"
#include "library/migrate.h"

namespace library {

namespace {

namespace fs = std::filesystem;

// SQLite writes one byte into a file it has only just begun, and takes a file of one for empty.
// Source: SQLite 3.40, os_unix.c, unixFileSize.
constexpr off_t kStillEmpty = 1;

void make_folders(const fs::path& folder) {
    if (folder.empty() || fs::exists(folder)) return;
    make_folders(folder.parent_path());
    if (::mkdir(folder.c_str(), 0700) != 0 && errno != EEXIST)
        base::fail_with_errno("make the folder", folder.string(), errno);
}

void sync_path(const fs::path& path, int flags) {
    const int descriptor = ::open(path.c_str(), flags | O_CLOEXEC);
    if (descriptor < 0) base::fail_with_errno("write", path.string(), errno);
    const int result = ::fsync(descriptor);
    const int error = errno;
    ::close(descriptor);
    if (result != 0 && error != EINVAL) base::fail_with_errno("write", path.string(), error);
}

}  // namespace

void make_folders_above(const fs::path& file) { make_folders(file.parent_path()); }

void require_ordinary(const fs::path& file) {
    struct stat status {};
    if (::stat(file.c_str(), &status) != 0) base::fail_with_errno("open", file.string(), errno);
    if (S_ISDIR(status.st_mode)) throw base::Failure("open", file.string(), "it is a folder, not a gamut library");
    if (!S_ISREG(status.st_mode))
        throw base::Failure("open", file.string(), "it is a pipe or a device, not a gamut library");
    if (status.st_size <= kStillEmpty)
        throw base::Failure("open", file.string(),
                            "there is nothing in it, so it is no gamut library; if it was one, `gamut library restore` "
                            "brings back a backup; if not, remove it, and `gamut import` makes a library");
}

void make_unless_there(const fs::path& file) {
    struct stat status {};
    if (::stat(file.c_str(), &status) == 0) return;
    if (errno != ENOENT) base::fail_with_errno("open", file.string(), errno);
    if (::lstat(file.c_str(), &status) == 0)
        throw base::Failure("open", file.string(), "it is a link that leads nowhere");
    make_folders_above(file);
    UnfinishedFile made(file);
    {
        const Database database(made.path(), Access::write);
        migrate(database);
    }
    made.take_name();  // where another program was first, there is a library all the same
}

void sync_file(const fs::path& file) { sync_path(file, O_RDONLY); }

void sync_folder_of(const fs::path& file) {
    sync_path(file.has_parent_path() ? file.parent_path() : fs::path("."), O_RDONLY | O_DIRECTORY);
}

UnfinishedFile::UnfinishedFile(fs::path file) : file_(std::move(file)) {
    std::string pattern = file_.string() + ".unfinished-XXXXXX";
    const int descriptor = ::mkostemp(pattern.data(), O_CLOEXEC);
    if (descriptor < 0) base::fail_with_errno("write", file_.string(), errno);
    ::close(descriptor);
    path_ = pattern;
}

UnfinishedFile::~UnfinishedFile() {
    if (path_.empty()) return;
    for (const char* ending : {"-journal", "-wal", "-shm", ""}) ::unlink((path_.string() + ending).c_str());
}

bool UnfinishedFile::take_name() {
    sync_file(path_);
    struct stat status {};
    if (::link(path_.c_str(), file_.c_str()) == 0) {
        ::unlink(path_.c_str());
    } else if (errno == EEXIST) {
        return false;
    } else if (errno == EPERM || errno == ENOTSUP || errno == ENOSYS) {  // a disk without hard links
        if (::lstat(file_.c_str(), &status) == 0) return false;
        if (::rename(path_.c_str(), file_.c_str()) != 0) base::fail_with_errno("write", file_.string(), errno);
    } else {
        base::fail_with_errno("write", file_.string(), errno);
    }
    path_.clear();
    sync_folder_of(file_);
    return true;
}

void UnfinishedFile::take_place() {
    sync_file(path_);
    if (::rename(path_.c_str(), file_.c_str()) != 0) base::fail_with_errno("write", file_.string(), errno);
    path_.clear();
    sync_folder_of(file_);
}

}  // namespace library
