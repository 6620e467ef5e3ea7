#include "music/note_set.h"

namespace music {

std::vector<int> NoteSet::midi_numbers() const {
    std::vector<int> numbers;
    numbers.reserve(static_cast<std::size_t>(size()));
    for (std::uint64_t rest = low_; rest != 0; rest &= rest - 1) numbers.push_back(std::countr_zero(rest));
    for (std::uint64_t rest = high_; rest != 0; rest &= rest - 1) numbers.push_back(64 + std::countr_zero(rest));
    return numbers;
}

}  // namespace music
