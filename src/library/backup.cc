// Pages are copied by SQLite's own backup functions, which take part in its locking. Tested by backup_test.cc.
#include "library/backup.h"

#include <fcntl.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <charconv>
#include <map>
#include <string>

#include "base/failure.h"
#include "library/existing_library.h"
#include "library/import_lock.h"
#include "library/library_file.h"
#include "library/migrate.h"
#include "library/statement.h"

namespace library {

namespace {

namespace fs = std::filesystem;

constexpr const char* kBeside[] = {"-journal", "-wal", "-shm"};  // what SQLite keeps beside a file

// One transaction in `to`.
void copy_pages(const Database& from, const Database& to) {
    sqlite3_backup* const pages = sqlite3_backup_init(to.handle(), "main", from.handle(), "main");
    if (pages == nullptr) to.fail("write to");
    const int result = sqlite3_backup_step(pages, -1);
    sqlite3_backup_finish(pages);
    if (result == SQLITE_DONE) return;
    const int kind = result & 0xFF;
    if (kind == SQLITE_BUSY || kind == SQLITE_LOCKED)
        throw base::Failure("copy", from.file() + " to " + to.file(), "another program is using it");
    throw base::Failure("copy", from.file() + " to " + to.file(), sqlite3_errstr(result));
}

// Without the journal that imports use, which a copy taken meanwhile has too.
void leave_at_rest(const Database& database) { database.exec("PRAGMA journal_mode = DELETE"); }

void require_sound(const Database& database, const std::string& name) {
    const std::string said = database.text("PRAGMA integrity_check(1)");
    if (said != "ok") throw base::Failure("use", name, "it is damaged (" + said + ")");
    if (database.number("SELECT count(*) FROM pragma_foreign_key_check") != 0)
        throw base::Failure("use", name, "it is damaged (rows that point nowhere)");
}

// False for what SQLite takes for no database of its kind, or for a damaged one.
bool is_readable(const Database& database) {
    const int result = sqlite3_exec(database.handle(), "PRAGMA schema_version; SELECT count(*) FROM sqlite_schema",
                                    nullptr, nullptr, nullptr);
    if ((result & 0xFF) == SQLITE_NOTADB || (result & 0xFF) == SQLITE_CORRUPT) return false;
    if (result != SQLITE_OK) database.fail("write to");
    return true;
}

// Whether the copy bears its name now.
bool copy_to(const Database& from, const fs::path& to, bool is_to_be_sound) {
    UnfinishedFile made(to);
    {
        const Database copy(made.path(), Access::write);
        copy_pages(from, copy);
        if (is_readable(copy)) leave_at_rest(copy);
        if (is_to_be_sound) require_sound(copy, from.file());
    }
    return made.take_name();
}

class Descriptor {
public:
    Descriptor(const fs::path& file, int flags) : number_(::open(file.c_str(), flags | O_CLOEXEC, 0600)) {
        if (number_ < 0) base::fail_with_errno("copy", file.string(), errno);
    }
    ~Descriptor() { ::close(number_); }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    int number() const noexcept { return number_; }

private:
    int number_;
};

void copy_bytes(const fs::path& from, const fs::path& to) {
    const Descriptor in(from, O_RDONLY);
    const Descriptor out(to, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW);
    std::string bytes(1 << 16, '\0');
    for (;;) {
        const ssize_t got = ::read(in.number(), bytes.data(), bytes.size());
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) base::fail_with_errno("copy", from.string(), errno);
        if (got == 0) break;
        for (ssize_t done = 0; done < got;) {
            const ssize_t put = ::write(out.number(), bytes.data() + done, static_cast<std::size_t>(got - done));
            if (put < 0 && errno == EINTR) continue;
            if (put < 0) base::fail_with_errno("write", to.string(), errno);
            done += put;
        }
    }
    if (::fsync(out.number()) != 0) base::fail_with_errno("write", to.string(), errno);
}

// The automatic backups there are, by their numbers.
std::map<std::uint64_t, fs::path> numbered_backups(const fs::path& library) {
    std::map<std::uint64_t, fs::path> backups;
    const std::string begin = library.filename().string() + ".backup-";
    std::error_code error;
    const fs::path folder = library.has_parent_path() ? library.parent_path() : fs::path(".");
    for (fs::directory_iterator at(folder, error), end; !error && at != end; at.increment(error)) {
        const std::string name = at->path().filename().string();
        if (!name.starts_with(begin)) continue;
        std::uint64_t number = 0;
        const char* const last = name.data() + name.size();
        const auto read = std::from_chars(name.data() + begin.size(), last, number);
        if (read.ec == std::errc() && read.ptr == last) backups.emplace(number, library.parent_path() / name);
    }
    return backups;
}

template <typename Copy>
fs::path numbered(const fs::path& library, Copy copy) {
    std::map<std::uint64_t, fs::path> backups = numbered_backups(library);
    std::uint64_t number = backups.empty() ? 1 : backups.rbegin()->first + 1;
    fs::path name;
    do {
        name = library.string() + ".backup-" + std::to_string(number++);
    } while (!copy(name));
    return name;
}

// With what stands beside it, without which it may be half written.
bool copy_as_it_is(const fs::path& library, const fs::path& to) {
    struct stat status {};
    if (::lstat(to.c_str(), &status) == 0) return false;
    for (const char* ending : {"-journal", "-wal"})
        if (::stat((library.string() + ending).c_str(), &status) == 0)
            copy_bytes(library.string() + ending, to.string() + ending);
    copy_bytes(library, to);
    sync_folder_of(to);
    return true;
}

bool is_there(const fs::path& file) {
    struct stat status {};
    if (::stat(file.c_str(), &status) == 0) return true;
    if (errno != ENOENT && errno != ENOTDIR) base::fail_with_errno("open", file.string(), errno);
    return false;
}

// Another file takes the place of one that SQLite cannot open.
void replace(const fs::path& library, const Database& from) {
    UnfinishedFile made(library);
    {
        const Database copy(made.path(), Access::write);
        copy_pages(from, copy);
        leave_at_rest(copy);
    }
    // What was half written into the old file must not be undone in the new one.
    for (const char* ending : kBeside) ::unlink((library.string() + ending).c_str());
    sync_folder_of(library);
    made.take_place();
}

// False, and nothing was done, where SQLite cannot open the file.
bool copied_into(const fs::path& library, const Database& from) {
    const Database now(library, Access::write);
    if (!is_readable(now)) return false;
    now.exec("PRAGMA synchronous = EXTRA");  // once it is answered, lost power does not undo it
    leave_at_rest(now);
    copy_pages(from, now);
    leave_at_rest(now);
    return true;
}

}  // namespace

