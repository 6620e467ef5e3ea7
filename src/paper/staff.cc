// Tested by staff_test.cc.
#include "paper/staff.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <map>
#include <optional>
#include <string_view>

#include "music/key.h"
#include "music/pitch.h"
#include "paper/note_letters.h"
#include "paper/way_sign.h"
#include "report/writers/markup.h"

namespace paper {

using answers::Block;
using answers::BlockBar;
using answers::BlockPart;
using answers::TuneHandout;

namespace {

// What the engraver is told of the page; kWidth in the first. The rest: house choice, seen on paper.
constexpr std::string_view kDirectives =
    "%%pagewidth {}cm\n%%leftmargin 0cm\n%%rightmargin 0cm\n%%topmargin 0cm\n%%topspace 0\n%%musicspace 0cm\n"
    "%%scale 0.62\n%%stretchlast 1\n%%vocalfont Helvetica 12\n";
constexpr double kMmOfPixel = 25.4 / 96;  // Source: CSS Values and Units, section 6.2

// The letters a signature sharpens or flattens, by fifths.
int sign_of_letter(music::Letter letter, int fifths) {
    constexpr std::array<music::Letter, 7> kSharps{music::Letter::F, music::Letter::C, music::Letter::G,
                                                   music::Letter::D, music::Letter::A, music::Letter::E,
                                                   music::Letter::B};
    for (int at = 0; at < std::abs(fifths) && at < 7; ++at)
        if (kSharps[static_cast<std::size_t>(fifths > 0 ? at : 6 - at)] == letter) return fifths > 0 ? 1 : -1;
    return 0;
}

class StaffWriter {
public:
    StaffWriter(const TuneHandout& handout, const BlockPart& part) : handout_(handout), part_(part) {}

    std::string text(std::size_t across) && {
        std::size_t bars = 0;
        for (std::size_t at = 0; at < part_.bars.size(); ++at) {
            const BlockBar& bar = part_.bars[at];
            if (at == 0 && part_.is_repeated) music_ += "|:";
            if (!bar.ending.empty()) music_ += "[" + bar.ending + " ";
            add(bar);
            const bool is_last = at + 1 == part_.bars.size();
            const bool before_second = !is_last && part_.bars[at + 1].ending == "2";
            const bool closes = before_second || (is_last && part_.is_repeated && bar.ending.empty() && !has_endings());
            music_ += closes ? " :|" : is_last ? " |]" : " |";
            if (!bar.is_pickup && ++bars % across == 0 && !is_last) end_line();
        }
        end_line();
        return std::move(text_);
    }

private:
    bool has_endings() const {
        for (const BlockBar& bar : part_.bars)
            if (!bar.ending.empty()) return true;
        return false;
    }

    void end_line() {
        if (music_.empty()) return;
        text_ += music_ + "\n";
        if (has_signs_) text_ += "w:" + signs_ + "\n";
        music_.clear();
        signs_.clear();
        has_signs_ = false;
    }

    void add(const BlockBar& bar) {
        accidentals_.clear();
        for (std::size_t at = 0; at < bar.blocks.size(); ++at) {
            if (begins_beam(bar, bar.blocks[at])) music_ += " ";
            if (const std::size_t group = threes(bar, at); group > 0 && at >= group_end_) {
                music_ += fmt::format("(3:2:{}", group);
                group_end_ = at + group;
            }
            add(bar.blocks[at], at < group_end_);
            if (const Block* next = next_of(bar, at); next && next->kind == Block::Kind::held) music_ += "-";
        }
        group_end_ = 0;
        signs_ += "|";
    }

    // How many blocks from here on stand in threes, until they last as long as plain notes do.
    static std::size_t threes(const BlockBar& bar, std::size_t at) {
        music::Duration total;
        for (std::size_t end = at; end < bar.blocks.size(); ++end) {
            if (bar.blocks[end].length.denominator() % 3 != 0) return 0;
            total = sum(total, bar.blocks[end].length).value_or(total);
            if (total.denominator() % 3 != 0) return end + 1 - at;
        }
        return 0;
    }

    // Notes of a beat stand under one beam: dotted crotchets in compound time, else crotchets.
    static bool begins_beam(const BlockBar& bar, const Block& block) {
        const auto beats = product(block.at, bar.meter.is_compound() ? music::Duration{8, 3} : music::Duration{4, 1});
        return !beats || beats->denominator() == 1;
    }

    const Block* next_of(const BlockBar& bar, std::size_t at) const {
        if (at + 1 < bar.blocks.size()) return &bar.blocks[at + 1];
        for (std::size_t here = 0; here + 1 < part_.bars.size(); ++here)
            if (&part_.bars[here] == &bar) return &part_.bars[here + 1].blocks.front();
        return nullptr;
    }

