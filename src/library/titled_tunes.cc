// Tested by tunes_titled_test.cc.
#include <algorithm>

#include "library/database.h"
#include "library/library.h"
#include "library/statement.h"

namespace library {

std::vector<tune::TitledTune> Library::titled_tunes() const {
    std::vector<tune::TitledTune> tunes;
    Statement rows(*database_,
                   "SELECT s.tune_id, t.text, t.folded FROM setting s JOIN title t ON t.setting_id = s.id"
                   " WHERE s.gone = 0 ORDER BY s.tune_id, s.id, t.place");
    while (rows.step()) {
        const tune::TuneId id{rows.number(0)};
        if (tunes.empty() || tunes.back().id != id) tunes.push_back({id, std::string(rows.text(1)), {}});
        tunes.back().folded.emplace_back(rows.text(2));
    }
    for (const collection::Alias& alias : aliases()) {
        const auto tune = std::lower_bound(tunes.begin(), tunes.end(), alias.tune,
                                           [](const tune::TitledTune& one, tune::TuneId id) { return one.id < id; });
        if (tune != tunes.end() && tune->id == alias.tune) tune->aliases.push_back(alias.folded);
    }
    return tunes;
}

}  // namespace library
