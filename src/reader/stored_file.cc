// Tested by stored_file_test.cc.
#include "reader/stored_file.h"

#include <algorithm>
#include <utility>

#include "abc/read.h"
#include "analysis/analyse.h"
#include "analysis/oddities.h"

namespace reader {

namespace {

bool is_blank(std::string_view line) {
    return std::all_of(line.begin(), line.end(),
                       [](char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; });
}

// The block at the very start, when an empty line ends it before the first tune. ABC standard 2.1, section 2.2.2.
std::string file_header(std::string_view text, std::uint32_t first_tune) {
    std::size_t begin = 0;
    while (begin < first_tune) {
        const std::size_t end = std::min(text.find_first_of("\r\n", begin), text.size());
        if (is_blank(text.substr(begin, end - begin))) break;
        begin = end + (text.substr(end).starts_with("\r\n") ? 2 : 1);
    }
    if (begin >= first_tune) return {};
    std::string header(text.substr(0, begin));
    while (!header.empty() && (header.back() == '\n' || header.back() == '\r')) header.pop_back();
    return header;
}

// The rest is made again from the text for `gamut tune`.
void keep_what_is_stored(tune::TuneFacts& facts) {
    facts.uses = {};
    facts.keys_in_turn = {};
    facts.part_keys = {};
    facts.structure = {};
    facts.equal_bars = {};
    facts.lone_notes = {};
    facts.outline = {};
    if (facts.key) facts.key->evidence = {};
}

collection::StoredSetting stored_setting(tune::Setting&& setting, const base::SourceFile& source) {
    collection::StoredSetting stored;
    stored.facts = analysis::analyse(setting);
    stored.outline = tune::encode_outline(stored.facts.outline);
    stored.form = tune::form_of(stored.facts.structure);
    for (tune::Oddity& odd : analysis::find_oddities(setting, stored.facts)) {
        const base::Place place = source.place_of(odd.where.begin);
        stored.oddities.push_back(
            {place.line, place.column, odd.kind, odd.severity, std::move(odd.message), std::move(odd.advice)});
    }
    keep_what_is_stored(stored.facts);
    stored.number = std::move(setting.number);
    stored.line = setting.line;
    stored.titles = std::move(setting.titles);
    stored.rhythm_stated = std::move(setting.rhythm);
    stored.key_stated = music::to_string(setting.key);
    if (setting.key_in_force != setting.key) stored.key_in_force = music::to_string(setting.key_in_force);
    stored.errors = setting.errors;
    stored.abc = source.text().substr(setting.where.begin, setting.where.end - setting.where.begin);
    return stored;
}

}  // namespace

collection::StoredFile stored_file(const base::SourceFile& source, base::Diagnostics& diagnostics) {
    collection::StoredFile file;
    std::uint32_t first_tune = 0;
    abc::read_each_setting(source, diagnostics, [&](tune::Setting&& setting) {
        if (file.settings.empty()) first_tune = setting.where.begin;
        file.settings.push_back(stored_setting(std::move(setting), source));
    });
    if (!file.settings.empty()) file.header = file_header(source.text(), first_tune);
    for (const base::Diagnostic& odd : diagnostics.kept()) {
        const base::Place place = source.place_of(odd.where.begin);
        file.diagnostics.push_back({place.line, place.column, odd.severity, std::string(odd.code), odd.message});
    }
    return file;
}

}  // namespace reader
