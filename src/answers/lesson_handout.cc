// Tested by lesson_handout_test.cc.
#include "answers/lesson_handout.h"

#include <map>
#include <utility>

#include "answers/player_named.h"
#include "answers/stored_request.h"
#include "answers/tunes_asked.h"

namespace answers {

namespace {

// Tune sheets of one step at most: a step may open hundreds.
constexpr std::size_t kMostSheetsOfStep = 3;  // Source: house choice

LessonTune lesson_tune(const syllabus::TermTune& tune) { return {tune.title, tune.rhythm, tune.times, tune.strong}; }

std::vector<LessonTune> lesson_tunes(const std::vector<syllabus::TermTune>& tunes) {
    std::vector<LessonTune> told;
    for (const syllabus::TermTune& tune : tunes) told.push_back(lesson_tune(tune));
    return told;
}

void read_reader(const collection::Collection& collection, const HandoutReader& reader, LessonHandout& handout) {
    handout.instrument = reader.instrument;
    if (!reader.player) return;
    const collection::PlayerRecord record = player_named(collection, *reader.player);
    handout.player = record.player.name.text;
    if (const instruments::Instrument* own = instrument_of(record.player); own && !handout.instrument)
        handout.instrument = std::make_shared<const instruments::Instrument>(*own);
}

// Each crotchet a block, as drills are played.
std::vector<DrillBlocks> drill_of(const music::NoteSet& have, const music::NoteSet& fresh,
                                  const instruments::Instrument* instrument) {
    std::vector<DrillBlocks> drill;
    const music::NoteSet reach = instrument ? instrument->note_set() : music::every_note();
    for (const hands::Passage& passage : hands::make_drill((have | fresh) & reach, fresh & reach)) {
        if (passage.kind != hands::Passage::Kind::around) continue;
        DrillBlocks blocks{passage.kind, passage.about, {}};
        std::vector<const instruments::Way*> ways;
        hands::CheapestWay way;
        if (instrument) {
            way = hands::find_cheapest_way(hands::line_of(passage), *instrument, instrument->motion_costs);
            for (const hands::Stroke& stroke : way.strokes) ways.push_back(stroke.way);
        }
        std::size_t at = 0;
        for (std::size_t bar = 0; bar < passage.bars.size(); ++bar) {
            BlockBar read;
            read.number = static_cast<int>(bar) + 1;
            read.meter = {music::Meter::Kind::fraction, 4, 4};
            for (const int midi : passage.bars[bar]) {
                Block block;
                block.midi = midi;
                block.at = read.length;
                block.length = {1, 4};
                if (at < ways.size() && ways[at]) block.has_way = true, block.way = *ways[at];
                ++at;
                read.length = sum(read.length, block.length).value_or(read.length);
                read.blocks.push_back(std::move(block));
            }
            blocks.bars.push_back(std::move(read));
        }
        drill.push_back(std::move(blocks));
    }
    return drill;
}

void add_sheets(const collection::Collection& collection, const std::vector<tune::TuneId>& ids,
                const std::vector<std::string>& titles, const HandoutReader& reader, LessonHandout& handout) {
    HandoutReader same = reader;
    same.instrument = handout.instrument;
    same.have = same.fresh = std::nullopt;
    for (std::size_t at = 0; at < ids.size(); ++at) try {
            TuneHandout sheet = tune_handout(collection, std::to_string(ids[at].value), same);
            sheet.have = handout.have;
            sheet.fresh = handout.fresh & sheet.facts.needed;
            handout.sheets.push_back(std::move(sheet));
        } catch (const Refused&) {
            handout.gone.push_back(titles[at]);
        }
}

music::NoteSet notes_before(const syllabus::Syllabus& plan, std::size_t lesson) {
    music::NoteSet notes = plan.have;
    for (std::size_t at = 0; at < lesson; ++at)
        if (plan.lessons[at].is_held() && plan.lessons[at].notes) notes = notes | plan.lessons[at].notes->notes;
    return notes;
}

// The tunes a term is chosen from; all of the collection where what it was asked for is no longer to be had.
std::vector<collection::TuneNotes> tunes_of(const collection::Collection& collection, const Filter& filter) {
    try {
        const TunesAsked asked(collection, filter);
        return collection.select_notes(asked.selection_without_notes()).rows;
    } catch (const Refused&) {
        return collection.select_notes({}).rows;
    }
}

std::shared_ptr<const instruments::Instrument> instrument_of_term(const collection::Collection& collection,
                                                                  const TermRequest& request) {
    if (request.filter.instrument) return request.filter.instrument;
    if (request.filter.players.size() != 1) return nullptr;
    const auto record = collection.player_named(request.filter.players.front());
    const instruments::Instrument* own = record ? known_instrument_of(record->player) : nullptr;
    return own ? std::make_shared<const instruments::Instrument>(*own) : nullptr;
}

}  // namespace

LessonHandout lesson_handout(const collection::Collection& collection, const syllabus::Syllabus& plan,
                             std::size_t lesson, const HandoutReader& reader) {
    LessonHandout handout;
    const syllabus::Lesson& here = plan.lessons[lesson];
    const TermRequest request = read_request(plan.asked);
    read_reader(collection, reader, handout);
    if (!handout.instrument) handout.instrument = instrument_of_term(collection, request);
    handout.term = plan.name;
    handout.number = static_cast<int>(lesson) + 1;
    handout.date = here.date;
    handout.state = here.state;
    handout.have = notes_before(plan, lesson);
    if (here.notes) handout.fresh = here.notes->notes, handout.opens = here.notes->opens;
    handout.tunes = lesson_tunes(here.tunes);
    handout.again = lesson_tunes(here.again);
    for (std::size_t next = lesson + 1; next < plan.lessons.size(); ++next)
        if (plan.lessons[next].is_held()) {
            handout.next_date = plan.lessons[next].date;
            handout.next_tunes = lesson_tunes(plan.lessons[next].tunes);
            if (plan.lessons[next].notes) handout.next_notes = plan.lessons[next].notes->notes;
            break;
        }
    handout.rungs =
        rungs_of(tunes_of(collection, request.filter), handout.have, handout.fresh, handout.instrument.get());
    handout.drill = drill_of(handout.have, handout.fresh, handout.instrument.get());
    std::vector<tune::TuneId> ids;
    std::vector<std::string> titles;
    for (const syllabus::TermTune& tune : here.tunes) ids.push_back(tune.id), titles.push_back(tune.title);
    add_sheets(collection, ids, titles, reader, handout);
    return handout;
}

LessonHandout step_handout(const collection::Collection& collection, const PathQuestion& question,
                           const PathAnswer& path, std::size_t step, const HandoutReader& reader) {
    LessonHandout handout;
    read_reader(collection, reader, handout);
    if (!handout.instrument) handout.instrument = question.filter.instrument;
    const planner::Step& here = path.plan.steps[step];
    handout.number = static_cast<int>(step) + 1;
    handout.have = path.have;
    for (std::size_t at = 0; at < step; ++at) handout.have = handout.have | path.plan.steps[at].add;
    handout.fresh = here.add;
    handout.opens = here.opens;
    if (step + 1 < path.plan.steps.size()) handout.next_notes = path.plan.steps[step + 1].add;
    std::vector<tune::TuneId> ids;
    std::vector<std::string> titles;
    for (const tune::TuneRecord& record : collection.tunes_by_id(here.ids)) {
        if (ids.size() == kMostSheetsOfStep) break;
        const auto danced = tune::danced_rhythm(record);
        handout.tunes.push_back({tune::title_of(record), danced ? danced->value : std::string(), 0, 0});
        ids.push_back(record.id);
        titles.push_back(tune::title_of(record));
    }
    handout.rungs =
        rungs_of(tunes_of(collection, question.filter), handout.have, handout.fresh, handout.instrument.get());
    handout.drill = drill_of(handout.have, handout.fresh, handout.instrument.get());
    add_sheets(collection, ids, titles, reader, handout);
    return handout;
}

TermLadder ladder_of(const collection::Collection& collection, const syllabus::Syllabus& plan) {
    TermLadder ladder;
    music::NoteSet fresh;
    std::map<int, std::int64_t> opens;
    for (std::size_t at = 0; at < plan.lessons.size(); ++at) {
        const syllabus::Lesson& lesson = plan.lessons[at];
        if (!lesson.is_held() || !lesson.notes) continue;
        fresh = fresh | lesson.notes->notes;
        for (const int midi : lesson.notes->notes.midi_numbers()) {
            ladder.lessons.emplace_back(midi, static_cast<int>(at) + 1);
            opens[midi] = lesson.notes->opens;
        }
    }
    const TermRequest request = read_request(plan.asked);
    ladder.rungs =
        rungs_of(tunes_of(collection, request.filter), plan.have, fresh, instrument_of_term(collection, request).get());
    std::erase_if(ladder.rungs.rungs, [&](const Rung& rung) { return !rung.is_had && !rung.is_fresh; });
    ladder.rungs.hardly = 0;
    ladder.rungs.next.reset();
    for (Rung& rung : ladder.rungs.rungs)
        if (rung.is_fresh) rung.opens = opens[rung.midi];
    return ladder;
}

}  // namespace answers
