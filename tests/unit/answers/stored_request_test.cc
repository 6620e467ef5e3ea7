#include "answers/stored_request.h"

#include <catch2/catch.hpp>

#include "answers/old_request.h"
#include "instruments/known.h"
#include "syllabus/stored_syllabus.h"

namespace {

using answers::TermRequest;

// Every field there is.
TermRequest whole_request() {
    TermRequest request;
    request.from = base::read_date("2027-01-12");
    request.on = std::chrono::Tuesday;
    request.lessons = 8;
    request.breaks = {syllabus::read_break("2027-02-16"), syllabus::read_break("2027-03-01..2027-03-05")};
    request.have = "D4 E4 F#4";
    request.notes_every = 3;
    request.tunes_each = 2;
    request.steps = 4;
    request.first = "C5 G5";
    request.musts = {{"33"}, {"34", base::read_date("2027-02-23")}, {"35", std::nullopt, 2}};
    request.begin = {"7", "9"};
    request.without = {"11"};
    request.max_states = 4000;
    request.filter.fits = {"Ina on whistle-d=D4 E4"};
    request.filter.players = {"Uli", "Olli"};
    request.filter.instrument = {std::shared_ptr<void>(), instruments::find("whistle-d")};
    request.filter.grade = 3;
    request.filter.state = answers::StateAsked::none;
    request.filter.scraps = answers::Scraps::asked_for;
    collection::Selection& columns = request.filter.columns;
    columns.uses = {music::read_note_anywhere("C#"), music::read_note_anywhere("F5")};
    columns.avoids = music::read_note_anywhere("Bb") | music::read_note_anywhere("D4");
    columns.rhythm = "slip jig";
    columns.meter = "9/8";
    columns.tonic = 9;
    columns.mode = music::Mode::dorian;
    columns.starts_on = music::read_note_anywhere("D");
    columns.ends_on = music::read_note_anywhere("A4");
    columns.span = 12;
    columns.top = 81;
    columns.bottom = 62;
    columns.octave = collection::OctaveRange::home;
    columns.title = "lamp";
    columns.file = "book";
    columns.tag = "thursday";
    columns.ornaments = true;
    return request;
}

const std::vector<std::string> kOldWords = {"--from=2027-01-12",
                                            "--on=tue",
                                            "--lessons=8",
                                            "--break=2027-02-16",
                                            "--break=2027-03-01..2027-03-05",
                                            "--have=D4 E4 F#4",
                                            "--notes-every=3",
                                            "--tunes-each=2",
                                            "--steps=4",
                                            "--first=C5 G5",
                                            "--must=33",
                                            "--must=34 by 2027-02-23",
                                            "--must=35 by 2",
                                            "--begin=7",
                                            "--begin=9",
                                            "--without=11",
                                            "--max-states=4000",
                                            "--fits=Ina on whistle-d=D4 E4",
                                            "--for=Uli",
                                            "--for=Olli",
                                            "--instrument=whistle-d",
                                            "--grade=3",
                                            "--uses=C# F5",
                                            "--avoids=Bb D4",
                                            "--rhythm=Slip Jig",
                                            "--meter=9/8",
                                            "--tonic=A",
                                            "--mode=dorian",
                                            "--starts-on=D",
                                            "--ends-on=A4",
                                            "--span=12",
                                            "--octave=home",
                                            "--title=lamp",
                                            "--file=book",
                                            "--tag=thursday",
                                            "--state=none",
                                            "--ornaments",
                                            "--scraps"};

}  // namespace

TEST_CASE("stored request: every field is read back as it was written", "[answers][stored_request]") {
    const std::string text = answers::write_request(whole_request());
    CHECK(answers::write_request(answers::read_request(text)) == text);
    for (const char* field :
         {"from",   "on",     "lessons", "breaks",     "have", "notes_every", "tunes_each", "steps", "first",
          "musts",  "begin",  "without", "max_states", "fits", "players",     "instrument", "grade", "uses",
          "avoids", "rhythm", "meter",   "tonic",      "mode", "starts_on",   "ends_on",    "span",  "top",
          "bottom", "octave", "title",   "file",       "tag",  "state",       "ornaments",  "scraps"})
        CHECK(text.find("\"" + std::string(field) + "\":") != std::string::npos);
    const TermRequest again = answers::read_request(text);
    CHECK(again.filter.columns.uses == whole_request().filter.columns.uses);
    CHECK(again.filter.columns.avoids == whole_request().filter.columns.avoids);
    CHECK(again.musts[1].by_date == base::read_date("2027-02-23"));
    CHECK(again.musts[2].by_lesson == 2);
}

TEST_CASE("stored request: the words of a command line, as terms were kept before, mean the same",
          "[answers][stored_request]") {
    TermRequest before = whole_request();  // what could be asked for then
    before.filter.columns.top.reset();
    before.filter.columns.bottom.reset();
    CHECK(answers::write_request(answers::read_old_request(kOldWords)) == answers::write_request(before));
    CHECK(answers::write_request(answers::read_request(R"(["--from=2027-01-12","--lessons=8","--have=D4 E4"])")) ==
          R"({"from":"2027-01-12","lessons":8,"have":"D4 E4"})");
}

TEST_CASE("stored request: an instrument of one's own is kept by its file", "[answers][stored_request]") {
    TermRequest request;
    request.filter.instrument = std::make_shared<const instruments::Instrument>(*instruments::find("whistle-d"));
    request.filter.instrument_file = "mine.toml";
    const std::string text = answers::write_request(request);
    CHECK(text == R"({"instrument_file":"mine.toml"})");
    CHECK(answers::read_request(text).filter.instrument == nullptr);
    CHECK(answers::read_request(text).filter.instrument_file == "mine.toml");
}

TEST_CASE("stored request: what was never written is refused", "[answers][stored_request]") {
    for (const char* wrong : {"",
                              "7",
                              "\"text\"",
                              "{",
                              R"({"colour":"red"})",
                              R"({"lessons":0})",
                              R"({"lessons":201})",
                              R"({"lessons":"8"})",
                              R"({"lessons":99999999999999999999})",
                              R"({"lessons":18446744073709551615})",
                              R"({"from":"2027-02-30"})",
                              R"({"on":"someday"})",
                              R"({"breaks":["2027-03-05..2027-03-01"]})",
                              R"({"instrument":"zither"})",
                              R"({"grade":6})",
                              R"({"uses":["C#"]})",
                              R"({"uses":[["Q"]]})",
                              R"({"avoids":"C#"})",
                              R"({"tonic":"H"})",
                              R"({"mode":"cheerful"})",
                              R"({"octave":"two"})",
                              R"({"state":"asleep"})",
                              R"({"musts":[{}]})",
                              R"({"musts":[{"tune":"3","by_lesson":0}]})",
                              R"({"musts":[{"tune":"3","why":"so"}]})",
                              R"(["--colour=red"])",
                              R"(["--lessons=many"])",
                              R"(["--from=never"])",
                              R"(["--instrument=zither"])",
                              R"([7])"}) {
        CAPTURE(wrong);
        CHECK_THROWS_AS(answers::read_request(wrong), syllabus::StoredFault);
    }
}
