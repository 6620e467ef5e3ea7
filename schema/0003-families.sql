-- Settings that are one tune, and what else is known of a tune by its music.
--
-- Every setting begins as a tune of its own (own_tune_id, for ever). setting.tune_id is the tune it belongs to now: the first of those
-- found or said to be the same. It is worked out anew from melody_class and verdict at the end of every import and whenever a person
-- speaks (an import that is cut off leaves it to the next); no tune is ever
-- deleted, so nothing a person said of one is lost when tunes come together or part again.

ALTER TABLE tune ADD COLUMN family_id INTEGER REFERENCES tune (id);      -- the tune it belongs to now; NULL: itself
CREATE INDEX tune_by_family ON tune (family_id) WHERE family_id IS NOT NULL;

ALTER TABLE setting ADD COLUMN own_tune_id INTEGER REFERENCES tune (id);
ALTER TABLE setting ADD COLUMN melody_class INTEGER;                     -- equal for exactly the same tune in any key; NULL: too short
ALTER TABLE setting ADD COLUMN rhythm_possible TEXT NOT NULL DEFAULT ''; -- 'hornpipe,march': tokens, beside a computed rhythm
ALTER TABLE setting ADD COLUMN form TEXT NOT NULL DEFAULT '';            -- 'AABB'
ALTER TABLE setting ADD COLUMN part_keys TEXT NOT NULL DEFAULT '';       -- 'G major,D major', one a part; '' where no part has its own
ALTER TABLE setting ADD COLUMN largest_leap INTEGER CHECK (largest_leap > 0);  -- semitones
UPDATE setting SET own_tune_id = tune_id;

-- All that working out families looks at. Grows at its end.
CREATE INDEX setting_by_own_tune ON setting (own_tune_id, tune_id, melody_class);

-- The melody as it is compared and searched: see src/tune/outline.h.
CREATE TABLE outline (
    setting_id INTEGER PRIMARY KEY REFERENCES setting (id),
    melody     BLOB NOT NULL
) STRICT;

-- What a person says of two tunes, by their own ids. Never deleted; saying otherwise changes it. Later words have the greater said.
CREATE TABLE verdict (
    one_id   INTEGER NOT NULL REFERENCES tune (id),
    other_id INTEGER NOT NULL REFERENCES tune (id),
    is_same  INTEGER NOT NULL CHECK (is_same IN (0, 1)),
    said     INTEGER NOT NULL,
    PRIMARY KEY (one_id, other_id),
    CHECK (one_id < other_id)
) STRICT, WITHOUT ROWID;

-- What looks wrong in a setting beyond what diagnostic holds of its file.
CREATE TABLE oddity (
    setting_id INTEGER NOT NULL REFERENCES setting (id),
    place      INTEGER NOT NULL CHECK (place >= 0),
    kind       TEXT    NOT NULL,                                         -- 'bar-length', ...: src/tune/oddity.h
    severity   TEXT    NOT NULL CHECK (severity IN ('error', 'warning', 'remark')),
    line       INTEGER NOT NULL CHECK (line >= 1),
    "column"   INTEGER NOT NULL CHECK ("column" >= 1),
    message    TEXT    NOT NULL,
    advice     TEXT    NOT NULL,
    PRIMARY KEY (setting_id, place)
) STRICT, WITHOUT ROWID;
