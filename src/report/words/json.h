// JSON pieces that several shapes of schema/output.md share. Inside this room only.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "music/note_set.h"
#include "tune/record.h"

namespace report {

using Json = nlohmann::ordered_json;

template <typename T>
Json or_null(const std::optional<T>& value) {
    return value ? Json(*value) : Json(nullptr);
}

// One row of the shape `tunes`. `missing` stands in it only when notes were asked about.
Json row_json(const tune::TuneRecord& record, const std::optional<music::NoteSet>& have);

// A token of the basis; null where no rhythm is known.
Json rhythm_basis_json(const std::string& rhythm, tune::Basis basis);

// On one line. Text that is not UTF-8 becomes U+FFFD.
std::string compact(const Json& json);
// The same with a line end.
std::string finish(const Json& json);

}  // namespace report
