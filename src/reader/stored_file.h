// A file's text as what a collection keeps of it: read, analysed, looked at for what is odd. No disk, no tables: the
// importer of a library and whoever holds a collection in memory take files in by it.
#pragma once

#include "base/diagnostics.h"
#include "base/source_file.h"
#include "collection/stored_setting.h"

namespace reader {

// Its settings, header and diagnostics, without what only a disk knows (path, size, times, checksum). What was odd is
// told in `diagnostics` as well.
collection::StoredFile stored_file(const base::SourceFile& source, base::Diagnostics& diagnostics);

}  // namespace reader
