// Tested by stored_request_test.cc.
#include "answers/old_request.h"

#include <charconv>
#include <functional>
#include <map>

#include "abc/number_fields.h"
#include "analysis/rhythm_words.h"
#include "answers/notes_asked.h"
#include "instruments/known.h"
#include "music/meter.h"
#include "syllabus/stored_syllabus.h"
#include "tune/tag.h"

namespace answers {

namespace {

using syllabus::StoredFault;

constexpr std::string_view kBeforeWhen = " by ";

[[noreturn]] void refuse(const std::string& word) { throw StoredFault("it was asked for with \"" + word + "\""); }

template <typename Number>
Number number_in(const std::string& text) {
    Number number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc() || end != text.data() + text.size()) refuse(text);
    return number;
}

base::Date day_in(const std::string& text) {
    try {
        return base::read_date(text);
    } catch (const base::DateFault&) {
        refuse(text);
    }
}

// `33 by 2027-02-23`, `33 by 2`, `33`.
TermRequest::Must must_in(const std::string& text) {
    const std::size_t at = text.rfind(kBeforeWhen);
    if (at == std::string::npos) return {text};
    const std::string when = text.substr(at + kBeforeWhen.size());
    if (when.empty() || when.find_first_not_of("0123456789-") != std::string::npos) return {text};
    if (when.find('-') != std::string::npos) return {text.substr(0, at), day_in(when)};
    return {text.substr(0, at), std::nullopt, number_in<int>(when)};
}

template <typename Value>
Value some(const std::optional<Value>& value, const std::string& text) {
    if (!value) refuse(text);
    return *value;
}

using Take = std::function<void(TermRequest&, const std::string&)>;

const std::map<std::string_view, Take>& takers() {
    static const std::map<std::string_view, Take> kTakers{
        {"--from", [](auto& request, const auto& text) { request.from = day_in(text); }},
        {"--on", [](auto& request, const auto& text) { request.on = some(base::parse_weekday(text), text); }},
        {"--lessons", [](auto& request, const auto& text) { request.lessons = number_in<int>(text); }},
        {"--break", [](auto& request, const auto& text) { request.breaks.push_back(syllabus::read_break(text)); }},
        {"--have", [](auto& request, const auto& text) { request.have = text; }},
        {"--notes-every", [](auto& request, const auto& text) { request.notes_every = number_in<int>(text); }},
        {"--tunes-each", [](auto& request, const auto& text) { request.tunes_each = number_in<int>(text); }},
        {"--steps", [](auto& request, const auto& text) { request.steps = number_in<int>(text); }},
        {"--first", [](auto& request, const auto& text) { request.first = text; }},
        {"--must", [](auto& request, const auto& text) { request.musts.push_back(must_in(text)); }},
        {"--begin", [](auto& request, const auto& text) { request.begin.push_back(text); }},
        {"--without", [](auto& request, const auto& text) { request.without.push_back(text); }},
        {"--max-states", [](auto& request, const auto& text) { request.max_states = number_in<std::size_t>(text); }},
        {"--fits", [](auto& request, const auto& text) { request.filter.fits.push_back(text); }},
        {"--for", [](auto& request, const auto& text) { request.filter.players.push_back(text); }},
        {"--instrument",
         [](auto& request, const auto& text) {
             const instruments::Instrument* known = instruments::find(text);
             if (known == nullptr) refuse(text);
             request.filter.instrument = instruments::lent(*known);
         }},
        {"--instrument-file", [](auto& request, const auto& text) { request.filter.instrument_file = text; }},
        {"--grade", [](auto& request, const auto& text) { request.filter.grade = number_in<int>(text); }},
        {"--uses",
         [](auto& request, const auto& text) {
             request.filter.columns.uses = read_part(Part::uses, text, music::read_notes_anywhere);
         }},
        {"--avoids",
         [](auto& request, const auto& text) { request.filter.columns.avoids = anywhere(Part::avoids, text); }},
        {"--rhythm",
         [](auto& request, const auto& text) { request.filter.columns.rhythm = analysis::rhythm_token(text); }},
        {"--meter",
         [](auto& request, const auto& text) {
             request.filter.columns.meter = music::to_string(some(abc::read_meter(text), text));
         }},
        {"--tonic",
         [](auto& request, const auto& text) {
             request.filter.columns.tonic = some(music::parse_note_name(text), text).pitch_class();
         }},
        {"--mode",
         [](auto& request, const auto& text) { request.filter.columns.mode = some(music::parse_mode(text), text); }},
        {"--starts-on",
         [](auto& request, const auto& text) { request.filter.columns.starts_on = anywhere(Part::starts_on, text); }},
        {"--ends-on",
         [](auto& request, const auto& text) { request.filter.columns.ends_on = anywhere(Part::ends_on, text); }},
        {"--span", [](auto& request, const auto& text) { request.filter.columns.span = number_in<int>(text); }},
        {"--octave",
         [](auto& request, const auto& text) {
             request.filter.columns.octave =
                 text == "home" ? collection::OctaveRange::home : collection::OctaveRange::any;
         }},
        {"--title", [](auto& request, const auto& text) { request.filter.columns.title = text; }},
        {"--file", [](auto& request, const auto& text) { request.filter.columns.file = text; }},
        {"--tag", [](auto& request, const auto& text) { request.filter.columns.tag = tune::read_tag(text).text; }},
        {"--state",
         [](auto& request, const auto& text) { request.filter.state = some(parse_state_asked(text), text); }},
        {"--ornaments", [](auto& request, const auto&) { request.filter.columns.ornaments = true; }},
        {"--scraps", [](auto& request, const auto&) { request.filter.scraps = Scraps::asked_for; }},
    };
    return kTakers;
}

}  // namespace

TermRequest read_old_request(const std::vector<std::string>& words) {
    TermRequest request;
    for (const std::string& word : words) {
        const std::size_t sign = std::min(word.find('='), word.size());
        const auto taker = takers().find(std::string_view(word).substr(0, sign));
        if (taker == takers().end()) refuse(word);
        try {
            taker->second(request, sign == word.size() ? std::string() : word.substr(sign + 1));
        } catch (const Refused&) {
            refuse(word);
        } catch (const syllabus::TermFault&) {
            refuse(word);
        } catch (const tune::TagFault&) {
            refuse(word);
        }
    }
    return request;
}

}  // namespace answers
