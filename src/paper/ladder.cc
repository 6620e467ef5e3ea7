// Tested by figures_test.cc.
#include "paper/ladder.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "report/words/words.h"

namespace paper {

namespace {

// In mm. Source: house choice, tried on paper; closer rungs leave no room for names.
constexpr double kPitch = 5.4, kRung = 1.2, kBar = 3.0, kName = 4.2;
constexpr double kRails = 22;  // from the left rail to the right one
constexpr double kLeft = 30;   // the left rail
constexpr double kTick = 3;    // a bar that would be shorter is a tick, for as a box it reads as the digit 0

std::string described(const answers::Rungs& rungs, const LadderLooks& looks) {
    std::string words = fmt::format("{} of {} are open. ", rungs.open, report::counted(rungs.tunes, "tune", "tunes"));
    for (const answers::Rung& rung : rungs.rungs) {
        words += in_words(rung.midi, looks.fifths, looks.names);
        words += rung.is_fresh ? fmt::format(": new, opens {}; ", rung.opens)
                 : rung.is_had ? ": have; "
                               : fmt::format(": lack, opens {}; ", rung.opens);
    }
    if (words.ends_with("; ")) words.resize(words.size() - 2);
    return words + ".";
}

}  // namespace

std::string ladder_legend(const answers::Rungs& rungs) {
    std::string words = "Whole rung: you have it.";
    const auto has = [&](auto is) { return std::any_of(rungs.rungs.begin(), rungs.rungs.end(), is); };
    if (has([](const answers::Rung& rung) { return rung.is_fresh; })) words += " Framed: new.";
    if (has([](const answers::Rung& rung) { return !rung.is_had && !rung.is_fresh; }))
        words += " Bar beside the ladder: not yet; its number is how many tunes it opens.";
    if (rungs.hardly > 0)
        words +=
            fmt::format(" Not drawn: {} that hardly any tune needs.", report::counted(rungs.hardly, "note", "notes"));
    return words;
}

Figure draw_ladder(const answers::Rungs& rungs, const LadderLooks& looks, double width) {
    Drawing drawing(width, "The ladder of notes", described(rungs, looks));
    const double right = kLeft + kRails;
    std::int64_t most = 1;
    for (const answers::Rung& rung : rungs.rungs)
        if (!rung.is_had && !rung.is_fresh) most = std::max(most, rung.opens);
    const double longest = std::max(8.0, width - right - 16);
    const double height = kPitch * static_cast<double>(rungs.rungs.size()) + 2;
    std::string_view octave = "?";
    for (std::size_t at = 0; at < rungs.rungs.size(); ++at) {
        const answers::Rung& rung = rungs.rungs[at];
        const double y = height - 1 - kPitch * (static_cast<double>(at) + 0.5);
        if (octave_word(rung.midi) != octave) {
            octave = octave_word(rung.midi);
            drawing.words(0, y + kName * 0.36, octave, 3.4, Weight::bold);
            if (at > 0) drawing.line(0, y + kPitch / 2, kLeft - 3, y + kPitch / 2);
        }
        const NoteLetters letters =
            letters_of(rung.midi, looks.fifths, looks.names == Names::none ? Names::letters : looks.names);
        draw(drawing, letters, kLeft - 9, y + kName * 0.36, kName);
        const std::string count = std::to_string(rung.opens);
        if (rung.is_had || rung.is_fresh) drawing.filled(kLeft - 1.2, y - kRung / 2, kRails + 2.4, kRung);
        if (rung.is_fresh) {
            const double wide = width_of(letters, kName) + 2.6;
            drawing.frame(kLeft - 9 - wide / 2, y - kPitch / 2 + 0.35, wide, kPitch - 0.7, 0.9);
            const auto said = looks.notes.find(rung.midi);
            drawing.words(
                right + 2.4, y + 1.2,
                (said != looks.notes.end() ? said->second : "new") + (rung.opens > 0 ? ", opens " + count : ""), 3.4,
                Weight::bold);
        } else if (!rung.is_had) {
            // Two sockets in the rails; the rung lies ready beside them.
            drawing.circle(kLeft, y, 0.8);
            drawing.circle(right, y, 0.8);
            const double length = longest * static_cast<double>(rung.opens) / static_cast<double>(most);
            if (rung.opens > 0 && length < kTick)
                drawing.filled(right + 2.4, y - kBar / 2, 0.8, kBar);
            else if (rung.opens > 0)
                drawing.frame(right + 2.4, y - kBar / 2, length, kBar);
            drawing.words(right + 2.4 + (rung.opens > 0 ? std::max(length, 0.8) + 1.4 : 0), y + 1.2, count, 3.4,
                          rungs.next == rung.midi ? Weight::bold : Weight::regular);
        }
    }
    drawing.line(kLeft, 0, kLeft, height, 0.8);
    drawing.line(right, 0, right, height, 0.8);
    return {std::move(drawing), height};
}

}  // namespace paper
