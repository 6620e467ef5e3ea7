-- Terms that were planned and kept by name. A lesson that was given must read the same for ever, whatever becomes of the tunes in the
-- library, so a term is kept whole, as a text of its own (src/syllabus/stored_syllabus.h), and points to no other table.

CREATE TABLE syllabus (
    id     INTEGER PRIMARY KEY,
    folded TEXT NOT NULL UNIQUE CHECK (folded <> ''),            -- for comparing: without case, accents and needless blanks
    name   TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 60),  -- characters
    text   TEXT NOT NULL CHECK (text <> ''),
    text_before TEXT CHECK (text_before <> '')                   -- before the last change, for taking it back
) STRICT;
