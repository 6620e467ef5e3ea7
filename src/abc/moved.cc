// The tunes of a book one after the other; then what was written is read again, and counts only if it sounds as it
// should. Tested by moved_test.cc, tests/outside/moved.cc and tests/outside/moved.py.
#include "abc/moved.h"

#include <optional>
#include <vector>

#include "abc/moved_tune.h"
#include "abc/read.h"
#include "abc/report_fault.h"
#include "abc/sounds_moved.h"
#include "abc/tune_reader.h"

namespace abc {

namespace {

class BookMover {
public:
    BookMover(const base::SourceFile& source, int semitones, base::Diagnostics& diagnostics)
        : source_(source), semitones_(semitones), diagnostics_(diagnostics) {}

    std::string move() {
        const Tunebook book = split_tunebook(source_, unheard_);
        dialect_.is_strict = book.is_strict;
        for (const Block& block : book.blocks) {
            if (block.kind == Block::Kind::file_header) {
                read_tokens(source_, block, dialect_, file_header_, unheard_);
                read_file_header(file_header_, header_, unheard_);
            } else if (block.kind == Block::Kind::tune) {
                move_block(block);
            }
        }
        std::string text = edits_.applied_to(source_.text());
        return is_right(text) ? text : std::string(source_.text());
    }

private:
    void refuse(base::Span where, const std::string& why) {
        report(diagnostics_, code::kNotMoved, where, why + "; the tune is left as it is");
    }

    void move_block(const Block& block) {
        Dialect dialect = dialect_;  // what a tune sets ends with it
        Tokens tokens;
        read_tokens(source_, block, dialect, tokens, unheard_);
        if (moved_by_.empty() || dialect_.macros.empty()) macro_key_ = first_key(tokens);
        auto hindrance = move_with(tokens, MacroFate::kept);
        if (hindrance && hindrance->is_macro) hindrance = move_with(tokens, MacroFate::written_out);
        if (hindrance) refuse(hindrance->where, hindrance->message);
        moved_by_.push_back(hindrance ? 0 : semitones_);
    }

    // Leaves edits and remarks only where nothing hinders.
    std::optional<Hindrance> move_with(const Tokens& tokens, MacroFate fate) {
        const std::size_t edits_before = edits_.size();
        base::Diagnostics remarks;
        auto hindrance = move_tune(source_, tokens, header_, macro_key_, semitones_, fate, edits_, remarks);
        if (!hindrance && moved_by_.empty())
            hindrance = move_file_header(source_, file_header_, macro_key_, semitones_, fate, edits_, remarks);
        if (hindrance)
            edits_.forget_after(edits_before);
        else
            for (const base::Diagnostic& remark : remarks.kept())
                diagnostics_.add(remark.severity, remark.code, remark.where, remark.message);
        return hindrance;
    }

    bool is_right(const std::string& text) {
        const base::SourceFile after_file(source_.label(), text);
        const std::vector<tune::Setting> before = read_settings(source_, unheard_);
        const std::vector<tune::Setting> after = read_settings(after_file, unheard_);
        for (std::size_t at = 0; at < before.size(); ++at) {
            if (at < after.size() && sounds_moved(before[at], after[at], moved_by_[at])) continue;
            refuse({before[at].where.begin, before[at].where.begin + 1},
                   "in the new key this would not be the same tune");
            return false;
        }
        return true;
    }

    const base::SourceFile& source_;
    int semitones_;
    base::Diagnostics& diagnostics_;
    base::Diagnostics unheard_;  // read_settings tells them
    Dialect dialect_;
    Header header_;
    Tokens file_header_;
    music::StatedKey macro_key_;
    std::vector<int> moved_by_;  // of each tune; 0 where it stayed
    Edits edits_;
};

}  // namespace

std::string moved(const base::SourceFile& source, int semitones, base::Diagnostics& diagnostics) {
    if (semitones == 0) return std::string(source.text());
    return BookMover(source, semitones, diagnostics).move();
}

}  // namespace abc
