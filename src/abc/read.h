// The room's door: a source file in, settings out. Never throws for what is in the file, and always returns what could
// be read.
#pragma once

#include <functional>
#include <vector>

#include "abc/tune_tokens.h"
#include "abc/tunebook.h"
#include "base/diagnostics.h"
#include "base/source_file.h"
#include "tune/setting.h"

namespace abc {

// In file order, one for each tune. Findings go to `diagnostics`, with the place in `source`.
std::vector<tune::Setting> read_settings(const base::SourceFile& source, base::Diagnostics& diagnostics);

// The same one at a time, for files of a hundred thousand tunes. Findings are in order when it returns.
void read_each_setting(const base::SourceFile& source, base::Diagnostics& diagnostics,
                       const std::function<void(tune::Setting&&)>& take);

// Every block with its tokens, in file order; the tokens live until the next call.
void walk_tokens(const base::SourceFile& source, base::Diagnostics& diagnostics,
                 const std::function<void(const Block&, const Tokens&)>& visit);

}  // namespace abc
