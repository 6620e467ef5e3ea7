// Tested by sieve_test.cc. tunes_that_test.cc of the library holds it against a slow filter over records.
#include "collection/sieve.h"

#include <algorithm>
#include <array>
#include <string>
#include <string_view>

#include "base/utf8.h"
#include "collection/tallying.h"
#include "tune/tag.h"
#include "tune/title.h"

namespace collection {

namespace {

using enum FilterBy;

constexpr std::array<std::string_view, 20> kFilters{
    "fits", "missing", "uses",   "avoids", "rhythm", "meter", "tonic", "mode",  "starts-on", "ends-on",
    "span", "top",     "bottom", "octave", "title",  "file",  "tag",   "state", "goes",      "scraps"};

constexpr std::uint32_t bit(FilterBy filter) { return std::uint32_t{1} << static_cast<int>(filter); }

std::uint32_t filters_given(const Selection& s) {
    std::uint32_t given = 0;
    const auto note = [&](FilterBy filter, bool is_given) { given |= is_given ? bit(filter) : 0; };
    note(fits, s.fits.has_value());
    note(missing, s.missing.has_value());
    note(uses, !s.uses.empty());
    note(avoids, s.avoids.has_value());
    note(rhythm, s.rhythm.has_value());
    note(meter, s.meter.has_value());
    note(tonic, s.tonic.has_value());
    note(mode, s.mode.has_value());
    note(starts_on, s.starts_on.has_value());
    note(ends_on, s.ends_on.has_value());
    note(span, s.span.has_value());
    note(top, s.top.has_value());
    note(bottom, s.bottom.has_value());
    note(octave, s.octave.has_value());
    note(title, s.title.has_value());
    note(file, s.file.has_value());
    note(tag, s.tag.has_value());
    note(state, s.state.has_value());
    note(goes, s.goes.has_value());
    note(scraps, !s.scraps);
    return given;
}

// By id, as far as the last: which are named.
template <typename Ids>
std::vector<bool> named(const Ids& ids) {
    std::vector<bool> are_named;
    for (const auto id : ids) {
        const auto at = static_cast<std::size_t>(id.value);
        if (at >= are_named.size()) are_named.resize(at + 1, false);
        are_named[at] = true;
    }
    return are_named;
}

bool is_named(const std::vector<bool>& are_named, tune::TuneId id) {
    const auto at = static_cast<std::size_t>(id.value);
    return at < are_named.size() && are_named[at];
}

// By setting id, as far as the last: its place in `found`, from 1.
std::vector<std::uint32_t> ranks_of(const std::vector<tune::SettingId>& found) {
    std::vector<std::uint32_t> ranks;
    std::uint32_t rank = 0;
    for (const tune::SettingId setting : found) {
        const auto id = static_cast<std::size_t>(setting.value);
        if (id >= ranks.size()) ranks.resize(id + 1, 0);
        ranks[id] = ++rank;
    }
    return ranks;
}

std::vector<std::string> words_in(std::string_view folded) {
    std::vector<std::string> words;
    while (!folded.empty()) {
        const std::size_t end = std::min(folded.find(' '), folded.size());
        if (end > 0) words.emplace_back(folded.substr(0, end));
        folded.remove_prefix(std::min(end + 1, folded.size()));
    }
    return words;
}

// Whether a word of the folded titles begins so.
bool has_beginning(std::string_view titles, std::string_view beginning) {
    for (std::size_t at = titles.find(beginning); at != std::string_view::npos; at = titles.find(beginning, at + 1))
        if (at == 0 || titles[at - 1] == ' ' || titles[at - 1] == '\n') return true;
    return false;
}

// One selection, made ready for all settings of a sheet.
class Judge {
public:
    Judge(const Sheet& sheet, const Selection& s) : sheet_(sheet), s_(s) {
        if (s.file) {
            const std::string folded = base::fold(*s.file);
            for (const SheetFile& one : sheet.file_names)
                files_.push_back(base::fold(one.shown).find(folded) != std::string::npos);
        }
        if (s.tag)
            if (const auto found = sheet.tagged.find(tune::fold_tag(*s.tag)); found != sheet.tagged.end())
                tagged_ = named(found->second);
        if (s.state) in_state_ = named(s.state->tunes);
        if (s.goes) ranks_ = ranks_of(*s.goes);
        if (s.rhythm) rhythms_ = equal_to(base::fold(*s.rhythm));
        if (s.meter) meters_ = equal_to(*s.meter);
        if (s.title) title_words_ = words_in(tune::fold_title(*s.title));
    }

