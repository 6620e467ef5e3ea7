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

std::shared_ptr<const instruments::Instrument> WaysOption::judged(
    const std::shared_ptr<const instruments::Instrument>& instrument) const {
    if (!are_any() || instrument == nullptr) return instrument;
    return std::make_shared<const instruments::Instrument>(instrument->with_any_ways());
}

}  // namespace cli
