// Tested by holdings_test.cc.
#include "library/holdings.h"

#include <sys/stat.h>

#include <algorithm>
#include <set>

#include "base/failure.h"
#include "library/backup.h"
#include "library/database.h"
#include "library/existing_library.h"
#include "library/journal.h"
#include "library/library_file.h"
#include "library/migrate.h"
#include "library/statement.h"
#include "library/syllabi.h"
#include "tune/outline.h"

namespace library {

namespace {

namespace fs = std::filesystem;

// Lines of SQLite's own that are repeated: where there are more, the file is lost as a whole.
constexpr std::size_t kMostLines = 8;

class Look {
public:
    Look(fs::path file, Soundness& soundness) : file_(std::move(file)), soundness_(soundness) {}

    void flaw(Part part, std::string sentence) { soundness_.flaws.push_back({part, std::move(sentence)}); }

    bool is_told(const std::string& fault) const {
        return std::any_of(told_.begin(), told_.end(),
                           [&](const std::string& told) { return told.find(fault) != std::string::npos; });
    }

    // What any of the commands may meet ends this part alone.
    template <typename Read>
    void at(Part part, const std::string& what, Read read) {
        try {
            read();
        } catch (const base::Failure& failure) {
            if (told_.insert(failure.what()).second) flaw(part, what + ": " + failure.what());
        } catch (const std::exception& unreadable) {
            flaw(part, what + ": " + unreadable.what());
        }
    }

    void pages(const Database& database) {
        at(Part::file, "pages", [&] {
            Statement rows(database, "PRAGMA integrity_check(" + std::to_string(kMostLines) + ")");
            while (rows.step())
                if (rows.text(0) != "ok") flaw(Part::file, std::string(rows.text(0)));
        });
        at(Part::file, "references", [&] {
            Statement rows(database,
                           "SELECT \"table\", count(*), parent FROM pragma_foreign_key_check GROUP BY 1, 3 ORDER BY 1");
            while (rows.step())
                flaw(Part::file, std::string(rows.text(0)) + ": " + std::to_string(rows.number(1)) +
                                     " rows point to no " + std::string(rows.text(2)));
        });
    }

    void texts(const Database& database) {
        at(Part::computed, "ABC", [&] {
            Statement rows(database,
                           "SELECT own_tune_id FROM setting WHERE id NOT IN (SELECT setting_id FROM abc) ORDER BY 1");
            while (rows.step()) flaw(Part::computed, "tune " + std::to_string(rows.number(0)) + " has no ABC");
        });
    }

    void computed(const Library& library) {
        at(Part::computed, "settings", [&] {
            collection::Selection all;
            all.settings = true;
            for (const tune::TuneRecord& record : library.select_tunes(all).rows) {
                ++soundness_.settings;
                library.abc_of(record.setting);
            }
        });
        at(Part::computed, "melodies", [&] {
            std::int64_t broken = 0;
            library.visit_outlines([&](const collection::StoredOutline& stored) {
                if (!tune::decode_outline(stored.bytes)) ++broken;
            });
            if (broken > 0) flaw(Part::computed, std::to_string(broken) + " melodies cannot be read");
        });
        at(Part::computed, "titles", [&] { library.titled_tunes(); });
        at(Part::computed, "kinds", [&] { library.setting_kinds(); });
        at(Part::computed, "oddities", [&] { library.oddities(); });
        at(Part::computed, "findings", [&] { library.diagnostics(); });
    }

    void said(const Library& library, const std::function<void(const std::string&)>& read_term) {
        at(Part::said, "marks", [&] { soundness_.sayings += static_cast<std::int64_t>(library.marks().size()); });
        at(Part::said, "verdicts", [&] { soundness_.sayings += static_cast<std::int64_t>(library.verdicts().size()); });
        at(Part::said, "players", [&] {
            for (const collection::PlayerRecord& record : library.players()) {
                soundness_.sayings += static_cast<std::int64_t>(library.history_of(record.player.id).size());
                for (const tune::PlayerTune& tune : record.tunes)
                    soundness_.sayings += (tune.wished ? 1 : 0) + (tune.excluded ? 1 : 0);
            }
        });
        at(Part::said, "journal", [&] {
            soundness_.is_journal_sound = false;
            const JournalFaults faults = faults_of_journal(file_);
            for (const std::string& fault : faults.said) flaw(Part::said, fault);
            for (const std::string& fault : faults.kept)
                if (!is_told(fault)) flaw(Part::said, fault);
            soundness_.is_journal_sound = faults.said.empty();
        });
        at(Part::said, "terms", [&] {
            for (const KeptSyllabus& kept : kept_syllabi(file_))
                at(Part::said, "term \"" + kept.name + "\"", [&] {
                    read_term(kept.text);
                    ++soundness_.sayings;
                });
        });
    }

private:
    fs::path file_;
    Soundness& soundness_;
    std::set<std::string> told_;  // what one fault keeps several parts from is told once
};

}  // namespace

Holdings holdings_of(const fs::path& file) {
    Holdings holdings;
    holdings.computed = Library::open_existing(file).counts();
    const auto database = open_existing_library(file, Access::read);
    const auto count = [&](const char* what) { return database->number(std::string("SELECT count(*) FROM ") + what); };
    holdings.tagged = count("(SELECT DISTINCT tune_id FROM tune_tag)");
    holdings.counted = count("tune_count");
    holdings.verdicts = count("verdict");
    holdings.players = count("player");
    holdings.events = count("player_event");
    holdings.wishes = count("player_wish");
    holdings.exclusions = count("player_exclusion");
    holdings.terms = count("syllabus");
    struct stat status {};
    if (::stat(file.c_str(), &status) == 0) {
        holdings.bytes = static_cast<std::uintmax_t>(status.st_size);
        holdings.may_others_read = (status.st_mode & (S_IRGRP | S_IROTH)) != 0;
    }
    for (const fs::path& backup : backups_of(file)) holdings.backups.push_back({backup, fs::file_size(backup)});
    return holdings;
}

Soundness look_through(const fs::path& file, const std::function<void(const std::string& text)>& read_term) {
    Soundness soundness;
    Look look(file, soundness);
    const auto database = open_existing_library(file, Access::read);
    look.pages(*database);
    look.texts(*database);
    look.at(Part::file, "library", [&] {
        const Library library = Library::open_existing(file);
        look.said(library, read_term);
        look.computed(library);
    });
    return soundness;
}

}  // namespace library
