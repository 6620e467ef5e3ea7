// Runs the rule books: every example of reading-abc.md and real-folders.md is read, and what the book says of it must
// come out.
#include <catch2/catch.hpp>
#include <fstream>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "abc/mail_residue.h"
#include "abc/moved.h"
#include "abc/read.h"
#include "analysis/analyse.h"
#include "report/pages/reading.h"

namespace {

constexpr const char* kRules = "reading-abc.md";
constexpr const char* kRealFolders = "real-folders.md";

struct Example {
    std::string book;
    int line = 0;  // of the fence in the book
    std::string section;
    std::string abc;
    std::vector<std::pair<std::string, std::string>> expected;  // label and words
};

constexpr const char* kImpliedHeader = "X:1\nT:Example\nM:4/4\nL:1/8\nK:C\n";

// An example that shows an X: line is a whole file.
std::string file_of(const std::string& shown) {
    const bool is_whole = shown.starts_with("X:") || shown.find("\nX:") != std::string::npos;
    return is_whole ? shown : kImpliedHeader + shown;
}

std::vector<Example> read_book(const std::string& name) {
    std::ifstream book(GAMUT_SOURCE_DIR "/tests/rules/" + name);
    REQUIRE(book.good());
    std::vector<Example> examples;
    std::string section;
    bool in_example = false, in_expected = false;
    int number = 0;
    for (std::string line; std::getline(book, line);) {
        ++number;
        if (in_example) {
            if (line == "```")
                in_example = false, in_expected = true;
            else
                examples.back().abc += line + "\n";
        } else if (line == "```abc") {
            in_example = true;
            examples.push_back({name, number, section, "", {}});
        } else if (line.starts_with("## ")) {
            section = line.substr(3);
        } else if (in_expected && !line.empty()) {
            const std::size_t colon = line.find(": ");
            if (colon == std::string::npos) FAIL("line " << number << " of the book says nothing: " << line);
            examples.back().expected.emplace_back(line.substr(0, colon), line.substr(colon + 2));
        } else {
            in_expected = false;
        }
    }
    return examples;
}

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
    return text;
}

// `|:4 4 [1 4:| [2 4||`: each bar by its notes, with what opens before it and closes after it.
std::string bar_words(const music::Melody& melody) {
    std::vector<std::string> words;
    auto sound = melody.sounds.begin();
    for (std::size_t index = 0; index < melody.bars.size(); ++index) {
        const music::Bar& bar = melody.bars[index];
        int notes = 0;
        for (; sound != melody.sounds.end() && sound->bar == index; ++sound)
            notes += sound->kind == music::Sound::Kind::note ? 1 : 0;
        const std::string ending = bar.ending.empty() ? "" : "[" + bar.ending + " ";
        words.push_back((bar.repeat_opens ? "|:" : "") + ending + std::to_string(notes) +
                        (bar.repeat_closes ? ":|" : "") + (bar.thick_after ? "||" : ""));
    }
    return joined(words);
}

std::string form_of(const tune::Setting& setting) { return tune::form_of(analysis::analyse(setting).structure); }

std::string codes_of(const base::Diagnostics& diagnostics) {
    std::set<std::string> codes;
    for (const base::Diagnostic& diagnostic : diagnostics.kept()) codes.emplace(diagnostic.code);
    return joined({codes.begin(), codes.end()});
}

std::string first_place(const base::SourceFile& source, const base::Diagnostics& diagnostics) {
    if (diagnostics.kept().empty()) return "";
    const base::Place place = source.place_of(diagnostics.kept().front().where.begin);
    return std::to_string(place.line) + ":" + std::to_string(place.column);
}

// The last line of the tune a tone higher, or what moving it told.
std::string moved_words(const std::string& label, const base::SourceFile& source) {
    base::Diagnostics told;
    std::string text = abc::moved(source, 2, told);
    if (label == "moving") return codes_of(told);
    while (text.ends_with('\n')) text.pop_back();
    return text.substr(text.rfind('\n') + 1);
}

// What the program takes from the example's first tune under that label.
std::string taken(const std::string& label, const tune::Setting& setting, const base::SourceFile& source,
                  const base::Diagnostics& diagnostics) {
    if (label == "up two" || label == "moving") return moved_words(label, source);
    if (label == "told at") return first_place(source, diagnostics);
    if (label == "pitches") return joined(report::pitch_words(setting.melody));
    if (label == "lengths") return joined(report::length_words(setting.melody));
    if (label == "key") return music::to_string(setting.key);
    if (label == "meter") return music::to_string(setting.meter);
    if (label == "unit") return music::to_string(setting.unit);
    if (label == "key there") return music::to_string(setting.melody.keys.front().key);
    if (label == "bars") return bar_words(setting.melody);
    if (label == "form") return form_of(setting);
    if (label == "ends on") return std::to_string(analysis::analyse(setting).last_note.value_or(0));
    if (label == "told") return diagnostics.kept().empty() ? "" : diagnostics.kept().front().message;
    if (label == "title") return setting.titles.empty() ? "" : setting.titles.front();
    if (label == "findings") return codes_of(diagnostics);
    return "(the book asks for " + label + ", which nobody knows)";
}

void check_book(const std::string& name) {
    for (const Example& example : read_book(name)) {
        CAPTURE(example.book, example.line, example.section, example.abc);
        const base::SourceFile source = abc::without_residue(base::SourceFile(name, file_of(example.abc)));
        base::Diagnostics diagnostics;
        const auto settings = abc::read_settings(source, diagnostics);
        REQUIRE(settings.size() == 1);
        bool says_pitches = false, says_findings = false, says_move = false, says_lost = false;
        for (const auto& [label, words] : example.expected) {
            CAPTURE(label);
            CHECK(taken(label, settings[0], source, diagnostics) == words);
            says_pitches = says_pitches || label == "pitches";
            says_findings = says_findings || label == "findings";
            says_move = says_move || label == "up two";
            says_lost = says_lost || label == "moving";
        }
        CHECK((says_pitches || name != kRules));
        CHECK_FALSE(example.expected.empty());
        if (says_move && !says_lost) CHECK(moved_words("moving", source) == "");
        if (!says_findings) CHECK(taken("findings", settings[0], source, diagnostics) == "");
    }
}

}  // namespace

TEST_CASE("rule book: every example is read as the book says", "[rules]") { check_book(kRules); }

TEST_CASE("rule book: each section has an example", "[rules]") {
    std::set<std::string> sections;
    const auto examples = read_book(kRules);
    for (const Example& example : examples) sections.insert(example.section);
    CHECK(sections.size() == 15);
    CHECK(examples.size() >= 45);
}

TEST_CASE("real folders: every tune is read as the book says", "[rules]") { check_book(kRealFolders); }

TEST_CASE("real folders: ten tunes of each kind and more", "[rules]") {
    std::map<std::string, int> tunes;
    for (const Example& example : read_book(kRealFolders)) ++tunes[example.section];
    for (const auto& [section, count] : tunes) {
        CAPTURE(section);
        CHECK(count >= 10);
    }
}
