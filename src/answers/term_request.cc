// Tested by term_request_test.cc.
#include "answers/term_request.h"

#include <algorithm>
#include <charconv>
#include <utility>

#include "answers/player_named.h"
#include "answers/tune_named.h"
#include "instruments/known.h"
#include "music/pitch.h"
#include "people/name_said.h"

namespace answers {

namespace {

constexpr std::string_view kBy = " by ";

std::string notes_by_name(const music::NoteSet& notes, const std::string& before_each = {}) {
    std::string names;
    for (const int midi : notes.midi_numbers())
        names += (names.empty() ? "" : " ") + before_each + music::to_string(music::spell_midi(midi));
    return names;
}

// Of a player, or what all of a class have.
std::optional<music::NoteSet> notes_named(const collection::Collection& collection, const std::string& name) {
    if (const auto player = collection.player_named(name)) return notes_of(collection, *player);
    return class_named(collection, name) ? names_in(collection)(name) : std::nullopt;
}

// `@Ina` stands for the notes that Ina has when the term is planned: later she may be called otherwise, or be gone.
std::string without_names(const std::string& text, const collection::Collection& collection) {
    std::string plain;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find_first_of(" ,", at), text.size());
        std::string item = text.substr(at, end - at);
        if (const std::size_t sign = item.find('@');
            sign != std::string::npos && (sign == 0 || item[sign - 1] == '=' || item[sign - 1] == '-')) {
            const std::string name = item.substr(sign + 1);
            const auto notes = instruments::find(name) == nullptr ? notes_named(collection, name) : std::nullopt;
            if (notes) {
                const bool takes_away = sign > 0 && item[sign - 1] == '-';
                item = item.substr(0, takes_away ? sign - 1 : sign) + notes_by_name(*notes, takes_away ? "-" : "");
            }
        }
        plain += item;
        if (end < text.size()) plain += text[end];
        at = end + 1;
    }
    return plain;
}

// A title that no tune has although one has what stands before " by ": a day or a lesson was meant.
void look_for_a_day(const TermRequest::Must& must, const collection::Collection& collection) {
    const std::size_t at = must.tune.rfind(kBy);
    if (must.by_date || must.by_lesson || at == std::string::npos || !collection.tunes_titled(must.tune).empty())
        return;
    if (!collection.tunes_titled(must.tune.substr(0, at)).empty())
        throw Refused({Part::must, Reason::no_such_day, must.tune, {must.tune.substr(at + kBy.size())}});
}

template <typename Value>
void replace(Value& value, const Value& with) {
    if (with != Value()) value = with;
}

// Every text of a request in which a name may stand, but the names of its players and of who is given by notes.
template <typename Change>
void for_each_text(TermRequest& request, Change change) {
    const auto maybe = [&](std::optional<std::string>& text) {
        if (text) change(*text);
    };
    collection::Selection& columns = request.filter.columns;
    for (std::optional<std::string>* text :
         {&columns.rhythm, &columns.title, &columns.file, &columns.tag, &request.filter.instrument_file})
        maybe(*text);
    for (TermRequest::Must& must : request.musts) change(must.tune);
    for (std::vector<std::string>* texts : {&request.begin, &request.without})
        for (std::string& text : *texts) change(text);
}

// `Otto on whistle-d=D4 E4`: instrument and notes stay, so that the term can be planned again.
void unname_member(std::string& text, const tune::PlayerName& name) {
    const std::size_t end = std::min(text.find('='), text.size());
    const std::size_t begin = std::min(text.rfind(" on ", end), end);
    if (begin > 0 && (end < text.size() || begin < end) && people::says_name(text.substr(0, begin), name))
        text = std::string(kRemovedPlayer) + text.substr(begin);
}

}  // namespace

