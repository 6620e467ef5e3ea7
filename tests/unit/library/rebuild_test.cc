// Tables that were changed one saying at a time, against tables made anew from the journal, over random histories.
#include <catch2/catch.hpp>
#include <random>
#include <string>
#include <vector>

#include "kept_tables.h"
#include "library/intake.h"
#include "library/journal.h"
#include "library/library.h"
#include "library/marks.h"
#include "library/players.h"
#include "library/syllabi.h"
#include "library/verdicts.h"
#include "sample.h"
#include "support/scratch.h"

using library::Library;
using library::Marks;
using library::Players;
using support::kept_tables;

namespace {

// Ten settings; the first four are of two melody classes, so there are families from the start.
collection::StoredFile book_of_ten() {
    std::vector<collection::StoredSetting> settings;
    for (int number = 1; number <= 10; ++number) {
        collection::StoredSetting made = sample::setting(std::to_string(number), "Tune " + std::to_string(number),
                                                         static_cast<std::uint64_t>(number));
        made.facts.melody_class = static_cast<std::uint64_t>(number <= 4 ? 1000 + number % 2 : 2000 + number);
        settings.push_back(std::move(made));
    }
    return sample::file("/t/a.abc", std::move(settings));
}

void make_ten(const std::filesystem::path& file) {
    library::Intake intake = library::Intake::open(file);
    intake.store_file(book_of_ten());
    intake.close();
}

// Says one thing after another, whatever comes.
class Talker {
public:
    Talker(std::filesystem::path file, unsigned seed) : file_(std::move(file)), random_(seed) {}

    void say_something() {
        switch (below(12)) {
            case 0:
            case 1:
            case 2:
                return mark();
            case 3:
                return verdict();
            case 4:
                return term();
            case 5:
                return player();
            case 6:
                return take_back();
            default:
                return talk_of_tunes();
        }
    }

private:
    int below(int limit) { return std::uniform_int_distribution<int>(0, limit - 1)(random_); }
    bool sometimes() { return below(2) == 0; }
    // Of the family, as the command line has it.
    tune::TuneId tune() { return Library::open_existing(file_).tune_by_id({below(10) + 1})->id; }
    base::Date day() { return base::read_date("2026-01-0" + std::to_string(below(3) + 1)); }

    void mark() {
        const tune::TuneId id = tune();
        const tune::TuneId own{below(10) + 1};
        const tune::Tag tag =
            tune::read_tag(std::vector<std::string>{"Café", "cafe", "Wedding"}[static_cast<std::size_t>(below(3))]);
        Marks marks = Marks::change(file_, day());
        for (int more = below(3); more >= 0; --more) switch (below(5)) {
                case 0:
                    marks.add_tag(id, tag);
                    break;
                case 1:
                    marks.remove_tag(id, tag);
                    break;
                case 2:
                    marks.set_count(id, sometimes() ? std::optional<std::int64_t>(below(5)) : std::nullopt);
                    break;
                case 3:
                    marks.set_rhythm(id, sometimes() ? std::optional<std::string>("reel") : std::nullopt);
                    break;
                default:
                    marks.set_key(own, sometimes() ? music::parse_key("Em") : std::nullopt);
                    if (sometimes())
                        marks.set_alias(own, "alias " + std::to_string(own.value % 3));
                    else
                        marks.remove_alias("Alias " + std::to_string(own.value % 3));
                    break;
            }
        if (below(5) != 0) marks.commit();  // else it was never said
    }

    void verdict() {
        const int one = below(10) + 1;
        const int other = below(10) + 1;
        if (one != other) library::say_same(file_, {one}, {other}, sometimes(), day());
    }

    void term() {
        const std::string name = sometimes() ? "mon" : "tue";
        const auto now = library::kept_syllabus(file_, name);
        switch (below(4)) {
            case 0:
                library::forget_syllabus(file_, name);
                break;
            case 1:
                library::take_back_syllabus(
                    file_, name, [](const auto& is, const auto& was) { return was + " after " + is.substr(0, 9); });
                break;
            default:
                library::keep_syllabus(file_, {name, name, "term " + std::to_string(below(1000))},
                                       now ? std::optional(now->text) : std::nullopt, day());
        }
    }

    std::vector<tune::PlayerId> players() const {
        std::vector<tune::PlayerId> ids;
        for (const collection::PlayerRecord& record : Library::open_existing(file_).players())
            ids.push_back(record.player.id);
        return ids;
    }

    // This one, and some of the others.
    std::vector<tune::PlayerId> chosen_of(const std::vector<tune::PlayerId>& there, tune::PlayerId first) {
        std::vector<tune::PlayerId> chosen{first};
        for (const tune::PlayerId one : there)
            if (one != first && sometimes()) chosen.push_back(one);
        return chosen;
    }

