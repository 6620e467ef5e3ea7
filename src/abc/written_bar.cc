#include "abc/written_bar.h"

#include <array>
#include <optional>

#include "abc/interval.h"
#include "abc/scale_step.h"
#include "music/key.h"
#include "music/pitch.h"

namespace abc {

std::string written_bar(const std::vector<int>& notes, int fifths) {
    const music::Signature signature = music::signature_of_fifths(fifths);
    // Readers carry a sign to its own octave alone or to every octave: a note goes unsigned only where both give it.
    std::array<std::optional<std::int8_t>, 128> of_step;
    std::array<std::int8_t, music::kLetters> of_letter = signature;
    std::string text;
    for (const int midi : notes) {
        const music::Pitch pitch = music::spell_midi(midi, fifths);
        const auto letter = static_cast<std::size_t>(pitch.name.letter);
        const int step = music::kLetters * (pitch.octave - 4) + static_cast<int>(letter);
        auto& own = of_step[static_cast<std::size_t>(step + 40)];  // C-1 is step -35
        const std::int8_t wanted = pitch.name.accidental;
        if (!text.empty()) text += ' ';
        if (own.value_or(signature[letter]) != wanted || of_letter[letter] != wanted) {
            text += written_sign(wanted);
            own = of_letter[letter] = wanted;
        }
        text += written_step(step);
    }
    return text;
}

int plainest_signature(const std::vector<int>& notes) {
    int best = 0;
    std::size_t fewest = notes.size() + 1;
    for (const int fifths : {0, 1, -1, 2, -2, 3, -3, 4}) {
        const music::Signature signature = music::signature_of_fifths(fifths);
        std::size_t signs = 0;
        for (const int midi : notes) {
            const music::NoteName name = music::spell_midi(midi, fifths).name;
            if (signature[static_cast<std::size_t>(name.letter)] != name.accidental) ++signs;
        }
        if (signs < fewest) fewest = signs, best = fifths;
    }
    return best;
}

}  // namespace abc
