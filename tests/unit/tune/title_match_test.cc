#include "tune/title_match.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "tune/title.h"

using tune::Likeness;
using tune::match_titles;
using tune::MatchKind;
using tune::split_titles;
using tune::TitledTune;
using tune::TitleMatch;

namespace {

TitledTune titled(std::int64_t id, const std::vector<std::string>& titles) {
    TitledTune tune{{id}, titles.front(), {}};
    for (const std::string& title : titles) tune.folded.push_back(tune::fold_title(title));
    return tune;
}

std::vector<TitledTune> shelf() {
    return {titled(1, {"Rain on the Slipway"}),
            titled(2, {"The Ten Past Ferry", "Mrs Quill's Umbrella"}),
            titled(3, {"Lamp, Oar and Bucket"}),
            titled(4, {"The Tin Gate"}),
            titled(5, {"Tin Gate, The"}),
            titled(6, {"Wet Monday"}),
            titled(7, {"Wet Sunday"}),
            titled(8, {"Soup"}),
            titled(9, {"The Lantern of Pebble Lane No. 2"}),
            titled(10, {"Vítek's Barometer"})};
}

TitleMatch match(const std::string& written) { return match_titles({written}, shelf()).front(); }

std::vector<std::int64_t> ids(const TitleMatch& match) {
    std::vector<std::int64_t> ids;
    for (const auto& candidate : match.candidates) ids.push_back(candidate.id.value);
    return ids;
}

using Ids = std::vector<std::int64_t>;

}  // namespace

TEST_CASE("title match: exactly a title, in any case, with any accents and articles", "[tune][title-match]") {
    for (const char* written : {"Rain on the Slipway", "RAIN ON THE SLIPWAY!", "the rain on the slipway"}) {
        CAPTURE(written);
        CHECK(match(written).kind == MatchKind::matched);
        CHECK(ids(match(written)) == Ids{1});
        CHECK(match(written).candidates.front().likeness == Likeness::exact);
        CHECK(match(written).written == written);
    }
    CHECK(ids(match("Viteks barometer")) == Ids{10});
    CHECK(match("soup").kind == MatchKind::matched);  // short, but it is the title
}

TEST_CASE("title match: any title of a tune finds it, and the first is shown", "[tune][title-match]") {
    const TitleMatch found = match("Mrs. Quill’s umbrella");
    CHECK(found.kind == MatchKind::matched);
    CHECK(found.candidates.front().title == "The Ten Past Ferry");
    CHECK(found.candidates.front().folded == "mrs quills umbrella");
}

TEST_CASE("title match: a title of several tunes is in doubt", "[tune][title-match]") {
    const TitleMatch found = match("tin gate");
    CHECK(found.kind == MatchKind::doubtful);
    CHECK(ids(found) == Ids{4, 5});
}

TEST_CASE("title match: part of one title is enough when it says enough", "[tune][title-match]") {
    CHECK(match("on the slipway").kind == MatchKind::matched);
    CHECK(match("on the slipway").candidates.front().likeness == Likeness::words_in_a_row);
    CHECK(match("slipway").kind == MatchKind::matched);  // one word of five letters or more
    CHECK(match("rain").kind == MatchKind::doubtful);    // of four
    CHECK(ids(match("rain")) == Ids{1});
    CHECK(match("bucket and lamp").candidates.front().likeness == Likeness::words);
    CHECK(match("bucket and lamp").kind == MatchKind::matched);
    CHECK(match("rai slip").candidates.front().likeness == Likeness::beginnings);
    CHECK(match("rai slip").kind == MatchKind::matched);
}

TEST_CASE("title match: part of several titles is in doubt, and a whole word is nearer than a beginning",
          "[tune][title-match]") {
    CHECK(match("wet").kind == MatchKind::doubtful);
    CHECK(ids(match("wet")) == Ids{6, 7});
    CHECK(ids(match("lan")) == Ids{9});  // Lane and Lantern, of one tune
    CHECK(ids(match("lamp")) == Ids{3});
    CHECK(match("lam la").kind == MatchKind::unmatched);  // each needs a word of its own
}

TEST_CASE("title match: a single mistake in a long title is corrected, and said to be", "[tune][title-match]") {
    for (const char* written :
         {"Rain on the Slpway", "Rain on the Slipwya", "Rain on the Slippway", "Rein on the Slipway"}) {
        CAPTURE(written);
        CHECK(match(written).kind == MatchKind::matched);
        CHECK(match(written).corrected);
        CHECK(ids(match(written)) == Ids{1});
        CHECK(match(written).candidates.front().distance == 1);
    }
    CHECK_FALSE(match("Rain on the Slipway").corrected);
}

