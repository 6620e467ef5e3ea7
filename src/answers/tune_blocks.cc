// Tested by tune_handout_test.cc.
#include "answers/tune_blocks.h"

#include <algorithm>
#include <unordered_map>
#include <utility>

#include "analysis/note_uses.h"

namespace answers {

namespace {

// The way of each sound that is struck.
using WaysBySound = std::unordered_map<std::size_t, const instruments::Way*>;

WaysBySound ways_of(const hands::CheapestWay* way) {
    WaysBySound ways;
    if (way == nullptr) return ways;
    for (const hands::Stroke& stroke : way->strokes)
        if (stroke.way) ways.emplace(stroke.note.sound, stroke.way);
    return ways;
}

const music::NoteHead& top_head(const music::Melody& melody, const music::Sound& sound) {
    const auto first = melody.heads.begin() + sound.first_head;
    return *std::max_element(first, first + sound.head_count,
                             [](const auto& a, const auto& b) { return a.midi < b.midi; });
}

class BlocksReader {
public:
    BlocksReader(const music::Melody& melody, const tune::TuneFacts& facts, const hands::CheapestWay* way)
        : melody_(melody), facts_(facts), ways_(ways_of(way)), numbers_(analysis::number_bars(melody)) {}

    TuneBlocks read() && {
        for (const tune::Part& part : facts_.structure.parts) add(part);
        return std::move(blocks_);
    }

private:
    void add(const tune::Part& part) {
        BlockPart read{part.label, part.is_repeated, std::nullopt, part.first_bar, {}};
        const auto& parts = facts_.structure.parts;
        if (part.repeat_from && &parts[*part.repeat_from] != &part) read.again_from = parts[*part.repeat_from].label;
        for (std::uint32_t bar = part.bars_begin; bar < part.bars_end; ++bar) {
            BlockBar next = read_bar(bar);
            if (next.ending.empty()) next.ending = waiting_;
            waiting_ = next.blocks.empty() ? next.ending : std::string();
            if (!next.blocks.empty()) read.bars.push_back(std::move(next));
        }
        if (!read.bars.empty()) blocks_.parts.push_back(std::move(read));
    }

    std::size_t end_of(std::uint32_t bar) const {
        return bar + 1 < melody_.bars.size() ? melody_.bars[bar + 1].first_sound : melody_.sounds.size();
    }

    BlockBar read_bar(std::uint32_t index) {
        const music::Bar& bar = melody_.bars[index];
        BlockBar read;
        read.number = numbers_[index];
        read.is_pickup = analysis::is_pickup(melody_, index);
        read.meter = bar.meter;
        read.ending = bar.ending;
        for (std::size_t at = bar.first_sound; at < end_of(index); ++at) add(at, read);
        if (read.blocks.empty()) return read;
        if (!read.is_pickup) read.phrase = phrase_at(read.number);
        for (const music::OrderMark& mark : melody_.order)
            if (mark.bar == index || (mark.bar == melody_.bars.size() && index + 1 == mark.bar))
                read.marks.push_back(mark.kind);
        return read;
    }

    void add(std::size_t at, BlockBar& bar) {
        const music::Sound& sound = melody_.sounds[at];
        if (sound.kind == music::Sound::Kind::grace) {
            blocks_.has_graces = true;
            return;
        }
        if (!(music::Duration() < sound.length)) return;
        Block block;
        block.at = bar.length;
        block.length = sound.length;
        if (sound.kind == music::Sound::Kind::rest || sound.head_count == 0) {
            block.kind = Block::Kind::rest;
        } else {
            const music::NoteHead& top = top_head(melody_, sound);
            blocks_.has_chords = blocks_.has_chords || sound.head_count > 1;
            block.midi = top.midi;
            block.kind = top.is_tied ? Block::Kind::held : Block::Kind::struck;
            if (const auto way = ways_.find(at); way != ways_.end() && !top.is_tied) {
                block.has_way = true;
                block.way = *way->second;
            }
        }
        bar.length = sum(bar.length, sound.length).value_or(bar.length);
        bar.blocks.push_back(std::move(block));
    }

    // Each phrase is told once, where it begins.
    std::string phrase_at(int number) {
        const auto& phrases = facts_.structure.phrases;
        if (told_ >= phrases.size() || phrases.size() < 2) return {};
        std::string label;
        while (told_ < phrases.size() && phrases[told_].first_bar <= number) label = phrases[told_++].label;
        return label;
    }

    const music::Melody& melody_;
    const tune::TuneFacts& facts_;
    WaysBySound ways_;
    std::vector<int> numbers_;
    std::string waiting_;  // an ending that is not begun yet
    std::size_t told_ = 0;
    TuneBlocks blocks_;
};

}  // namespace

TuneBlocks blocks_of(const music::Melody& melody, const tune::TuneFacts& facts, const hands::CheapestWay* way) {
    return BlocksReader(melody, facts, way).read();
}

}  // namespace answers
