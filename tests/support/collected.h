// A collection in memory, of ABC written in a test.
#pragma once

#include <string>
#include <string_view>
#include <utility>

#include "base/diagnostics.h"
#include "base/source_file.h"
#include "collection/memory.h"
#include "reader/stored_file.h"

namespace support {

inline collection::StoredFile stored_file(const std::string& abc, const std::string& shown = "tunes.abc") {
    base::Diagnostics unheard;
    collection::StoredFile file = reader::stored_file(base::SourceFile(shown, abc), unheard);
    file.path = "/" + shown;
    file.shown = shown;
    return file;
}

inline collection::Memory collected(const std::string& abc, people::Kept kept = {}) {
    collection::Memory memory;
    memory.take({stored_file(abc)});
    memory.keep(std::move(kept));
    return memory;
}

}  // namespace support