TEST_CASE("title match: other mistakes leave a doubt", "[tune][title-match]") {
    const TitleMatch two = match("Rian on the Slpway");
    CHECK(two.kind == MatchKind::doubtful);
    CHECK(ids(two) == Ids{1});
    CHECK(two.candidates.front().distance == 2);
    const TitleMatch between = match("Wet Bunday");  // one from Sunday, two from Monday
    CHECK(between.kind == MatchKind::doubtful);
    CHECK(ids(between) == Ids{7, 6});
    CHECK(match("Tin Gaet").kind == MatchKind::doubtful);
}

TEST_CASE("title match: a part of one title with a single mistake in a word is corrected, and said to be",
          "[tune][title-match]") {
    for (const char* written : {"slipwai", "on the slpway", "slipwya rain", "rai slippway"}) {
        CAPTURE(written);
        CHECK(match(written).kind == MatchKind::matched);
        CHECK(match(written).corrected);
        CHECK(ids(match(written)) == Ids{1});
        CHECK(match(written).candidates.front().likeness == Likeness::spelling);
        CHECK(match(written).candidates.front().distance == 1);
    }
    CHECK(ids(match("baromater")) == Ids{10});
    CHECK(ids(match("ten past fery")) == Ids{2});
    CHECK(match("fery").kind == MatchKind::doubtful);  // four letters say too little, as in rule 2
    CHECK(ids(match("fery")) == Ids{2});
}

TEST_CASE("title match: a part with other mistakes is not taken for a title", "[tune][title-match]") {
    CHECK(match("slpwya").kind == MatchKind::unmatched);                    // two in a word
    CHECK(match("lentern of peble lane").kind == MatchKind::unmatched);     // two words with one each
    CHECK(match("rian slipway").kind == MatchKind::unmatched);              // in a word of four letters
    CHECK(match("lantern lane pebble no 3").kind == MatchKind::unmatched);  // another number
    CHECK(match("umbrela ferry").kind == MatchKind::unmatched);             // of two titles of the tune
    CHECK(match("slipwei on the lamp").kind == MatchKind::unmatched);       // words of two tunes
}

TEST_CASE("title match: a part with a mistake that may be of several titles is in doubt", "[tune][title-match]") {
    const std::vector<TitledTune> tunes{titled(1, {"The Kettle Is On"}), titled(2, {"Nine Nettles and a Nettle"}),
                                        titled(3, {"Kettle and Pan"}), titled(4, {"Mettlesome"})};
    const TitleMatch found = match_titles({"gettle"}, tunes).front();
    CHECK(found.kind == MatchKind::doubtful);
    CHECK(ids(found) == Ids{1, 3, 2});  // the shorter title first
    CHECK(match_titles({"ketle"}, tunes).front().kind == MatchKind::doubtful);
    CHECK(ids(match_titles({"kettel pan"}, tunes).front()) == Ids{3});
    // What is near as a whole comes first, and leaves a doubt.
    const TitleMatch both =
        match_titles({"mettlesone"}, {titled(1, {"Mettlesona"}), titled(2, {"Mettlesome and Sons"})}).front();
    CHECK(ids(both) == Ids{1});  // sure of the whole
    const TitleMatch short_one =
        match_titles({"gettle"}, {titled(1, {"Gettla"}), titled(2, {"A Kettle of Fish"})}).front();
    CHECK(short_one.kind == MatchKind::doubtful);
    CHECK(ids(short_one) == Ids{1, 2});
}

TEST_CASE("title match: another number is another tune", "[tune][title-match]") {
    const TitleMatch found = match("The Lantern of Pebble Lane No. 3");
    CHECK(found.kind == MatchKind::doubtful);
    CHECK(ids(found) == Ids{9});
    CHECK_FALSE(found.corrected);
}

TEST_CASE("title match: a title with something added is in doubt", "[tune][title-match]") {
    const TitleMatch found = match("Rain on the Slipway, reel in G");
    CHECK(found.kind == MatchKind::doubtful);
    CHECK(ids(found) == Ids{1});
    CHECK(found.candidates.front().likeness == Likeness::stands_in_it);
    // Nor is it a mistake in another title, however near that one is.
    const std::vector<TitledTune> tunes{titled(1, {"Kettle Reels"}), titled(2, {"Nettle"})};
    const TitleMatch nettle = match_titles({"Nettle Reels"}, tunes).front();
    CHECK(nettle.kind == MatchKind::doubtful);
    CHECK(ids(nettle) == Ids{2, 1});
}