    Sifted judge(std::size_t row) const {
        Sifted sifted;
        sifted.row = row;
        sifted.tune = sheet_.tunes[row];
        sifted.needed = sheet_.note_sets[sheet_.needed[row]];
        if (s_.ornaments) sifted.needed = sifted.needed | sheet_.note_sets[sheet_.ornaments[row]];
        if (s_.nearest_to) sifted.lacking = sifted.needed.without(*s_.nearest_to).size();
        if (s_.goes) {
            const auto id = static_cast<std::size_t>(sheet_.settings[row].value);
            sifted.rank = id < ranks_.size() ? ranks_[id] : 0;
        }
        sifted.failed = failed_by_notes(sifted.needed) | failed_by_key(row, sifted.needed) | failed_by_words(row) |
                        failed_by_people(row);
        if (s_.goes && sifted.rank == 0) sifted.failed |= bit(goes);
        constexpr std::uint32_t kOfKey = bit(tonic) | bit(mode);
        sifted.is_open_key =
            sifted.failed != 0 && (sifted.failed & ~kOfKey) == 0 && !sheet_.are_keys_said[row] && has_candidate(row);
        return sifted;
    }

private:
    std::uint32_t failed_by_notes(const music::NoteSet& needed) const {
        std::uint32_t failed = 0;
        if (s_.fits && !needed.is_within(*s_.fits)) failed |= bit(fits);
        if (s_.missing) {
            const int lacking = needed.without(s_.missing->have).size();
            if (lacking > s_.missing->at_most || lacking < s_.missing->at_least) failed |= bit(missing);
        }
        for (const music::NoteSet& alternatives : s_.uses)
            if ((needed & alternatives).empty()) failed |= bit(uses);
        if (s_.avoids && !(needed & *s_.avoids).empty()) failed |= bit(avoids);
        const int semitones = needed.empty() ? -1 : needed.highest() - needed.lowest();
        if (s_.span && (semitones < 0 || semitones > *s_.span)) failed |= bit(span);
        if (s_.top && (needed.empty() || needed.highest() > *s_.top)) failed |= bit(top);
        if (s_.bottom && (needed.empty() || needed.lowest() < *s_.bottom)) failed |= bit(bottom);
        if (s_.octave == OctaveRange::any && (semitones < 0 || semitones > 12)) failed |= bit(octave);
        return failed;
    }

    std::uint32_t failed_by_key(std::size_t row, const music::NoteSet& needed) const {
        std::uint32_t failed = 0;
        if (s_.starts_on && !is_among(*s_.starts_on, sheet_.first_notes[row])) failed |= bit(starts_on);
        if (s_.ends_on && !is_among(*s_.ends_on, sheet_.last_notes[row])) failed |= bit(ends_on);
        if (!s_.tonic && !s_.mode && s_.octave != OctaveRange::home) return failed;
        const std::optional<music::Key>& key = sheet_.keys[row];
        if (s_.tonic && !(key && key->tonic.pitch_class() == *s_.tonic)) failed |= bit(tonic);
        if (s_.mode && !(key && key->mode == *s_.mode)) failed |= bit(mode);
        const bool is_home_octave = key && !needed.empty() && needed.lowest() % 12 == key->tonic.pitch_class() &&
                                    needed.highest() - needed.lowest() == 12;
        if (s_.octave == OctaveRange::home && !is_home_octave) failed |= bit(octave);
        return failed;
    }

    std::uint32_t failed_by_words(std::size_t row) const {
        std::uint32_t failed = 0;
        if (s_.rhythm && !rhythms_[sheet_.rhythms[row]]) failed |= bit(rhythm);
        if (s_.meter && !meters_[sheet_.meters[row]]) failed |= bit(meter);
        // A title without a letter is in every title.
        for (const std::string& word : title_words_)
            if (!has_beginning(sheet_.titles[row], word)) failed |= bit(title);
        if (s_.file && !files_[sheet_.files[row]]) failed |= bit(file);
        if (!s_.scraps && sheet_.are_scraps[row]) failed |= bit(scraps);
        return failed;
    }

    std::uint32_t failed_by_people(std::size_t row) const {
        std::uint32_t failed = 0;
        if (s_.tag && !is_named(tagged_, sheet_.tunes[row])) failed |= bit(tag);
        if (s_.state && is_named(in_state_, sheet_.tunes[row]) == s_.state->is_left_out) failed |= bit(state);
        return failed;
    }

    bool has_candidate(std::size_t row) const {
        const std::vector<music::Key>& keys = sheet_.candidate_lists[sheet_.candidates[row]];
        return std::any_of(keys.begin(), keys.end(), [&](const music::Key& key) {
            return (!s_.tonic || key.tonic.pitch_class() == *s_.tonic) && (!s_.mode || key.mode == *s_.mode);
        });
    }

    static bool is_among(const music::NoteSet& notes, const std::optional<std::uint8_t>& note) {
        return note && notes.has(*note);
    }

    std::vector<bool> equal_to(std::string_view text) const {
        std::vector<bool> are_equal;
        for (const std::string& word : sheet_.words) are_equal.push_back(word == text);
        return are_equal;
    }

    const Sheet& sheet_;
    const Selection& s_;
    std::vector<bool> files_, tagged_, in_state_;
    std::vector<bool> rhythms_, meters_;  // by word
    std::vector<std::uint32_t> ranks_;
    std::vector<std::string> title_words_;
};

}  // namespace

std::string_view filter_token(FilterBy filter) noexcept { return kFilters[static_cast<std::size_t>(filter)]; }

Sifting sift(const Sheet& sheet, const Selection& s) {
    const Judge judge(sheet, s);
    Tallying tallying(filters_given(s), s.settings);
    for (std::size_t row = 0; row < sheet.size(); ++row) tallying.take(judge.judge(row));
    Sifting sifting = tallying.finish();
    sifting.tally.gone = s.settings ? sheet.gone_settings : sheet.gone_tunes;
    return sifting;
}

}  // namespace collection
