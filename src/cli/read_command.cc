// `gamut read`: ABC without a library, with every finding.
#include <list>

#include "abc/read.h"
#include "analysis/analyse.h"
#include "base/failure.h"
#include "base/utf8.h"
#include "cli/commands.h"
#include "report/csv.h"
#include "report/reading.h"

namespace cli {

// One file as read; a list holds these, for readings point into them.
struct ReadFile {
    base::SourceFile source;
    base::Diagnostics diagnostics;
};

namespace {

report::Document describe_tokens(ReadFile& file) {
    report::Document document;
    abc::walk_tokens(file.source, file.diagnostics, [&](const abc::Block& block, const abc::Tokens& tokens) {
        report::Table table{{{"place", false}, {"what", false}, {"written", true}}, {}};
        for (const abc::Token& token : tokens.all) {
            const base::Place place = file.source.place_of(token.where.begin);
            const auto written = file.source.text().substr(token.where.begin, token.where.end - token.where.begin);
            table.rows.push_back({report::Cell(std::to_string(place.line) + ":" + std::to_string(place.column)),
                                  report::Cell(std::string(abc::token_kind_name(token.kind))),
                                  report::Cell(std::string(written))});
        }
        const bool is_free = block.kind == abc::Block::Kind::free_text;
        document.blocks.emplace_back(report::Heading{file.source.label() + ":" + std::to_string(block.line) +
                                                     (is_free ? "  free text, left aside" : "")});
        if (!is_free) document.blocks.emplace_back(std::move(table));
    });
    return document;
}

void print_findings(const ReadFile& file) {
    std::string text;
    for (const base::Diagnostic& diagnostic : file.diagnostics.kept())
        text += base::print_diagnostic(file.source, diagnostic);
    if (file.diagnostics.not_kept() > 0)
        text +=
            base::printable(file.source.label()) + ": and " + std::to_string(file.diagnostics.not_kept()) + " more\n";
    write_notice(text);
}

report::Reading read_whole(ReadFile& file) {
    report::Reading reading{&file.source, {}, &file.diagnostics};
    for (tune::Setting& setting : abc::read_settings(file.source, file.diagnostics)) {
        tune::TuneFacts facts = analysis::analyse(setting);
        reading.settings.push_back({std::move(setting), std::move(facts)});
    }
    return reading;
}

}  // namespace

CLI::App* ReadCommand::add_to(CLI::App& program) {
    CLI::App* command =
        program.add_subcommand("read", "read ABC files and show what was understood, without a library");
    command->add_option("FILE", files_, "ABC files")->required();
    command->add_option("--as", as_, "facts (default), melody or tokens")
        ->check(CLI::IsMember({"facts", "melody", "tokens"}));
    add_format(*command, format_);
    command->footer("Example:  gamut read sample-library/harbour.abc");
    return command;
}

int ReadCommand::run() {
    if (as_ == "tokens" && (format_.json || format_.csv))
        throw Misuse("--as tokens has no --json or --csv; it is for reading by eye");
    if (as_ == "melody" && format_.csv) throw Misuse("--as melody has no --csv; use --json");
    bool is_whole = true;
    std::list<ReadFile> files;
    std::vector<report::Reading> readings;
    for (const std::string& path : files_) {
        try {
            std::string bytes = base::read_bytes(path);
            if (base::looks_binary(bytes)) {
                write_notice("gamut: " + base::printable(path) + " is no text file; nothing was read from it\n");
                is_whole = false;
                continue;
            }
            ReadFile& file = files.emplace_back(ReadFile{base::decode_source(path, std::move(bytes)), {}});
            is_whole = answer_for(file, readings) && is_whole;
        } catch (const base::Failure& failure) {
            write_notice("gamut: " + std::string(failure.what()) + "\n");
            is_whole = false;
        }
        // Texts are written file by file, so that a large collection needs the memory of one file.
        if (!format_.json && !format_.csv) {
            readings.clear();
            files.clear();
        }
    }
    if (format_.json) write_answer(as_ == "melody" ? report::melodies_json(readings) : report::facts_json(readings));
    if (format_.csv) write_answer(report::render_csv(report::tabulate_facts(readings)));
    return is_whole ? kDone : kDoneInPart;
}

bool ReadCommand::answer_for(ReadFile& file, std::vector<report::Reading>& readings) const {
    if (as_ == "tokens") {
        write_answer(describe_tokens(file));
    } else {
        readings.push_back(read_whole(file));
        const bool is_text = !format_.json && !format_.csv;
        if (readings.back().settings.empty()) {
            if (!format_.json) print_findings(file);
            write_notice("gamut: " + base::printable(file.source.label()) + " holds no tune\n");
            return false;
        }
        if (is_text)
            write_answer(as_ == "melody" ? report::describe_melodies(readings) : report::describe_facts(readings));
    }
    if (!format_.json) print_findings(file);
    return file.diagnostics.count(base::Severity::error) == 0;
}

}  // namespace cli
