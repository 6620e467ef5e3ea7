// Writing an answer to a file of its own.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace cli {

// A file that is there already may be years of work: only a new one is made. It is made at once, so that what cannot be
// written is known before anything else is done, and it is gone again where nothing was written in the end. Every
// function throws base::Failure.
class NewFile {
public:
    // What names people is for the owner alone to read, what holds tunes for whomever the umask lets.
    enum class For : std::uint8_t { owner, anybody };
    NewFile(std::string file, For whom);
    ~NewFile();
    NewFile(const NewFile&) = delete;
    NewFile& operator=(const NewFile&) = delete;

    void write(std::string_view text);  // all of it: once

private:
    [[noreturn]] void fail() const;

    std::string file_;
    int handle_ = -1;
    bool is_whole_ = false;
};

}  // namespace cli
