// Tested by tune_pages_test.cc.
#include "paper/tune_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <set>
#include <vector>

#include "music/pitch.h"
#include "paper/tune_pages.h"

namespace paper {

using answers::Block;
using answers::BlockBar;
using answers::BlockPart;
using answers::TuneHandout;

namespace {

template <typename Visit>
void each_block(const TuneHandout& handout, Visit visit) {
    for (const BlockPart& part : handout.blocks.parts)
        for (const BlockBar& bar : part.bars)
            for (const Block& block : bar.blocks) visit(bar, block);
}

std::string home_note(const TuneHandout& handout, Names names) {
    const auto& key = handout.facts.key;
    if (!key) return {};
    const Names said = names == Names::none ? Names::letters : names;
    const int midi = 60 + key->headline().tonic.pitch_class();
    std::string name = in_words(midi, handout.fifths, said);
    const bool is_sure = key->decided || key->stated;
    return fmt::format(" Home note {}{}.", is_sure ? "" : "probably ", name);
}

}  // namespace

std::string sentence(std::string words) {
    if (!words.empty()) words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
    return words;
}

std::string notes_in_words(const music::NoteSet& notes, int fifths, Names names) {
    std::string words;
    for (const int midi : notes.midi_numbers()) words += (words.empty() ? "" : ", ") + in_words(midi, fifths, names);
    return words;
}

std::string who_in_words(const TuneHandout& handout) {
    std::string words = handout.player;
    if (handout.instrument) words += (words.empty() ? "" : ", ") + handout.instrument->title;
    return words;
}

std::string facts_in_words(const TuneHandout& handout, Names names) {
    std::string words;
    if (const auto danced = tune::danced_rhythm(handout.record))
        words = sentence((handout.is_rhythm_sure ? "" : "probably a ") + danced->value) + ".";
    words += handout.taps > 0 ? fmt::format(" The foot taps {} in a bar.", handout.taps)
                              : std::string(" Freely, as you would sing it.");
    words += home_note(handout, names);
    bool has_first = false;
    each_block(handout, [&](const BlockBar&, const Block& block) {
        if (has_first || block.kind != Block::Kind::struck) return;
        has_first = true;
        words += " First note " + in_words(block.midi, handout.fifths, names) + ".";
    });
    words.erase(0, words.find_first_not_of(' '));
    return words;
}

SignLayout signs_used(const TuneHandout& handout) {
    const SignLayout whole = layout_of(*handout.instrument);
    SignLayout used;
    each_block(handout, [&](const BlockBar&, const Block& block) {
        if (!block.has_way) return;
        const WaySign sign = sign_of(*handout.instrument, block.way);
        used.lanes = std::max(used.lanes, sign.lane + 1);
        used.holes = std::max(used.holes, sign.holes.size());
        used.has_breath = used.has_breath || sign.breaths > 0;
        used.has_words = used.has_words || !sign.beneath.empty();
        used.has_strip = used.has_strip || !sign.strip.empty();
        used.has_numbers = used.has_numbers || sign.kind == WaySign::Kind::number;
    });
    used.lanes = used.has_numbers ? whole.lanes : 1;
    return used;
}

std::string legend_in_words(const TuneHandout& handout, Names names, const SignLayout& layout) {
    bool has_high = false, has_low = false, has_held = false, has_rest = false, has_fresh = false, has_triplet = false;
    bool has_half = false, has_unknown = false, has_thumb = false;
    std::set<std::pair<WaySign::Shape, std::string>> rows;
    std::set<std::string> beneath, strips;
    each_block(handout, [&](const BlockBar&, const Block& block) {
        has_held = has_held || block.kind == Block::Kind::held;
        has_rest = has_rest || block.kind == Block::Kind::rest;
        if (block.kind == Block::Kind::rest) return;
        const int octave = letters_of(block.midi, handout.fifths, names).octave;
        has_high = has_high || octave > 0;
        has_low = has_low || octave < 0;
        has_triplet = has_triplet || block.length.denominator() % 3 == 0;
        has_fresh = has_fresh || handout.fresh.has(block.midi);
        if (!handout.instrument || block.kind != Block::Kind::struck) return;
        has_unknown = has_unknown || !block.has_way;
        if (!block.has_way) return;
        const WaySign sign = sign_of(*handout.instrument, block.way);
        has_half = has_half || std::count(sign.holes.begin(), sign.holes.end(), Hole::half) > 0;
        has_thumb = has_thumb || sign.has_thumb;
        if (sign.kind == WaySign::Kind::number) rows.emplace(sign.shape, block.way.row);
        if (!sign.beneath.empty()) beneath.insert(sign.beneath);
        if (!sign.strip.empty()) strips.insert(sign.strip);
    });
    std::string words = "Wide block: a long note.";
    const auto say = [&words](const std::string& more) { words += " " + more; };
    if (has_fresh) say("Heavy frame: new, " + notes_in_words(handout.fresh, handout.fifths, names) + ".");
    if (has_high) say("Raised, with a dot above: high, from the C above middle C on.");
    if (has_low) say("Lowered, with a dot below: below middle C.");
    if (has_held) say("A line from edge to edge: hold on.");
    if (has_rest) say("Dashed: rest.");
    if (has_triplet) say("3: three notes in the time of two.");
    if (handout.blocks.has_graces) say("Small notes are left out.");
    if (handout.blocks.has_chords) say("Of two notes at once the upper one.");
    if (!handout.instrument) return words;
    const instruments::Instrument& instrument = *handout.instrument;
    const bool is_string = strips.size() > 0 && strips.begin()->ends_with(" string");
    if (layout.holes > 0) {
        say(std::string("Black hole: covered; white: open") + (has_half ? "; half black: half covered" : "") +
            "; the end you blow is at the top" + (has_thumb ? ", the thumb's hole at the left" : "") + ".");
        if (layout.has_breath) say("+: more breath.");
    } else if (is_string) {
        const bool is_fretted = instrument.notes.front().ways.front().technique == "fretted";
        say(is_fretted ? "Number: the fret, 0 the open string." : "Number: the finger, 0 the open string.");
        if (beneath.count("low") + beneath.count("high") > 0) say("low, high: where that finger lies.");
        say("Strip: the string.");
    } else if (layout.has_numbers) {
        if (instrument.rows.front().starts_with("hole ")) {
            say("Number: the hole.");
            if (beneath.count("bent") > 0) say("bent: pull it down.");
        } else if (instrument.rows.size() == 1) {
            say("Number: the button.");
        } else {
            std::string shapes;
            std::set<std::pair<WaySign::Shape, std::string>> said;
            for (const auto& [shape, row] : rows)
                if (const std::string name = row_in_words(instrument, row); said.emplace(shape, name).second)
                    shapes += (shapes.empty() ? "" : "; ") +
                              std::string(shape == WaySign::Shape::plain    ? "Number: button of "
                                          : shape == WaySign::Shape::square ? "in a square: "
                                                                            : "in a triangle: ") +
                              name;
            say(sentence(shapes) + ".");
            if (layout.lanes > 1) say("Upper line: left hand; lower line: right hand.");
        }
    }
    if (!is_string && !strips.empty()) {
        std::string air;
        const auto add = [&air](const char* more) { air += (air.empty() ? "" : "; ") + std::string(more); };
        if (strips.count("press") > 0) add("black, or tips together: press");
        if (strips.count("blow") > 0) add("black: blow");
        if (strips.count("draw") > 0) add("white, or tips apart: draw");
        say("Strip: " + air + ".");
    }
    if (has_unknown) say("?: " + notes_in_words(handout.lacking, handout.fifths, names) + ", not on this instrument.");
    return words;
}

std::string footer_in_words(const TuneHandout& handout, const std::string& whose) {
    std::string words = whose;
    const auto add = [&words](const std::string& more) { words += (words.empty() ? "" : " · ") + more; };
    add("from " + handout.record.file + (handout.record.number ? ", tune " + *handout.record.number : std::string()));
    add("made with gamut");
    return words;
}

std::string caution_for(const instruments::Instrument* instrument) {
    std::string words = "Stop when anything hurts; ask your teacher, or a doctor if it lasts.";
    if (instrument == nullptr) return words;
    const instruments::Way& way = instrument->notes.front().ways.front();
    if (instrument->is_bisonoric() && !instrument->rows.front().starts_with("hole "))
        return words + " Wrist straight, straps snug.";
    if (instrument->rows.empty() && way.technique != "voice")
        return words + " Loud in a small room: stand apart, rest your ears. Your own mouthpiece only.";
    if (way.technique == "bowed") return words + " Shoulders and jaw loose.";
    if (instrument->has_levers()) return words + " Sit so that both feet stand.";
    return words;
}

}  // namespace paper
