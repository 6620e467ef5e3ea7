// Tested by tunes_by_id_test.cc.
#include "library/keys_stored.h"

#include <algorithm>

namespace library {

std::vector<music::Key> keys_stored(std::string_view text) {
    std::vector<music::Key> keys;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(','), text.size());
        if (const auto key = music::key_stated_in(text.substr(0, end))) keys.push_back(*key);
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return keys;
}

}  // namespace library
