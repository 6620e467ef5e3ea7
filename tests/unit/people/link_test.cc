#include "people/link.h"

#define XXH_INLINE_ALL  // whatever the rooms link
#include <xxhash.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdio>

using namespace people;

namespace {

std::string words(const Words& said, char salt) {
    return write_saying({said, std::nullopt, std::nullopt}, std::string(32, salt));
}

Words tag(const std::string& text) { return TagGiven{{tune::TuneId{1}, std::nullopt, "Lamp"}, text}; }

std::vector<Link> chain(std::initializer_list<const char*> tags, char salt = '0') {
    std::vector<Link> links;
    for (const char* text : tags)
        links.push_back(link_of(links.empty() ? std::nullopt : std::optional(links.back().seal),
                                static_cast<std::int64_t>(links.size()) + 1, words(tag(text), salt)));
    return links;
}

Link after(const Link& last, const Words& said, char salt = '0') {
    return link_of(last.seal, last.clock + 1, words(said, salt));
}

}  // namespace

TEST_CASE("link: a chain as it was sealed has no fault", "[people]") {
    const auto links = chain({"a", "b", "c"});
    CHECK(faults_of(links).empty());
    CHECK(links[1].before == links[0].seal);
    CHECK(links[0].seal.size() == 32);
}

TEST_CASE("link: a seal is the checksum that is documented", "[people]") {
    const auto hex = [](const XXH128_hash_t& hash) {
        char text[33];
        std::snprintf(text, sizeof text, "%016llx%016llx", static_cast<unsigned long long>(hash.high64),
                      static_cast<unsigned long long>(hash.low64));
        return std::string(text);
    };
    const Link link = chain({"a", "b"})[1];
    CHECK(link.words_seal == hex(XXH3_128bits(link.words->data(), link.words->size())));
    const std::string sealed = *link.before + " 2 " + link.words_seal;
    CHECK(link.seal == hex(XXH3_128bits(sealed.data(), sealed.size())));
}

// A flip either makes a text that is refused, or one that loses a link or the like, which the chain or its head shows;
// never another saying in silence.
TEST_CASE("link: no flipped bit of a journal makes another saying", "[people]") {
    const auto links = chain({"a", "b", "c"});
    const std::string text = write_journal(links);
    REQUIRE(read_journal(text) == links);
    std::size_t refused = 0;
    for (std::size_t at = 0; at < text.size(); ++at)
        for (int bit = 0; bit < 8; ++bit) {
            std::string flipped = text;
            flipped[at] = static_cast<char>(flipped[at] ^ (1 << bit));
            std::vector<Link> read;
            try {
                read = read_journal(flipped);
            } catch (const SayingFault&) {
                ++refused;
                continue;
            }
            CAPTURE(flipped);
            const bool is_sound = faults_of(read).empty() && read.size() == links.size();
            CHECK((read == links || !is_sound));
        }
    CHECK(refused > text.size() * 7);
}

TEST_CASE("link: what is missing or changed is told", "[people]") {
    const auto links = chain({"a", "b", "c"});
    auto lost = links;
    lost.erase(lost.begin() + 1);
    CHECK(faults_of(lost) == std::vector<LinkFault>{{links[2].seal, "what was said before it is missing"}});
    auto changed = links;
    changed[1].words->replace(changed[1].words->find("\"b\""), 3, "\"x\"");
    CHECK(faults_of(changed) == std::vector<LinkFault>{{links[1].seal, "its words are not those that were sealed"}});
    auto later = links;
    later[1].clock = 7;
    CHECK(faults_of(later).at(0).what == "it is not as it was sealed");
    auto empty = links;
    empty[1].words.reset();
    CHECK(faults_of(empty).at(0).what == "its words are gone, and nobody erased them");
}

TEST_CASE("link: words that were erased and said to be are no fault", "[people]") {
    auto links = chain({"a", "b"});
    links.push_back(after(links.back(), Erased{{links[0].seal}}));
    links[0].words.reset();
    CHECK(faults_of(links).empty());
    CHECK(erased_in(links) == std::vector<Seal>{links[0].seal});
    const std::string text = write_journal(links);
    CHECK(read_journal(text) == links);
    CHECK(text.find("\"words_seal\":\"" + links[0].words_seal + "\"") != std::string::npos);
}

TEST_CASE("link: the union is the same either way, and twice is once", "[people]") {
    const auto common = chain({"a", "b"});
    auto ours = common;
    ours.push_back(after(ours.back(), tag("ours"), '1'));
    ours.push_back(after(ours.back(), tag("ours too"), '2'));
    auto theirs = common;
    theirs.push_back(after(theirs.back(), tag("theirs"), '3'));
    const auto both = union_of(ours, theirs);
    CHECK(both == union_of(theirs, ours));
    CHECK(both.size() == 5);
    CHECK(union_of(both, theirs) == both);
    CHECK(union_of(both, both) == both);
    CHECK(faults_of(both).empty());
    CHECK(std::is_sorted(both.begin(), both.end(), comes_before));
    CHECK(union_of(chain({"a"}, '4'), chain({"a"}, '5')).size() == 2);  // said twice, by two people
}

TEST_CASE("link: what one side erased does not come back from the other", "[people]") {
    const auto theirs = chain({"a", "b"});
    auto ours = theirs;
    ours.push_back(after(ours.back(), Erased{{ours[0].seal}}));
    ours[0].words.reset();
    for (const auto& both : {union_of(ours, theirs), union_of(theirs, ours)}) {
        REQUIRE(both.size() == 3);
        CHECK_FALSE(both[0].words);
        CHECK(both[1].words);
        CHECK(faults_of(both).empty());
    }
}

TEST_CASE("link: a text that is no journal is refused with its line", "[people]") {
    const std::string good = write_journal(chain({"a"}));
    CHECK(read_journal("{\"gamut_journal\":1}\n").empty());
    CHECK_THROWS_WITH(read_journal(""), Catch::Contains("line 1: it is no journal"));
    CHECK_THROWS_WITH(read_journal("[]\n"), Catch::Contains("line 1: it is no journal"));
    CHECK_THROWS_WITH(read_journal("{\"gamut_journal\":2}\n"), Catch::Contains("newer gamut"));
    CHECK_THROWS_WITH(read_journal(good + "{}\n"), Catch::Contains("line 3: "));
    CHECK_THROWS_WITH(read_journal(good + "oops\n"), Catch::Contains("line 3: it is no JSON object"));
}