std::uintmax_t back_up(const fs::path& library, const fs::path& to) {
    const auto database = open_existing_library(library, Access::read);
    if (!copy_to(*database, to, true))
        throw base::Failure("write", to.string(), "it is there already; a backup never takes the place of a file");
    return fs::file_size(to);
}

fs::path keep_backup(const Database& library) {
    return numbered(library.file(), [&](const fs::path& name) { return copy_to(library, name, false); });
}

void drop_backup(const fs::path& backup) {
    std::error_code ignored;
    fs::remove(backup, ignored);
    for (const char* ending : kBeside) fs::remove(backup.string() + ending, ignored);
}

std::vector<fs::path> backups_of(const fs::path& library) {
    std::vector<fs::path> files;
    for (const auto& [number, file] : numbered_backups(library)) files.push_back(file);
    return files;
}

void drop_old_backups(const fs::path& library) {
    std::map<std::uint64_t, fs::path> backups = numbered_backups(library);
    for (auto at = backups.begin(); backups.size() > kBackupsKept; at = backups.erase(at)) drop_backup(at->second);
}

fs::path keep_backup(const fs::path& library) {
    try {
        return keep_backup(Database(library, Access::read));
    } catch (const base::Failure&) {
        return numbered(library, [&](const fs::path& name) { return copy_as_it_is(library, name); });
    }
}

std::optional<fs::path> restore(const fs::path& library, const fs::path& from) {
    require_ordinary(from);
    if (is_there(library) && fs::equivalent(library, from))
        throw base::Failure("restore", library.string(), "the file named is the library itself");
    const Database source(from, Access::read);
    require_known(source);
    require_sound(source, from.string());
    if (!is_there(library)) {
        make_folders_above(library);
        if (!copy_to(source, library, true))
            throw base::Failure("restore", library.string(), "another program has just made it; please try again");
        return std::nullopt;
    }
    if (!fs::is_regular_file(library)) require_ordinary(library);  // tells what it is
    const ImportLock lock = ImportLock::of_existing(library);
    fs::path kept = keep_backup(library);
    try {
        if (!copied_into(library, source)) replace(library, source);
    } catch (const base::Failure& failure) {
        throw base::Failure("restore", library.string(),
                            std::string(failure.what()) + "; what was there before is kept as " + kept.string() +
                                ", and gamut library check tells whether the library is whole");
    }
    drop_old_backups(library);
    return kept;
}

Sizes compact(const fs::path& library) {
    Sizes sizes;
    const ImportLock lock = ImportLock::of_existing(library);
    const auto database = open_existing_library(library, Access::write);
    leave_at_rest(*database);
    sizes.before = fs::file_size(library);
    database->exec("INSERT INTO title_search (title_search) VALUES ('optimize')");
    database->exec("VACUUM");
    sizes.after = fs::file_size(library);
    return sizes;
}

}  // namespace library
