// XXH3 is fast, not a defence against someone who makes two files with one hash on purpose: whoever can write the
// collection can as well change the tune.
#include <xxhash.h>

#include <cstdio>

#include "collection/stored_setting.h"
#include "library/content_hash.h"

namespace library {

std::string content_hash(std::string_view bytes) {
    const XXH128_hash_t hash = XXH3_128bits(bytes.data(), bytes.size());
    char text[33];
    std::snprintf(text, sizeof text, "%016llx%016llx", static_cast<unsigned long long>(hash.high64),
                  static_cast<unsigned long long>(hash.low64));
    return text;
}

}  // namespace library
