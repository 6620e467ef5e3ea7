// The pages of the guide, src/guide/*.md: a page a question. The build writes the source for this.
#pragma once

#include <span>
#include <string_view>

namespace guide {

struct Page {
    std::string_view topic;     // name of the file without `.md`
    std::string_view question;  // what a person wants to know who should read it; one line
    std::string_view markdown;
};

// In the order of src/guide/README.md, each topic once.
std::span<const Page> pages();

}  // namespace guide
