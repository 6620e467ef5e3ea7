// Tested by html_test.cc.
#include "report/writers/markup.h"

#include "base/utf8.h"

namespace report {

std::string escaped(std::string_view text) {
    std::string safe;
    for (const char c : base::printable(text)) {
        switch (c) {
            case '&':
                safe += "&amp;";
                break;
            case '<':
                safe += "&lt;";
                break;
            case '>':
                safe += "&gt;";
                break;
            case '"':
                safe += "&quot;";
                break;
            case '\'':
                safe += "&#39;";
                break;
            default:
                safe += c;
        }
    }
    return safe;
}

}  // namespace report
