// What a page about players needs, fetched from the library.
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

#include "library/library.h"
#include "repertoire/players_here.h"
#include "report/pages/player_page.h"

namespace cli {

report::PlayerPage page_of(const collection::Collection& library, const collection::PlayerRecord& record);

// As another library will understand it.
repertoire::FiledPlayer filed(const collection::Collection& library, const collection::PlayerRecord& record);

// The tunes of a library by title and by place, gone through once for however many filed tunes are looked for.
class TunesHere {
public:
    explicit TunesHere(const collection::Collection& library);

    // The one that a filed tune means, by repertoire::tune_meant.
    std::optional<repertoire::TuneMeant> meant_by(const repertoire::FiledTune& filed);

private:
    const repertoire::TuneHere& with_settings(tune::TuneId id);
    const std::vector<tune::TuneId>& at_place(const std::string& file, const std::optional<std::string>& number);

    const collection::Collection& library_;
    std::unordered_map<std::string, std::vector<tune::TuneId>> titled_;  // by a folded title
    std::optional<std::map<std::pair<std::string, std::optional<std::string>>, std::vector<tune::TuneId>>>
        at_place_;  // once asked for
    std::map<tune::TuneId, repertoire::TuneHere> known_;
};

report::PlayerHistory history_of(const collection::Collection& library, const tune::Player& player);

// `the terms Thursdays, Tuesdays`; empty for none.
std::string terms_in_words(const std::vector<std::string>& names);

// The same of those that are kept and were asked for with `--for` this player.
std::string terms_of(const std::filesystem::path& file, const tune::PlayerName& name);

// ` Backups made before still hold it.`, with the names of those that lie beside the library.
std::string copies_told(const std::filesystem::path& file);

// Where a name still stands that was erased with its player, and how it is erased there: sentences; empty for nowhere.
std::string told_where_said(const std::filesystem::path& file, const std::vector<tune::PlayerName>& names);

}  // namespace cli
