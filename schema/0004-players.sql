-- Players, and what they say of tunes: what happened to a tune on which day, what they wish for and what they will not learn. Like marks
-- it hangs on a tune's id and on nothing that is read from a file, so no import touches it; none of it can be made again.

CREATE TABLE player (
    id         INTEGER PRIMARY KEY,
    folded     TEXT NOT NULL UNIQUE CHECK (folded <> ''),             -- for comparing, by tune::fold_player_name
    name       TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 60),   -- characters
    instrument TEXT,                                                  -- the id of one that comes with the program
    low        INTEGER,                                               -- the notes as said, as in note_set; NULL: not said
    high       INTEGER,
    CHECK ((low IS NULL) = (high IS NULL))
) STRICT;

-- What was said of a player's tunes in one go, so that the last of these can be taken back whole, and then the one before it.
CREATE TABLE player_change (
    id        INTEGER PRIMARY KEY,                                    -- later ones greater
    player_id INTEGER NOT NULL REFERENCES player (id) ON DELETE CASCADE
) STRICT;

CREATE INDEX player_change_by_player ON player_change (player_id);

-- In which state a tune is follows from the last event that says so; all are kept, so that one can read back how it came.
CREATE TABLE player_event (
    id        INTEGER PRIMARY KEY,                                    -- in the order they were said
    player_id INTEGER NOT NULL REFERENCES player (id) ON DELETE CASCADE,
    tune_id   INTEGER NOT NULL REFERENCES tune (id),
    day       TEXT    NOT NULL CHECK (day GLOB '[0-9][0-9][0-9][0-9]-[0-1][0-9]-[0-3][0-9]'),
    event     TEXT    NOT NULL CHECK (event IN ('learning', 'known', 'rusty', 'forgotten', 'played', 'shaky')),
    place     INTEGER,                                                -- in its day, among the ids of that day; NULL: its id says it
    change_id INTEGER NOT NULL REFERENCES player_change (id) ON DELETE CASCADE
) STRICT;

CREATE INDEX player_event_by_player ON player_event (player_id, tune_id);
CREATE INDEX player_event_by_change ON player_event (change_id);

CREATE TABLE player_wish (
    player_id INTEGER NOT NULL REFERENCES player (id) ON DELETE CASCADE,
    tune_id   INTEGER NOT NULL REFERENCES tune (id),
    PRIMARY KEY (player_id, tune_id)
) STRICT, WITHOUT ROWID;

CREATE TABLE player_exclusion (
    player_id INTEGER NOT NULL REFERENCES player (id) ON DELETE CASCADE,
    tune_id   INTEGER NOT NULL REFERENCES tune (id),
    reason    TEXT    NOT NULL,                                       -- in the player's words; may be empty
    PRIMARY KEY (player_id, tune_id)
) STRICT, WITHOUT ROWID;

-- What a change found in the place of a wish or an exclusion, each row it wrote or deleted.
CREATE TABLE player_before (
    id        INTEGER PRIMARY KEY,                                    -- in the order it was done
    change_id INTEGER NOT NULL REFERENCES player_change (id) ON DELETE CASCADE,
    tune_id   INTEGER NOT NULL REFERENCES tune (id),
    list      TEXT    NOT NULL CHECK (list IN ('wish', 'exclusion')),
    was       TEXT                                                    -- of an exclusion the reason, of a wish ''; NULL: no row
) STRICT;

CREATE INDEX player_before_by_change ON player_before (change_id);
