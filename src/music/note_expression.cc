#include "music/note_expression.h"

#include <algorithm>

#include "music/key.h"
#include "music/pitch.h"

namespace music {

namespace {

// The items of an expression; blanks around `&` join, others part.
std::vector<std::string> items_of(std::string_view text) {
    std::vector<std::string> items;
    std::string item;
    const auto close = [&] {
        if (!item.empty() && item != "&") items.push_back(std::move(item));
        item.clear();
    };
    for (std::size_t at = 0; at < text.size(); ++at) {
        const char c = text[at];
        const bool parts = c == ',' || c == ' ' || c == '\t';
        if (!parts) {
            if (c == '&' && item.empty() && !items.empty()) item = std::move(items.back()), items.pop_back();
            item += c;
        } else if (!item.empty() && item.back() != '&') {
            close();
        }
    }
    if (!item.empty() && item.back() == '&')
        throw NoteExpressionFault("\"" + item + "\" needs something on both sides of &");
    close();
    return items;
}

void add_everywhere(int pitch_class, Compass compass, NoteSet& notes) {
    for (int midi = compass.lowest; midi <= compass.highest; ++midi)
        if (midi % 12 == pitch_class) notes.add(midi);
}

[[noreturn]] void fault(std::string_view item) {
    throw NoteExpressionFault(
        "\"" + std::string(item) +
        "\" is no note: write A3 or C#5, a name such as F#, a scale such as G:major, or a compass such as D4..B5");
}

NoteSet read_scale(std::string_view item, std::size_t colon, Compass compass) {
    const auto tonic = parse_note_name(item.substr(0, colon));
    const auto mode = parse_mode(item.substr(colon + 1));
    if (!tonic || !mode) fault(item);
    NoteSet notes;
    for (const int degree : mode_semitones(*mode)) add_everywhere((tonic->pitch_class() + degree) % 12, compass, notes);
    return notes;
}

NoteSet read_named(std::string_view item, const NamedNotes& named) {
    const auto notes = named ? named(item.substr(1)) : std::nullopt;
    if (!notes)
        throw NoteExpressionFault("\"" + std::string(item) +
                                  "\" names nobody's notes; gamut instrument list and gamut player list show names");
    return *notes;
}

NoteSet read_single(std::string_view item, Compass compass, const NamedNotes& named) {
    if (item.starts_with('@')) return read_named(item, named);
    if (const std::size_t colon = item.find(':'); colon != std::string_view::npos)
        return read_scale(item, colon, compass);
    NoteSet notes;
    if (const auto pitch = parse_pitch(item))
        notes.add(pitch->midi());
    else if (const auto name = parse_note_name(item))
        add_everywhere(name->pitch_class(), compass, notes);
    else
        fault(item);
    return notes;
}

NoteSet read_item(std::string_view item, Compass compass, const NamedNotes& named) {
    std::optional<NoteSet> shared;
    for (std::size_t at = 0; at <= item.size();) {
        const std::size_t end = std::min(item.find('&', at), item.size());
        const NoteSet part = read_single(item.substr(at, end - at), compass, named);
        shared = shared ? (*shared & part) : part;
        at = end + 1;
    }
    return *shared;
}

// `D4..B5`.
std::optional<Compass> read_compass(std::string_view item) {
    const std::size_t dots = item.find("..");
    if (dots == std::string_view::npos) return std::nullopt;
    const auto low = parse_pitch(item.substr(0, dots));
    const auto high = parse_pitch(item.substr(dots + 2));
    if (!low || !high) fault(item);
    if (low->midi() > high->midi())
        throw NoteExpressionFault("the compass " + std::string(item) + " runs downwards; write the lower note first");
    return Compass{low->midi(), high->midi()};
}

}  // namespace

NoteSet read_notes(std::string_view text, Compass compass, const NamedNotes& named) {
    std::vector<std::string> names;
    for (std::string& item : items_of(text)) {
        if (const auto range = read_compass(item))
            compass = *range;
        else
            names.push_back(std::move(item));
    }
    NoteSet notes;
    for (const std::string& item : names) {
        if (item.starts_with('-'))
            notes = notes.without(read_item(std::string_view(item).substr(1), compass, named));
        else
            notes = notes | read_item(item, compass, named);
    }
    if (names.empty() || notes.empty())
        throw NoteExpressionFault("\"" + std::string(text) +
                                  "\" names no note; try \"G:major&D:major A3..B5\" or \"A3 B3 D4\"");
    return notes;
}

std::vector<NoteItem> read_notes_in_order(std::string_view text, Compass compass) {
    std::vector<std::string> names;
    for (std::string& item : items_of(text)) {
        if (const auto range = read_compass(item))
            compass = *range;
        else
            names.push_back(std::move(item));
    }
    std::vector<NoteItem> items;
    for (const std::string& name : names) {
        if (name.starts_with('-'))
            throw NoteExpressionFault("\"" + name +
                                      "\" takes a note away; here the notes are learnt in the order written");
        items.push_back({read_item(name, compass, {}), parse_pitch(name).has_value()});
        if (items.back().notes.empty()) throw NoteExpressionFault("\"" + name + "\" names no note within the compass");
    }
    if (items.empty()) throw NoteExpressionFault("\"" + std::string(text) + "\" names no note; try \"C5 C#5\"");
    return items;
}

NoteSet read_note_anywhere(std::string_view text) {
    if (!parse_pitch(text) && !parse_note_name(text))
        throw NoteExpressionFault("\"" + std::string(text) + "\" is no note: write C#5, or C# for any octave");
    return read_single(text, {0, kMidiNotes - 1}, {});
}

std::vector<NoteSet> read_notes_anywhere(std::string_view text) {
    std::vector<NoteSet> sets;
    for (const std::string& item : items_of(text)) sets.push_back(read_note_anywhere(item));
    if (sets.empty()) throw NoteExpressionFault("\"" + std::string(text) + "\" names no note");
    return sets;
}

}  // namespace music
