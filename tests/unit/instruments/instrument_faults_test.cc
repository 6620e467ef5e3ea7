// The exact place and sentence of every fault of an instrument file, and files that are meant to hurt.
#include <catch2/catch.hpp>
#include <chrono>
#include <string>
#include <vector>

#include "instruments/instrument_file.h"
#include "shed_box.h"

using namespace instruments;
using namespace shed_box;

namespace {

// What is wrong with a file, or `nothing`.
std::string fault_of(const std::string& text) {
    try {
        read(text);
        return "nothing";
    } catch (const InstrumentFault& fault) {
        const std::string start =
            "mine.toml:" + std::to_string(fault.line()) + ":" + std::to_string(fault.column()) + ": ";
        const std::string what = fault.what();
        return what.starts_with(start) ? what.substr(std::string("mine.toml:").size()) : "where? " + what;
    }
}

// A file of one line of ways, `line`, in line 5.
std::string with_line(const std::string& line) { return kHead + kColumns + "ways = [" + line + "]\n"; }

struct Case {
    const char* name;
    std::string text;
    std::string fault;
};

void check_all(const std::vector<Case>& cases) {
    for (const Case& each : cases) {
        INFO(each.name);
        CHECK(fault_of(each.text) == each.fault);
    }
}

}  // namespace

TEST_CASE("instrument file: faults of the whole file", "[instruments]") {
    const std::string keys =
        "title, family, source, core, sounding_offset, caveat, cautions, rows, technique, fingering, grade, "
        "way_source, "
        "columns, ways, reasons, sources, based_on, semitones, keys, row_names, row_signs and motions";
    check_all({
        {"good", kGood, "nothing"},
        {"empty", "", "1:1: title is missing"},
        {"no family", "title = \"a\"\n", "1:1: family is missing"},
        {"no source", "title = \"a\"\nfamily = \"b\"\n", "1:1: source is missing"},
        {"wrong key", kGood + "zeal = 1\nmood = 2\n", "6:1: \"zeal\" is no key of an instrument; there are " + keys},
        {"no ways", kHead, "1:1: there is no note: ways needs a line at least"},
        {"no lines", with_line(""), "5:8: there is no note: ways needs a line at least"},
        {"ways no list", kHead + kColumns + "ways = 3\n", "5:8: ways must be a list of lines in [ ]"},
        {"title a number", "title = 3\n", "1:9: title must be a text in quotes"},
        {"title blank", "title = \" \\t\"\n", "1:9: title must not be empty"},
        {"title of two lines", "title = \"a\\nb\"\n", "1:9: title must be one line without control characters"},
        {"title too long", "title = \"" + std::string(1001, 'a') + "\"\n",
         "1:9: title must be no longer than 1000 bytes"},
        {"cautions no list", kGood + "cautions = \"rest\"\n",
         "6:12: cautions must be a list of texts: [\"...\", \"...\"]"},
        {"cautions a number", kGood + "cautions = [\"rest\", 3]\n", "6:21: each of cautions must be a text in quotes"},
        {"the same twice", kGood + "cautions = [\"rest\", \"rest\"]\n", "6:21: \"rest\" comes twice in cautions"},
        {"no such motion", kGood + "motions = { hop = 3 }\n",
         "6:13: \"hop\" is no motion of the hand; there are direction, row, string, reach, register, half-hole, fork, "
         "fingers, key, bend, lever, grade and second-way"},
        {"a motion too dear", kGood + "motions = { row = 101 }\n",
         "6:19: the cost of a motion must be a whole number from 0 to 100"},
        {"motions no table", kGood + "motions = 3\n", "6:11: motions must be a table"},
        {"column after a wide letter", kGood + "cautions = [\"h\u00e4nde\", 3]\n",
         "6:22: each of cautions must be a text in quotes"},
        {"offset a text", kGood + "sounding_offset = \"12\"\n",
         "6:19: sounding_offset must be a whole number from -48 to 48"},
        {"offset too far", kGood + "sounding_offset = 49\n",
         "6:19: sounding_offset must be a whole number from -48 to 48"},
        {"core not a compass", kGood + "core = \"D4-B5\"\n",
         "6:8: core must be a compass such as \"D4..B5\", the lower note first"},
        {"core upside down", kGood + "core = \"B5..D4\"\n",
         "6:8: core must be a compass such as \"D4..B5\", the lower note first"},
        {"key without a mode", kGood + "keys = [\"D major\", \"Em\"]\n",
         "6:20: \"Em\" is no key: write a tonic and a mode, such as \"A dorian\""},
        {"key of no note", kGood + "keys = [\"H minor\"]\n",
         "6:9: \"H minor\" is no key: write a tonic and a mode, such as \"A dorian\""},
        {"key with a space before", kGood + "keys = [\" minor\"]\n",
         "6:9: \" minor\" is no key: write a tonic and a mode, such as \"A dorian\""},
        {"sign of no row", kGood + "row_signs = { \"G row\" = \"g\" }\n", "6:15: \"G row\" is none of the rows"},
        {"sign a number", kGood + "row_signs = { \"D row\" = 1 }\n",
         "6:25: the sign of a row must be a text in quotes"},
        {"one sign for two rows",
         kGood + "rows = [\"D row\", \"bass\"]\nrow_signs = { \"D row\" = \"d\", \"bass\" = \"d\" }\n",
         "7:25: \"d\" is the sign of two rows"},
        {"signs no table", kGood + "row_signs = [\"d\"]\n", "6:13: row_signs must be a table"},
        {"reasons no table", kGood + "reasons = 3\n", "6:11: reasons must be a table"},
    });
}

