// A collection as a page carries it: its files as text, with what people said of them. See schema/page.md.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "collection/collection.h"
#include "collection/selection.h"

namespace page {

// JSON. Only settings that are present and pass stand in it, each at its line behind its file's header; what nobody
// kept the ABC of is left out. Tunes have the ids there that the page's engine gives them. Terms are left out.
std::string carried_json(const collection::Collection& collection, collection::Selection which, std::string_view title);

// The built page with `library`, JSON, in the place of what it carries; nothing where `built` is no such page.
std::optional<std::string> with_library(std::string_view built, std::string_view library);

}  // namespace page
