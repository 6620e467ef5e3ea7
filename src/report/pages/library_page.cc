#include "report/pages/library_page.h"

#include <fmt/format.h>

#include "report/words/json.h"
#include "report/words/words.h"

namespace report {

std::string size_in_words(std::uint64_t bytes) {
    if (bytes < 1000) return std::to_string(bytes) + (bytes == 1 ? " byte" : " bytes");
    double size = static_cast<double>(bytes);
    const char* unit = "";
    for (const char* next : {"KB", "MB", "GB"}) {
        if (size < 1000) break;
        size /= 1000;
        unit = next;
    }
    return fmt::format("{:.1f} {}", size, unit);
}

Document describe(const LibraryPage& page) {
    Particulars lines;
    const auto add = [&](const char* label, std::string text) { lines.lines.emplace_back(label, std::move(text)); };
    add("library", page.file);
    add("size", size_in_words(page.bytes));
    add("who may read", page.may_others_read ? "others too; chmod 600 keeps it to you" : "you alone");
    const auto with_gone = [](std::string text, std::int64_t gone) {
        return gone > 0 ? text + " and " + std::to_string(gone) + " that are gone" : text;
    };
    add("files", with_gone(std::to_string(page.files), page.files_gone));
    add("tunes", counted(page.tunes, "tune", "tunes") + ", " +
                     with_gone(counted(page.settings, "version", "versions"), page.settings_gone));
    add("said of tunes", std::to_string(page.tagged) + " with tags, " + std::to_string(page.counted) +
                             " with a count, " + counted(page.verdicts, "verdict", "verdicts"));
    add("players", std::to_string(page.players) + ": " + counted(page.events, "event", "events") + ", " +
                       counted(page.wishes, "wish", "wishes") + ", " + counted(page.exclusions, "tune", "tunes") +
                       " not wanted");
    add("terms", std::to_string(page.terms));
    for (std::size_t at = 0; at < page.backups.size(); ++at)
        add(at == 0 ? "backups" : "", page.backups[at].first + ", " + size_in_words(page.backups[at].second));
    Document document{{Title{"The library", true}, std::move(lines)}};
    if (page.backups.empty())
        document.blocks.emplace_back(Hint{"No backup lies beside it. gamut library backup FILE makes one."});
    return document;
}

std::string as_json(const LibraryPage& page) {
    Json json;
    json["version"] = 1;
    json["library"] = page.file;
    json["bytes"] = page.bytes;
    json["others_may_read"] = page.may_others_read;
    json["computed"] = {{"files", page.files},
                        {"files_gone", page.files_gone},
                        {"tunes", page.tunes},
                        {"settings", page.settings},
                        {"settings_gone", page.settings_gone}};
    json["said"] = {{"tagged", page.tagged},         {"counted", page.counted}, {"verdicts", page.verdicts},
                    {"players", page.players},       {"events", page.events},   {"wishes", page.wishes},
                    {"exclusions", page.exclusions}, {"terms", page.terms}};
    json["backups"] = Json::array();
    for (const auto& [file, bytes] : page.backups) json["backups"].push_back({{"file", file}, {"bytes", bytes}});
    return finish(json);
}

Document describe(const SoundnessPage& page) {
    Document document;
    document.blocks.emplace_back(Title{"Whether the library is sound", true});
    const std::string read = counted(page.settings, "version", "versions") + " and " +
                             counted(page.sayings, "thing", "things") + " people said were read";
    if (page.flaws.empty()) {
        document.blocks.emplace_back(Paragraph{"The library is sound: " + read + ", and nothing is wrong."});
        return document;
    }
    document.blocks.emplace_back(Paragraph{"The library is damaged; " + read + "."});
    Table table{{{"where"}, {"what is wrong", Fit::wrapped, 20}}, {}};
    for (const SoundnessPage::Flaw& flaw : page.flaws) table.rows.push_back({Cell(flaw.part), Cell(flaw.sentence)});
    document.blocks.emplace_back(std::move(table));
    for (const std::string& sentence : page.advice) document.blocks.emplace_back(Paragraph{sentence});
    return document;
}

std::string as_json(const SoundnessPage& page) {
    Json json;
    json["version"] = 1;
    json["library"] = page.file;
    json["sound"] = page.flaws.empty();
    json["settings"] = page.settings;
    json["sayings"] = page.sayings;
    json["flaws"] = Json::array();
    for (const SoundnessPage::Flaw& flaw : page.flaws)
        json["flaws"].push_back({{"part", flaw.part}, {"what", flaw.sentence}});
    json["advice"] = page.advice;
    return finish(json);
}

Document describe(const SalvagePage& page) {
    Document document;
    std::int64_t rows = 0;
    Table table{{{"part"}, {"rows read"}, {"not taken"}, {"lost"}}, {}};
    for (const SalvagePage::Part& part : page.parts) {
        rows += part.rows;
        if (part.refused > 0 || part.has_gaps)
            table.rows.push_back({Cell(part.name), Cell(part.rows), Cell(part.refused),
                                  Cell(std::string(part.has_gaps ? "some could not be read" : ""))});
    }
    document.blocks.emplace_back(Paragraph{"Salvaged: " + page.file + ", with " + counted(rows, "row", "rows") +
                                           (page.is_whole ? "; nothing was lost." : ".")});
    if (!table.rows.empty()) document.blocks.emplace_back(std::move(table));
    if (page.tunes_made_up > 0)
        document.blocks.emplace_back(
            Paragraph{counted(page.tunes_made_up, "tune", "tunes") +
                      " of which only what was said is left: an import of the same files can bring back the rest."});
    if (page.rows_let_go > 0)
        document.blocks.emplace_back(
            Paragraph{counted(page.rows_let_go, "row", "rows") + " pointed to what is lost and were left out."});
    return document;
}

}  // namespace report
