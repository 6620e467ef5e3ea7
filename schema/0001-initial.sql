-- The first tables: what was imported (file, setting, title, abc, diagnostic), what was computed from it (note_set and the facts
-- in setting), and the tune, which is nothing but an id that lasts, so that what a person says of it has something to hold on to.
--
-- tune and setting rows are never deleted: what is no longer on the disk is marked gone and comes back with its id. Everything else
-- can be made again from the files.

CREATE TABLE file (
    id           INTEGER PRIMARY KEY,
    path         TEXT    NOT NULL UNIQUE,                -- absolute
    shown        TEXT    NOT NULL,                       -- relative to the folder it was first imported with
    size         INTEGER NOT NULL CHECK (size >= 0),     -- bytes
    mtime_ns     INTEGER NOT NULL,                       -- nanoseconds since 1970
    imported_ns  INTEGER NOT NULL,
    content_hash TEXT    NOT NULL,                       -- 128-bit XXH3, hexadecimal; empty: to be read again
    gone         INTEGER NOT NULL DEFAULT 0 CHECK (gone IN (0, 1))
) STRICT;

CREATE INDEX file_by_content ON file (content_hash);

CREATE TABLE tune (
    id INTEGER PRIMARY KEY
) STRICT;

-- Each distinct set of MIDI notes once: bit n of low is note n, bit n of high is note 64 + n.
CREATE TABLE note_set (
    id   INTEGER PRIMARY KEY,
    low  INTEGER NOT NULL,
    high INTEGER NOT NULL,
    UNIQUE (low, high)
) STRICT;

CREATE TABLE setting (
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
    rhythm_basis     TEXT CHECK (rhythm_basis IN ('stated', 'computed', 'assumed')),
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
    CHECK ((tonic IS NULL) = (mode IS NULL)),
    CHECK ((rhythm IS NULL) = (rhythm_basis IS NULL))
) STRICT;

-- Every index here grows at its end while files are taken in; one in the order of a hash would be written all over.

-- Holds all that a filter looks at: judging every setting by every filter reads less than half of what the table holds.
CREATE INDEX setting_present ON setting (
    tune_id, id, needed_id, ornaments_id, file_id, first_note, last_note, tonic, mode, rhythm, meter, gone
) WHERE gone = 0;

CREATE INDEX setting_by_file ON setting (file_id, gone, analysis_version);

-- What may come back.
CREATE INDEX gone_setting_by_tune ON setting (tune_id) WHERE gone = 1;
CREATE INDEX gone_setting_by_melody ON setting (melody_hash) WHERE gone = 1;

CREATE TABLE title (
    setting_id INTEGER NOT NULL REFERENCES setting (id),
    place      INTEGER NOT NULL CHECK (place >= 0),      -- 0: the first T:
    text       TEXT    NOT NULL,
    folded     TEXT    NOT NULL,
    PRIMARY KEY (setting_id, place)
) STRICT, WITHOUT ROWID;

-- The words of a setting's folded titles, under its id. Holds no text and no sizes: only which word is where is asked. Whoever changes
-- titles takes the old words out and puts the new ones in.
CREATE VIRTUAL TABLE title_search USING fts5 (
    folded, content = '', columnsize = 0, tokenize = "unicode61 remove_diacritics 2"
);

-- File headers, without which a block may not be understood: each distinct one once.
CREATE TABLE abc_header (
    id   INTEGER PRIMARY KEY,
    hash TEXT NOT NULL UNIQUE,                           -- 128-bit XXH3 of text
    text TEXT NOT NULL
) STRICT;

-- The ABC as it was read, so that a tune whose file is gone can still be shown.
CREATE TABLE abc (
    setting_id INTEGER PRIMARY KEY REFERENCES setting (id),
    header_id  INTEGER REFERENCES abc_header (id),
    text       TEXT NOT NULL
) STRICT;

CREATE TABLE diagnostic (
    id       INTEGER PRIMARY KEY,
    file_id  INTEGER NOT NULL REFERENCES file (id),
    line     INTEGER NOT NULL CHECK (line >= 1),
    "column" INTEGER NOT NULL CHECK ("column" >= 1),
    severity TEXT    NOT NULL CHECK (severity IN ('error', 'warning', 'remark')),
    code     TEXT    NOT NULL,
    message  TEXT    NOT NULL
) STRICT;

CREATE INDEX diagnostic_by_file ON diagnostic (file_id);
