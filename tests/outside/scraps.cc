// What is called a scrap in published books, which hold none, and of their tunes cut short.
//
//     scraps [--lists]
//
// Of each book: the tunes that are called scraps, by reason (--lists names them). Then every tune is cut by a program:
// after a whole bar, so that fewer than eight are left; in the middle of a bar of its second half, off the beat; and at
// its true end with the closing sign taken away, which is no scrap. Exit 1 where a floor is not reached, 77 without
// books. The rules are not fitted to these books: none of their tunes was looked at for them but for the counts below.
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "analysis/analyse.h"
#include "support/books.h"
#include "tune/scrap.h"

namespace {

using tune::Scrap;
using tune::Setting;

// Its music up to before sound `end`, with no sign after it.
Setting cut(Setting setting, std::uint32_t end) {
    music::Melody& melody = setting.melody;
    while (!melody.bars.empty() && melody.bars.back().first_sound >= end) melody.bars.pop_back();
    melody.sounds.resize(end);
    std::erase_if(melody.keys, [end](const auto& key) { return key.before_sound >= end && key.before_sound > 0; });
    std::erase_if(melody.parts, [end](const auto& part) { return part.before_sound >= end; });
    if (melody.bars.empty()) return setting;
    music::Bar& last = melody.bars.back();
    last.repeat_closes = last.thick_after = false;
    std::optional<music::Duration> length = music::Duration();
    for (std::uint32_t at = last.first_sound; at < end; ++at)
        if (length) length = sum(*length, melody.sounds[at].length);
    last.length = length;
    return setting;
}

std::optional<Scrap> scrap_of(const Setting& setting) { return analysis::analyse(setting).scrap; }

// Of a bar in the second half the sound with which it is to break off: not the first nor the last of the bar.
std::optional<std::uint32_t> middle_of_a_bar(const Setting& setting) {
    const auto& bars = setting.melody.bars;
    for (std::size_t bar = bars.size() * 5 / 8; bar + 1 < bars.size(); ++bar) {
        const std::uint32_t sounds = bars[bar + 1].first_sound - bars[bar].first_sound;
        if (sounds < 4) continue;
        const std::uint32_t end = bars[bar].first_sound + sounds / 2;
        const music::Sound& last = setting.melody.sounds[end - 1];
        if (last.kind == music::Sound::Kind::note && last.length < music::Duration(1, 4)) return end;
    }
    return std::nullopt;
}

struct Count {
    int all = 0, called = 0;
    void add(bool is_called) {
        ++all;
        called += is_called ? 1 : 0;
    }
    double share() const { return all == 0 ? 0 : 100.0 * called / all; }
};

struct Figures {
    std::map<std::string, int> whole;  // by reason
    int tunes = 0;
    Count short_ones, broken, unsigned_ends;
};

void look_at(const support::BookTune& tune, bool are_listed, Figures& figures) {
    const Setting& setting = tune.setting;
    const auto& melody = setting.melody;
    if (melody.bars.size() < 10) return;
    ++figures.tunes;
    if (const auto scrap = scrap_of(setting)) {
        ++figures.whole[std::string(scrap_token(*scrap))];
        if (are_listed)
            std::printf("  %s %s: %s\n", tune.file.c_str(), setting.number.value_or("-").c_str(),
                        std::string(scrap_token(*scrap)).c_str());
    }
    const std::size_t few = 3 + figures.tunes % 3U;  // bars
    bool repeats = false;
    for (std::size_t bar = 0; bar < few; ++bar) repeats = repeats || melody.bars[bar].repeat_closes;
    if (!repeats) figures.short_ones.add(scrap_of(cut(setting, melody.bars[few].first_sound)) == Scrap::few_bars);
    if (const auto end = middle_of_a_bar(setting))
        figures.broken.add(scrap_of(cut(setting, *end)) == Scrap::breaks_off);
    figures.unsigned_ends.add(scrap_of(cut(setting, static_cast<std::uint32_t>(melody.sounds.size()))) ==
                              Scrap::breaks_off);
}

// In per cent. Source: as measured, less some five; of unsigned ends at most so many are wrongly called.
constexpr double kShort = 98, kBroken = 85, kUnsignedAtMost = 8, kWholeAtMost = 1;

}  // namespace

int main(int argc, char** argv) {
    const auto shared = support::find_shared();
    if (!shared) {
        std::puts("skipped: no books");
        return support::kSkipped;
    }
    const bool are_listed = argc > 1 && std::string_view(argv[1]) == "--lists";
    std::map<std::string, Figures> by_book;
    for (const support::BookTune& tune : support::read_books(*shared))
        look_at(tune, are_listed, by_book[tune.collection]);
    bool all_hold = true;
    std::puts("book        tunes  called scraps   cut short  broken off  end without a sign");
    for (const auto& [book, figures] : by_book) {
        int called = 0;
        for (const auto& [reason, count] : figures.whole) called += count;
        std::printf("%-10s %6d  %13d  %8.1f %%  %8.1f %%  %16.1f %%\n", book.c_str(), figures.tunes, called,
                    figures.short_ones.share(), figures.broken.share(), figures.unsigned_ends.share());
        all_hold = all_hold && figures.short_ones.share() >= kShort && figures.broken.share() >= kBroken &&
                   figures.unsigned_ends.share() <= kUnsignedAtMost && 100.0 * called <= kWholeAtMost * figures.tunes;
    }
    return all_hold ? EXIT_SUCCESS : EXIT_FAILURE;
}
