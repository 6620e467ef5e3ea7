// Writing down what a person says of tunes: tags, a count, a rhythm, a key. Reading them: library.h.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include "base/date.h"
#include "music/key.h"
#include "tune/record.h"
#include "tune/tag.h"

namespace library {

// One change of marks, of any number of tunes: nothing is kept until commit(), and nothing at all when it goes out of
// scope without. Every function throws base::Failure when the file cannot be written, and for an id that no tune has.
//
// May be used while an import runs. Not while a Library on the same file is open in this process or for long in
// another: a reader keeps a change from being written.
class Marks {
public:
    // `day`: on which it is said, for the journal. Makes nothing. Throws Failure as Library::open_existing does, when
    // the file may only be read, and when another program does not let go of it for library::kBusyMilliseconds.
    static Marks change(const std::filesystem::path& file, std::optional<base::Date> day = std::nullopt);

    Marks(Marks&&) noexcept;
    Marks& operator=(Marks&&) = delete;
    ~Marks();

    // `id` is that of a family: what its tunes were marked with before they came together counts as marks of all of it.
    // A tag that some tune has already is shown as it was first written.
    void add_tag(tune::TuneId id, const tune::Tag& tag);
    void remove_tag(tune::TuneId id, const tune::Tag& tag);  // one it does not have is no fault
    // `count` from 0 up; empty: nobody says any more.
    void set_count(tune::TuneId id, std::optional<std::int64_t> count);
    // What kind of tune it is, a token of at most 60 characters; empty: nobody says any more.
    void set_rhythm(tune::TuneId id, const std::optional<std::string>& rhythm);
    // The key of one setting, by its own id (TuneRecord::own): settings of its tune in other keys go along.
    void set_key(tune::TuneId own, const std::optional<music::Key>& key);

    // What is written, as tune::fold_title leaves it, means this tune and no other; it must not be blank.
    void set_alias(tune::TuneId id, const std::string& alias);
    void remove_alias(const std::string& alias);  // one that means no tune is no fault

    void commit();  // once, as the last call

private:
    class Change;
    explicit Marks(std::unique_ptr<Change> change);

    std::unique_ptr<Change> change_;
};

}  // namespace library
