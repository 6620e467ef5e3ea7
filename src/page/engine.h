// A collection in memory with everything that can be asked of it, for a face that is no C++: questions and answers are
// JSON. An answer is the very text that the command line prints with `--json`, so there is no second truth to keep.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "collection/memory.h"

namespace page {

class Engine {
public:
    // Reads a file from its bytes, whatever charset they are in, and keeps it apart until `settle`. `shown`: its name
    // as a person knows it, UTF-8. Returns JSON: `{"tunes":N,"errors":N,"remark":null|"is empty"|...}`. Never throws.
    std::string read(std::string_view shown, std::string bytes);
    // Takes in all that was read since the last time; from now on they answer. The first file read is the first of the
    // collection: in the order of their names tunes have the ids that an import into a new library gives them.
    void settle();
    // All that people said, from now on; the JSON of kept_json.h. Returns `{}`, or a fault as `answer` does. Call it
    // after `settle`.
    std::string keep(std::string_view kept);

    // One question of schema/page.md. What has no answer comes back as `{"refused":{...}}`, what is no question as
    // `{"fault":"..."}`. Never throws.
    std::string answer(std::string_view question) const;

private:
    collection::Memory memory_;
    std::vector<collection::StoredFile> read_;
};

}  // namespace page
