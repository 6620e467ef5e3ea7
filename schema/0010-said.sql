-- What a person says of a tune that would else be read or computed: its rhythm and its key. It goes before what the file states and what
-- the notes tell, in every answer. Like tags it hangs on the tune's id and on nothing that is read from a file, so no import touches it.
--
-- Where several tunes have come together, the words said last hold. Later words have the greater said.

CREATE TABLE tune_rhythm (
    tune_id INTEGER PRIMARY KEY REFERENCES tune (id),
    rhythm  TEXT    NOT NULL CHECK (length(rhythm) BETWEEN 1 AND 60),   -- a token
    said    INTEGER NOT NULL
) STRICT;

-- A key belongs to one written version: it is kept of the setting it was said of, by that setting's own tune, and moves along for
-- settings of the same tune in other keys.
CREATE TABLE tune_key (
    tune_id INTEGER PRIMARY KEY REFERENCES tune (id),
    tonic   TEXT    NOT NULL,
    mode    TEXT    NOT NULL CHECK (mode IN ('major', 'dorian', 'phrygian', 'lydian', 'mixolydian', 'minor', 'locrian')),
    said    INTEGER NOT NULL
) STRICT;
