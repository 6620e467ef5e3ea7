// One import at a time: a lock on the library file itself. Private to this room.
#pragma once

#include <filesystem>

namespace library {

// Held until it goes out of scope. Taken before SQLite opens the file and given back after SQLite has closed it:
// closing any descriptor of a file drops the process's own POSIX locks on it, SQLite's among them.
class ImportLock {
public:
    // Makes the library and the folders above it when they are missing. Throws Failure at once when another import
    // holds it, and for what is no library.
    explicit ImportLock(const std::filesystem::path& file);
    static ImportLock of_existing(const std::filesystem::path& file);  // makes nothing, and takes any file
    ~ImportLock();
    ImportLock(const ImportLock&) = delete;
    ImportLock& operator=(const ImportLock&) = delete;

private:
    struct Existing {};
    ImportLock(const std::filesystem::path& file, Existing existing);

    int descriptor_ = -1;
};

}  // namespace library
