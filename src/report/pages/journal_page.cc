// Tested by tests/golden/library.
#include "report/pages/journal_page.h"

#include <fmt/format.h>

#include "base/date.h"
#include "people/last_go.h"
#include "report/words/json.h"
#include "report/words/words.h"

namespace report {

namespace {

std::string named_title(const people::NamedTune& tune) {
    return tune.title.empty() ? "tune " + std::to_string(tune.id.value) : tune.title;
}

struct InWords {
    const PlayerNames& names;

    std::string name_of(const people::Seal& player) const {
        const auto found = names.find(player);
        return found == names.end() ? "a player who was removed" : found->second;
    }

    std::string operator()(const people::TagGiven& said) const {
        return fmt::format("tag \"{}\" for {}", said.tag, named_title(said.tune));
    }
    std::string operator()(const people::TagTaken& said) const {
        return fmt::format("tag \"{}\" taken off {}", said.tag, named_title(said.tune));
    }
    std::string operator()(const people::CountSaid& said) const {
        return named_title(said.tune) +
               (said.times ? ": played " + counted(*said.times, "time", "times") : std::string(": count dropped"));
    }
    std::string operator()(const people::ClassSaid& said) const {
        std::string who;
        for (const people::Seal& seal : said.members) who += (who.empty() ? "" : ", ") + name_of(seal);
        return fmt::format("class {}: {}", said.name, who);
    }
    std::string operator()(const people::ClassGone& said) const { return fmt::format("class {} removed", said.folded); }
    std::string operator()(const people::AliasSaid& said) const {
        return fmt::format("\"{}\" means {}", said.alias, named_title(said.tune));
    }
    std::string operator()(const people::AliasGone& said) const {
        return fmt::format("\"{}\" means no certain tune any more", said.folded);
    }
    std::string operator()(const people::RhythmSaid& said) const {
        return named_title(said.tune) + ": kind " + said.rhythm.value_or("no longer said");
    }
    std::string operator()(const people::KeySaid& said) const {
        return named_title(said.tune) + ": key " + (said.key ? music::to_string(*said.key) : "no longer said");
    }
    std::string operator()(const people::SameSaid& said) const {
        return named_title(said.one) + (said.is_same ? " and " : " is not ") + named_title(said.other) +
               (said.is_same ? " are one tune" : "");
    }
    std::string operator()(const people::PlayerAdded& said) const { return "new player " + said.name; }
    std::string operator()(const people::PlayerChanged& said) const {
        std::string text = name_of(said.player);
        if (said.name) text += ": name " + *said.name;
        if (said.instrument) text += ": instrument " + *said.instrument;
        return text;
    }
    std::string operator()(const people::NotesSaid& said) const {
        const std::string name = name_of(said.player);
        if (!said.notes) return name + ": the notes of known tunes only";
        const std::string notes = note_list(*said.notes);
        if (said.change == people::NotesChange::more) return name + ": also the notes " + notes;
        if (said.change == people::NotesChange::less) return name + ": no longer the notes " + notes;
        return name + ": the notes " + notes;
    }
    std::string operator()(const people::PlayerGone& said) const { return name_of(said.player) + " is removed"; }
    std::string operator()(const people::Happened& said) const {
        return fmt::format("{}: {} {} on {}", name_of(said.player), named_title(said.tune),
                           tune::event_token(said.what.event), base::to_string(said.what.day));
    }
    std::string operator()(const people::WishSaid& said) const {
        return name_of(said.player) + ": " + named_title(said.tune) +
               (said.is_wished ? " wished" : " no longer wished");
    }
    std::string operator()(const people::ExclusionSaid& said) const {
        return name_of(said.player) + ": " + named_title(said.tune) +
               (said.reason ? " unwanted" : " no longer unwanted") +
               (said.reason && !said.reason->empty() ? " (" + *said.reason + ")" : "");
    }
    std::string operator()(const people::TermSaid& said) const {
        return "term " + said.name + (said.is_restated ? ": put back as it was" : ": planned or changed");
    }
    std::string operator()(const people::TermGone& said) const { return "term " + said.folded + " is dropped"; }
    std::string operator()(const people::TakenBack& said) const {
        return counted(static_cast<std::int64_t>(said.sayings.size()), "entry", "entries") + " taken back";
    }
    std::string operator()(const people::Erased& said) const {
        return counted(static_cast<std::int64_t>(said.sayings.size()), "entry", "entries") + " erased for ever";
    }
};

std::string day_of(const people::Entry& entry) {
    return entry.saying.day ? base::to_string(*entry.saying.day) : std::string();
}

}  // namespace

namespace {

void add_names(PlayerNames& names, std::span<const people::Entry> entries) {
    for (const people::Entry& entry : entries) {
        if (const auto* added = std::get_if<people::PlayerAdded>(&entry.saying.words)) names[entry.seal] = added->name;
        if (const auto* changed = std::get_if<people::PlayerChanged>(&entry.saying.words); changed && changed->name)
            names[changed->player] = *changed->name;
    }
}

PlayerNames names_for(const JournalPage& page) {
    PlayerNames names = page.names;
    add_names(names, page.entries);
    return names;
}

}  // namespace

PlayerNames names_of_players(std::span<const people::Entry> entries) {
    PlayerNames names;
    add_names(names, entries);
    return names;
}

std::string in_words(const people::Words& words, const PlayerNames& names) { return std::visit(InWords{names}, words); }

Document describe(const JournalPage& page) {
    if (page.entries.empty()) return {{Title{"What was said last", true}, Paragraph{"Nothing has been said yet."}}};
    const PlayerNames names = names_for(page);
    const auto undone = people::undone_in(page.entries);
    Table table{{{"day"}, {"said", Fit::wrapped, 20}, {"note"}}, {}};
    for (auto entry = page.entries.rbegin(); entry != page.entries.rend() && table.rows.size() < page.limit; ++entry)
        table.rows.push_back({Cell(day_of(*entry)), Cell(in_words(entry->saying.words, names)),
                              Cell(std::string(undone.contains(entry->seal) ? "taken back"
                                               : entry->is_from_elsewhere   ? "from elsewhere"
                                                                            : ""))});
    Document document{{Title{"What was said last", true}, std::move(table)}};
    if (page.entries.size() > page.limit)
        document.blocks.emplace_back(
            Hint{fmt::format("The last {} of {}; --limit N shows more.", page.limit, page.entries.size())});
    return document;
}

std::string as_json(const JournalPage& page) {
    const PlayerNames names = names_for(page);
    const auto undone = people::undone_in(page.entries);
    Json json;
    json["version"] = 1;
    json["total"] = page.entries.size();
    json["said"] = Json::array();
    for (auto entry = page.entries.rbegin(); entry != page.entries.rend() && json["said"].size() < page.limit; ++entry)
        json["said"].push_back({{"seal", entry->seal},
                                {"day", entry->saying.day ? Json(base::to_string(*entry->saying.day)) : Json()},
                                {"kind", people::kind_of(entry->saying.words)},
                                {"words", in_words(entry->saying.words, names)},
                                {"taken_back", undone.contains(entry->seal)},
                                {"from_elsewhere", entry->is_from_elsewhere}});
    return finish(json);
}

Document describe_taken_back(std::span<const people::Entry> last, const PlayerNames& names) {
    Document document;
    for (const people::Entry& entry : last)
        document.blocks.emplace_back(Paragraph{"Taken back: " + in_words(entry.saying.words, names) + "."});
    return document;
}

}  // namespace report
