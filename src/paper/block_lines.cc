// Tested by block_lines_test.cc.
#include "paper/block_lines.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

namespace paper {

using answers::Block;
using answers::BlockBar;
using answers::BlockPart;
using answers::TuneBlocks;

namespace {

// A quaver is no wider than this, however few bars there are. mm
constexpr double kWidestQuaver = 15;

// `phrase a`, `phrase a again`, `phrase a, changed`.
class PhraseWords {
public:
    std::string of(const std::string& label) {
        if (label.empty()) return {};
        const std::size_t letters = std::min(label.find_first_of("'0123456789"), label.size());
        const std::string plain = label.substr(0, letters);
        const bool is_changed = letters < label.size();
        const bool is_again = !told_.insert(label).second;
        if (is_again) return "phrase " + plain + (is_changed ? ", changed, again" : " again");
        return "phrase " + plain + (is_changed ? ", changed" : "");
    }

private:
    std::set<std::string> told_;
};

std::string ending_in_words(const std::string& ending, const BlockPart& part, bool is_last_ending, bool is_last_part) {
    if (ending == "1") return fmt::format("first time, then back to bar {}", part.first_bar);
    if (ending == "2") return is_last_ending && is_last_part ? "second time, the end" : "second time, go on";
    return "time " + ending;
}

std::string mark_in_words(music::OrderMark::Kind kind) {
    switch (kind) {
        case music::OrderMark::Kind::fine:
            return "the last time end here";
        case music::OrderMark::Kind::da_capo:
            return "then from the beginning";
        case music::OrderMark::Kind::dal_segno:
        case music::OrderMark::Kind::al_coda:
            return "then back to the sign";
        case music::OrderMark::Kind::segno:
            return "the sign";
        case music::OrderMark::Kind::fermata:
            return "wait";
    }
    return {};
}

std::string how_often(const TuneBlocks& blocks, std::size_t index) {
    const BlockPart& part = blocks.parts[index];
    const bool is_last = index + 1 == blocks.parts.size();
    std::string words = part.again_from    ? fmt::format("play {} to {} twice", *part.again_from, part.label)
                        : part.is_repeated ? "play it twice"
                                           : "play it once";
    if (is_last && blocks.parts.size() > 1) words += ", then go back to the top";
    return words;
}

// What a last bar lacks of a whole one: there the lead-in of what follows stands.
double spare_of(const BlockBar& bar, const TuneBlocks& blocks) {
    if (bar.meter.is_free() || bar.is_pickup) return 0;
    const bool has_lead_in = std::any_of(blocks.parts.begin(), blocks.parts.end(), [](const BlockPart& part) {
        return !part.bars.empty() && part.bars.front().is_pickup;
    });
    const double spare = whole_notes(bar.meter.bar_length()) - whole_notes(bar.length);
    return has_lead_in && spare > 0.01 ? spare : 0;
}

}  // namespace

std::vector<PartLines> cut(const TuneBlocks& blocks, std::size_t across) {
    std::vector<PartLines> parts;
    PhraseWords phrases;
    for (std::size_t index = 0; index < blocks.parts.size(); ++index) {
        const BlockPart& part = blocks.parts[index];
        PartLines cut{blocks.parts.size() > 1 ? "Part " + part.label : "", how_often(blocks, index), {}};
        const bool is_last_part = index + 1 == blocks.parts.size();
        const auto last_ending =
            std::find_if(part.bars.rbegin(), part.bars.rend(), [](const BlockBar& bar) { return !bar.ending.empty(); });
        for (std::size_t at = 0; at < part.bars.size(); ++at) {
            const BlockBar& bar = part.bars[at];
            const bool leads_in = at == 0 && bar.is_pickup && part.bars.size() > 1;
            if (cut.lines.empty() || cut.lines.back().bars.size() == across) cut.lines.emplace_back();
            if (leads_in) {
                cut.lines.back().lead_in = bar;
                continue;
            }
            std::string label = bar.ending.empty() ? phrases.of(bar.phrase) : std::string();
            const auto say = [&label](const std::string& words) { label += (label.empty() ? "" : "; ") + words; };
            if (!bar.ending.empty())
                say(ending_in_words(bar.ending, part, last_ending != part.bars.rend() && &*last_ending == &bar,
                                    is_last_part));
            for (const music::OrderMark::Kind mark : bar.marks) say(mark_in_words(mark));
            cut.lines.back().bars.push_back(bar);
            cut.lines.back().labels.push_back(std::move(label));
        }
        if (!part.bars.empty() && !cut.lines.empty()) cut.lines.back().spare = spare_of(part.bars.back(), blocks);
        parts.push_back(std::move(cut));
    }
    return parts;
}

BlockStyle fitted(BlockStyle style, const std::vector<PartLines>& parts, double width) {
    double longest = 0, lead_in = 0;
    style.has_high = style.has_low = false;
    const auto look_at = [&](const BlockBar& bar) {
        for (const Block& block : bar.blocks) {
            if (block.kind == Block::Kind::rest) continue;
            const int octave = letters_of(block.midi, style.fifths, style.names).octave;
            style.has_high = style.has_high || octave > 0;
            style.has_low = style.has_low || octave < 0;
        }
    };
    for (const PartLines& part : parts)
        for (const BlockLine& line : part.lines) {
            longest = std::max(longest, length_of(line));
            if (line.lead_in) lead_in = std::max(lead_in, whole_notes(line.lead_in->length)), look_at(*line.lead_in);
            for (const BlockBar& bar : line.bars) look_at(bar);
        }
    const double all = longest + lead_in;
    style.whole_note = all > 0 ? std::min((width - 0.9) / all, kWidestQuaver * 8) : kWidestQuaver * 8;
    style.lead_in = 0.45 + lead_in * style.whole_note;
    return style;
}

bool has_room(const std::vector<PartLines>& parts, const BlockStyle& style) {
    const auto bar_has = [&](const BlockBar& bar) {
        return std::all_of(bar.blocks.begin(), bar.blocks.end(),
                           [&](const Block& block) { return has_room(block, style, style.sizes.small_em); });
    };
    for (const PartLines& part : parts)
        for (const BlockLine& line : part.lines)
            if ((line.lead_in && !bar_has(*line.lead_in)) || !std::all_of(line.bars.begin(), line.bars.end(), bar_has))
                return false;
    return true;
}

std::size_t bars_across(const TuneBlocks& blocks, const BlockStyle& style, double width) {
    for (const std::size_t across : {4U, 2U}) {
        const std::vector<PartLines> parts = cut(blocks, across);
        if (has_room(parts, fitted(style, parts, width))) return across;
    }
    return 1;
}

}  // namespace paper
