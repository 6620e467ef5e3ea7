// Runs the rule book: every example of reading-abc.md is read, and what the book says of it must come out.
#include <catch2/catch.hpp>
#include <fstream>
#include <set>
#include <string>
#include <vector>

#include "abc/read.h"
#include "report/reading.h"

namespace {

struct Example {
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

std::vector<Example> read_book() {
    std::ifstream book(GAMUT_SOURCE_DIR "/tests/rules/reading-abc.md");
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
            examples.push_back({number, section, "", {}});
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

// What the program takes from the example's first tune under that label.
std::string taken(const std::string& label, const tune::Setting& setting, const base::Diagnostics& diagnostics) {
    if (label == "pitches") return joined(report::pitch_words(setting.melody));
    if (label == "lengths") return joined(report::length_words(setting.melody));
    if (label == "key") return music::to_string(setting.key);
    if (label == "title") return setting.titles.empty() ? "" : setting.titles.front();
    if (label == "findings") {
        std::set<std::string> codes;
        for (const base::Diagnostic& diagnostic : diagnostics.kept()) codes.emplace(diagnostic.code);
        return joined({codes.begin(), codes.end()});
    }
    return "(the book asks for " + label + ", which nobody knows)";
}

}  // namespace

TEST_CASE("rule book: every example is read as the book says", "[rules]") {
    for (const Example& example : read_book()) {
        CAPTURE(example.line, example.section, example.abc);
        const base::SourceFile source("reading-abc.md", file_of(example.abc));
        base::Diagnostics diagnostics;
        const auto settings = abc::read_settings(source, diagnostics);
        REQUIRE(settings.size() == 1);
        bool says_pitches = false, says_findings = false;
        for (const auto& [label, words] : example.expected) {
            CAPTURE(label);
            CHECK(taken(label, settings[0], diagnostics) == words);
            says_pitches = says_pitches || label == "pitches";
            says_findings = says_findings || label == "findings";
        }
        CHECK(says_pitches);
        if (!says_findings) CHECK(taken("findings", settings[0], diagnostics) == "");
    }
}

TEST_CASE("rule book: each section has an example", "[rules]") {
    std::set<std::string> sections;
    const auto examples = read_book();
    for (const Example& example : examples) sections.insert(example.section);
    CHECK(sections.size() == 15);
    CHECK(examples.size() >= 45);
}
