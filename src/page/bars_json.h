// A tune bar by bar, for what draws it and plays it.
#pragma once

#include <string>

#include "collection/collection.h"

namespace page {

// The shape `bars` of schema/page.md. Throws answers::Refused as answers::TuneQuestion does.
std::string bars_json(const collection::Collection& collection, const std::string& which);

}  // namespace page