TEST_CASE("title match: what is nowhere gets the nearest titles as suggestions", "[tune][title-match]") {
    const TitleMatch near = match("Wot Munduy");
    CHECK(near.kind == MatchKind::unmatched);
    CHECK(ids(near) == Ids{6, 7});  // two and three mistakes in ten letters
    const TitleMatch far = match("Quite another thing");
    CHECK(far.kind == MatchKind::unmatched);
    CHECK(far.candidates.empty());
}

TEST_CASE("title match: odd writing is unmatched and nothing worse", "[tune][title-match]") {
    for (const std::string& written :
         {std::string(), std::string("   "), std::string("!!!"), std::string("\0\x01\x7F", 3), std::string("\xC3"),
          std::string("\xF0\x9F\x8E\xBB"), std::string("\xFF\xFE\xE2\x80"), std::string(5'000'000, 'x'),
          std::string(900, ' ') + "Zz"}) {
        const TitleMatch found = match(written);
        CHECK(found.kind == MatchKind::unmatched);
        CHECK(found.written == written);
    }
    CHECK(match_titles({"Soup"}, {}).front().kind == MatchKind::unmatched);
    CHECK(match_titles({"Soup"}, {titled(1, {"!!!"})}).front().candidates.empty());
}

TEST_CASE("title match: the order of the tunes does not matter", "[tune][title-match]") {
    std::vector<TitledTune> tunes = shelf();
    for (std::int64_t id = 100; id < 140; ++id) tunes.push_back(titled(id, {"Wet Day " + std::to_string(id)}));
    const std::vector<std::string> written{"wet",  "tin gate",   "Wet Bunday", "wet day",
                                           "rain", "Wet Day 10", "lan",        "Wit Doy 111"};
    const auto expected = match_titles(written, tunes);
    std::mt19937 shuffles(7);
    for (int turn = 0; turn < 5; ++turn) {
        std::shuffle(tunes.begin(), tunes.end(), shuffles);
        CHECK(match_titles(written, tunes) == expected);
    }
    CHECK(expected[0].candidates.size() == tune::kMostCandidates);
}

TEST_CASE("title match: a list is parted at commas, semicolons and line ends", "[tune][title-match]") {
    using Titles = std::vector<std::string>;
    CHECK(split_titles("Soup, Wet Monday; Rain on the Slipway\r\nTin Gate", shelf()) ==
          Titles{"Soup", "Wet Monday", "Rain on the Slipway", "Tin Gate"});
    CHECK(split_titles(" ,, Soup ;; \n ,\t", shelf()) == Titles{"Soup"});
    CHECK(split_titles("", shelf()).empty());
}

TEST_CASE("title match: a comma of a title stays in it", "[tune][title-match]") {
    using Titles = std::vector<std::string>;
    CHECK(split_titles("Soup, Lamp, Oar and Bucket, Tin Gate, The, Wet Monday", shelf()) ==
          Titles{"Soup", "Lamp, Oar and Bucket", "Tin Gate, The", "Wet Monday"});
    CHECK(split_titles("Tin Gaet, The, Soup", shelf()) == Titles{"Tin Gaet, The", "Soup"});  // mistyped all the same
    CHECK(split_titles("Lamp; Oar and Bucket", shelf()) == Titles{"Lamp", "Oar and Bucket"});
    CHECK(split_titles("Lamp, Oar", shelf()) == Titles{"Lamp", "Oar"});
    const std::vector<TitledTune> nested{titled(1, {"Lamp"}), titled(2, {"Lamp, Oar"}), titled(3, {"Lamp, Oar, Rope"})};
    CHECK(split_titles("Lamp, Oar, Rope, Lamp, Oar, Lamp", nested) == Titles{"Lamp, Oar, Rope", "Lamp, Oar", "Lamp"});
}

TEST_CASE("title match: odd lists are parted without harm", "[tune][title-match]") {
    CHECK(split_titles(std::string(100'000, ','), shelf()).empty());
    CHECK(split_titles(std::string(300'000, 'x') + ",Soup", shelf()).size() == 2);
    std::string many;
    for (int at = 0; at < 20'000; ++at) many += "Soup,";
    CHECK(split_titles(many, shelf()).size() == 20'000);
}
