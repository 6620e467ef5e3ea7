// FILTER on the command line: what was typed, and the selection it means.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <vector>

#include "library/answer.h"
#include "library/selection.h"
#include "report/listing.h"
#include "tune/tag.h"

namespace cli {

class FilterOptions {
public:
    void add_to(CLI::App& command);

    // Throws Misuse with one sentence for what cannot be understood.
    library::Selection selection() const;

private:
    std::optional<std::string> fits_, uses_, avoids_, rhythm_, meter_, tonic_, mode_, starts_on_, ends_on_, octave_,
        title_, file_, tag_;
    std::optional<int> missing_, span_;
    bool ornaments_ = false, settings_ = false;
};

// `--sort`, `--limit`: what only a listing has.
class ListOptions {
public:
    void add_to(CLI::App& command);
    void apply_to(library::Selection& selection) const;
    bool is_sorted() const { return sort_.has_value(); }

private:
    std::optional<std::string> sort_;
    std::optional<std::int64_t> limit_;
};

// A tag of an option; Misuse names the option.
tune::Tag tag_of(const std::string& option, const std::string& text);

// NOTES of an option; Misuse names the option.
music::NoteSet notes_of(const std::string& option, const std::string& text);
// The same of notes and names, a name meaning every octave.
music::NoteSet anywhere(const std::string& option, const std::string& text);

std::vector<report::Sieve> sieves_of(const library::Tally& tally);

}  // namespace cli
