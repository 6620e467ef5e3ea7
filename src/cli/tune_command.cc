// `gamut tune`: everything about one tune.
#include <functional>
#include <optional>
#include <string>

#include "abc/read.h"
#include "analysis/analyse.h"
#include "answers/beside.h"
#include "answers/notes_asked.h"
#include "answers/player_named.h"
#include "answers/tune_named.h"
#include "answers/twins.h"
#include "cli/commands.h"
#include "cli/instrument_option.h"
#include "cli/refusal_words.h"
#include "cli/said_key.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"
#include "cli/ways_option.h"
#include "cli/write.h"
#include "collection/collection.h"
#include "instruments/instrument.h"
#include "library/library.h"
#include "report/beside_page.h"
#include "report/handling_page.h"
#include "report/tune_page.h"
#include "tune/facts.h"
#include "tune/setting.h"

namespace cli {

namespace {

using InHandOf = std::function<std::optional<report::InHand>(const tune::Setting&, const tune::TuneFacts&)>;

// The facts of a setting are made again from its own text, which the library keeps.
report::TunePage page_of(const collection::Collection& library, const tune::TuneRecord& record,
                         const InHandOf& in_hand) {
    report::TunePage page{record, {}, library.settings_of(record.id), {}, {}, false, {}, {}};
    for (const answers::Twin& twin : answers::probable_twins_of(library, record))
        if (auto other = library.setting_of_own(twin.other)) page.kin.push_back({std::move(*other), twin.likeness});
    for (const collection::Verdict& verdict : library.verdicts()) {
        auto one = library.setting_of_own(verdict.one);
        auto other = library.setting_of_own(verdict.other);
        if (one && other && (one->id == record.id || other->id == record.id))
            page.said.push_back({std::move(*one), std::move(*other), verdict.is_same});
    }
    const auto kept = library.abc_of(record.setting);
    if (!kept) return page;
    page.is_gone = kept->gone;
    page.abc = kept->text;
    const base::SourceFile source(kept->file, kept->text);
    base::Diagnostics diagnostics;
    const auto settings = abc::read_settings(source, diagnostics);
    if (settings.empty()) return page;
    page.facts = analysis::analyse(settings.back());
    page.in_hand = in_hand(settings.back(), with_said_key(page.facts, record));
    return page;
}

class TuneCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    std::optional<report::InHand> in_hand(const collection::Collection& library, const tune::Setting& setting,
                                          const tune::TuneFacts& facts);

    std::string which_;
    std::optional<std::string> beside_;
    InstrumentOption instrument_;
    std::optional<std::string> have_;
    WaysOption ways_;
    std::optional<instruments::Instrument> limited_;  // the instrument with the notes of --have alone
    std::string library_;
    Format format_;
};

void TuneCommand::add_to(CLI::App& command) {
    command.add_option("TUNE", which_, "an id, a title, or a part of one")->required();
    instrument_.add_to(command, "how it lies on this instrument, with the buttons, fingers or holes under the notes",
                       "Options", "--on,--instrument");
    command.add_option("--have", have_, "the notes you have: which of the tune's are missing, and what can be done")
        ->type_name("NOTES");
    ways_.add_to(command);
    command.add_option("--beside", beside_, "the bars in which this tune differs, side by side in one key")
        ->type_name("TUNE");
    add_library(command, library_);
    command.add_flag("--json", format_.json, "as JSON");
    command.footer("Example:  gamut tune kettle --on whistle-d\n          gamut tune 14 --beside 23");
}

std::optional<report::InHand> TuneCommand::in_hand(const collection::Collection& library, const tune::Setting& setting,
                                                   const tune::TuneFacts& facts) {
    const instruments::Instrument* instrument = instrument_.instrument();
    if (instrument == nullptr && !have_) return std::nullopt;
    report::InHand in_hand;
    in_hand.notes = have_.value_or("");
    if (have_) {
        std::vector<answers::LeftOutNotes> left_out;
        const music::NoteSet have =
            answers::notes_asked(answers::Part::have, *have_, instrument, answers::names_in(library), left_out);
        tell_left_out(left_out);
        if (instrument == nullptr) {
            in_hand.handling.near_miss = hands::find_near_miss(hands::line_of(setting.melody), have);
            return in_hand;
        }
        limited_ = instrument->only(have);
        instrument = &*limited_;
    }
    instrument = ways_.judged(instrument);
    in_hand.instrument = instrument;
    in_hand.handling = hands::handle(setting.melody, facts, *instrument);
    return in_hand;
}

int TuneCommand::run() {
    // What is misused is told before any tune is looked for.
    if (ways_.judged(instrument_.instrument()) == nullptr && ways_.is_given())
        throw Misuse("--ways is about the ways on an instrument; say which with --on");
    const library::Library library = library::Library::open_existing(library_file(library_));
    if (beside_) {
        if (instrument_.is_given() || have_)
            throw Misuse("--beside asks another question than --on and --have; leave them out");
        const answers::BesideAnswer page = answers::answer(library, answers::BesideQuestion{which_, *beside_});
        write(format_, page);
        return kDone;
    }
    const tune::TuneRecord record = answers::tune_named(library, which_);
    const report::TunePage page = page_of(
        library, record,
        [&](const tune::Setting& setting, const tune::TuneFacts& facts) { return in_hand(library, setting, facts); });
    write(format_, page);
    return kDone;
}

}  // namespace

std::unique_ptr<Command> tune_command() { return std::make_unique<TuneCommand>(); }

}  // namespace cli
