#include "answers/tune.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "answers/refusal.h"
#include "answers/said_key.h"
#include "instruments/known.h"
#include "support/collected.h"
#include "support/refused.h"
#include "tune/likeness.h"

namespace {

using answers::Part;
using answers::Reason;
using answers::TuneQuestion;

// Lamp and Lantern are probably one tune; Net is another and has a low C.
const std::string kTunesToShow =
    "X:1\nT:Lamp\nR:reel\nM:4/4\nL:1/8\nK:G\n|:G2BG dGBG|ABcA BGEF|G2BG dGBd|e2dB A2GF:|"
    "|:g2fg edBd|gfed e2dB|c2ec B2dB|A2GF G4:|\n\n"
    "X:2\nT:Lantern\nR:reel\nM:4/4\nL:1/8\nK:G\n|:G2BG dGBG|ABcA BGED|G2BG dGBd|e2dB A2GF:|"
    "|:g2fg edBd|gfed e2dB|c2ec B2dB|A2GA G4:|\n\n"
    "X:3\nT:Net\nR:jig\nM:6/8\nL:1/8\nK:C\n|:CDE EGE|DED FED|CDE GED|EDD C3:|\n\n"
    "X:4\nT:Silence\nM:4/4\nL:1/8\nK:C\nz8|]\n";

// A collection that keeps no ABC, or whose files are gone.
class Unkept : public collection::Memory {
public:
    Unkept(const collection::Memory& memory, bool is_gone) : collection::Memory(memory), is_gone_(is_gone) {}

    std::optional<collection::AbcText> abc_of(tune::SettingId setting) const override {
        if (!is_gone_) return std::nullopt;
        auto kept = collection::Memory::abc_of(setting);
        if (kept) kept->gone = true;
        return kept;
    }

private:
    bool is_gone_ = false;
};

TuneQuestion about(const char* which, const char* instrument = nullptr) {
    TuneQuestion question;
    question.which = which;
    if (instrument != nullptr) question.instrument = {std::shared_ptr<void>(), instruments::find(instrument)};
    return question;
}

answers::TuneAnswer shown(const TuneQuestion& question, people::Kept kept = {}) {
    return answers::answer(support::collected(kTunesToShow, std::move(kept)), question);
}

answers::Refusal not_shown(const TuneQuestion& question) {
    return support::refusal_of([&] { shown(question); });
}

tune::TuneRecord said_to_be_in(const char* key) {
    tune::TuneRecord record;
    record.key = music::parse_key(key);
    record.key_basis = tune::Basis::said;
    return record;
}

tune::TuneFacts computed_to_be_in(std::initializer_list<const char*> keys) {
    tune::TuneFacts facts;
    facts.key.emplace();
    for (const char* key : keys) facts.key->candidates.push_back(*music::parse_key(key));
    facts.key->stated = facts.key->candidates.back();
    return facts;
}

}  // namespace

TEST_CASE("tune: its facts are those of its own ABC, which is shown", "[answers][tune]") {
    const answers::TuneAnswer answer = shown(about("net"));
    CHECK(answer.record.id == tune::TuneId{3});
    CHECK(answer.abc.starts_with("X:3\nT:Net\n"));
    CHECK(answer.facts.needed == music::read_notes("C4 D4 E4 F4 G4"));
    CHECK(answer.facts.needed == answer.record.needed);
    CHECK(answer.facts.bars == 4);
    REQUIRE(answer.facts.uses.size() == 5);
    CHECK(answer.facts.uses[0].midi == 60);
    CHECK(answer.facts.uses[0].count == 3);
    CHECK(answer.settings.size() == 1);
    CHECK(answer.kin.empty());
    CHECK(answer.said.empty());
    CHECK_FALSE(answer.is_gone);
    CHECK_FALSE(answer.in_hand.has_value());
}

TEST_CASE("tune: others that are probably this one are told", "[answers][tune]") {
    const answers::TuneAnswer answer = shown(about("2"));
    REQUIRE(answer.kin.size() == 1);
    CHECK(answer.kin[0].record.titles.front() == "Lamp");
    CHECK(answer.kin[0].likeness >= tune::kProbableKin);
}