TEST_CASE("instrument file: faults of the ways", "[instruments]") {
    const std::string width = "a line of ways must have 5 values in [ ], one a column";
    const std::string note = " is no note from C-1 to G9: write it like A3, C#5 or Bb4";
    check_all({
        {"note missing", with_line("[\"\", \"D row\", 3, \"press\", 1]"), "5:10: a note must not be empty"},
        {"note a number", with_line("[62, \"D row\", 3, \"press\", 1]"), "5:10: a note must be a text in quotes"},
        {"note written wrong", with_line("[\"H4\", \"D row\", 3, \"press\", 1]"), "5:10: \"H4\"" + note},
        {"note without octave", with_line("[\"C\", \"D row\", 3, \"press\", 1]"), "5:10: \"C\"" + note},
        {"note outside MIDI", with_line("[\"A9\", \"D row\", 3, \"press\", 1]"), "5:10: \"A9\"" + note},
        {"grade 9", with_line("[\"D4\", \"D row\", 3, \"press\", 9]"),
         "5:37: grade must be a whole number from 1 to 5"},
        {"grade 0", with_line("[\"D4\", \"D row\", 3, \"press\", 0]"),
         "5:37: grade must be a whole number from 1 to 5"},
        {"grade left out", with_line("[\"D4\", \"D row\", 3, \"press\", \"\"]"),
         "5:37: grade must be a whole number from 1 to 5"},
        {"grade for all 6", kHead + "grade = 6\ncolumns = [\"note\"]\nways = []\n",
         "4:9: grade must be a whole number from 1 to 5"},
        {"no such direction", with_line("[\"D4\", \"D row\", 3, \"push\", 1]"),
         "5:28: \"push\" is no direction: write press, draw, blow or none"},
        {"position a fraction", with_line("[\"D4\", \"D row\", 3.5, \"press\", 1]"),
         "5:25: position must be a text in quotes"},
        {"narrow line", with_line("[\"D4\", \"D row\", 3, \"press\"]"), "5:9: " + width},
        {"wide line", with_line("[\"D4\", \"D row\", 3, \"press\", 1, 1]"), "5:9: " + width},
        {"no line", with_line("\"D4\""), "5:9: " + width},
        {"unknown row", kHead + kColumns + kTwoWays + "rows = [\"G row\"]\n", "5:16: \"D row\" is none of the rows"},
        {"same way twice",
         with_line("[\"D4\", \"D row\", 3, \"press\", 1],\n[\"E4\", \"D row\", 3, \"draw\", 1],\n"
                   "[\"D4\", \"D row\", 3, \"press\", 2]"),
         "7:1: D4 is made twice in the same way: D row 3 press"},
        {"one place, two notes",
         with_line("[\"D4\", \"D row\", 3, \"press\", 1],\n[\"E4\", \"D row\", 3, \"press\", 1]"),
         "6:1: D row 3 press gives E4 here and D4 in line 5"},
        {"sounds too high", with_line("[\"G9\", \"D row\", 3, \"press\", 1]") + "sounding_offset = 1\n",
         "5:9: G9 would sound outside C-1 to G9"},
        {"no columns", kHead + kTwoWays, "4:8: ways needs columns, which say what stands where in a line"},
        {"no such column", kHead + "columns = [\"note\", \"finger\"]\n" + kTwoWays,
         "4:20: \"finger\" is no column; there are note, row, position, direction, technique, fingering, grade, reason "
         "and source"},
        {"columns without note", kHead + "columns = [\"row\", \"grade\"]\n" + kTwoWays, "4:11: columns lacks \"note\""},
        {"columns without grade", kHead + "columns = [\"note\", \"row\"]\n" + kTwoWays,
         "4:11: columns lacks \"grade\", and the file has no grade for all ways"},
        {"column twice", kHead + "columns = [\"note\", \"note\"]\n" + kTwoWays,
         "4:20: \"note\" comes twice in columns"},
        {"no technique", with_line("[\"D4\", \"D row\", 3, \"none\", 1]"),
         "5:9: D4 has neither technique nor direction"},
        {"no fingering", kHead + "technique = \"sung\"\ncolumns = [\"note\", \"grade\"]\nways = [[\"D4\", 1]]\n",
         "6:9: D4 has no fingering: neither a row nor a position to name"},
        {"word that fingering has not", kGood + "fingering = \"{row} {finger}\"\n",
         "6:13: fingering takes {row}, {position}, {direction} and {technique}, not {finger}"},
        {"fingering left open", kGood + "fingering = \"{row\"\n", "6:13: fingering has a { without its }"},
        {"no such reason",
         kHead + "grade = 1\ncolumns = [\"note\", \"direction\", \"reason\"]\nways = [[\"D4\", \"press\", \"hom\"]]\n" +
             "[reasons]\nhome = \"h\"\n",
         "6:25: \"hom\" is none of the reasons"},
        {"reason a number",
         kHead +
             "grade = 1\ncolumns = [\"note\", \"direction\", \"reason\"]\nways = [[\"D4\", \"press\", \"home\"]]\n" +
             "[reasons]\nhome = 3\n",
         "8:8: reason must be a text in quotes"},
        {"no such source",
         kHead + "grade = 1\ncolumns = [\"note\", \"direction\", \"source\"]\nways = [[\"D4\", \"press\", \"ear\"]]\n" +
             "[sources]\nbook = \"b\"\n",
         "6:25: \"ear\" is none of the sources"},
    });
}

