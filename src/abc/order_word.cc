#include "abc/order_word.h"

#include <cctype>
#include <string>

namespace abc {

std::optional<music::OrderMark::Kind> read_order_word(std::string_view text) {
    using Kind = music::OrderMark::Kind;
    constexpr std::size_t kLongest = 24;  // of all these words; saves a copy of every longer text
    if (text.size() > kLongest) return std::nullopt;
    if (text.find_first_of("/0123456789#") != std::string_view::npos) return std::nullopt;  // `D6/C` is a chord
    std::string letters;
    for (const char c : text)
        if (std::isalpha(static_cast<unsigned char>(c)) != 0)
            letters += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    if (letters == "fine" || letters == "fin") return Kind::fine;
    if (letters == "fermata") return Kind::fermata;
    if (letters == "segno") return Kind::segno;
    const bool goes_back = letters.starts_with("dc") || letters.starts_with("ds") || letters.starts_with("dacapo") ||
                           letters.starts_with("dalsegno");
    if (letters == "dacoda" || (goes_back && letters.ends_with("coda"))) return Kind::al_coda;
    // `D C` is rather two chords.
    if ((letters == "dc" || letters == "ds") && text.find(' ') != std::string_view::npos &&
        text.find('.') == std::string_view::npos)
        return std::nullopt;
    if (letters == "dc" || letters.starts_with("dcal") || letters.starts_with("dacapo")) return Kind::da_capo;
    if (letters == "ds" || letters.starts_with("dsal") || letters.starts_with("dalsegno")) return Kind::dal_segno;
    return std::nullopt;
}

}  // namespace abc
