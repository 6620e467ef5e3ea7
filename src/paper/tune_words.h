// What is said in words on a tune's pages.
#pragma once

#include <string>

#include "answers/tune_handout.h"
#include "paper/note_letters.h"
#include "paper/way_sign.h"

namespace paper {

std::string sentence(std::string words);  // with a capital letter first

// `Ina, Tin whistle in D`; empty where neither is known.
std::string who_in_words(const answers::TuneHandout& handout);

// `Jig. The foot taps 2 in a bar. Home note G. First note D.`
std::string facts_in_words(const answers::TuneHandout& handout, Names names);

// Every sign that stands on the page, and no other.
std::string legend_in_words(const answers::TuneHandout& handout, Names names, const SignLayout& layout);

// `Mondays, lesson 3 · from schoolroom.abc, tune 2 · made with gamut`
std::string footer_in_words(const answers::TuneHandout& handout, const std::string& whose);

// The floor of signs that its ways need.
SignLayout signs_used(const answers::TuneHandout& handout);

}  // namespace paper
