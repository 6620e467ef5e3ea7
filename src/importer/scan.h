// Which files an import reads: paths to files, by name and kind, without reading them.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <unordered_set>
#include <vector>

namespace importer {

// A path and one sentence about it that starts after the path: `is too large ...`.
struct PathRemark {
    std::string path;  // safe to show
    std::string sentence;

    friend bool operator==(const PathRemark&, const PathRemark&) = default;
};

struct FoundFile {
    std::string path;   // absolute, bytes
    std::string shown;  // relative to the folder it was found under; the bare name when it was named itself; UTF-8
    std::int64_t size = 0;
    std::int64_t mtime_ns = 0;
};

struct Scan {
    std::vector<FoundFile> files;             // by path bytes, each file once
    std::vector<std::string> folders;         // absolute paths of the folders that were asked for and are there
    std::vector<std::string> unread_folders;  // below them, but could not be read
    std::vector<PathRemark> problems;         // missing paths, folders and files that could not be looked at
    std::vector<PathRemark>
        passed_over;               // links that lead nowhere or round again, texts that are not ABC, special files
    std::int64_t other_files = 0;  // with endings that say they are something else
};

// Below a folder `.abc` is taken in any case, `.txt` when it looks like ABC or is in `known`; hidden files and folders
// are not. A link is followed unless what it leads to is met without it. A file named itself is taken whatever its
// ending. `library` and what SQLite keeps beside it are passed over under any name, and not even opened: closing such a
// file would drop the locks this process holds on it. Never throws for what it meets on the disk.
Scan scan(const std::vector<std::filesystem::path>& paths, const std::unordered_set<std::string>& known = {},
          const std::filesystem::path& library = {});

}  // namespace importer
