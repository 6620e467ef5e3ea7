#include "answers/filter.h"

namespace answers {

bool narrows(const Filter& filter) {
    const collection::Selection& columns = filter.columns;
    return !filter.fits.empty() || !filter.players.empty() || filter.missing || filter.state || !columns.uses.empty() ||
           columns.avoids || columns.rhythm || columns.meter || columns.tonic || columns.mode || columns.starts_on ||
           columns.ends_on || columns.span || columns.octave || columns.title || columns.file || columns.tag ||
           columns.ornaments || columns.settings;
}

}  // namespace answers
