#include "report/words/term_options.h"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <string_view>

#include "answers/notes_asked.h"
#include "music/key.h"
#include "music/pitch.h"
#include "report/words/words.h"

namespace report {

namespace {

// `33 by 2027-02-23`, with the title for the id.
std::string with_title(const std::string& value, const std::map<tune::TuneId, std::string>& titles) {
    std::int64_t id = 0;
    const char* const end = value.data() + value.size();
    const auto read = std::from_chars(value.data(), end, id);
    const auto title = titles.find({id});
    if (read.ec != std::errc() || (read.ptr != end && *read.ptr != ' ') || title == titles.end()) return value;
    return title->second + std::string(read.ptr, end);
}

std::string lower(std::string_view word) {
    std::string text(word);
    std::transform(text.begin(), text.end(), text.begin(),
                   [](char c) { return static_cast<char>(std::tolower(static_cast<unsigned char>(c))); });
    return text;
}

std::string parted_by_blanks(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
    return text;
}

std::string must_in_words(const answers::TermRequest::Must& must) {
    if (must.by_date) return must.tune + " by " + base::to_string(*must.by_date);
    return must.by_lesson ? must.tune + " by " + std::to_string(*must.by_lesson) : must.tune;
}

// Options and their values, one after the other.
class Options {
public:
    void add(const char* name, const std::optional<std::string>& text) {
        if (text) words_.push_back(std::string(name) + "=" + *text);
    }

    template <typename Number>
    void add_number(const char* name, const std::optional<Number>& number) {
        if (number) add(name, std::to_string(*number));
    }

    void add_each(const char* name, const std::vector<std::string>& texts) {
        for (const std::string& text : texts) add(name, text);
    }

    void add_notes(const char* name, const std::optional<music::NoteSet>& notes) {
        if (notes) add(name, parted_by_blanks(answers::words_of(*notes)));
    }

    void add_flag(const char* name, bool is_given) {
        if (is_given) words_.emplace_back(name);
    }

    std::vector<std::string> words() && { return std::move(words_); }

private:
    std::vector<std::string> words_;
};

void add_filter(const answers::Filter& filter, Options& options) {
    const collection::Selection& columns = filter.columns;
    options.add_each("--fits", filter.fits);
    options.add_each("--for", filter.players);
    if (filter.instrument && !filter.instrument_file) options.add("--instrument", filter.instrument->id);
    options.add("--instrument-file", filter.instrument_file);
    options.add_number("--hardness", filter.grade);
    std::vector<std::string> uses;
    for (const music::NoteSet& notes : columns.uses) uses.push_back(parted_by_blanks(answers::words_of(notes)));
    if (!uses.empty()) options.add("--uses", parted_by_blanks(uses));
    options.add_notes("--avoids", columns.avoids);
    options.add("--rhythm", columns.rhythm);
    options.add("--meter", columns.meter);
    if (columns.tonic) options.add("--tonic", music::to_string(music::spell_midi(60 + *columns.tonic).name));
    if (columns.mode) options.add("--mode", std::string(music::mode_token(*columns.mode)));
    options.add_notes("--starts-on", columns.starts_on);
    options.add_notes("--ends-on", columns.ends_on);
    options.add_number("--span", columns.span);
    if (columns.top) options.add("--top", note_or_dash(columns.top));
    if (columns.bottom) options.add("--bottom", note_or_dash(columns.bottom));
    if (columns.octave) options.add("--octave", *columns.octave == collection::OctaveRange::home ? "home" : "any");
    options.add("--title", columns.title);
    options.add("--file", columns.file);
    options.add("--tag", columns.tag);
    if (filter.state) options.add("--state", std::string(answers::state_asked_token(*filter.state)));
    options.add_flag("--ornaments", columns.ornaments);
    options.add_flag("--scraps", filter.scraps == answers::Scraps::asked_for);
}

}  // namespace

std::vector<std::string> as_options(const answers::TermRequest& request) {
    Options options;
    if (request.from) options.add("--from", base::to_string(*request.from));
    if (request.on) options.add("--on", lower(base::weekday_name(*request.on)));
    options.add_number("--lessons", request.lessons);
    for (const syllabus::DateRange& range : request.breaks) options.add("--break", syllabus::to_string(range));
    options.add("--have", request.have);
    options.add_number("--notes-every", request.notes_every);
    options.add_number("--tunes-each", request.tunes_each);
    options.add_number("--steps", request.steps);
    options.add("--first", request.first);
    for (const answers::TermRequest::Must& must : request.musts) options.add("--must", must_in_words(must));
    options.add_each("--begin", request.begin);
    options.add_each("--without", request.without);
    options.add_number("--max-states", request.max_states);
    add_filter(request.filter, options);
    return std::move(options).words();
}

std::string options_in_words(const answers::TermRequest& request, const std::map<tune::TuneId, std::string>& titles) {
    std::string words;
    for (const std::string& word : as_options(request)) {
        const std::size_t sign = word.find('=');
        const std::string name = word.substr(0, sign);
        std::string value = sign == std::string::npos ? "" : word.substr(sign + 1);
        if (name == "--must" || name == "--begin" || name == "--without") value = with_title(value, titles);
        const bool is_plain = value.find_first_of(" &'\"$") == std::string::npos;
        words += (words.empty() ? "" : " ") + name;
        if (sign != std::string::npos) words += is_plain ? " " + value : " \"" + value + "\"";
    }
    return words;
}

}  // namespace report
