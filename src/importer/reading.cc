// Runs on several threads at once; touches nothing they share. Tested by reading_test.cc.
#include "importer/reading.h"
#include "library/content_hash.h"

#include <utility>

#include "abc/mail_residue.h"
#include "base/diagnostics.h"
#include "base/failure.h"
#include "base/file_bytes.h"
#include "base/source_file.h"
#include "reader/stored_file.h"

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

void keep_diagnostics(Reading& reading, const base::Diagnostics& diagnostics, const base::SourceFile& source,
                      std::size_t most_printed) {
    for (const base::Severity severity : {base::Severity::error, base::Severity::warning, base::Severity::remark})
        reading.odd.of(severity) = static_cast<std::int64_t>(diagnostics.count(severity));
    for (const base::Diagnostic& odd : diagnostics.kept())
        if (reading.printed.size() < most_printed) reading.printed.push_back(base::print_diagnostic(source, odd));
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
    const base::SourceFile source = abc::without_residue(base::decode_source(found.shown, std::move(bytes)));
    base::Diagnostics diagnostics;
    collection::StoredFile read = reader::stored_file(source, diagnostics);
    reading.file.settings = std::move(read.settings);
    reading.file.header = std::move(read.header);
    reading.file.diagnostics = std::move(read.diagnostics);
    if (reading.file.settings.empty()) reading.remark = "holds no tune";
    keep_diagnostics(reading, diagnostics, source, options.most_printed);
    return reading;
}

}  // namespace importer
