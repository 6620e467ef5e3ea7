// `gamut page`: a page for a browser, with the library in it.
#include <filesystem>
#include <fstream>
#include <iterator>
#include <optional>
#include <string>

#include "answers/tunes_asked.h"
#include "base/failure.h"
#include "cli/commands.h"
#include "cli/filter_options.h"
#include "cli/new_file.h"
#include "cli/refusal_words.h"
#include "cli/terminal.h"
#include "library/library.h"
#include "page/carried.h"

namespace cli {

namespace {

// The built page: beside the program, where it was installed, or where scripts/page left it.
std::string built_page() {
    std::error_code unknown;
    const std::filesystem::path program = std::filesystem::read_symlink("/proc/self/exe", unknown).parent_path();
    for (const char* place : {"page.html", "../share/gamut/page.html", "../build-page/page.html"}) {
        std::ifstream stream(program / place, std::ios::binary);
        if (stream) return {std::istreambuf_iterator<char>(stream), {}};
    }
    throw base::Failure("write", "the page",
                        "it was not built with this gamut; scripts/setup --page and scripts/page make it");
}

class PageCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    std::string output_;
    bool is_empty_ = false;
    std::string title_ = "my tunes";
    std::string library_;
    FilterOptions filter_;
};

void PageCommand::add_to(CLI::App& command) {
    command.add_option("--output", output_, "write this new file")->type_name("FILE")->required();
    command.add_flag("--empty", is_empty_, "without your library: whoever opens it drops tunes of their own on it");
    command.add_option("--named", title_, "what the tunes are called in it (default: my tunes)")->type_name("WORDS");
    filter_.add_to(command, library_);
    command.footer(
        "Example:  gamut page --output my-tunes.html\n"
        "One file with tunes, tags and players in it, and all that answers questions about them. It opens in any "
        "browser of these days, also offline, and sends nothing. Give it only to people who may know what stands in "
        "it: --empty makes one that holds the sample tunes alone.");
}

int PageCommand::run() {
    const answers::Filter filter = filter_.filter();
    const std::string built = built_page();
    if (is_empty_) {
        NewFile(output_, NewFile::For::anybody).write(built);
        return kDone;
    }
    const library::Library library = library::Library::open_existing(library_file(library_));
    const answers::TunesAsked asked(library, filter);
    const auto whole = page::with_library(built, page::carried_json(library, asked.selection(), title_));
    if (!whole) throw base::Failure("write", "the page", "what was built is damaged; scripts/page makes it anew");
    NewFile(output_, NewFile::For::owner).write(*whole);
    tell_left_out(asked.left_out());
    return kDone;
}

}  // namespace

std::unique_ptr<Command> page_command() { return std::make_unique<PageCommand>(); }

}  // namespace cli
