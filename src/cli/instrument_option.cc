#include "cli/instrument_option.h"

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <vector>

#include "base/failure.h"
#include "cli/terminal.h"
#include "instruments/instrument_file.h"
#include "instruments/known.h"

namespace cli {

namespace {

constexpr std::size_t kMostSuggested = 5;

std::size_t shared_beginning(std::string_view a, std::string_view b) {
    const auto ends = std::mismatch(a.begin(), a.end(), b.begin(), b.end(), [](char one, char other) {
        return std::tolower(static_cast<unsigned char>(one)) == other;
    });
    return static_cast<std::size_t>(ends.first - a.begin());
}

std::string listed(const std::vector<std::string>& ids) {
    std::string list;
    for (const std::string& id : ids) list += (list.empty() ? "" : ", ") + id;
    return list;
}

// In any case; none for an empty word.
std::vector<std::string> ids_beginning(const std::string& word) {
    std::vector<std::string> begun = instruments::ids();
    std::erase_if(begun, [&](const std::string& id) { return shared_beginning(word, id) < word.size(); });
    return word.empty() ? std::vector<std::string>() : begun;
}

// `; like it: bc21, bc23`: ids that begin as the word does, the likest first.
std::string names_like(const std::string& word) {
    std::vector<std::string> likely = instruments::ids();
    std::erase_if(likely, [&](const std::string& id) { return shared_beginning(word, id) < 2; });
    std::stable_sort(likely.begin(), likely.end(), [&](const std::string& a, const std::string& b) {
        return shared_beginning(word, a) > shared_beginning(word, b);
    });
    if (likely.size() > kMostSuggested) likely.resize(kMostSuggested);
    return likely.empty() ? "" : "; like it: " + listed(likely);
}

}  // namespace

const instruments::Instrument& instrument_named(const std::string& name) {
    const instruments::Instrument* known = instruments::find(name);
    if (known == nullptr) {
        const std::vector<std::string> begun = ids_beginning(name);
        if (begun.size() > 1)
            throw Misuse("\"" + name + "\" is the beginning of several instruments; say which: " + listed(begun));
        if (begun.size() == 1) known = instruments::find(begun.front());
    }
    if (known == nullptr)
        throw Misuse("there is no instrument \"" + name + "\"" + names_like(name) +
                     "; gamut instrument list shows them all");
    return *known;
}

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
    CLI::Option* name = command.add_option(option, name_, help)->type_name("NAME")->group(group);
    command.add_option("--instrument-file", file_, "the same of an instrument of your own, described in FILE")
        ->type_name("FILE")
        ->group(group)
        ->excludes(name);
}

const instruments::Instrument* InstrumentOption::instrument() const {
    if (name_) return &instrument_named(*name_);
    if (!file_) return nullptr;
    if (!own_) own_ = std::make_unique<const instruments::Instrument>(read_own_instrument(*file_));
    return own_.get();
}

}  // namespace cli
