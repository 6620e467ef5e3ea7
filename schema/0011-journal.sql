-- Everything a person says, one row a saying, in a journal that only grows. The tables of marks, verdicts, players and terms are worked
-- out from it, as what is computed is worked out from the files; schema/journal.md says what stands in `words`. What older versions kept is
-- written into it when a library is brought up to date (src/library/journal_begun.cc).
--
-- Taking back is a saying too, so what stood in player_change and player_before is no longer kept twice.

CREATE TABLE saying (
    id                INTEGER PRIMARY KEY,                         -- as it came into this library
    seal              TEXT    NOT NULL UNIQUE,                     -- checksum: of before, clock and words_seal; names it everywhere
    before            TEXT,                                        -- the seal of the one said before it; NULL: a first one
    clock             INTEGER NOT NULL CHECK (clock >= 1),
    words_seal        TEXT    NOT NULL,                            -- checksum of words; stays when they are erased
    is_from_elsewhere INTEGER NOT NULL CHECK (is_from_elsewhere IN (0, 1)),  -- ids of tunes are another library's
    kind              TEXT,                                        -- what `said` is in words; NULL: erased
    words             TEXT,                                        -- JSON
    CHECK ((kind IS NULL) = (words IS NULL))
) STRICT;

-- The order in which sayings hold.
CREATE INDEX saying_in_order ON saying (clock, seal);

-- The last saying of this library's own, and how many there are in all: one that is lost at the end is missed too.
CREATE TABLE journal_head (
    id      INTEGER PRIMARY KEY CHECK (id = 1),
    seal    TEXT,
    sayings INTEGER NOT NULL CHECK (sayings >= 0),
    clock   INTEGER NOT NULL CHECK (clock >= 0)                    -- the greatest of all
) STRICT;
INSERT INTO journal_head (id, seal, sayings, clock) VALUES (1, NULL, 0, 0);

-- Of what is worked out, a checksum over all rows of a subject: a row that has changed by itself is told, never believed.
CREATE TABLE kept_sum (
    subject TEXT PRIMARY KEY CHECK (subject IN ('marks', 'verdicts', 'players', 'terms')),
    sum     INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
INSERT INTO kept_sum (subject, sum) VALUES ('marks', 0), ('verdicts', 0), ('players', 0), ('terms', 0);

DROP TABLE player_before;
DROP TABLE player_event;
DROP TABLE player_change;

-- In which state a tune is follows from the last event that says so; all are kept, so that one can read back how it came. The id is the
-- rank of the saying among all: the order in which they were said.
CREATE TABLE player_event (
    id        INTEGER PRIMARY KEY,
    player_id INTEGER NOT NULL REFERENCES player (id) ON DELETE CASCADE,
    tune_id   INTEGER NOT NULL REFERENCES tune (id),
    day       TEXT    NOT NULL CHECK (day GLOB '[0-9][0-9][0-9][0-9]-[0-1][0-9]-[0-3][0-9]'),
    event     TEXT    NOT NULL CHECK (event IN ('learning', 'known', 'rusty', 'forgotten', 'played', 'shaky')),
    place     INTEGER                                              -- in its day, among the ids of that day; NULL: its id says it
) STRICT;

CREATE INDEX player_event_by_player ON player_event (player_id, tune_id, day);
