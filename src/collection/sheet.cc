// Tested by sieve_test.cc.
#include "collection/sheet.h"

namespace collection {

Columns columns_of(const Selection& s) {
    Columns columns;
    columns.add(Column::ornaments, s.ornaments);
    columns.add(Column::ends, s.starts_on || s.ends_on);
    columns.add(Column::key, s.tonic || s.mode || s.octave == OctaveRange::home);
    columns.add(Column::candidates, s.tonic || s.mode);
    columns.add(Column::rhythm, s.rhythm.has_value());
    columns.add(Column::meter, s.meter.has_value());
    columns.add(Column::file, s.file.has_value());
    columns.add(Column::titles, s.title.has_value());
    columns.add(Column::scrap, !s.scraps);
    columns.add(Column::tags, s.tag.has_value());
    return columns;
}

Columns columns_of(Sort sort) {
    Columns columns;
    columns.add(Column::file);
    columns.add(Column::line);
    columns.add(Column::first_title, sort != Sort::file);
    columns.add(Column::key, sort == Sort::key);
    columns.add(Column::rhythm, sort == Sort::rhythm);
    return columns;
}

}  // namespace collection
