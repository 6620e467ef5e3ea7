// What mail programs and web pages left in a file: `=20`, `=3D` and `=` at a line's end (quoted-printable, RFC 2045,
// section 6.7), `&quot;` and its like where music or instructions stand.
#pragma once

#include "base/diagnostics.h"
#include "base/source_file.h"

namespace abc {

// The file as it was before. Quoted-printable is decoded where a tune shows two signs of it that ABC cannot mean, or
// the file three and the tune one; a sign that may be a natural before a note (`=D3`, `=C3`) never is. Titles and words
// keep their entities, which ABC 2.1, section 8.2 has. Places stay those of the file.
base::SourceFile without_residue(base::SourceFile source);

// Tells it once a file and kind, at the first place, with the count.
void report_residue(const base::SourceFile& source, base::Diagnostics& diagnostics);

}  // namespace abc
