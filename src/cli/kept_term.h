// A term as it is kept: read, told apart from another, its lessons named.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "answers/term_request.h"
#include "library/syllabi.h"
#include "syllabus/syllabus.h"

namespace cli {

// Throws base::Failure where the text is damaged; `file` is the library it stands in.
syllabus::Syllabus read_kept(const std::filesystem::path& file, const library::KeptSyllabus& kept);

// With the user's own instrument, read again from its file. Throws as read_own_instrument does.
answers::TermRequest with_instrument(answers::TermRequest request);

// The same in all but the day it was planned on and how often; what is told counts as it reads, for an older term tells
// it in words.
bool is_as_kept(syllabus::Syllabus plan, syllabus::Syllabus kept);

std::optional<std::int64_t> whole_number(std::string_view text);

// `3`, `3-4`, or the day of a lesson: from 0, the last included. Throws Misuse that names the option.
std::pair<std::size_t, std::size_t> lessons_named(const std::string& option, const std::string& text,
                                                  const std::vector<syllabus::Lesson>& lessons);

}  // namespace cli
