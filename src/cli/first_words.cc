// Tested by tests/golden/program/first_words.test.
#include "cli/first_words.h"

#include <cstddef>
#include <filesystem>
#include <system_error>
#include <utility>
#include <vector>

#include "cli/nearest_word.h"
#include "cli/terminal.h"

namespace cli {

namespace {

// What one types, and what one wants to know by it.
constexpr std::pair<const char*, const char*> kAsked[] = {
    {"gamut import FOLDER", "read a folder; its files stay as they are"},
    {"gamut tunes --fits \"D:major\"", "what can I play with these notes?"},
    {"gamut path --have \"D:major\"", "which note next, and what does it open?"},
    {"gamut tune TITLE --on whistle-d", "how does this tune lie on my instrument?"},
    {"gamut tunes --goes \"D A G F E D\"", "which tune goes like this?"},
    {"gamut next PLAYER", "what should I learn next?"},
    {"gamut syllabus NAME --from DATE", "a term: which note and tune in which lesson"},
    {"gamut handout --tune TITLE", "a sheet to print, for who reads no music"},
    {"gamut check", "what looks wrong in the folder?"},
    {"gamut guide", "how things are done, a page a question"},
    {"gamut --help", "every command"},
};
constexpr std::size_t kColumn = 36;  // where the second begins
constexpr std::size_t kWide = 80;    // on a narrower page it stands below the first

// What other programs call it. Source: common practice, no source.
constexpr std::pair<const char*, const char*> kOtherWords[] = {
    {"find", "gamut tunes --title WORD, or --goes NOTES by ear"},
    {"search", "gamut tunes --title WORD, or --goes NOTES by ear"},
    {"list", "gamut tunes"},
    {"ls", "gamut tunes"},
    {"show", "gamut tune TITLE"},
    {"add", "gamut import FOLDER for tunes, gamut player add NAME for a player"},
    {"scan", "gamut import FOLDER"},
    {"practice", "gamut next PLAYER, or with --again what to play again"},
    {"practise", "gamut next PLAYER, or with --again what to play again"},
    {"review", "gamut next PLAYER --again"},
    {"transpose", "gamut tunebook TITLE --move SEMITONES, or --move best --instrument NAME"},
    {"export", "gamut tunebook for tunes, gamut library export for what was said"},
    {"backup", "gamut library backup FILE"},
    {"duplicates", "gamut same"},
    {"setlist", "gamut evening --minutes N"},
    {"version", "gamut --version"},
};

}  // namespace

std::string first_words(std::size_t width_chars) {
    std::string text;
    for (const auto& [typed, asked] : kAsked) {
        const std::string command = typed;
        text += command + (width_chars < kWide ? "\n    " : std::string(kColumn - command.size(), ' ')) + asked + "\n";
    }
    std::string library = "there is no place for one: set GAMUT_LIBRARY";
    try {
        const std::filesystem::path file = library_file("");
        std::error_code fault;
        library = file.string() + (std::filesystem::exists(file, fault) ? "" : " (not there yet)");
    } catch (const Misuse&) {  // neither said nor at home anywhere
    }
    return text + "\nThe library: " + library + "\n";
}

std::string no_such_command(const CLI::App& program, const std::string& word) {
    const std::string sentence = "there is no command \"" + word + "\"";
    for (const auto& [other, ours] : kOtherWords)
        if (word == other) return sentence + "; it is " + ours;
    std::vector<std::string> names;
    for (const CLI::App* one : program.get_subcommands([](const CLI::App*) { return true; }))
        names.push_back(one->get_name());
    return sentence + hint(nearest_word(names, word)) + "; gamut --help lists them";
}

}  // namespace cli
