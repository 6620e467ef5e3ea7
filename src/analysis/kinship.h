// How alike two settings are as tunes, whatever key each is in.
#pragma once

#include "analysis/contour.h"
#include "tune/likeness.h"

namespace analysis {

// 0 to 1, the same both ways; 1 for equal contours. Bars are aligned one with another so that their likeness adds up to
// most: a local alignment, as Smith and Waterman, Journal of Molecular Biology 147, 1981, pages 195-197, on what sounds
// at the same place of the bar, as Mongeau and Sankoff, Computers and the Humanities 24, 1990, pages 161-175, weigh
// pitches by their time; it may go on anywhere else in the other tune, at a cost, so that parts may stand in another
// order. The sum is set against all bars of the shorter tune, so that a stock phrase which many tunes share does not
// make them kin. Key and octave do not count, nor do pick-ups, repeats and notes that fill in between slots; a part
// missing from one does not either. The same step of the scale in another mode counts nearly as much as the same note.
// Where one tune has about twice the notes in a bar, its half bars are tried against the bars of the other.
//
// The number says how likely the two are one tune; kinship.cc tells how it was made.
double compare(const Contour& a, const Contour& b);

// The number before it is made a likelihood, for fitting and for tables: 0 to 1.
double shared_part(const Contour& a, const Contour& b);

// Whether a bar of the first may be as long as two of the second: it has about twice the notes, and the second has
// enough for the halves to say something.
bool may_be_wider(const Contour& dense, const Contour& sparse);

using tune::kPossibleKin;
using tune::kProbableKin;

}  // namespace analysis