    void add(const Block& block, bool in_threes) {
        const auto eighths = product(block.length, in_threes ? music::Duration{12, 1} : music::Duration{8, 1});
        const music::Duration length = eighths.value_or(music::Duration{1, 1});
        std::string value = length.numerator() == 1 ? "" : std::to_string(length.numerator());
        if (length.denominator() != 1) value += "/" + std::to_string(length.denominator());
        if (block.kind == Block::Kind::rest) {
            music_ += "z" + value;
            return;
        }
        music_ += name_of(block) + value;
        if (block.kind == Block::Kind::struck && block.has_way && handout_.instrument) {
            const WaySign sign = sign_of(*handout_.instrument, block.way);
            has_signs_ = has_signs_ || !sign.digits.empty();
            signs_ += " " + (sign.digits.empty()                      ? "*"
                             : sign.shape == WaySign::Shape::square   ? "[" + sign.digits + "]"
                             : sign.shape == WaySign::Shape::triangle ? "<" + sign.digits + ">"
                                                                      : sign.digits);
        } else {
            signs_ += " *";
        }
    }

    std::string name_of(const Block& block) {
        const music::Pitch pitch = music::spell_midi(block.midi, handout_.fifths);
        const auto place = std::pair(pitch.name.letter, pitch.octave);
        const auto [there, is_new] =
            accidentals_.try_emplace(place, sign_of_letter(pitch.name.letter, handout_.fifths));
        std::string name;
        if (there->second != pitch.name.accidental) {
            constexpr std::array<std::string_view, 5> kSigns{"__", "_", "=", "^", "^^"};
            name += kSigns[static_cast<std::size_t>(pitch.name.accidental + 2)];
            there->second = pitch.name.accidental;
        }
        const char letter = "CDEFGAB"[static_cast<std::size_t>(pitch.name.letter)];
        name += pitch.octave >= 5 ? static_cast<char>(letter - 'A' + 'a') : letter;
        for (int octave = pitch.octave; octave > 5; --octave) name += '\'';
        for (int octave = pitch.octave; octave < 4; ++octave) name += ',';
        return name;
    }

    const TuneHandout& handout_;
    const BlockPart& part_;
    std::string text_, music_, signs_;
    bool has_signs_ = false;
    std::size_t group_end_ = 0;
    std::map<std::pair<music::Letter, int>, int> accidentals_;
};

std::string base64(std::string_view bytes) {
    constexpr std::string_view kLetters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string text;
    for (std::size_t at = 0; at < bytes.size(); at += 3) {
        std::uint32_t word = 0;
        for (std::size_t byte = 0; byte < 3; ++byte)
            word = word << 8 | (at + byte < bytes.size() ? static_cast<unsigned char>(bytes[at + byte]) : 0U);
        for (std::size_t letter = 0; letter < 4; ++letter)
            text += at + letter <= bytes.size() ? kLetters[word >> (18 - 6 * letter) & 63U] : '=';
    }
    return text;
}

// Without what tells when it was made: the same tune gives the same bytes.
std::string without_remarks(std::string svg) {
    for (const auto& [open, close] :
         {std::pair<std::string_view, std::string_view>{"<!--", "-->"}, {"<title>", "</title>"}})
        for (std::size_t at = 0; (at = svg.find(open)) != std::string::npos;) {
            const std::size_t end = svg.find(close, at);
            if (end == std::string::npos) return {};
            svg.erase(at, end + close.size() - at);
        }
    return svg;
}

std::optional<double> height_of_svg(const std::string& svg) {
    const std::size_t at = svg.find(" height=\"");
    if (at == std::string::npos || at > svg.find('>')) return std::nullopt;
    const double pixels = std::strtod(svg.c_str() + at + 9, nullptr);
    if (!(pixels > 0) || pixels > 5000) return std::nullopt;
    return pixels * kMmOfPixel;
}

}  // namespace

std::string staff_text(const TuneHandout& handout, const BlockPart& part, std::size_t across) {
    const music::Meter& meter = part.bars.front().meter;
    return fmt::format(kDirectives, number(kWidth / 10)) + "X:1\n" +
           (meter.is_free() ? "M:none\n" : "M:" + music::to_string(meter) + "\n") +
           "L:1/8\nK:" + music::to_string(music::name_at_fifths(handout.fifths)) + "\n" +
           StaffWriter(handout, part).text(across);
}

std::vector<Piece> staves(const TuneHandout& handout, std::size_t across, const Engrave& engrave) {
    std::vector<Piece> pieces;
    for (const BlockPart& part : handout.blocks.parts) {
        const std::string svg = without_remarks(engrave(staff_text(handout, part, across)));
        const auto height = height_of_svg(svg);
        if (svg.empty() || !height || svg.find("<script") != std::string::npos) return {};
        const std::string name = handout.blocks.parts.size() > 1 ? "Part " + part.label : "The tune";
        pieces.push_back(heading(name + " in staff notation"));
        pieces.push_back(
            {fmt::format("<img class=\"staff\" alt=\"{} in staff notation; the blocks say the same in words\" "
                         "style=\"height:{}mm\" src=\"data:image/svg+xml;base64,{}\">",
                         report::escaped(name), number(*height), base64(svg)),
             *height + 2});
    }
    return pieces;
}

}  // namespace paper
