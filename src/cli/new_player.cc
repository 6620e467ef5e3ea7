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

tune::PlayerName new_player_name(const std::string& written) {
    try {
        tune::PlayerName name = tune::read_player_name(written);
        refuse_name_of_instrument(name);
        return name;
    } catch (const tune::PlayerNameFault& fault) {
        throw Misuse(fault.what());
    }
}

}  // namespace cli
