#include <functional>
#include <optional>
#include <vector>

#include "analysis/heard.h"
#include "base/invariant.h"
#include "music/note_expression.h"
#include "music/pitch.h"
#include "targets.h"

namespace fuzz {

namespace {

std::optional<music::NoteSet> named(std::string_view name) {
    if (name != "box" && name != "whistle-d") return std::nullopt;
    music::NoteSet notes;
    for (const int midi : {62, 64, 66, 67, 69, 71, 73, 74}) notes.add(midi);
    return notes;
}

// What is read, or nothing where the reader says that it is no such text.
template <class Read>
auto unless_refused(const Read& read) -> std::optional<decltype(read())> {
    try {
        return read();
    } catch (const music::NoteExpressionFault& fault) {
        INVARIANT(!std::string_view(fault.what()).empty());
        return std::nullopt;
    }
}

std::string spelled(const music::NoteSet& notes) {
    std::string text;
    for (const int midi : notes.midi_numbers())
        text += (text.empty() ? "" : " ") + music::to_string(music::spell_midi(midi));
    return text;
}

void try_heard(const std::string& bytes) {
    try {
        const std::vector<analysis::Heard> readings = analysis::readings_of(bytes);
        INVARIANT(!readings.empty() && readings.size() <= 7);
        INVARIANT(readings.front() == analysis::read_heard(bytes));
        for (const analysis::Heard& heard : readings) {
            const auto& classes = heard.pitch_classes;
            INVARIANT(classes.size() >= analysis::kFewestHeard && classes.size() <= analysis::kMostHeard);
            INVARIANT(heard.notes.size() >= classes.size());
            for (std::size_t at = 0; at < classes.size(); ++at) {
                INVARIANT(classes[at] < 12);
                INVARIANT(at == 0 || classes[at] != classes[at - 1]);
            }
        }
    } catch (const analysis::HeardFault& fault) {
        INVARIANT(!std::string_view(fault.what()).empty());
    }
}

}  // namespace

void try_notes(const std::string& bytes) {
    const auto notes = unless_refused([&] { return music::read_notes(bytes, {}, named); });
    if (notes) {
        INVARIANT(!notes->empty());
        // Written note by note it is the same.
        INVARIANT(music::read_notes(spelled(*notes)) == *notes);
    }

    const auto items = unless_refused([&] { return music::read_notes_in_order(bytes); });
    if (items) {
        music::NoteSet all;
        for (const music::NoteItem& item : *items) {
            INVARIANT(!item.notes.empty());
            INVARIANT(!item.is_one_note || item.notes.size() == 1);
            all = all | item.notes;
        }
        // A list in which the order counts is an expression too, and means the same notes.
        INVARIANT(notes && *notes == all);
    }

    const auto anywhere = unless_refused([&] { return music::read_note_anywhere(bytes); });
    if (anywhere) {
        INVARIANT(!anywhere->empty());
        for (const int midi : anywhere->midi_numbers()) INVARIANT((midi - anywhere->lowest()) % 12 == 0);
    }
    if (const auto each = unless_refused([&] { return music::read_notes_anywhere(bytes); }))
        for (const music::NoteSet& one : *each) INVARIANT(!one.empty());

    try_heard(bytes);
}

}  // namespace fuzz
