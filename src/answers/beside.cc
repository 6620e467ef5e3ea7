// Tested by beside_test.cc.
#include "answers/beside.h"

#include <cstdint>
#include <map>
#include <string_view>
#include <utility>

#include "abc/moved.h"
#include "abc/read.h"
#include "abc/sounds_moved.h"
#include "analysis/beside.h"
#include "analysis/contour.h"
#include "analysis/kinship.h"
#include "analysis/outline_of.h"
#include "answers/tune_named.h"
#include "base/source_file.h"

namespace answers {

namespace {

// A setting with the text its places refer to.
struct WrittenBeside {
    base::SourceFile source;
    tune::Setting setting;
};

std::optional<WrittenBeside> read_beside(const std::string& file, const std::string& text) {
    base::SourceFile source(file, text);
    base::Diagnostics unheard;
    auto settings = abc::read_settings(source, unheard);
    if (settings.empty()) return std::nullopt;
    return WrittenBeside{std::move(source), std::move(settings.back())};
}

music::Signature signature_at(const music::Melody& melody, std::size_t sound) {
    music::Signature signature{};
    for (const music::KeyChange& key : melody.keys)
        if (key.before_sound <= sound) signature = key.signature;
    return signature;
}

music::Signature signature_of_bar(const WrittenBeside& written, std::uint32_t bar) {
    return signature_at(written.setting.melody, written.setting.melody.bars[bar].first_sound);
}

// Where signs have to be written into a bar of another signature: at notes without one of their own, on letters that
// the two signatures do not share.
std::map<std::uint32_t, std::string> signs_of(const WrittenBeside& written, std::size_t first, std::size_t end,
                                              const music::Signature& other) {
    std::map<std::uint32_t, std::string> signs;
    const music::Melody& melody = written.setting.melody;
    for (std::size_t at = first; at < end; ++at) {
        const music::Sound& sound = melody.sounds[at];
        if (sound.head_count != 1) continue;  // a chord stands as it is
        const music::NoteName& name = melody.heads[sound.first_head].name;
        const auto letter = static_cast<std::size_t>(name.letter);
        const std::string_view text = written.source.text().substr(sound.where.begin);
        const bool is_bare =
            !text.empty() && ((text[0] >= 'A' && text[0] <= 'G') || (text[0] >= 'a' && text[0] <= 'g'));
        if (!is_bare || signature_at(melody, at)[letter] == other[letter]) continue;
        signs[sound.where.begin] = name.accidental > 0   ? std::string(static_cast<std::size_t>(name.accidental), '^')
                                   : name.accidental < 0 ? std::string(static_cast<std::size_t>(-name.accidental), '_')
                                                         : "=";
    }
    return signs;
}

// From the first sound to the last: bar lines are not told. Where the bar beside it has another signature, `other`, the
// notes that would be read differently under it have their signs.
std::string bar_beside(const WrittenBeside& written, std::uint32_t bar, const music::Signature& other) {
    const music::Melody& melody = written.setting.melody;
    const std::size_t first = melody.bars[bar].first_sound;
    const std::size_t end = bar + 1 < melody.bars.size() ? melody.bars[bar + 1].first_sound : melody.sounds.size();
    if (first >= end) return "";
    const std::uint32_t from = melody.sounds[first].where.begin, to = melody.sounds[end - 1].where.end;
    const auto signs = signs_of(written, first, end, other);
    std::string text;
    for (std::uint32_t at = from; at < to; ++at) {
        const char c = written.source.text()[at];
        if (const auto sign = signs.find(at); sign != signs.end()) text += sign->second;
        const bool is_blank = c == ' ' || c == '\t' || c == '\r' || c == '\n' || c == '\\';
        if (!is_blank)
            text += c;
        else if (!text.empty() && text.back() != ' ')
            text += ' ';
    }
    return text;
}

}  // namespace

BesideAnswer answer(const collection::Collection& collection, const BesideQuestion& question) {
    const tune::TuneRecord one = setting_named(collection, question.one, true);
    const tune::TuneRecord other = setting_named(collection, question.other, true);
    if (one.setting == other.setting) throw Refused({Part::against, Reason::same_setting});
    const auto kept = collection.abc_of(one.setting), other_kept = collection.abc_of(other.setting);
    const auto written = kept ? read_beside(kept->file, kept->text) : std::nullopt;
    auto other_written = other_kept ? read_beside(other_kept->file, other_kept->text) : std::nullopt;
    if (!written || !other_written) throw Refused({Part::none, Reason::no_music});
    const tune::Outline outline = analysis::outline_of(written->setting.melody);
    const tune::Outline other_outline = analysis::outline_of(other_written->setting.melody);
    const analysis::Beside beside = analysis::lay_beside(outline, other_outline);
    BesideAnswer answer{one, other, 0, beside.semitones, true, beside.in_other_mode, {}};
    answer.likeness = analysis::compare(analysis::contour_of(outline), analysis::contour_of(other_outline));
    if (beside.semitones != 0) {
        base::Diagnostics hindrances;
        auto again = read_beside(other_kept->file, abc::moved(other_written->source, beside.semitones, hindrances));
        answer.is_moved = again && abc::sounds_moved(other_written->setting, again->setting, beside.semitones);
        if (answer.is_moved) other_written = std::move(again);
    }
    // `bars` beside `other_bars` of another setting, whose signature decides which notes need their signs.
    const auto side = [](const WrittenBeside& of, const tune::Outline& written_bars,
                         const std::vector<std::uint32_t>& bars, const WrittenBeside& other,
                         const std::vector<std::uint32_t>& other_bars) -> std::optional<BarText> {
        if (bars.empty()) return std::nullopt;
        BarText text{written_bars.bars[bars.front()].number, written_bars.bars[bars.back()].number, {}};
        for (const std::uint32_t bar : bars) {
            const music::Signature signature =
                other_bars.empty() ? signature_of_bar(of, bar) : signature_of_bar(other, other_bars.front());
            text.abc += (text.abc.empty() ? "" : " | ") + bar_beside(of, bar, signature);
        }
        return text;
    };
    for (const analysis::BarBeside& bar : beside.bars)
        answer.rows.push_back({side(*written, outline, bar.one, *other_written, bar.other),
                               side(*other_written, other_outline, bar.other, *written, bar.one), bar.is_same});
    return answer;
}

}  // namespace answers