TEST_CASE("tune: what a person said of it and another is told, in the order it was said", "[answers][tune]") {
    people::Kept kept;
    kept.verdicts[{1, 3}] = {false, 1};
    kept.verdicts[{1, 2}] = {true, 2};
    kept.verdicts[{3, 4}] = {false, 3};
    const answers::TuneAnswer answer = shown(about("Lantern"), kept);
    CHECK(answer.record.id == tune::TuneId{1});
    CHECK(answer.settings.size() == 2);
    CHECK(answer.kin.empty());
    REQUIRE(answer.said.size() == 2);
    CHECK_FALSE(answer.said[0].is_same);  // of the other setting of the same tune
    CHECK(answer.said[0].other.titles.front() == "Net");
    CHECK(answer.said[1].is_same);
    CHECK(answer.said[1].other.titles.front() == "Lantern");
}

TEST_CASE("tune: on an instrument, how it lies and where it lies better", "[answers][tune]") {
    const answers::TuneAnswer answer = shown(about("Net", "whistle-d"));
    REQUIRE(answer.in_hand.has_value());
    CHECK(answer.in_hand->instrument->id == "whistle-d");
    CHECK(answer.in_hand->notes.empty());
    REQUIRE(answer.in_hand->handling.near_miss.lacks.size() == 1);
    CHECK(answer.in_hand->handling.near_miss.lacks[0].midi == 60);
    REQUIRE(answer.in_hand->handling.moves.size() == 25);
    CHECK(answer.in_hand->handling.moves[0].semitones == 2);  // to D
    CHECK(answer.in_hand->handling.moves[0].missing == 0);
}

TEST_CASE("tune: with some notes only, what is lacking", "[answers][tune]") {
    TuneQuestion question = about("Net");
    question.have = "C4 D4 E4";
    const answers::TuneAnswer answer = shown(question);
    REQUIRE(answer.in_hand.has_value());
    CHECK(answer.in_hand->instrument == nullptr);
    CHECK(answer.in_hand->notes == "C4 D4 E4");
    REQUIRE(answer.in_hand->handling.near_miss.lacks.size() == 2);
    CHECK(answer.in_hand->handling.near_miss.lacks[0].midi == 65);
    CHECK(answer.in_hand->handling.near_miss.lacks[1].midi == 67);
    CHECK(answer.in_hand->handling.moves.empty());
}

TEST_CASE("tune: with some notes of an instrument it is that instrument with no others", "[answers][tune]") {
    TuneQuestion question = about("Net", "whistle-d");
    question.have = "C4 D4 E4 G4";
    const answers::TuneAnswer answer = shown(question);
    REQUIRE(answer.in_hand.has_value());
    CHECK(answer.in_hand->instrument->note_set() == music::read_notes("D4 E4 G4"));
    CHECK(answer.in_hand->handling.near_miss.lacks.size() == 2);  // C4 and F4
    REQUIRE(answer.left_out_notes.size() == 1);
    CHECK(answer.left_out_notes[0].part == Part::have);
    CHECK(answer.left_out_notes[0].notes == music::read_notes("C4"));
}

TEST_CASE("tune: any way of making a note, or one way through the tune", "[answers][tune]") {
    TuneQuestion question = about("Lamp", "bc21");
    const auto one_way = shown(question).in_hand->handling.way.cost;
    CHECK(shown(question).in_hand->instrument.get() == instruments::find("bc21"));
    question.any_ways = true;
    CHECK(shown(question).in_hand->instrument.get() != instruments::find("bc21"));
    CHECK(shown(question).in_hand->handling.way.cost <= one_way);
}

