// Tunes that are probably one a player has, under another id.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "analysis/kinship.h"
#include "collection/collection.h"
#include "repertoire/learning_load.h"

namespace answers {

class PlayerTwins {
public:
    // `collection` must live as long as this.
    PlayerTwins(const collection::Collection& collection, const collection::PlayerRecord& player);

    // Of the tunes the player is learning, knows or once knew, and of `offered`, the one that this tune is probably
    // the same as, the likest; else one of the same title and rhythm; nothing where there is none, or where a person
    // said that they are two.
    std::optional<tune::TuneId> twin_of(const repertoire::TuneMatter& tune,
                                        std::span<const repertoire::TuneMatter* const> offered);

private:
    struct Melody {
        tune::TuneId tune;
        analysis::Contour contour;
    };
    // A folded title with the rhythm, which may be empty.
    using Named = std::pair<std::string, std::string>;

    const analysis::Contour& contour_of(tune::SettingId setting);
    bool is_spoken_of(tune::TuneId one, tune::TuneId other) const;

    const collection::Collection& collection_;
    std::vector<Melody> melodies_;                            // every setting of the player's tunes
    std::set<std::pair<tune::TuneId, tune::TuneId>> spoken_;  // the lower id first
    std::map<tune::SettingId, analysis::Contour> asked_;
    std::map<Named, tune::TuneId> named_;  // the player's tunes by each of their titles
};

}  // namespace answers
