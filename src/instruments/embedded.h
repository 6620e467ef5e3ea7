// The texts of src/instruments/data/*.toml; the build writes the source for this.
#pragma once

#include <span>
#include <string_view>

namespace instruments {

struct EmbeddedFile {
    std::string_view id;  // name of the file without `.toml`
    std::string_view text;
};

// Ascending by id, each once.
std::span<const EmbeddedFile> embedded_files();

}  // namespace instruments
