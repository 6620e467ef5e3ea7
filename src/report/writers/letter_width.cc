// Tested by drawing_test.cc.
#include "report/writers/letter_width.h"

#include <array>
#include <cstddef>

namespace report {

namespace {

// In thousandths of an em, from the blank (32) to the tilde (126).
constexpr std::size_t kFirst = 32;
using Widths = std::array<short, 95>;
constexpr Widths kRegularWidths{278,  278, 355, 556, 556, 889, 667, 222, 333, 333, 389, 584, 278, 333, 278, 278,
                                556,  556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
                                1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
                                667,  778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
                                222,  556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
                                556,  556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584};
constexpr Widths kBoldWidths{278, 333, 474, 556, 556, 889, 722, 278, 333, 333, 389, 584, 278, 333, 278, 278,
                             556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611,
                             975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833, 722, 778,
                             667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556,
                             278, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611,
                             611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584};

constexpr short kOther = 944;  // the W

bool goes_on(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U; }  // of UTF-8

}  // namespace

double width_of(std::string_view text, Weight weight) {
    const Widths& widths = weight == Weight::bold ? kBoldWidths : kRegularWidths;
    int thousandths = 0;
    for (const char byte : text) {
        if (goes_on(byte)) continue;
        const std::size_t at = static_cast<unsigned char>(byte) - kFirst;
        thousandths += static_cast<unsigned char>(byte) >= kFirst && at < widths.size() ? widths[at] : kOther;
    }
    return thousandths / 1000.0;
}

}  // namespace report
