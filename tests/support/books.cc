#include "support/books.h"

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <utility>

#include "abc/read.h"
#include "base/diagnostics.h"
#include "base/file_bytes.h"
#include "base/source_file.h"

namespace support {

namespace {

std::uint32_t fnv1a(std::string_view text) {
    std::uint32_t hash = 0x811c9dc5;
    for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x01000193;
    return hash;
}

std::vector<std::filesystem::path> abc_files(const std::filesystem::path& folder) {
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        if (entry.path().extension() == ".abc") files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

}  // namespace

std::optional<std::filesystem::path> find_shared() {
    const char* named = std::getenv("GAMUT_SHARED");
    std::filesystem::path shared =
        named != nullptr ? named : std::filesystem::path(GAMUT_SOURCE_DIR).parent_path() / "shared";
    if (!std::filesystem::exists(shared / "corpus" / kRyans)) return std::nullopt;
    return shared;
}

bool is_held_out(std::string_view collection, std::string_view file_name) {
    return (collection == kAirds && file_name == "book3.abc") || (collection == kRyans && fnv1a(file_name) % 3 == 0);
}

std::vector<BookTune> read_books(const std::filesystem::path& shared) {
    std::vector<BookTune> tunes;
    for (const std::string_view collection : {kOneills, kAirds, kRyans}) {
        for (const std::filesystem::path& file : abc_files(shared / "corpus" / collection)) {
            const base::SourceFile source = base::decode_source(file.string(), base::read_bytes(file.string()));
            const bool held_out = is_held_out(collection, file.filename().string());
            base::Diagnostics diagnostics;
            for (tune::Setting& setting : abc::read_settings(source, diagnostics))
                tunes.push_back({std::string(collection), file.stem().string(), held_out, std::move(setting)});
        }
    }
    return tunes;
}

}  // namespace support
