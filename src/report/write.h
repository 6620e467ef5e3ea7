// The one way an answer is written: as text, as a page of HTML, as CSV or as JSON.
#pragma once

#include <string>

#include "base/invariant.h"
#include "report/document.h"
#include "report/writers/csv.h"
#include "report/writers/html.h"
#include "report/writers/text.h"

namespace report {

enum class Format { text, html, csv, json };

// Answers may be types of another room; by this they are looked up in this one, wherever their functions are declared.
template <typename Answer>
struct Told {
    const Answer& answer;

    operator const Answer&() const { return answer; }
};

// An answer is a type for which this room has `describe`, for people, `as_json`, for programs, and where it is a list
// `tabulate`, for spreadsheets. `page` is for text alone. To ask for CSV of what has no table breaks the invariant: a
// face does not offer it.
template <typename Answer>
std::string write(Format format, const Answer& answer, const Page& page) {
    const Told<Answer> told{answer};
    switch (format) {
        case Format::text:
            return render_text(describe(told), page);
        case Format::html:
            return render_html(describe(told));
        case Format::json:
            return as_json(told);
        case Format::csv:
            break;
    }
    constexpr bool kHasTable = requires { tabulate(told); };
    INVARIANT(kHasTable);
    if constexpr (kHasTable) return render_csv(tabulate(told));
    return {};
}

}  // namespace report
