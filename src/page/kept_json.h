// What people said of the tunes of a collection, as JSON that a page carries: tunes by their own ids there. See
// schema/page.md.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

#include "people/kept.h"

namespace page {

// Why a text is not what write_kept writes, in one sentence.
class KeptFault : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

// Without terms, of which a page knows nothing yet. Players are numbered in the order of the text.
std::string write_kept(const people::Kept& kept);
people::Kept read_kept(std::string_view text);  // throws KeptFault

}  // namespace page
