-- What a person writes for a tune though it is none of its titles, or fits others too: from then on it means this one. Like tags it hangs on
-- the tune's id, so no import touches it; it is worked out from the journal. A library that gets its journal just now has the table already.

CREATE TABLE IF NOT EXISTS tune_alias (
    folded  TEXT    PRIMARY KEY CHECK (folded <> ''),   -- as titles are compared
    text    TEXT    NOT NULL,                           -- as written last
    tune_id INTEGER NOT NULL REFERENCES tune (id)
) STRICT, WITHOUT ROWID;
