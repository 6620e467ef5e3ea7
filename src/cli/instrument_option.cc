#include "cli/instrument_option.h"

#include <filesystem>
#include <fstream>

#include "answers/instrument_named.h"
#include "base/failure.h"
#include "cli/terminal.h"
#include "instruments/instrument_file.h"
#include "instruments/known.h"

namespace cli {

instruments::Instrument read_own_instrument(const std::string& file) {
    std::error_code unknown;
    if (std::filesystem::is_directory(file, unknown)) throw base::Failure("read", file, "it is a folder");
    std::ifstream stream(file, std::ios::binary);
    if (!stream) throw base::Failure("read", file, "there is no such file, or it may not be read");
    // One byte more than may be, so that the reader sees what is too long.
    std::string text(instruments::kMostFileBytes + 1, '\0');
    stream.read(text.data(), static_cast<std::streamsize>(text.size()));
    if (stream.bad()) throw base::Failure("read", file, "reading stopped");
    text.resize(static_cast<std::size_t>(stream.gcount()));
    try {
        return instruments::read_instrument(text, std::filesystem::path(file).stem().string(), file, instruments::find);
    } catch (const instruments::InstrumentFault& fault) {
        throw Misuse(fault.what());
    }
}

void InstrumentOption::add_to(CLI::App& command, const char* help, const char* group, const char* option) {
    if (std::string_view(option).starts_with("--on,")) part_ = answers::Part::under_hand;
    CLI::Option* name = command.add_option(option, name_, help)->type_name("NAME")->group(group);
    command.add_option("--instrument-file", file_, "the same of an instrument of your own, described in FILE")
        ->type_name("FILE")
        ->group(group)
        ->excludes(name);
}

std::optional<std::string> InstrumentOption::file() const {
    if (!file_) return std::nullopt;
    return std::filesystem::absolute(*file_).lexically_normal().string();
}

std::shared_ptr<const instruments::Instrument> InstrumentOption::shared() const {
    if (given_ || !is_given()) return given_;
    if (name_)
        given_ = instruments::lent(answers::instrument_named(*name_, part_));
    else
        given_ = std::make_shared<const instruments::Instrument>(read_own_instrument(*file_));
    return given_;
}

}  // namespace cli
