#include "cli/read_answer.h"

#include <utility>

#include "analysis/analyse.h"
#include "report/pages/listing.h"
#include "report/pages/record_of.h"
#include "report/writers/csv.h"

namespace cli {

namespace {

// Written when so much has come together. Source: house choice.
constexpr std::size_t kJsonBytes = 1 << 20;
constexpr std::size_t kTextBlocks = 2000;

}  // namespace

void ReadAnswer::take(const tune::Setting& setting, const base::SourceFile& source) {
    const tune::TuneFacts facts = shows_melody_ ? tune::TuneFacts() : analysis::analyse(setting);
    const report::ReadSetting read{setting, facts, source};
    if (format_.json) {
        json_ += taken_ == 0 ? report::reading_json_opening() : ",";
        json_ += shows_melody_ ? report::melody_row_json(read) : report::facts_row_json(read);
    } else if (format_.csv) {
        rows_.push_back(report::record_of(setting, facts, source.label()));
    } else if (shows_melody_) {
        report::add_melody(read, document_);
    } else {
        report::add_facts(read, document_);
    }
    ++taken_;
    if (json_.size() >= kJsonBytes || document_.blocks.size() >= kTextBlocks) flush();
}

void ReadAnswer::take(report::Document tokens) {
    for (report::DocumentBlock& block : tokens.blocks) document_.blocks.push_back(std::move(block));
}

void ReadAnswer::end_file() {
    if (document_.blocks.empty() || format_.html) return;
    flush();
    any_text_ = false;
}

void ReadAnswer::end(const std::vector<report::ReadFindings>& files) {
    if (format_.json) {
        if (taken_ == 0) json_ = report::reading_json_opening();
        json_ += report::reading_json_closing(files);
    }
    flush();
    if (format_.html) write_document(format_, document_);
    if (!format_.csv) return;
    answers::TunesAnswer listing;
    listing.rows = std::move(rows_);
    write_answer(report::render_csv(report::tabulate(listing)));
}

void ReadAnswer::flush() {
    write_answer(json_);
    json_.clear();
    if (document_.blocks.empty() || format_.html) return;  // a page of HTML is one page
    if (any_text_) write_answer("\n");                     // as between two tunes of one piece
    write_answer(document_);
    document_.blocks.clear();
    any_text_ = true;
}

}  // namespace cli
