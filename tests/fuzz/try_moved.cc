#include <algorithm>
#include <numeric>
#include <vector>

#include "abc/codes.h"
#include "abc/mail_residue.h"
#include "abc/moved.h"
#include "abc/read.h"
#include "base/diagnostics.h"
#include "base/invariant.h"
#include "base/source_file.h"
#include "base/utf8.h"
#include "support/moved_apart.h"
#include "targets.h"

namespace fuzz {

namespace {

// -24 to 24, never 0; another one for nearly every text.
int semitones_for(const std::string& bytes) {
    const unsigned sum = std::accumulate(
        bytes.begin(), bytes.end(), 0U, [](unsigned all, char byte) { return all + static_cast<unsigned char>(byte); });
    const int semitones = static_cast<int>(sum % (2 * abc::kMostSemitones)) - abc::kMostSemitones;
    return semitones < 0 ? semitones : semitones + 1;
}

bool was_said(const base::Diagnostics& findings) {
    return std::any_of(findings.kept().begin(), findings.kept().end(),
                       [](const base::Diagnostic& finding) { return finding.code == abc::code::kNotMoved.token; });
}

// Every tune sounds exactly so far away, or stays as it is where that is told.
void check_apart(const base::SourceFile& source, const base::SourceFile& other, int semitones, bool may_stay) {
    base::Diagnostics unheard;
    const std::vector<tune::Setting> before = abc::read_settings(source, unheard);
    const std::vector<tune::Setting> after = abc::read_settings(other, unheard);
    INVARIANT(before.size() == after.size());
    for (std::size_t at = 0; at < before.size(); ++at) {
        const bool is_moved = support::difference(before[at], after[at], semitones).empty();
        INVARIANT(is_moved || (may_stay && support::difference(before[at], after[at], 0).empty()));
    }
}

}  // namespace

void try_moved(const std::string& bytes) {
    const base::SourceFile source = abc::without_residue(base::decode_source("fuzz.abc", bytes));
    const int semitones = semitones_for(bytes);
    base::Diagnostics findings;
    const base::SourceFile there("fuzz.abc", abc::moved(source, semitones, findings));
    INVARIANT(base::is_utf8(there.text()));
    check_apart(source, there, semitones, was_said(findings));
    for (const base::Diagnostic& finding : findings.kept())
        INVARIANT(finding.where.begin <= finding.where.end && finding.where.end <= source.text().size());
}

}  // namespace fuzz
