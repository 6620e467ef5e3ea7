#include "repertoire/tune_shape.h"

#include <algorithm>
#include <set>
#include <tuple>

#include "analysis/play_order.h"
#include "tune/title.h"

namespace repertoire {

namespace {

Opening opening_of(const tune::Outline& outline, const std::vector<std::uint32_t>& bars) {
    Opening opening;
    opening.fill(kNothingSounds);
    std::uint8_t sounds = kNothingSounds;
    for (std::size_t at = 0; at < std::min(kBarsOfOpening, bars.size()); ++at) {
        const tune::OutlineBar& bar = outline.bars[bars[at]];
        std::size_t next = bar.first_note;
        for (std::size_t place = 0; place < kPlacesInBar; ++place) {
            const std::uint64_t now = std::uint64_t{bar.length} * place / kPlacesInBar;
            for (; next < outline.end_of(bars[at]) && outline.notes[next].at <= now; ++next)
                sounds = outline.notes[next].midi % 12;
            opening[at * kPlacesInBar + place] = sounds;
        }
    }
    return opening;
}

// Where a player ends; without Outline::end the last note there is, looking backwards over bars without any.
std::optional<int> last_note_of(const tune::Outline& outline, const std::vector<std::uint32_t>& bars) {
    if (outline.end && *outline.end > 0 && !bars.empty()) return outline.notes[*outline.end - 1].midi;
    for (auto bar = bars.rbegin(); bar != bars.rend(); ++bar)
        if (outline.end_of(*bar) > outline.bars[*bar].first_note) return outline.notes[outline.end_of(*bar) - 1].midi;
    return std::nullopt;
}

// As TuneShape::is_printed_once.
bool is_printed_once(const std::string& form, const tune::Outline& outline, int bars) {
    const auto& written = outline.bars;
    if (std::any_of(written.begin(), written.end(), [](const tune::OutlineBar& bar) { return bar.repeat_closes; }))
        return false;
    const std::set<char> labels(form.begin(), form.end());  // a blank among them where a label has several letters
    return form.size() >= 2 && labels.size() == form.size() && bars == kBarsOfPart * static_cast<int>(form.size());
}

}  // namespace

std::optional<TuneShape> shape_of(const tune::TuneRecord& record, const tune::Outline& outline) {
    const std::vector<std::uint32_t> bars = analysis::play_bars(outline);
    const std::optional<int> last_note = last_note_of(outline, bars);
    if (outline.notes.empty() || !last_note) return std::nullopt;
    TuneShape shape;
    shape.id = record.id;
    if (!record.titles.empty()) shape.title = record.titles.front();
    shape.folded_title = tune::fold_title(shape.title);
    if (const auto rhythm = tune::danced_rhythm(record)) {
        shape.rhythm = rhythm->value;
        shape.rhythm_basis = rhythm->basis;
    }
    if (record.rhythm && record.rhythm->value != shape.rhythm) shape.rhythm_contradicted = record.rhythm->value;
    shape.meter = record.meter;
    shape.key = record.key;
    shape.key_decided = record.key_decided;
    shape.needed = record.needed;
    shape.first_note = outline.notes.front().midi;
    shape.last_note = *last_note;
    const std::uint64_t usual = analysis::usual_bar_length(outline, bars);
    for (const std::uint32_t bar : bars)
        if (usual > 0) shape.bars += static_cast<int>((outline.bars[bar].length + usual / 2) / usual);
    shape.is_printed_once = is_printed_once(record.form, outline, shape.bars);
    shape.opening = opening_of(outline, bars);
    return shape;
}

double opening_likeness(const Opening& one, const Opening& other) {
    std::array<int, 12> same{};  // places that agree with the other so many semitones higher
    for (std::size_t at = 0; at < one.size(); ++at)
        if (one[at] != kNothingSounds && other[at] != kNothingSounds)
            ++same[static_cast<std::size_t>((other[at] + 12 - one[at]) % 12)];
    return static_cast<double>(*std::max_element(same.begin(), same.end())) / static_cast<double>(one.size());
}

bool comes_before(const TuneShape& one, const TuneShape& other) {
    return std::tie(one.folded_title, one.id) < std::tie(other.folded_title, other.id);
}

}  // namespace repertoire
