#include "cli/ways_option.h"

#include "cli/terminal.h"

namespace cli {

void WaysOption::add_to(CLI::App& command) {
    command
        .add_option("--ways", word_,
                    "steady: a note keeps one button, finger or fingering through a tune unless leaving it pays; any: "
                    "whichever is least work (default steady)")
        ->type_name("steady|any");
}

bool WaysOption::are_any() const {
    if (word_ && *word_ != "steady" && *word_ != "any") throw Misuse("--ways is steady or any, not \"" + *word_ + "\"");
    return word_ == "any";
}

const instruments::Instrument* WaysOption::judged(const instruments::Instrument* instrument) {
    if (!are_any() || instrument == nullptr) return instrument;
    with_any_ways_ = instrument->with_any_ways();
    return &*with_any_ways_;
}

}  // namespace cli
