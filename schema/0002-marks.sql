-- What a person says of a tune: tags and a count. They hang on the tune's id and on nothing that is read from a file, so no import
-- touches them: the tune may move, change, go and come back. None of it can be made again, so an import never deletes here.

-- Each tag once, however many tunes have it: shown as it was first written. One that no tune has any longer is deleted, so that a slip
-- of the pen is not shown for ever.
CREATE TABLE tag (
    id     INTEGER PRIMARY KEY,
    folded TEXT NOT NULL UNIQUE CHECK (folded <> ''),             -- for comparing: without case, accents and needless blanks
    text   TEXT NOT NULL CHECK (length(text) BETWEEN 1 AND 100)   -- characters
) STRICT;

CREATE TABLE tune_tag (
    tune_id INTEGER NOT NULL REFERENCES tune (id),
    tag_id  INTEGER NOT NULL REFERENCES tag (id),
    PRIMARY KEY (tune_id, tag_id)
) STRICT, WITHOUT ROWID;

CREATE INDEX tune_tag_by_tag ON tune_tag (tag_id);

-- How often a tune was asked for or played. No row: nobody said; that is not 0.
CREATE TABLE tune_count (
    tune_id INTEGER PRIMARY KEY REFERENCES tune (id),
    times   INTEGER NOT NULL CHECK (times >= 0)
) STRICT;
