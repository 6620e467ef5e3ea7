// A tune on paper: every bar in order, for somebody who reads no music.
#pragma once

#include <string>
#include <vector>

#include "answers/tune_handout.h"
#include "paper/note_letters.h"
#include "paper/page.h"
#include "paper/staff.h"

namespace paper {

struct Looks {
    Names names = Names::letters;
    bool is_large = false;          // for who sees little
    Engrave engrave{};              // for staves below the blocks; none: no staves
    bool staff_costs_page = false;  // staves stand there though they take a page more
};

struct TunePages {
    std::vector<Page> pages;
    Foot foot;
};

// `whose`: class, lesson and date, for the footer; may be empty.
TunePages tune_pages(const answers::TuneHandout& handout, const Looks& looks, const std::string& whose = {});

// `high C sharp`, of all; parted by commas.
std::string notes_in_words(const music::NoteSet& notes, int fifths, Names names);

// For hands and ears, of an instrument; who practises shall read it. Never empty.
std::string caution_for(const instruments::Instrument* instrument);

}  // namespace paper
