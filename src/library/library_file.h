// The file a library is, before SQLite sees it. Private to this room.
#pragma once

#include <filesystem>

namespace library {

// Throws Failure for what is there and is no ordinary file with something in it: a folder, a pipe, a device, a file of
// no more than one byte, which SQLite would take for a new library. Opens nothing.
void require_ordinary(const std::filesystem::path& file);

// Makes a library without tunes where there is none yet, and the folders above it, for its owner alone. It comes to be
// under a name of its own and gets its right one when it is whole. Throws Failure when it cannot be made.
void make_unless_there(const std::filesystem::path& file);

// Where they are missing: for their owner alone.
void make_folders_above(const std::filesystem::path& file);

// What was written to the file is on the disk, and so is its name. Throws Failure.
void sync_file(const std::filesystem::path& file);
void sync_folder_of(const std::filesystem::path& file);

// A new file for the owner alone, named `FILE.unfinished-` with six letters; nothing but what was just made is ever
// opened. Gone when this goes out of scope, with what SQLite keeps beside it, unless it was given its name.
class UnfinishedFile {
public:
    explicit UnfinishedFile(std::filesystem::path file);
    ~UnfinishedFile();
    UnfinishedFile(const UnfinishedFile&) = delete;
    UnfinishedFile& operator=(const UnfinishedFile&) = delete;

    const std::filesystem::path& path() const noexcept { return path_; }
    // Synced before and after. False, and nothing is done, when there is something of that name.
    bool take_name();
    void take_place();  // whatever is there

private:
    std::filesystem::path file_, path_;
};

}  // namespace library
