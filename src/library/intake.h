// Taking files into a library. One at a time may do so; readers may go on reading.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "collection/found_odd.h"
#include "collection/stored_setting.h"

namespace library {

struct FileId {
    std::int64_t value = 0;
    friend auto operator<=>(const FileId&, const FileId&) = default;
};

// A file as it was when it was last imported.
struct KnownFile {
    FileId id;
    std::string path;       // absolute
    std::int64_t size = 0;  // bytes
    std::int64_t mtime_ns = 0;
    std::int64_t imported_ns = 0;
    std::string content_hash;   // empty when it must be read again
    std::int64_t settings = 0;  // present ones
    bool gone = false;
    bool facts_are_current = true;  // analysed by the present tune::kAnalysisVersion
};

// Settings by what became of them. A setting that comes back counts as same or changed, by its text.
struct SettingCounts {
    std::int64_t added = 0;
    std::int64_t changed = 0;
    std::int64_t same = 0;
    std::int64_t gone = 0;

    SettingCounts& operator+=(const SettingCounts& other) noexcept;
    friend bool operator==(const SettingCounts&, const SettingCounts&) = default;
};

// Every function throws base::Failure when the file cannot be written; what a call was doing is then undone whole.
class Intake {
public:
    // Makes the file and the folders above it when they are missing, and brings an older library up to date, leaving a
    // backup beside it. Throws Failure at once when another import is writing.
    static Intake open(const std::filesystem::path& file);

    Intake(Intake&&) noexcept;
    Intake& operator=(Intake&&) = delete;
    ~Intake();  // closes, quietly

    std::vector<KnownFile> known_files() const;  // by path bytes, gone ones included

    // Of all files that are there, as far as each finding was kept.
    collection::OddCounts odd_counts() const;

    // Files that are no longer on the disk: what a new file has in common with them has moved there and keeps its ids.
    void set_vanished(std::span<const FileId> files);

    // One transaction. Settings keep their ids by the rule of settings_matched.h; old ones left over are marked gone,
    // never deleted.
    SettingCounts store_file(const collection::StoredFile& file);

    // The bytes are as they were, only the times moved on. One transaction for all.
    struct Touch {
        FileId id;
        std::int64_t mtime_ns = 0;
        std::int64_t imported_ns = 0;
    };
    void touch_files(std::span<const Touch> files);

    struct GoneCounts {
        std::int64_t files = 0;  // that were not marked gone before
        std::int64_t settings = 0;
    };
    // Kept with their settings, and revived when they come back. Only of those set_vanished named;
    // what has meanwhile moved to another path is passed over.
    GoneCounts mark_gone(std::span<const FileId> files);

    // Settles which tunes are one and leaves the library at rest: one file, readable from a folder that cannot be
    // written.
    void close();

private:
    class Writer;
    explicit Intake(std::unique_ptr<Writer> writer);

    std::unique_ptr<Writer> writer_;
};

}  // namespace library
