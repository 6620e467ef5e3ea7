// Tested by read_ahead_test.cc and, whole, by import_test.cc.
#include "importer/read_ahead.h"

#include <utility>

#include "base/invariant.h"

namespace importer {

ReadAhead::ReadAhead(const std::vector<ReadJob>& jobs, const ImportOptions& options, unsigned workers)
    : jobs_(jobs), options_(options) {
    INVARIANT(workers > 0);
    for (unsigned i = 0; i < workers; ++i) threads_.emplace_back([this] { work(); });
}

ReadAhead::~ReadAhead() {
    {
        const std::lock_guard lock(mutex_);
        stopped_ = true;
    }
    started_or_taken_.notify_all();
    for (std::thread& thread : threads_) thread.join();
}

// The file that is waited for may always be read, however large.
bool ReadAhead::may_start() const {
    if (next_to_start_ == next_to_take_) return true;
    return next_to_start_ < next_to_take_ + kFilesAhead && bytes_ahead_ < kBytesAhead;
}

void ReadAhead::work() {
    for (;;) {
        std::size_t mine = 0;
        {
            std::unique_lock lock(mutex_);
            started_or_taken_.wait(lock, [this] { return stopped_ || next_to_start_ == jobs_.size() || may_start(); });
            if (stopped_ || next_to_start_ == jobs_.size()) return;
            mine = next_to_start_++;
            bytes_ahead_ += jobs_[mine].file->size;
        }
        Done done;
        try {
            done.reading = read_file(*jobs_[mine].file, jobs_[mine].known, options_);
        } catch (...) {
            done.error = std::current_exception();
        }
        {
            const std::lock_guard lock(mutex_);
            done_.emplace(mine, std::move(done));
        }
        finished_.notify_one();
    }
}

Reading ReadAhead::next() {
    Done done;
    {
        std::unique_lock lock(mutex_);
        INVARIANT(next_to_take_ < jobs_.size());
        finished_.wait(lock, [this] { return done_.contains(next_to_take_); });
        auto found = done_.find(next_to_take_);
        done = std::move(found->second);
        done_.erase(found);
        bytes_ahead_ -= jobs_[next_to_take_].file->size;
        ++next_to_take_;
    }
    started_or_taken_.notify_all();
    if (done.error) std::rethrow_exception(done.error);
    return std::move(done.reading);
}

}  // namespace importer