    void player() {
        const auto there = players();
        Players change = Players::change(file_, day());
        const tune::PlayerName name = tune::read_player_name("Player " + std::to_string(below(4)));
        if (there.empty() || below(3) == 0) {
            change.add({{}, name, std::nullopt, sometimes() ? std::optional(sample::notes({62, 64})) : std::nullopt});
        } else {
            const tune::PlayerId id = there[static_cast<std::size_t>(below(static_cast<int>(there.size())))];
            switch (below(8)) {
                case 6:
                    change.set_class(tune::read_player_name("Class " + std::to_string(below(2))), chosen_of(there, id));
                    break;
                case 7:
                    change.remove_class(tune::read_player_name("class " + std::to_string(below(2))));
                    break;
                case 0:
                    change.remove(id);
                    break;
                case 1:
                    if (change.named(name)) break;
                    if (sometimes())
                        change.rename(id, name);
                    else
                        change.rename(id, name, [](const std::string& text) { return text + "'"; });
                    break;
                case 2:
                    change.set_instrument(id, "bc21");
                    break;
                case 3:
                    change.set_notes(id, sometimes() ? std::optional(sample::notes({62})) : std::nullopt);
                    break;
                case 4:
                    change.add_notes(id, sample::notes({60 + below(5)}));
                    break;
                default:
                    change.drop_notes(id, sample::notes({60 + below(5)}));
            }
        }
        change.commit();
    }

    void talk_of_tunes() {
        const auto there = players();
        if (there.empty()) return player();
        const tune::PlayerId id = there[static_cast<std::size_t>(below(static_cast<int>(there.size())))];
        std::vector<tune::TuneId> tunes;
        for (int more = below(3); more >= 0; --more) tunes.push_back(tune());
        Players change = Players::change(file_, day());
        for (const tune::TuneId tune : tunes) {
            const tune::DatedEvent event{day(), static_cast<tune::PlayerEvent>(below(6))};
            switch (below(5)) {
                case 0:
                    change.wish(id, tune, sometimes());
                    break;
                case 1:
                    change.exclude(id, tune, sometimes() ? std::optional<std::string>("why") : std::nullopt);
                    break;
                case 2:
                    change.record_before(id, tune, event);
                    break;
                default:
                    change.record(id, tune, event);
            }
        }
        change.commit();
    }

    void take_back() {
        const auto there = players();
        if (there.empty()) return;
        Players change = Players::change(file_, day());
        change.take_back(there[static_cast<std::size_t>(below(static_cast<int>(there.size())))]);
        change.commit();
    }

    std::filesystem::path file_;
    std::mt19937 random_;
};

}  // namespace

TEST_CASE("rebuild: tables made anew are the tables that were kept, whatever was said", "[library][journal]") {
    for (unsigned seed = 1; seed <= 6; ++seed) {
        CAPTURE(seed);
        const support::Scratch scratch;
        const auto file = scratch / "l.db";
        make_ten(file);
        Talker talker(file, seed);
        for (int round = 0; round < 12; ++round) {
            for (int more = 0; more < 8; ++more) talker.say_something();
            const std::string kept = kept_tables(file);
            library::rebuild_kept(file);
            REQUIRE(kept_tables(file) == kept);
        }
        CHECK(library::faults_of_journal(file).empty());
    }
}

TEST_CASE("rebuild: two computers that have each other's journals keep the same", "[library][journal]") {
    for (unsigned seed = 1; seed <= 3; ++seed) {
        CAPTURE(seed);
        const support::Scratch scratch;
        const auto one = scratch / "one.db";
        const auto other = scratch / "other.db";
        make_ten(one);
        Talker talker(one, seed);
        for (int more = 0; more < 20; ++more) talker.say_something();
        std::filesystem::copy_file(one, other);
        for (int round = 0; round < 3; ++round) {
            Talker here(one, seed * 100 + static_cast<unsigned>(round));
            Talker there(other, seed * 200 + static_cast<unsigned>(round));
            for (int more = 0; more < 10; ++more) {
                here.say_something();
                there.say_something();
            }
            library::take_in_journal(one, library::journal_of(other));
            library::take_in_journal(other, library::journal_of(one));
            CHECK(library::journal_of(one) == library::journal_of(other));
            CHECK(library::faults_of_journal(one).empty());
            const auto said_in = [](const std::filesystem::path& file) {
                const Library library = Library::open_existing(file);
                std::vector<collection::PlayerRecord> players = library.players();
                for (auto& record : players) record.player.id = {};  // rows differ
                return std::tuple(library.marks(), library.verdicts(), players, library::kept_syllabi(file));
            };
            CHECK(said_in(one) == said_in(other));
            CHECK(library::take_in_journal(one, library::journal_of(other)) == library::TakenIn{});
        }
    }
}
