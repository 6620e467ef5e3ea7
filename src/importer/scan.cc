// Folders are walked as they are; links are left for afterwards, so that what can be met without one is. Tested by
// scan_test.cc.
#include "importer/scan.h"

#include <dirent.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <deque>
#include <set>
#include <string_view>
#include <system_error>
#include <utility>

#include "abc/tunebook.h"
#include "base/utf8.h"

namespace importer {

namespace {

namespace fs = std::filesystem;

// How much of a text is looked at to tell whether it is ABC.
constexpr std::size_t kLookBytes = 65536;

constexpr std::string_view kIsLibrary = "is the gamut library itself and was not read";

using Node = std::pair<dev_t, ino_t>;  // what a path leads to

std::string words_of(int error_number) { return std::generic_category().message(error_number); }

std::string ending_of(const std::string& path) {
    std::string ending = fs::path(path).extension().string();
    for (char& c : ending)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return ending;
}

std::string beginning_of(const std::string& path) {
    const int descriptor = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
    if (descriptor < 0) return {};
    std::string bytes(kLookBytes, '\0');
    const ssize_t got = ::read(descriptor, bytes.data(), bytes.size());
    ::close(descriptor);
    bytes.resize(got > 0 ? static_cast<std::size_t>(got) : 0);
    return bytes;
}

class Walk {
public:
    Walk(const std::unordered_set<std::string>& known, const fs::path& library) : known_(known) {
        if (library.empty()) return;
        for (const char* ending : {"", "-wal", "-shm", "-journal"}) {
            struct stat status {};
            if (::stat((library.string() + ending).c_str(), &status) == 0)
                of_library_.insert({status.st_dev, status.st_ino});
        }
    }

    void add(const fs::path& asked) {
        std::error_code error;
        fs::path path = fs::absolute(asked, error).lexically_normal();
        if (!path.has_filename()) path = path.parent_path();  // `folder/`
        struct stat status {};
        if (::stat(path.c_str(), &status) != 0) {
            problem(asked.string(), errno == ENOENT ? "is not there" : "could not be looked at: " + words_of(errno));
            return;
        }
        if (S_ISDIR(status.st_mode)) {
            const fs::path root = fs::canonical(path, error);
            const std::string folder = error ? path.string() : root.string();
            scan_.folders.push_back(folder);
            walk_folder(folder, folder, {status.st_dev, status.st_ino});
        } else if (of_library_.contains({status.st_dev, status.st_ino})) {
            problem(asked.string(), std::string(kIsLibrary));
        } else if (S_ISREG(status.st_mode)) {
            const fs::path parent = fs::canonical(path.parent_path(), error);
            const fs::path place = (error ? path.parent_path() : parent) / path.filename();
            take(place.string(), path.filename().string(), status);
        } else {
            problem(asked.string(), "is neither a file nor a folder");
        }
    }

    Scan finish() {
        while (!links_.empty()) {
            const Link link = std::move(links_.front());
            links_.pop_front();
            follow(link);
        }
        std::sort(scan_.files.begin(), scan_.files.end(),
                  [](const FoundFile& a, const FoundFile& b) { return a.path < b.path; });
        const auto by_path = [](const PathRemark& a, const PathRemark& b) { return a.path < b.path; };
        std::stable_sort(scan_.problems.begin(), scan_.problems.end(), by_path);
        std::stable_sort(scan_.passed_over.begin(), scan_.passed_over.end(), by_path);
        return std::move(scan_);
    }

private:
    struct Link {
        std::string path;
        std::string root;
    };

    void problem(const std::string& path, std::string sentence) {
        scan_.problems.push_back({base::printable(path), std::move(sentence)});
    }
    void pass_over(const std::string& path, std::string sentence) {
        scan_.passed_over.push_back({base::printable(path), std::move(sentence)});
    }

    static std::string below(const std::string& path, const std::string& root) {
        return path.substr(root == "/" ? 1 : root.size() + 1);
    }

