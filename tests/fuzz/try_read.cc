#include <algorithm>
#include <cstddef>
#include <vector>

#include "abc/codes.h"
#include "abc/mail_residue.h"
#include "abc/read.h"
#include "analysis/analyse.h"
#include "base/diagnostics.h"
#include "base/invariant.h"
#include "base/source_file.h"
#include "base/utf8.h"
#include "targets.h"

namespace fuzz {

namespace {

void check_span(const base::Span& span, const base::SourceFile& source) {
    INVARIANT(span.begin <= span.end);
    INVARIANT(span.end <= source.text().size());
}

// With the melody's own words: every index points somewhere, every note sounds within MIDI, bars run forward.
void check_melody(const music::Melody& melody, const base::SourceFile& source) {
    std::uint32_t last_bar = 0;
    std::size_t heads_seen = 0;
    for (const music::Sound& sound : melody.sounds) {
        INVARIANT(sound.bar < melody.bars.size());
        INVARIANT(sound.bar >= last_bar);
        last_bar = sound.bar;
        INVARIANT(std::size_t{sound.first_head} + sound.head_count <= melody.heads.size());
        INVARIANT((sound.kind == music::Sound::Kind::rest) == (sound.head_count == 0));
        INVARIANT(sound.length.numerator() >= 0 && sound.length.denominator() > 0);
        heads_seen += sound.head_count;
        check_span(sound.where, source);
    }
    INVARIANT(heads_seen == melody.heads.size());
    for (const music::NoteHead& head : melody.heads) INVARIANT(head.midi >= 0 && head.midi <= 127);
    std::uint32_t first_sound = 0;
    for (const music::Bar& bar : melody.bars) {
        INVARIANT(bar.first_sound >= first_sound && bar.first_sound <= melody.sounds.size());
        first_sound = bar.first_sound;
        check_span(bar.where, source);
    }
    for (const music::KeyChange& change : melody.keys) INVARIANT(change.before_sound <= melody.sounds.size());
    for (const music::PartMark& mark : melody.parts) INVARIANT(mark.before_sound <= melody.sounds.size());
}

// Against the melody itself, counted the slow way.
void check_facts(const tune::TuneFacts& facts, const music::Melody& melody) {
    std::vector<bool> needed(128);
    int struck = 0;
    for (const music::Sound& sound : melody.sounds) {
        if (sound.kind != music::Sound::Kind::note) continue;
        for (std::size_t i = 0; i < sound.head_count; ++i) {
            const music::NoteHead& head = melody.heads[sound.first_head + i];
            needed[static_cast<std::size_t>(head.midi)] = true;
            struck += head.is_tied ? 0 : 1;
        }
    }
    const auto needed_count = static_cast<std::size_t>(std::count(needed.begin(), needed.end(), true));
    INVARIANT(facts.note_count == struck);
    INVARIANT(facts.uses.size() == needed_count);
    for (const tune::NoteUse& use : facts.uses) {
        INVARIANT(use.midi >= 0 && use.midi <= 127 && needed[static_cast<std::size_t>(use.midi)]);
        INVARIANT(use.strong <= use.count);
        INVARIANT(std::is_sorted(use.bars.begin(), use.bars.end()));
    }
    INVARIANT(facts.key.has_value() == (needed_count > 0));
    INVARIANT(facts.different_bars <= facts.bars);
}

}  // namespace

void try_read(const std::string& bytes) {
    const base::SourceFile source = abc::without_residue(base::decode_source("fuzz.abc", bytes));
    INVARIANT(base::is_utf8(source.text()));
    base::Diagnostics diagnostics;
    const std::vector<tune::Setting> settings = abc::read_settings(source, diagnostics);

    for (const base::Diagnostic& diagnostic : diagnostics.kept()) {
        check_span(diagnostic.where, source);
        INVARIANT(std::any_of(abc::all_codes().begin(), abc::all_codes().end(),
                              [&](const abc::Code& code) { return code.token == diagnostic.code; }));
        INVARIANT(!diagnostic.message.empty());
    }
    // Printing is costly and the same for all: the first few show that it copes.
    const std::size_t printed = std::min<std::size_t>(diagnostics.kept().size(), 4);
    for (std::size_t i = 0; i < printed; ++i) {
        const std::string text = base::print_diagnostic(source, diagnostics.kept()[i]);
        INVARIANT(base::is_utf8(text));
        // Three lines and no control character, whatever the file holds.
        INVARIANT(std::count(text.begin(), text.end(), '\n') <= 3);
        INVARIANT(std::none_of(text.begin(), text.end(),
                               [](char c) { return c != '\n' && static_cast<unsigned char>(c) < 0x20; }));
    }

    std::uint32_t last_begin = 0;
    for (const tune::Setting& setting : settings) {
        check_span(setting.where, source);
        INVARIANT(setting.where.begin >= last_begin);
        last_begin = setting.where.begin;
        INVARIANT(setting.line >= source.place_of(setting.where.begin).line &&
                  setting.line <= source.place_of(setting.where.end).line);
        check_melody(setting.melody, source);
        for (const tune::OtherVoice& voice : setting.others) check_melody(voice.melody, source);
        check_facts(analysis::analyse(setting), setting.melody);
    }
}

}  // namespace fuzz
