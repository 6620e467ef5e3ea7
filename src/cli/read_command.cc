// `gamut read`: ABC without a library, with every finding.
#include <list>
#include <string>
#include <vector>

#include "abc/mail_residue.h"
#include "abc/read.h"
#include "base/failure.h"
#include "base/file_bytes.h"
#include "base/utf8.h"
#include "cli/commands.h"
#include "cli/read_answer.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"
#include "report/pages/reading.h"

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
        report::Table table{{{"place"}, {"what"}, {"written", report::Fit::cut}}, {}};
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

class ReadCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    bool answer_for(ReadFile& file, ReadAnswer& answer) const;

    std::vector<std::string> files_;
    std::string as_ = "facts";
    Format format_;
};

void ReadCommand::add_to(CLI::App& command) {
    command.add_option("FILE", files_, "ABC files")->required();
    command.add_option("--as", as_, "facts (default), melody or tokens")
        ->check(CLI::IsMember({"facts", "melody", "tokens"}));
    add_format(command, format_);
    command.footer("Example:  gamut read sample-library/harbour.abc");
}

int ReadCommand::run() {
    if (as_ == "tokens" && (format_.json || format_.csv))
        throw Misuse("--as tokens has no --json or --csv; it is for reading by eye");
    if (as_ == "melody" && format_.csv) throw Misuse("--as melody has no --csv; use --json");
    bool is_whole = true;
    std::list<ReadFile> files;
    ReadAnswer answer(as_ == "melody", format_);
    for (const std::string& path : files_) {
        try {
            std::string bytes = base::read_bytes(path);
            if (base::looks_binary(bytes)) {
                write_notice("gamut: " + base::printable(path) + " is no text file; nothing was read from it\n");
                is_whole = false;
                continue;
            }
            ReadFile& file =
                files.emplace_back(ReadFile{abc::without_residue(base::decode_source(path, std::move(bytes))), {}});
            is_whole = answer_for(file, answer) && is_whole;
        } catch (const base::Failure& failure) {
            write_notice("gamut: " + std::string(failure.what()) + "\n");
            is_whole = false;
        }
        if (!format_.json) files.clear();  // whose findings stand at the end of the answer
    }
    std::vector<report::ReadFindings> findings;
    for (const ReadFile& file : files) findings.push_back({&file.source, &file.diagnostics});
    answer.end(findings);
    return is_whole ? kDone : kDoneInPart;
}

bool ReadCommand::answer_for(ReadFile& file, ReadAnswer& answer) const {
    std::size_t settings = 0;
    if (as_ == "tokens") {
        answer.take(describe_tokens(file));
    } else {
        abc::read_each_setting(file.source, file.diagnostics, [&](const tune::Setting& setting) {
            answer.take(setting, file.source);
            ++settings;
        });
    }
    answer.end_file();
    if (!format_.json) print_findings(file);
    if (as_ != "tokens" && settings == 0) {
        write_notice("gamut: " + base::printable(file.source.label()) + " holds no tune\n");
        return false;
    }
    return file.diagnostics.count(base::Severity::error) == 0;
}

}  // namespace

std::unique_ptr<Command> read_command() { return std::make_unique<ReadCommand>(); }

}  // namespace cli