TermRequest again_from(const TermRequest& request, base::Date from, const TermRequest& besides) {
    TermRequest again = request;
    again.from = from;
    again.breaks = besides.breaks;
    if (request.from)
        for (TermRequest::Must& must : again.musts)
            if (must.by_date) *must.by_date += from - *request.from;
    const Filter& other = besides.filter;
    if (besides.have || !other.fits.empty() || !other.players.empty()) {
        again.have = besides.have;
        again.filter.fits = other.fits;
        again.filter.players = other.players;
    }
    if (besides.on) again.on = besides.on;
    if (besides.lessons) again.lessons = besides.lessons;
    if (besides.notes_every) again.notes_every = besides.notes_every;
    if (besides.tunes_each) again.tunes_each = besides.tunes_each;
    if (besides.steps) again.steps = besides.steps;
    if (besides.first) again.first = besides.first;
    if (!besides.musts.empty()) again.musts = besides.musts;
    if (!besides.begin.empty()) again.begin = besides.begin;
    if (!besides.without.empty()) again.without = besides.without;
    if (besides.max_states) again.max_states = besides.max_states;
    if (other.instrument) {
        again.filter.instrument = other.instrument;
        again.filter.instrument_file = other.instrument_file;
    }
    if (other.grade) again.filter.grade = other.grade;
    if (other.state) again.filter.state = other.state;
    if (other.scraps == Scraps::asked_for) again.filter.scraps = Scraps::asked_for;
    collection::Selection& columns = again.filter.columns;
    replace(columns.uses, other.columns.uses);
    replace(columns.avoids, other.columns.avoids);
    replace(columns.rhythm, other.columns.rhythm);
    replace(columns.meter, other.columns.meter);
    replace(columns.tonic, other.columns.tonic);
    replace(columns.mode, other.columns.mode);
    replace(columns.starts_on, other.columns.starts_on);
    replace(columns.ends_on, other.columns.ends_on);
    replace(columns.span, other.columns.span);
    replace(columns.top, other.columns.top);
    replace(columns.bottom, other.columns.bottom);
    replace(columns.octave, other.columns.octave);
    replace(columns.title, other.columns.title);
    replace(columns.file, other.columns.file);
    replace(columns.tag, other.columns.tag);
    replace(columns.ornaments, other.columns.ornaments);
    return again;
}

TermRequest with_ids(TermRequest request, const collection::Collection& collection) {
    const auto id_of = [&](const std::string& which, Part part) {
        return std::to_string(tune_named(collection, which, part).id.value);
    };
    if (request.have) request.have = without_names(*request.have, collection);
    request.filter.players = players_meant(collection, request.filter.players).names;
    for (std::string& text : request.filter.fits) text = without_names(text, collection);
    for (TermRequest::Must& must : request.musts) {
        look_for_a_day(must, collection);
        must.tune = id_of(must.tune, Part::must);
    }
    for (std::string& which : request.begin) which = id_of(which, Part::begin);
    for (std::string& which : request.without) which = id_of(which, Part::without);
    return request;
}

TermRequest for_those_left(TermRequest request, const collection::Collection& collection, const music::NoteSet& have,
                           std::vector<Gone>& gone) {
    Filter& filter = request.filter;
    std::erase_if(filter.players, [&](const std::string& name) {
        const bool is_gone = !collection.player_named(name);
        if (is_gone) gone.push_back({name, std::nullopt});
        return is_gone;
    });
    if (filter.players.empty() && filter.state) {
        gone.push_back({{}, filter.state});
        filter.state.reset();
    }
    if (!request.have && filter.fits.empty() && filter.players.empty()) request.have = notes_by_name(have);
    return request;
}

std::vector<tune::TuneId> tunes_named_in(const TermRequest& request) {
    std::vector<tune::TuneId> ids;
    const auto add = [&](const std::string& which) {
        std::int64_t id = 0;
        const auto [end, error] = std::from_chars(which.data(), which.data() + which.size(), id);
        if (error == std::errc() && end == which.data() + which.size()) ids.push_back({id});
    };
    for (const TermRequest::Must& must : request.musts) add(must.tune);
    for (const std::string& which : request.begin) add(which);
    for (const std::string& which : request.without) add(which);
    return ids;
}

TermRequest with_renamed(TermRequest request, const tune::PlayerName& from, const std::string& to) {
    for (std::string& player : request.filter.players)
        if (tune::fold_player_name(player) == from.folded) player = to;
    return request;
}

TermRequest with_unnamed(TermRequest request, const tune::PlayerName& name) {
    request = with_renamed(std::move(request), name, std::string(kRemovedPlayer));
    for (std::string& text : request.filter.fits) unname_member(text, name);
    for_each_text(request, [&](std::string& text) {
        if (people::says_name(text, name)) text = kRemovedPlayer;
    });
    return request;
}

}  // namespace answers