TEST_CASE("instrument file: faults of a file based on another", "[instruments]") {
    check_all({
        {"title missing", "based_on = \"bc21\"\n", "1:1: title is missing"},
        {"unknown", based_on("bc99"), "2:12: there is no instrument \"bc99\" to be based on"},
        {"itself", based_on("mine"), "2:12: there is no instrument \"mine\" to be based on"},
        {"a number", "title = \"a\"\nbased_on = 3\n", "2:12: based_on must be a text in quotes"},
        {"moved by a text", based_on("bc21") + "semitones = \"3\"\n",
         "3:13: semitones must be a whole number from -48 to 48"},
        {"moved too far", based_on("bc21") + "semitones = 49\n",
         "3:13: semitones must be a whole number from -48 to 48"},
        {"moved outside MIDI", based_on("bc21") + "semitones = 38\n",
         "3:13: so moved, a note of bc21 leaves the range C-1 to G9"},
        {"sound moved outside MIDI", based_on("whistle-d") + "semitones = 30\n",
         "3:13: so moved, a note of whistle-d leaves the range C-1 to G9"},
        {"sounds outside MIDI", based_on("bc21") + "sounding_offset = 38\n", "3:19: F#6 would sound outside C-1 to G9"},
        {"no such row", based_on("bc21") + "row_names = { \"G row\" = \"A row\" }\n",
         "3:15: \"G row\" is no row of bc21"},
        {"new name a number", based_on("bc21") + "row_names = { \"C row\" = 1 }\n",
         "3:25: the new name of a row must be a text in quotes"},
        {"names no table", based_on("bc21") + "row_names = \"C row\"\n", "3:13: row_names must be a table"},
        {"semitones of nothing", kGood + "semitones = 2\n", "6:13: semitones needs based_on"},
        {"names of nothing", kGood + "row_names = { \"D row\" = \"E row\" }\n", "6:13: row_names needs based_on"},
    });
    CHECK_THROWS_WITH(read_instrument(based_on("bc21"), "x", "x.toml", nullptr),
                      "x.toml:2:12: there is no instrument \"bc21\" to be based on");
}

