#include "cli/shared_options.h"

namespace cli {

namespace {

CLI::Option* add_html(CLI::App& command, Format& format, CLI::Option* json) {
    return command.add_flag("--html", format.html, "as a page of HTML, for a browser")->excludes(json);
}

CLI::Option* add_json(CLI::App& command, Format& format) {
    return command.add_flag("--json", format.json, "as JSON, documented in schema/output.md");
}

}  // namespace

void add_format(CLI::App& command, Format& format) {
    CLI::Option* json = add_json(command, format);
    CLI::Option* csv = command.add_flag("--csv", format.csv, "as CSV, for a spreadsheet")->excludes(json);
    add_html(command, format, json)->excludes(csv);
}

void add_format_without_csv(CLI::App& command, Format& format) { add_html(command, format, add_json(command, format)); }

void add_library(CLI::App& command, std::string& library) {
    command
        .add_option("--library", library,
                    "the library file (default: $GAMUT_LIBRARY, else ~/.local/share/gamut/library.db)")
        ->type_name("FILE")
        ->check([](const std::string& file) {
            if (file.empty()) throw Misuse("--library takes the name of a file, not \"\"");
            return std::string();
        });
}

}  // namespace cli
