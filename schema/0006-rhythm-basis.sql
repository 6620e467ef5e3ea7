-- A rhythm may also rest on a word of the title, and on what a person says. SQLite cannot change a CHECK, so the table is made anew with all
-- its rows and takes the old one's name; what points to it (title, abc, outline, oddity) does so by that name and by ids, which stay.

CREATE TABLE setting_widened (
    id               INTEGER PRIMARY KEY,
    tune_id          INTEGER NOT NULL REFERENCES tune (id),
    file_id          INTEGER NOT NULL REFERENCES file (id),
    gone             INTEGER NOT NULL DEFAULT 0 CHECK (gone IN (0, 1)),
    needed_id        INTEGER NOT NULL REFERENCES note_set (id),
    ornaments_id     INTEGER NOT NULL REFERENCES note_set (id),
    first_note       INTEGER CHECK (first_note BETWEEN 0 AND 127),
    last_note        INTEGER CHECK (last_note BETWEEN 0 AND 127),
    tonic            TEXT,                               -- of the likeliest key, computed
    mode             TEXT CHECK (mode IN ('major', 'dorian', 'phrygian', 'lydian', 'mixolydian', 'minor', 'locrian')),
    key_decided      INTEGER NOT NULL CHECK (key_decided IN (0, 1)),
    key_candidates   TEXT    NOT NULL,                   -- 'A dorian,A minor', likeliest first
    rhythm           TEXT,                               -- a token
    rhythm_basis     TEXT CHECK (rhythm_basis IN ('stated', 'computed', 'assumed', 'title', 'said')),
    meter            TEXT    NOT NULL,                   -- '6/8', 'none'
    line             INTEGER NOT NULL CHECK (line >= 1),
    number           TEXT,                               -- X:
    occurrence       INTEGER NOT NULL CHECK (occurrence >= 0),  -- 0: the first of its number in its file
    folded_title     TEXT,                               -- the first title for sorting and comparing
    rhythm_stated    TEXT,                               -- R: as written
    key_stated       TEXT    NOT NULL,
    note_count       INTEGER NOT NULL CHECK (note_count >= 0),
    bars             INTEGER NOT NULL CHECK (bars >= 0),
    different_bars   INTEGER NOT NULL CHECK (different_bars >= 0),
    errors           INTEGER NOT NULL CHECK (errors >= 0),
    melody_hash      INTEGER NOT NULL,
    text_hash        INTEGER NOT NULL,                   -- of its ABC with the file's header
    analysis_version INTEGER NOT NULL,
    own_tune_id      INTEGER REFERENCES tune (id),
    melody_class     INTEGER,                            -- equal for exactly the same tune in any key; NULL: too short
    rhythm_possible  TEXT    NOT NULL DEFAULT '',        -- 'hornpipe,march': tokens, beside a computed rhythm
    form             TEXT    NOT NULL DEFAULT '',        -- 'AABB'
    part_keys        TEXT    NOT NULL DEFAULT '',        -- 'G major,D major', one a part; '' where no part has its own
    largest_leap     INTEGER CHECK (largest_leap > 0),   -- semitones
    CHECK ((tonic IS NULL) = (mode IS NULL)),
    CHECK ((rhythm IS NULL) = (rhythm_basis IS NULL))
) STRICT;

INSERT INTO setting_widened (
    id, tune_id, file_id, gone, needed_id, ornaments_id, first_note, last_note, tonic, mode, key_decided, key_candidates, rhythm,
    rhythm_basis, meter, line, number, occurrence, folded_title, rhythm_stated, key_stated, note_count, bars, different_bars, errors,
    melody_hash, text_hash, analysis_version, own_tune_id, melody_class, rhythm_possible, form, part_keys, largest_leap)
SELECT
    id, tune_id, file_id, gone, needed_id, ornaments_id, first_note, last_note, tonic, mode, key_decided, key_candidates, rhythm,
    rhythm_basis, meter, line, number, occurrence, folded_title, rhythm_stated, key_stated, note_count, bars, different_bars, errors,
    melody_hash, text_hash, analysis_version, own_tune_id, melody_class, rhythm_possible, form, part_keys, largest_leap
FROM setting;

DROP TABLE setting;
ALTER TABLE setting_widened RENAME TO setting;

-- As they were: 0001-initial.sql and 0003-families.sql say what for.
CREATE INDEX setting_present ON setting (
    tune_id, id, needed_id, ornaments_id, file_id, first_note, last_note, tonic, mode, rhythm, meter, gone
) WHERE gone = 0;
CREATE INDEX setting_by_file ON setting (file_id, gone, analysis_version);
CREATE INDEX gone_setting_by_tune ON setting (tune_id) WHERE gone = 1;
CREATE INDEX gone_setting_by_melody ON setting (melody_hash) WHERE gone = 1;
CREATE INDEX setting_by_own_tune ON setting (own_tune_id, tune_id, melody_class);
