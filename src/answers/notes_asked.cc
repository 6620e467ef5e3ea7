// Tested by notes_asked_test.cc.
#include "answers/notes_asked.h"

#include <string_view>

#include "answers/instrument_named.h"
#include "music/pitch.h"

namespace answers {

namespace {

constexpr std::string_view kOn = " on ";

std::string trimmed(const std::string& text) {
    const std::size_t begin = text.find_first_not_of(' ');
    if (begin == std::string::npos) return {};
    return text.substr(begin, text.find_last_not_of(' ') - begin + 1);
}

// Names and scales mean what is at hand of them; a note written with its octave was meant.
music::NoteSet named_one_by_one(const std::string& text, const music::NoteSet& notes) {
    music::NoteSet named;
    for (const int midi : notes.midi_numbers())
        if (text.find(music::to_string(music::spell_midi(midi))) != std::string::npos) named.add(midi);
    return named;
}

}  // namespace

music::NoteSet notes_asked(Part part, const std::string& text, const instruments::Instrument* instrument,
                           const music::NamedNotes& named, std::vector<LeftOutNotes>& left_out) {
    const music::Compass compass = instrument ? instrument->core : music::Compass();
    const music::NoteSet notes = read_part(
        part, text, [&](const std::string& expression) { return music::read_notes(expression, compass, named); });
    if (instrument == nullptr) return notes;
    const music::NoteSet lost = named_one_by_one(text, notes.without(instrument->note_set()));
    if (!lost.empty()) left_out.push_back({part, lost, instrument->title});
    const music::NoteSet at_hand = notes & instrument->note_set();
    if (at_hand.empty()) throw Refused({part, Reason::none_on_instrument, instrument->title});
    return at_hand;
}

planner::Member read_member(const std::string& text, const instruments::Instrument* usual,
                            const music::NamedNotes& named, std::vector<LeftOutNotes>& left_out) {
    const std::size_t equals = text.find('=');
    std::string who = equals == std::string::npos ? std::string() : text.substr(0, equals);
    std::string notes = equals == std::string::npos ? text : text.substr(equals + 1);
    if (equals == std::string::npos && text.find(kOn) != std::string::npos) std::swap(who, notes);
    const instruments::Instrument* instrument = usual;
    if (const std::size_t on = who.rfind(kOn); on != std::string::npos) {
        instrument = &instrument_named(trimmed(who.substr(on + kOn.size())), Part::none);
        who.resize(on);
    }
    planner::Member member{trimmed(who), {}, instrument ? instrument->note_set() : music::every_note()};
    if (instrument != nullptr && trimmed(notes).empty())
        member.have = member.reach;
    else
        member.have = notes_asked(Part::fits, notes, instrument, named, left_out);
    return member;
}

std::vector<std::string> words_of(const music::NoteSet& notes) {
    std::vector<std::string> words;
    music::NoteSet left = notes;
    for (int name = 0; name < 12; ++name) {
        const std::string word = music::to_string(music::spell_midi(60 + name).name);
        const music::NoteSet everywhere = music::read_note_anywhere(word);
        if (!everywhere.is_within(notes)) continue;
        words.push_back(word);
        left = left.without(everywhere);
    }
    for (const int midi : left.midi_numbers()) words.push_back(music::to_string(music::spell_midi(midi)));
    return words;
}

music::NoteSet anywhere(Part part, const std::string& text) {
    music::NoteSet all;
    for (const music::NoteSet& set : read_part(part, text, music::read_notes_anywhere)) all = all | set;
    return all;
}

}  // namespace answers