    void walk_folder(const std::string& first, const std::string& root, Node first_node) {
        if (!folders_.insert(first_node).second) return;
        std::vector<std::string> waiting{first};
        while (!waiting.empty()) {
            const std::string folder = std::move(waiting.back());
            waiting.pop_back();
            for (const std::string& name : names_in(folder)) {
                const std::string path = folder == "/" ? "/" + name : folder + "/" + name;
                struct stat status {};
                if (::lstat(path.c_str(), &status) != 0) {
                    if (errno != ENOENT) problem(path, "could not be looked at: " + words_of(errno));
                } else if (S_ISLNK(status.st_mode)) {
                    links_.push_back({path, root});
                } else if (S_ISDIR(status.st_mode)) {
                    if (folders_.insert({status.st_dev, status.st_ino}).second) waiting.push_back(path);
                } else {
                    meet(path, root, status);
                }
            }
        }
    }

    // Sorted; hidden ones left out.
    std::vector<std::string> names_in(const std::string& folder) {
        std::vector<std::string> names;
        DIR* directory = ::opendir(folder.c_str());
        if (directory == nullptr) {
            problem(folder, "could not be read: " + words_of(errno));
            scan_.unread_folders.push_back(folder);
            return names;
        }
        errno = 0;
        while (const dirent* entry = ::readdir(directory)) {
            if (entry->d_name[0] != '.') names.emplace_back(entry->d_name);
            errno = 0;
        }
        if (errno != 0) {
            problem(folder, "could not be read to its end: " + words_of(errno));
            scan_.unread_folders.push_back(folder);
        }
        ::closedir(directory);
        std::sort(names.begin(), names.end());
        return names;
    }

    void meet(const std::string& path, const std::string& root, const struct stat& status) {
        const std::string ending = ending_of(path);
        if (ending != ".abc" && ending != ".txt") {
            ++scan_.other_files;
        } else if (of_library_.contains({status.st_dev, status.st_ino})) {
            pass_over(path, std::string(kIsLibrary));
        } else if (!S_ISREG(status.st_mode)) {
            pass_over(path, "is not an ordinary file");
        } else if (ending == ".txt" && !known_.contains(path) && !abc::looks_like_abc(beginning_of(path))) {
            pass_over(path, "does not look like ABC");
        } else {
            take(path, below(path, root), status);
        }
    }

    void take(const std::string& path, const std::string& shown, const struct stat& status) {
        nodes_.insert({status.st_dev, status.st_ino});
        if (!paths_.insert(path).second) return;
        scan_.files.push_back({path, base::printable(shown), status.st_size,
                               std::int64_t{status.st_mtim.tv_sec} * 1'000'000'000 + status.st_mtim.tv_nsec});
    }

    void follow(const Link& link) {
        struct stat status {};
        if (::stat(link.path.c_str(), &status) != 0) {
            const std::string ending = ending_of(link.path);
            if (ending == ".abc" || ending == ".txt" || ending.empty())
                pass_over(link.path,
                          errno == ELOOP ? "is a link that leads round in a circle" : "is a link that leads nowhere");
            return;
        }
        const Node node{status.st_dev, status.st_ino};
        if (S_ISDIR(status.st_mode)) {
            if (folders_.contains(node))
                pass_over(link.path, "is a link to a folder that is read already");
            else
                walk_folder(link.path, link.root, node);
        } else if (nodes_.contains(node)) {
            pass_over(link.path, "is a link to a file that is read already");
        } else {
            meet(link.path, link.root, status);
        }
    }

    const std::unordered_set<std::string>& known_;
    std::set<Node> of_library_;
    std::set<Node> folders_;  // walked or about to be
    std::set<Node> nodes_;    // files taken
    std::unordered_set<std::string> paths_;
    std::deque<Link> links_;
    Scan scan_;
};

}  // namespace

Scan scan(const std::vector<std::filesystem::path>& paths, const std::unordered_set<std::string>& known,
          const std::filesystem::path& library) {
    Walk walk(known, library);
    for (const auto& path : paths) walk.add(path);
    return walk.finish();
}

}  // namespace importer
