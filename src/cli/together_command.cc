// `gamut together`: what several players can play, and the one note that would open most for all of them.
#include <string>

#include "answers/tunes_asked.h"
#include "cli/commands.h"
#include "cli/filter_options.h"
#include "cli/refusal_words.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"
#include "cli/write.h"
#include "library/library.h"
#include "planner/together.h"
#include "report/together_page.h"
#include "report/words.h"
#include "tune/title.h"

namespace cli {

namespace {

// Of the tunes a page names.
void look_up_titles(const collection::Collection& library, const std::map<tune::TuneId, tune::SettingId>& setting_of,
                    report::TogetherPage& page) {
    const auto look_up = [&](const std::vector<tune::TuneId>& ids) {
        for (const tune::TuneId id : ids) {
            const tune::SettingId setting = setting_of.at(id);
            const std::string title = library.first_titles(std::span(&setting, 1)).front();
            page.titles.emplace(id, tune::title_or_none(title));
        }
    };
    look_up(page.found.now);
    for (const planner::SharedNote& note : page.found.notes) look_up(note.opens);
}

class TogetherCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    std::string library_;
    FilterOptions filter_;
    Format format_;
};

void TogetherCommand::add_to(CLI::App& command) {
    filter_.add_to(command, library_);
    add_format(command, format_);
    command.footer(
        "Give --fits once for each player: \"NAME=NOTES\", \"NAME on INSTRUMENT=NOTES\", or \"NAME on INSTRUMENT\".\n"
        "Example:  gamut together --fits \"Ina on whistle-d=D:major\" --fits \"Olli on bc21=G:major&D:major\"");
}

int TogetherCommand::run() {
    report::TogetherPage page;
    if (filter_.asks_for_missing()) throw Misuse("gamut together names what is missing by itself; leave out --missing");
    const answers::Filter filter = filter_.filter();
    if (filter.fits.size() + filter.players.size() < 2)
        throw Misuse("gamut together needs two players; give --for PLAYER or --fits NOTES for each");
    const library::Library library = library::Library::open_existing(library_file(library_));
    const answers::TunesAsked asked(library, filter);
    page.members = asked.members();
    tell_left_out(asked.left_out());
    for (std::size_t at = 0; at < page.members.size(); ++at)
        if (page.members[at].name.empty()) page.members[at].name = "player " + std::to_string(at + 1);
    collection::Selection selection = asked.selection_without_notes();
    music::NoteSet common = page.members.front().have;
    for (const planner::Member& member : page.members) common = common & member.have;
    selection.nearest_to = common;
    std::vector<planner::Wanted> wanted;
    std::map<tune::TuneId, tune::SettingId> setting_of;
    for (const collection::TuneNotes& tune : library.select_notes(selection).rows) {
        if (tune.needed.empty()) continue;
        const tune::TuneId id = selection.settings ? library.own_ids(std::span(&tune.setting, 1)).front() : tune.id;
        wanted.push_back({id, tune.needed, 1});
        setting_of.emplace(id, tune.setting);
    }
    page.tunes = static_cast<std::int64_t>(wanted.size());
    page.found = planner::play_together(wanted, page.members);
    look_up_titles(library, setting_of, page);
    write(format_, page);
    return page.tunes > 0 ? kDone : kDoneInPart;
}

}  // namespace

std::unique_ptr<Command> together_command() { return std::make_unique<TogetherCommand>(); }

}  // namespace cli
