#include "cli/shared_options.h"

namespace cli {

void add_format(CLI::App& command, Format& format) {
    CLI::Option* json = command.add_flag("--json", format.json, "as JSON, documented in schema/output.md");
    command.add_flag("--csv", format.csv, "as CSV, for a spreadsheet")->excludes(json);
}

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
