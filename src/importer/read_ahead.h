// Files read by several threads, handed over one by one in their order. Private to this room.
#pragma once

#include <condition_variable>
#include <cstdint>
#include <exception>
#include <functional>
#include <map>
#include <mutex>
#include <thread>
#include <vector>

#include "importer/reading.h"

namespace importer {

struct ReadJob {
    const FoundFile* file = nullptr;
    const library::KnownFile* known = nullptr;  // null when the library has nothing of this path
};

// How far reading runs ahead of storing, so that memory does not grow with the collection. Source: house choice.
constexpr std::size_t kFilesAhead = 64;
constexpr std::int64_t kBytesAhead = std::int64_t{4} * 1024 * 1024;

// Borrows the jobs and what they point to.
class ReadAhead {
public:
    ReadAhead(const std::vector<ReadJob>& jobs, const ImportOptions& options, unsigned workers);
    ~ReadAhead();  // lets the files being read come to their end
    ReadAhead(const ReadAhead&) = delete;
    ReadAhead& operator=(const ReadAhead&) = delete;

    // The reading of the next job; must be called once a job at most. Throws what its reading threw (no memory, say).
    Reading next();

private:
    struct Done {
        Reading reading;
        std::exception_ptr error;
    };

    void work();
    bool may_start() const;

    const std::vector<ReadJob>& jobs_;
    const ImportOptions& options_;
    std::mutex mutex_;  // guards all below but the threads
    std::condition_variable started_or_taken_;
    std::condition_variable finished_;
    std::map<std::size_t, Done> done_;
    std::size_t next_to_start_ = 0;
    std::size_t next_to_take_ = 0;
    std::int64_t bytes_ahead_ = 0;
    bool stopped_ = false;
    std::vector<std::thread> threads_;
};

}  // namespace importer
