// Answers as they are asked for with `--json` and `--csv`, to where answers go.
#pragma once

#include "cli/terminal.h"
#include "report/write.h"

namespace cli {

// Throws Unanswered.
template <typename Answer>
void write(const Format& format, const Answer& answer) {
    const std::string text = report::write(format.wanted(), answer, page_of_terminal());
    if (format.wanted() == report::Format::text)
        write_rendered(text);
    else
        write_answer(text);
}

}  // namespace cli
