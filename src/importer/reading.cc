// Runs on several threads at once; touches nothing they share. Tested by reading_test.cc.
#include "importer/reading.h"

#include <algorithm>
#include <utility>

#include "abc/mail_residue.h"
#include "abc/read.h"
#include "analysis/analyse.h"
#include "analysis/oddities.h"
#include "base/diagnostics.h"
#include "base/failure.h"
#include "base/source_file.h"

namespace importer {

namespace {

Reading failed(std::string sentence) {
    Reading reading;
    reading.outcome = Reading::Outcome::failed;
    reading.remark = std::move(sentence);
    return reading;
}

// What the system said, from the end of `could not read PATH: Permission denied`.
std::string system_words(const base::Failure& failure, const std::string& path) {
    const std::string said = failure.what();
    const std::size_t at = said.find(path + ": ");
    return at == std::string::npos ? said : said.substr(at + path.size() + 2);
}

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
    facts.part_keys = {};
    facts.structure = {};
    facts.equal_bars = {};
    facts.lone_notes = {};
    facts.outline = {};
    if (facts.key) facts.key->evidence = {};
}

library::StoredSetting stored_setting(tune::Setting&& setting, const base::SourceFile& source) {
    library::StoredSetting stored;
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

void keep_diagnostics(Reading& reading, const base::Diagnostics& diagnostics, const base::SourceFile& source,
                      std::size_t printed) {
    for (const base::Severity severity : {base::Severity::error, base::Severity::warning, base::Severity::remark})
        reading.odd[static_cast<std::size_t>(severity)] = static_cast<std::int64_t>(diagnostics.count(severity));
    for (const base::Diagnostic& odd : diagnostics.kept()) {
        const base::Place place = source.place_of(odd.where.begin);
        reading.file.diagnostics.push_back(
            {place.line, place.column, odd.severity, std::string(odd.code), odd.message});
        if (reading.diagnostics.printed.size() < printed)
            reading.diagnostics.printed.push_back(base::print_diagnostic(source, odd));
    }
    reading.diagnostics.not_printed =
        static_cast<std::int64_t>(diagnostics.total() - reading.diagnostics.printed.size());
}

}  // namespace

Reading read_file(const FoundFile& found, const library::KnownFile* known, const ImportOptions& options) {
    if (found.size > base::kMaxFileBytes)
        return failed("is larger than " + std::to_string(base::kMaxFileBytes / (1024 * 1024)) +
                      " MiB and was not read");
    std::string bytes;
    try {
        bytes = base::read_bytes(found.path);
    } catch (const base::Failure& failure) {
        return failed("could not be read: " + system_words(failure, found.path));
    }
    if (base::looks_binary(bytes)) return failed("is not a text file and was not read");

    Reading reading;
    reading.file.path = found.path;
    reading.file.shown = found.shown;
    reading.file.size = found.size;
    reading.file.mtime_ns = found.mtime_ns;
    reading.file.imported_ns = options.now_ns;
    reading.file.content_hash = library::content_hash(bytes);
    const bool is_as_known = known != nullptr && !known->gone && known->content_hash == reading.file.content_hash;
    if (is_as_known && known->facts_are_current) {
        reading.outcome = Reading::Outcome::same_bytes;
        return reading;
    }
    if (bytes.empty()) {
        reading.remark = "is empty";
        return reading;
    }
    reading.diagnostics.file = found.shown;
    const base::SourceFile source = abc::without_residue(base::decode_source(found.shown, std::move(bytes)));
    base::Diagnostics diagnostics;
    std::uint32_t first_tune = 0;
    abc::read_each_setting(source, diagnostics, [&](tune::Setting&& setting) {
        if (reading.file.settings.empty()) first_tune = setting.where.begin;
        reading.file.settings.push_back(stored_setting(std::move(setting), source));
    });
    if (reading.file.settings.empty())
        reading.remark = "holds no tune";
    else
        reading.file.header = file_header(source.text(), first_tune);
    keep_diagnostics(reading, diagnostics, source, options.diagnostics_per_file);
    return reading;
}

}  // namespace importer