TEST_CASE("instrument file: what is no TOML, or is meant to hurt, is a fault and no more", "[instruments]") {
    const auto begun = std::chrono::steady_clock::now();
    const auto repeated = [](const std::string& text, int times) {
        std::string all;
        for (int time = 0; time < times; ++time) all += text;
        return all;
    };
    std::string numbered;
    for (int at = 0; at < 60000; ++at) numbered += "\"" + std::to_string(at) + "\",";
    const std::string rows = kHead + "grade = 1\ntechnique = \"t\"\ncolumns = [\"note\", \"row\"]\nways = [";
    std::string many_rows = rows;
    for (int at = 0; at < 60000; ++at) many_rows += "[\"C4\",\"" + std::to_string(at) + "\"],";
    check_all({
        {"too large", std::string((1 << 20) + 1, '#'), "1:1: is larger than an instrument file may be (1 MiB)"},
        {"as large as may be", std::string(1 << 20, '#'), "1:1: title is missing"},
        {"many values", kGood + "cautions = [" + numbered + "]\n", "6:12: cautions must have no more than 128 values"},
        {"many rows", many_rows + "]\n",
         "7:" + std::to_string(8 + 10 * 11 + 90 * 12 + 28 * 13 + 1) + ": there must be no more than 128 rows"},
        {"fingering that grows",
         rows + "[\"C4\", \"" + std::string(900, 'r') + "\"]]\nfingering = \"" + repeated("{row}", 100) + "\"\n",
         "8:13: fingering must be no longer than 1000 bytes when filled in"},
        {"long dotted key", repeated("a.", 400000) + "a = 1\n", "1:16: a key has too many dots"},
        {"long dotted table", "\n[" + repeated("\"a\" . ", 150000) + "a]\n", "2:48: a key has too many dots"},
        {"long dotted key behind odd strings",
         "a = [\"\"\"\"x\"\"\"\", 'x', '''x''''', \"\\\"#\", { " + repeated("a.", 300000) + "a = 1 }]\n",
         "1:57: a key has too many dots"},
        {"dots in texts and remarks", kGood + "caveat = \"" + repeated("a.", 40) + "\"  # " + repeated("b.", 40) + "\n",
         "nothing"},
    });
    for (const std::string& text :
         {std::string("\0", 1), std::string("title = \"a\0b\"\n", 14), std::string("title = \"\xff\xfe\"\n"),
          std::string("title = \"\xed\xa0\x80\"\n"), std::string("title = \"unclosed"), std::string("title = \"\"\""),
          std::string("= 1\n"), std::string("title = \"a\"\ntitle = \"b\"\n"), std::string("grade = 1e400\n"),
          std::string("grade = 99999999999999999999999999\n"), std::string("just words, no table"),
          "ways = " + std::string(100000, '['), "ways = " + repeated("{a=", 100000)}) {
        INFO(text.substr(0, 40));
        CHECK_THAT(fault_of(text), Catch::Contains(": this is no TOML: "));
    }
    CHECK(fault_of("\xEF\xBB\xBF" + kGood) == "nothing");  // a byte-order mark
    // Letters and signs beyond ASCII: in a text or a comment, and nowhere else.
    CHECK(fault_of("# für die Flöte\n" + kGood) == "nothing");
    const std::string plain_only = "this is no TOML: letters and signs beyond ASCII stand between quotes";
    CHECK(fault_of("títle = 1\n" + kGood) == "1:2: " + plain_only);
    CHECK(fault_of("x = 9(6\"\u03E2\n" + kGood) == "1:8: this is no TOML: no text can begin here");
    CHECK(fault_of("x = 9)[\"\u03E2\n" + kGood) == "1:8: this is no TOML: no text can begin here");
    CHECK(fault_of("x = \"\"\"a\\\u00A4\"\"\"\n" + kGood) ==
          "1:10: this is no TOML: letters and signs beyond ASCII do not stand behind a backslash");
    CHECK(fault_of("x = \"\"\"a\\\n  \u00E4\"\"\"\n" + kGood) ==
          "2:3: this is no TOML: letters and signs beyond ASCII do not stand behind a backslash");
    CHECK(fault_of("x = 9=\"\u03E2\n" + kGood) == "1:7: this is no TOML: no text can begin here");
    CHECK(fault_of("x = 9,\"\u03E2\n" + kGood) == "1:7: this is no TOML: no text can begin here");
    CHECK(fault_of(kGood + "grade =\u00A02\n") == "6:8: " + plain_only);
    CHECK(fault_of(based_on("bc21") + "semitones = 9223372036854775807\n") ==
          "3:13: semitones must be a whole number from -48 to 48");
    CHECK(fault_of(kGood + "grade = nan\n") == "6:9: grade must be a whole number from 1 to 5");
    // Some seconds for a slow machine; a file that grows without bound takes minutes.
    CHECK(std::chrono::steady_clock::now() - begun < std::chrono::seconds(20));
}

// A file that is cut off anywhere, or has one character changed, is an instrument or a fault.
TEST_CASE("instrument file: cut and changed files", "[instruments]") {
    const std::string whole = kGood + "rows = [\"D row\"]\nrow_signs = { \"D row\" = \"d\" }\nkeys = [\"D major\"]\n";
    int read_well = 0;
    int faults = 0;
    const auto count = [&](const std::string& text) { fault_of(text) == "nothing" ? ++read_well : ++faults; };
    for (std::size_t length = 0; length <= whole.size(); ++length) count(whole.substr(0, length));
    for (std::size_t at = 0; at < whole.size(); ++at)
        for (const char c : {'"', '[', ']', '{', '=', '\n', '9', ',', '\xC3', '\0', '.'}) {
            std::string changed = whole;
            changed[at] = c;
            count(changed);
        }
    CHECK(read_well > 0);
    CHECK(faults > 0);
    CHECK(read_well + faults == static_cast<int>(whole.size() * 12 + 1));
}