TEST_CASE("tune: the key a person said is the one it is moved from, and the notes still say theirs",
          "[answers][tune]") {
    people::Kept kept;
    kept.keys[3] = {*music::parse_key("F lydian"), 1};
    const answers::TuneAnswer answer = shown(about("Net", "whistle-d"), kept);
    const auto as_it_is = std::find_if(answer.in_hand->handling.moves.begin(), answer.in_hand->handling.moves.end(),
                                       [](const hands::Move& move) { return move.semitones == 0; });
    REQUIRE(as_it_is != answer.in_hand->handling.moves.end());
    CHECK(as_it_is->key == music::parse_key("F lydian"));
    REQUIRE(answer.facts.key.has_value());
    CHECK(answer.facts.key->headline() == music::parse_key("C major"));
    CHECK(answer.record.key == music::parse_key("F lydian"));
}

TEST_CASE("tune: what its file no longer has is shown as it was kept, and said to be gone", "[answers][tune]") {
    const Unkept gone(support::collected(kTunesToShow), true);
    const answers::TuneAnswer answer = answers::answer(gone, about("Net"));
    CHECK(answer.is_gone);
    CHECK(answer.facts.bars == 4);
}

TEST_CASE("tune: without its ABC there are no facts, and what is known of it is told", "[answers][tune]") {
    const Unkept unkept(support::collected(kTunesToShow), false);
    const answers::TuneAnswer answer = answers::answer(unkept, about("2", "whistle-d"));
    CHECK(answer.record.titles.front() == "Lantern");
    CHECK(answer.kin.size() == 1);
    CHECK(answer.abc.empty());
    CHECK(answer.facts == tune::TuneFacts());
    CHECK_FALSE(answer.in_hand.has_value());
}

TEST_CASE("tune: one in which nothing sounds is answered too", "[answers][tune]") {
    const answers::TuneAnswer answer = shown(about("Silence", "whistle-d"));
    CHECK(answer.facts.note_count == 0);
    CHECK_FALSE(answer.facts.key.has_value());
    REQUIRE(answer.in_hand.has_value());
    CHECK(answer.in_hand->handling.near_miss.lacks.empty());
}

TEST_CASE("tune: what is no question", "[answers][tune]") {
    const answers::Refusal unknown = not_shown(about("Nett"));
    CHECK(unknown.part == Part::tune);
    CHECK(unknown.reason == Reason::unknown_tune);
    CHECK(unknown.others.at(0) == "Net (3)");
    const answers::Refusal several = not_shown(about("la"));
    CHECK(several.reason == Reason::several_tunes);
    CHECK(several.tunes.size() == 2);
    TuneQuestion question = about("Net");
    question.have = "Q9";
    CHECK(not_shown(question).part == Part::have);
    CHECK(not_shown(question).reason == Reason::in_words);
    question = about("Net", "whistle-d");
    question.have = "C4";
    CHECK(not_shown(question).part == Part::have);
    CHECK(not_shown(question).reason == Reason::none_on_instrument);
}

TEST_CASE("said key: stands in front of the candidates, once, and decides", "[answers][said_key]") {
    const tune::TuneFacts facts =
        answers::with_said_key(computed_to_be_in({"G major", "E minor", "D mixolydian"}), said_to_be_in("E minor"));
    CHECK(facts.key->candidates == std::vector<music::Key>{*music::parse_key("E minor"), *music::parse_key("G major"),
                                                           *music::parse_key("D mixolydian")});
    CHECK(facts.key->headline() == *music::parse_key("E minor"));
    CHECK(facts.key->decided);
    const tune::TuneFacts other = answers::with_said_key(computed_to_be_in({"G major"}), said_to_be_in("B locrian"));
    CHECK(other.key->headline() == *music::parse_key("B locrian"));
    CHECK(other.key->candidates.size() == 2);
}

TEST_CASE("said key: where nobody said one the facts are as they were", "[answers][said_key]") {
    const tune::TuneFacts facts = computed_to_be_in({"G major", "E minor"});
    tune::TuneRecord record = said_to_be_in("E minor");
    record.key_basis = tune::Basis::computed;
    CHECK(answers::with_said_key(facts, record) == facts);
    CHECK(answers::with_said_key(facts, tune::TuneRecord()) == facts);
    CHECK(answers::with_said_key(tune::TuneFacts(), said_to_be_in("E minor")) == tune::TuneFacts());
}
