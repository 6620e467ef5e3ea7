// Every writer over one document that has a block and a cell of every kind.
#include <catch2/catch.hpp>
#include <string>

#include "music/note_expression.h"
#include "report/write.h"
#include "report/writers/csv.h"
#include "report/writers/text.h"

namespace {

instruments::Instrument two_holes() {
    instruments::Instrument pipe;
    pipe.id = "pipe";
    pipe.title = "Pipe of two holes";
    for (const auto& [midi, fingering] : {std::pair(62, "XX"), std::pair(64, "XO")}) {
        instruments::Way way;
        way.technique = "holes";
        way.fingering = fingering;
        instruments::InstrumentNote note;
        note.written = midi;
        note.ways.push_back(way);
        pipe.notes.push_back(note);
    }
    return pipe;
}

music::NoteSet notes_of(std::initializer_list<int> midi) {
    music::NoteSet notes;
    for (const int note : midi) notes.add(note);
    return notes;
}

report::Document every_block() {
    using report::Cell;
    using report::Fit;
    report::Table table{
        {{"set"}, {"title", Fit::wrapped, 12}, {"notes", Fit::cut, 8}, {"at"}, {"day"}, {"share"}, {"with"}}, {}};
    const base::Date day = base::read_date("2027-01-12");
    table.rows.push_back({Cell(std::int64_t{1}), Cell(std::string("Rain, or \"Wet Stones\"")),
                          Cell(report::Notes{notes_of({62, 66}), 2}), Cell(report::Duration{65}), Cell(day),
                          Cell(report::Share{0.25}), Cell(report::Items{{"Ina", "Bo"}})});
    table.rows.push_back({Cell(report::FromAbove{}), Cell(std::string("=Soup\x1b")), Cell(report::Notes{}),
                          Cell(report::Duration{600}), Cell(), Cell(report::Share{1}), Cell(report::Items{})});
    return {{report::Title{"Title"}, report::Heading{"Heading"}, report::Paragraph{"A paragraph."},
             report::Hint{"gamut tunes shows more."}, report::Caution{"Rest when it hurts."},
             report::Line{"One line, " + std::string(80, 'x')}, report::Break{}, report::SectionEnd{}, table,
             report::Particulars{{{"key", "A dorian"}}}, report::Remarks{{{"a.abc:1", {"odd"}}}},
             report::List{{"one", "two"}, true}, report::Music{"X:1\nK:D\nDE|\n"}, report::Example{"$ gamut\n"},
             report::FingeredBars{true, {{"bar 1", {"D4", "E4"}, {"1", "2"}, "pd"}}},
             report::InstrumentPicture{two_holes(), notes_of({64})},
             report::Curves{"Notes and tunes", "notes", "tunes", {{"best", {{0, 1}, {1, 4}}}}}}};
}

}  // namespace

TEST_CASE("writers: text shows every block", "[report][writers]") {
    const std::string text = report::render_text(every_block(), {});
    const std::string bars =
        "bar 1\n"
        "D4 E4\n"
        "1  2\n"
        "p  d\n";
    const std::string head =
        "Title\n"
        "\n"
        "Heading\n"
        "A paragraph.\n"
        "gamut tunes shows more.\n"
        "Rest when it hurts.\n"
        "One line, " +
        std::string(80, 'x') +
        "\n"
        "\n"
        "\n"
        "set  title                  notes   at     day           share  with\n"
        "  1  Rain, or \"Wet Stones\"  D4 F#4  1:05   2027-01-12   25.0 %  Ina\n"
        "                                                                Bo\n"
        "     =Soup                  -       10:00  -           100.0 %\n"
        "  key  A dorian\n"
        "a.abc:1\n"
        "    odd\n"
        "  1.  one\n"
        "  2.  two\n"
        "X:1\n"
        "K:D\n"
        "DE|\n"
        "    $ gamut\n";
    CHECK(text.substr(0, head.size()) == head);
    CHECK(text.substr(std::min(text.size(), head.size()), bars.size()) == bars);
    CHECK(text.size() > head.size() + bars.size());
    CHECK(text.find("[E4]", head.size()) != std::string::npos);
}

TEST_CASE("writers: CSV is the tables alone, a cell over several rows in each of them", "[report][writers]") {
    CHECK(report::render_csv(every_block()) ==
          "set,title,notes,at,day,share,with\r\n"
          "1,\"Rain, or \"\"Wet Stones\"\"\",D4 F#4,65,2027-01-12,0.2500,Ina; Bo\r\n"
          "1,'=Soup\x1b,'-,600,,1.0000,\r\n");
}
