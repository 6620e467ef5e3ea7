#include "labelled.h"

#include <algorithm>
#include <cstdlib>
#include <string_view>
#include <utility>

#include "analysis/key_finder.h"
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

int fold_of(const support::BookTune& tune) {
    if (tune.collection == support::kAirds) return tune.file == "book1" ? 0 : 1;
    if (tune.collection == support::kRyans) return 2 + tune.file.front() % 3;
    const int number = std::atoi(tune.setting.number.value_or("").c_str());
    return 5 + std::clamp(number * kStretches / (kLastNumber + 1), 0, kStretches - 1);
}

// Of O'Neill's labels 48 in 2001 name another mode than major or minor, of Aird's 55 in 598: the first encoders wrote
// signatures.
bool writes_modes(std::string_view collection) { return collection == support::kAirds; }

}  // namespace

Labelled read_labelled(const std::filesystem::path& shared) {
    Labelled labelled;
    for (support::BookTune& book_tune : support::read_books(shared)) {
        tune::Setting& setting = book_tune.setting;
        const auto evidence = analysis::find_key_evidence(setting.melody);
        if (changes_key(setting.melody)) {
            ++labelled.left_out_changes;
            continue;
        }
        if (!evidence || setting.key_in_force.kind != music::StatedKey::Kind::tonic_and_mode) {
            ++labelled.left_out_no_label;
            continue;
        }
        LabelledTune tune;
        tune.collection = book_tune.collection;
        tune.book = book_tune.file;
        tune.title = setting.titles.empty() ? "" : tune::fold_title(setting.titles.front());
        tune.label = analysis::meant_key(setting.key_in_force, setting.melody);
        tune.is_mode_trusted = writes_modes(tune.collection);
        tune.fold = book_tune.held_out ? kHeldOut : fold_of(book_tune);
        tune.setting = std::move(setting);
        tune.evidence = *evidence;
        labelled.tunes.push_back(std::move(tune));
    }
    return labelled;
}

bool has_major_third(music::Mode mode) { return music::mode_semitones(mode)[2] == 4; }

}  // namespace keys
