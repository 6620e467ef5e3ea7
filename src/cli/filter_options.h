// FILTER on the command line: what was typed, as a question has it.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <vector>

#include "answers/filter.h"
#include "cli/instrument_option.h"
#include "collection/selection.h"
#include "tune/tag.h"

namespace cli {

class FilterOptions {
public:
    // With `--library`.
    void add_to(CLI::App& command, std::string& library);

    // For a command that proposes tunes: scraps are left aside unless `--scraps`, which this adds, asks for them.
    void add_scraps(CLI::App& command);
    // For one that proposes tunes only when it is asked so: the same, without the option.
    void leave_scraps_aside() noexcept { leaves_scraps_ = true; }
    bool asks_for_scraps() const noexcept { return scraps_; }

    // Throws Misuse with one sentence for what cannot be understood, base::Failure where the user's own instrument
    // cannot be read.
    answers::Filter filter() const;

    bool asks_for_missing() const noexcept { return missing_.has_value(); }

private:
    std::vector<std::string> fits_, for_;
    std::optional<std::string> uses_, avoids_, rhythm_, meter_, tonic_, mode_, starts_on_, ends_on_, octave_, title_,
        file_, tag_, state_;
    std::optional<int> span_;
    std::optional<std::string> missing_, top_, bottom_;
    InstrumentOption instrument_;
    std::optional<int> grade_;
    bool ornaments_ = false, settings_ = false, scraps_ = false, leaves_scraps_ = false;
};

constexpr const char* kWhichTunes = "Which tunes";  // the group of these options in help

// `--sort`, `--limit`: what only a listing has.
class ListOptions {
public:
    void add_to(CLI::App& command);
    void apply_to(collection::Selection& selection) const;
    bool is_given() const { return sort_.has_value() || limit_.has_value(); }
    bool is_sorted() const { return sort_.has_value(); }

private:
    std::optional<std::string> sort_;
    std::optional<std::int64_t> limit_;
};

// A tag of an option; Misuse names the option.
tune::Tag tag_of(const std::string& option, const std::string& text);

}  // namespace cli
