// The tokens of one tune made into a Setting: fields obeyed where they stand, notes given to their voice.
#pragma once

#include "abc/header.h"
#include "abc/tune_tokens.h"
#include "base/diagnostics.h"
#include "tune/setting.h"

namespace abc {

// `header` holds what the file header set. The place of the block (line, where) is the caller's to fill in.
tune::Setting read_tune(const Tokens& tokens, Header header, base::Diagnostics& diagnostics);

// Fields of a file header, obeyed into `header`.
void read_file_header(const Tokens& tokens, Header& header, base::Diagnostics& diagnostics);

}  // namespace abc
