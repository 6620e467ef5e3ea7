#include "labelled.h"

#include <algorithm>
#include <cstdlib>
#include <map>
#include <string_view>
#include <utility>

#include "support/books.h"
#include "tune/title.h"

namespace keys {

namespace {

constexpr int kStretches = 5;      // of O'Neill's
constexpr int kLastNumber = 1850;  // of the printed book

bool changes_key(const music::Melody& melody) {
    return std::any_of(melody.keys.begin(), melody.keys.end(),
                       [&](const music::KeyChange& change) { return !(change.key == melody.keys.front().key); });
}

// Of O'Neill's labels 48 in 2001 name another mode than major or minor, of Aird's 55 in 598: the first encoders wrote
// signatures.
bool writes_modes(std::string_view collection) { return collection == support::kAirds; }

}  // namespace

Labelled read_labelled(const std::filesystem::path& shared) {
    Labelled labelled;
    std::map<std::string, int> books;  // of Aird's
    for (support::BookTune& book_tune : support::read_books(shared)) {
        if (book_tune.collection == support::kRyans) continue;
        tune::Setting& setting = book_tune.setting;
        const auto evidence = analysis::find_key_evidence(setting.melody);
        if (changes_key(setting.melody)) {
            ++labelled.left_out_changes;
            continue;
        }
        if (!evidence || setting.key.kind != music::StatedKey::Kind::tonic_and_mode) {
            ++labelled.left_out_no_label;
            continue;
        }
        LabelledTune tune;
        tune.collection = book_tune.collection;
        tune.book = book_tune.file;
        tune.number = setting.number.value_or("-");
        tune.shown_title = setting.titles.empty() ? "" : setting.titles.front();
        tune.title = tune::fold_title(tune.shown_title);
        tune.label = setting.key.key;
        tune.is_mode_trusted = writes_modes(tune.collection);
        const int number = std::atoi(tune.number.c_str());
        tune.fold = tune.collection == support::kAirds
                        ? kStretches + books.try_emplace(tune.book, static_cast<int>(books.size())).first->second
                        : std::clamp(number * kStretches / (kLastNumber + 1), 0, kStretches - 1);
        tune.melody = std::move(setting.melody);
        tune.evidence = *evidence;
        labelled.tunes.push_back(std::move(tune));
    }
    return labelled;
}

bool has_major_third(music::Mode mode) { return music::mode_semitones(mode)[2] == 4; }

}  // namespace keys
