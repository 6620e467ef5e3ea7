#include "cli/new_player.h"

#include "cli/terminal.h"
#include "instruments/known.h"

namespace cli {

void refuse_name_of_instrument(const tune::PlayerName& name) {
    for (const std::string& id : instruments::ids())
        if (tune::fold_player_name(id) == name.folded)
            throw Misuse("\"" + name.text + "\" is the name of an instrument; @" + id +
                         " would mean two things; choose another name");
}

void refuse_name_of_class(const collection::Collection& library, const tune::PlayerName& name) {
    for (const collection::PlayerClass& one : library.player_classes())
        if (one.name.folded == name.folded)
            throw Misuse("there is a class \"" + one.name.text +
                         "\" already; --for would mean two things; choose another name");
}

tune::PlayerName new_player_name(const std::string& written) {
    try {
        tune::PlayerName name = tune::read_player_name(written);
        refuse_name_of_instrument(name);
        if (name.text.starts_with("@"))
            throw Misuse("@ before a name means the notes of a player; write the name without it");
        if (name.text.find_first_not_of("0123456789") == std::string::npos)
            throw Misuse("\"" + name.text + "\" is a number, as tunes and lessons have; choose a name with a letter");
        return name;
    } catch (const tune::PlayerNameFault& fault) {
        throw Misuse(fault.what());
    }
}

}  // namespace cli
