// Kinship against tune books whose tunes stand in them more than once: equal titles, and two encodings of the same
// numbers.
//
//     families [--lists] FOLDER ...
//
// For each folder of ABC files: how many of the pairs that are one tune by their title or number are found, how many of
// the found ones are so, and the time. A title says little: two tunes may share one, and one tune may have two; so the
// floors below are for these books and this measure. A folder with a book named in kBooks must reach them. Exit 1 when
// one does not, 77 when a folder is not there.
#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "abc/read.h"
#include "analysis/find_heard.h"
#include "analysis/kin_search.h"
#include "analysis/outline_of.h"
#include "base/diagnostics.h"
#include "base/source_file.h"
#include "tune/title.h"

namespace {

struct Entry {
    std::string file;
    std::string number;
    std::vector<std::string> titles;  // folded
    std::string label;
    tune::Outline outline;
};

using Pair = std::pair<std::uint32_t, std::uint32_t>;

// Public books by the name of their folder. Floors in per cent: the figures measured less a margin of about three.
// Recall is low by nature: most pairs of one title that are not found are different tunes, in the second book nearly
// all (`Cotillon`, `Allemanda`).
struct Book {
    std::string_view folder;
    bool numbers_agree;  // one number in two files is one tune
    double exact_precision;
    double precision;
    double recall;
};
constexpr std::array<Book, 2> kBooks{{{"oneills", true, 94, 71, 61}, {"airds-1-3", false, 70, 38, 8}}};

std::vector<Entry> read_folder(const std::filesystem::path& folder) {
    std::vector<std::filesystem::path> files;
    for (const auto& file : std::filesystem::recursive_directory_iterator(folder))
        if (file.path().extension() == ".abc") files.push_back(file.path());
    std::sort(files.begin(), files.end());
    std::vector<Entry> entries;
    for (const auto& path : files) {
        base::Diagnostics diagnostics;
        const base::SourceFile source = base::decode_source(path.string(), base::read_bytes(path));
        abc::read_each_setting(source, diagnostics, [&](tune::Setting&& setting) {
            Entry entry{
                path.filename().string(), setting.number.value_or(""), {}, "", analysis::outline_of(setting.melody)};
            for (const std::string& title : setting.titles) entry.titles.push_back(tune::fold_title(title));
            entry.label =
                entry.file + " X:" + entry.number + " " + (setting.titles.empty() ? "" : setting.titles.front());
            entries.push_back(std::move(entry));
        });
    }
    return entries;
}

std::set<Pair> pairs_by_name(const std::vector<Entry>& entries, bool numbers_agree) {
    std::map<std::string, std::vector<std::uint32_t>> named;
    for (std::uint32_t entry = 0; entry < entries.size(); ++entry) {
        for (const std::string& title :
             std::set<std::string>(entries[entry].titles.begin(), entries[entry].titles.end()))
            if (!title.empty() && title != "name") named["T " + title].push_back(entry);
        if (numbers_agree) named["X " + entries[entry].number].push_back(entry);
    }
    std::set<Pair> pairs;
    for (const auto& [name, members] : named) {
        for (const std::uint32_t first : members) {
            for (const std::uint32_t second : members) {
                const bool is_number = name[0] == 'X';
                if (first < second && !(is_number && entries[first].file == entries[second].file))
                    pairs.emplace(first, second);
            }
        }
    }
    return pairs;
}

double per_cent(std::size_t part, std::size_t whole) {
    return whole == 0 ? 100 : 100 * static_cast<double>(part) / static_cast<double>(whole);
}

class Clock {
public:
    double seconds() const { return std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count(); }

private:
    std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
};

void time_hearing(const std::vector<Entry>& entries) {
    for (const char* phrase :
         {"G A B d e d B", "G A B d e d B A G E D E", "A B c d e f g a g f e d c B A G F E D E F G A B c d e f"}) {
        const analysis::HeardSearch search(analysis::read_heard(phrase));
        for (const bool at_start : {false, true}) {
            const Clock clock;
            std::size_t hits = 0, exact = 0;
            for (const Entry& entry : entries) {
                const auto hit = search.find_in(entry.outline, at_start);
                hits += hit ? 1 : 0;
                exact += hit && hit->is_exact() ? 1 : 0;
            }
            std::printf("  heard %s%s: %zu found, %zu exact, %.3f s\n", phrase, at_start ? " at the start" : "", hits,
                        exact, clock.seconds());
        }
    }
}

bool check(const std::filesystem::path& folder, bool with_lists) {
    const std::vector<Entry> entries = read_folder(folder);
    const auto* book = std::find_if(kBooks.begin(), kBooks.end(),
                                    [&](const Book& known) { return known.folder == folder.filename(); });
    const bool is_known = book != kBooks.end();
    const std::set<Pair> named = pairs_by_name(entries, is_known && book->numbers_agree);
    std::size_t notes = 0, bytes = 0;
    for (const Entry& entry : entries) {
        const std::string stored = tune::encode_outline(entry.outline);
        if (tune::decode_outline(stored) != entry.outline)
            return std::printf("not stored and read back: %s\n", entry.label.c_str()), false;
        notes += entry.outline.notes.size();
        bytes += stored.size();
    }
    const Clock clock;
    analysis::KinSearch search;
    for (const Entry& entry : entries) search.add(entry.outline);
    const double adding = clock.seconds();
    const std::vector<analysis::KinPair> found = search.find_pairs();
    const double finding = clock.seconds() - adding;
    const auto is_named = [&](const analysis::KinPair& pair) { return named.contains({pair.first, pair.second}); };
    // Settings of one class stand for each other: a named pair is found where the first ones of their classes are one
    // or a pair.
    std::map<std::uint32_t, std::uint32_t> stands_for;
    std::set<Pair> likely;
    std::size_t exact = 0, exact_named = 0, likely_named = 0, reached = 0;
    for (const analysis::KinPair& pair : found) {
        if (pair.is_exact)
            stands_for[pair.second] = pair.first;
        else
            likely.emplace(pair.first, pair.second);
        exact += pair.is_exact ? 1 : 0;
        exact_named += pair.is_exact && is_named(pair) ? 1 : 0;
        likely_named += is_named(pair) ? 1 : 0;
    }
    std::printf("%s: %zu settings, %zu notes, %.2f bytes a note\n", folder.filename().string().c_str(), entries.size(),
                notes, static_cast<double>(bytes) / static_cast<double>(std::max<std::size_t>(1, notes)));
    const auto first_of = [&](std::uint32_t entry) {
        return stands_for.contains(entry) ? stands_for.at(entry) : entry;
    };
    for (const Pair& pair : named) {
        const std::uint32_t one = first_of(pair.first), other = first_of(pair.second);
        const std::uint32_t low = std::min(one, other), high = std::max(one, other);
        if (low == high || likely.contains({low, high}))
            ++reached;
        else if (with_lists) {
            const double likeness =
                compare(analysis::contour_of(entries[low].outline), analysis::contour_of(entries[high].outline));
            std::printf("  missed %.2f %s | %s\n", likeness, entries[pair.first].label.c_str(),
                        entries[pair.second].label.c_str());
        }
    }
    for (const analysis::KinPair& pair : found)
        if (with_lists && !is_named(pair))
            std::printf("  other names %s %.2f %s | %s\n", pair.is_exact ? "exact" : "likely", pair.likeness,
                        entries[pair.first].label.c_str(), entries[pair.second].label.c_str());
    const double exact_precision = per_cent(exact_named, exact), precision = per_cent(likely_named, found.size()),
                 recall = per_cent(reached, named.size());
    std::printf(
        "  exact: %zu pairs, %.1f %% named alike\n  all:   %zu pairs, %.1f %% named alike; %.1f %% of %zu named pairs "
        "found\n",
        exact, exact_precision, found.size(), precision, recall, named.size());
    std::printf("  contours %.2f s, pairs %.2f s\n", adding, finding);
    time_hearing(entries);
    return !is_known ||
           (exact_precision >= book->exact_precision && precision >= book->precision && recall >= book->recall);
}

}  // namespace

int main(int argc, char** argv) {
    std::vector<std::string> words(argv + 1, argv + argc);
    const bool with_lists = !words.empty() && words.front() == "--lists";
    if (words.size() == (with_lists ? 1U : 0U)) {
        const char* named = std::getenv("GAMUT_SHARED");
        const std::filesystem::path shared =
            named != nullptr ? named : std::filesystem::path(GAMUT_SOURCE_DIR).parent_path() / "shared";
        for (const char* collection : {"oneills", "airds-1-3"})
            words.push_back((shared / "corpus" / collection).string());
    }
    bool all_good = true;
    for (std::size_t word = with_lists ? 1 : 0; word < words.size(); ++word) {
        if (!std::filesystem::is_directory(words[word])) {
            std::printf("%s is not there\n", words[word].c_str());
            return 77;
        }
        all_good = check(words[word], with_lists) && all_good;
    }
    return all_good ? 0 : 1;
}
