#include "labelled.h"

#include <algorithm>
#include <cstdlib>

#include "abc/read.h"
#include "base/diagnostics.h"
#include "base/source_file.h"
#include "tune/title.h"

namespace keys {

namespace {

constexpr int kStretches = 5;      // of O'Neill's
constexpr int kLastNumber = 1850;  // of the printed book

std::vector<std::filesystem::path> abc_files(const std::filesystem::path& folder) {
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        if (entry.path().extension() == ".abc") files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

bool changes_key(const music::Melody& melody) {
    return std::any_of(melody.keys.begin(), melody.keys.end(),
                       [&](const music::KeyChange& change) { return !(change.key == melody.keys.front().key); });
}

void read_collection(const std::filesystem::path& folder, bool is_mode_trusted, Labelled& labelled, int& folds) {
    const bool by_book = is_mode_trusted;
    for (const std::filesystem::path& file : abc_files(folder)) {
        const base::SourceFile source = base::decode_source(file.string(), base::read_bytes(file.string()));
        base::Diagnostics diagnostics;
        for (tune::Setting& setting : abc::read_settings(source, diagnostics)) {
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
            tune.collection = folder.filename().string();
            tune.book = file.stem().string();
            tune.number = setting.number.value_or("-");
            tune.shown_title = setting.titles.empty() ? "" : setting.titles.front();
            tune.title = tune::fold_title(tune.shown_title);
            tune.label = setting.key.key;
            tune.is_mode_trusted = is_mode_trusted;
            const int number = std::atoi(tune.number.c_str());
            tune.fold =
                by_book ? folds : folds + std::clamp(number * kStretches / (kLastNumber + 1), 0, kStretches - 1);
            tune.melody = std::move(setting.melody);
            tune.evidence = *evidence;
            labelled.tunes.push_back(std::move(tune));
        }
        if (by_book) ++folds;
    }
    if (!by_book) folds += kStretches;
}

}  // namespace

Labelled read_labelled(const std::filesystem::path& shared) {
    Labelled labelled;
    int folds = 0;
    // Of O'Neill's labels 48 in 2001 name another mode than major or minor, of Aird's 55 in 598: the first encoders
    // wrote signatures.
    read_collection(shared / "corpus" / "airds-1-3", true, labelled, folds);
    read_collection(shared / "corpus" / "oneills", false, labelled, folds);
    return labelled;
}

bool has_major_third(music::Mode mode) { return music::mode_semitones(mode)[2] == 4; }

}  // namespace keys
