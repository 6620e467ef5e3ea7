// `gamut player class`: players under one name.
#include <algorithm>

#include "answers/player_named.h"
#include "cli/new_player.h"
#include "cli/player_command.h"
#include "library/library.h"
#include "library/players.h"

namespace cli {

namespace {

std::string in_words(const collection::PlayerClass& one) {
    std::string words = one.name.text + ":";
    for (const std::string& name : one.players) words += (&name == &one.players.front() ? " " : ", ") + name;
    return words + ".";
}

void tell_class(const std::string& sentence) { write_answer(report::Document{{report::Paragraph{sentence}}}); }

// Once each, as ids.
std::vector<tune::PlayerId> players_of(const collection::Collection& library, const std::vector<std::string>& names) {
    std::vector<tune::PlayerId> ids;
    for (const std::string& name : names) {
        const tune::PlayerId id = answers::player_named(library, name).player.id;
        if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
    }
    return ids;
}

}  // namespace

int PlayerCommand::class_of_players() {
    const std::filesystem::path file = library_file(library_);
    const tune::PlayerName written = new_player_name(name_);
    std::optional<collection::PlayerClass> before;
    std::vector<tune::PlayerId> players;
    tune::PlayerName name = written;
    {
        const library::Library library = library::Library::open_existing(file);
        if (const auto player = library.player_named(written.text))
            throw Misuse("\"" + player->player.name.text + "\" is a player; a class needs another name");
        before = answers::class_named(library, written.text);
        if (!before && names_.empty() && added_.empty())
            throw Misuse("there is no class \"" + written.text + "\"; gamut player class NAME PLAYER ... makes one");
        if (before) name = before->name;
        if (new_name_) {
            name = new_player_name(*new_name_);
            if (library.player_named(name.text))
                throw Misuse("there is a player \"" + name.text +
                             "\"; --for would mean two things; choose another name");
            if (name.folded != written.folded) refuse_name_of_class(library, name);
        }
        if (before && names_.empty()) names_ = before->players;
        names_.insert(names_.end(), added_.begin(), added_.end());
        players = players_of(library, names_);
        for (const tune::PlayerId gone : players_of(library, dropped_))
            if (std::erase(players, gone) == 0) write_notice("gamut: not everyone of --drop is in the class\n");
    }
    const bool changes =
        !before || removes_ || new_name_ || !added_.empty() || !dropped_.empty() || names_ != before->players;
    if (!changes) {
        tell_class(in_words(*before));
        return kDone;
    }
    if (players.empty() && !removes_) throw Misuse("nobody would be left; --remove forgets the class");
    library::Players change = library::Players::change(file, today());
    if (removes_ || name.folded != written.folded) change.remove_class(written);
    if (!removes_) change.set_class(name, players);
    change.commit();
    has_kept_ = true;
    if (removes_) {
        tell_class("The class " + before->name.text + " is removed; its players stay.");
        return kDone;
    }
    tell_class(in_words(*answers::class_named(library::Library::open_existing(file), name.text)));
    return kDone;
}

}  // namespace cli
