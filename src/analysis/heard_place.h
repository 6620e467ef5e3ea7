// Where in a tune a heard phrase fits best, note for note: what puts tunes that have it in an order.
#pragma once

#include "analysis/find_heard.h"
#include "analysis/heard.h"
#include "tune/outline.h"

namespace analysis {

struct HeardPlace {
    Hit hit;          // errors: notes that are wrong, too many or left out; one played again, or once, is none
    double cost = 0;  // from 0 for all as heard; the lower the likelier
};

// Fewer in cost, then as `better` of find_heard.h says.
bool better(const HeardPlace& a, const HeardPlace& b) noexcept;

// What a difference costs, where a wrong note costs one. Source: house choice; tests/alike/README.md tells how often a
// tune is among the first five.
struct HeardCosts {
    double wrong = 1;
    double neighbour = 0.8;        // wrong by a semitone or a tone
    double left_out = 0.9;         // a note of the phrase that is not in the tune, or the other way round
    double passing = 0.45;         // one that takes seven tenths of the usual time or less, as in a triplet or a run
    double repeated = 0.25;        // a note played again that is one in the other
    double octave = 0.12;          // from there on an octave higher or lower, where the phrase tells octaves
    double another_key = 0.35;     // than it was heard in
    double part = 0.1, bar = 0.2;  // it begins a part but not the tune, or a bar
    double within = 0.35;          // it begins in the middle of a bar
};

// The best place in any key: an alignment by least cost, as Sellers, Journal of Algorithms 1(4), 1980, pages 359-373.
// Time goes with the product of both lengths. `at_start`: only what begins the tune. Nothing for a tune without notes.
std::optional<HeardPlace> find_place(const Heard& heard, const tune::Outline& outline, bool at_start);

}  // namespace analysis
