// Terms kept by name: texts that this room does not read.
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/date.h"

namespace library {

struct KeptSyllabus {
    std::string folded;  // the name as compared, unique
    std::string name;
    std::string text;

    friend bool operator==(const KeptSyllabus&, const KeptSyllabus&) = default;
};

// Every function throws base::Failure as Library::open_existing does; those that write also as Marks does. `day`: on
// which it is said, for the journal.
std::vector<KeptSyllabus> kept_syllabi(const std::filesystem::path& file);  // by folded name
std::optional<KeptSyllabus> kept_syllabus(const std::filesystem::path& file, const std::string& folded);

// In the place of the text `instead_of`, or where that is empty as a name that is new. False, and nothing is changed,
// when something else is kept now: somebody was quicker.
bool keep_syllabus(const std::filesystem::path& file, const KeptSyllabus& syllabus,
                   const std::optional<std::string>& instead_of, std::optional<base::Date> day = std::nullopt);

// What is kept now, and what was before; makes the text that is kept from then on.
using TakenBackText = std::function<std::string(const std::string& now, const std::string& before)>;

// As it was before it was kept last, where it was there before, in the text that `as_kept` makes of it; then there is
// nothing more to take back. Empty when there is nothing.
std::optional<KeptSyllabus> take_back_syllabus(const std::filesystem::path& file, const std::string& folded,
                                               const TakenBackText& as_kept,
                                               std::optional<base::Date> day = std::nullopt);

// False: there was none.
bool forget_syllabus(const std::filesystem::path& file, const std::string& folded,
                     std::optional<base::Date> day = std::nullopt);

}  // namespace library
