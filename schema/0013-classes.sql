-- Players under one name: `--for Mondays` means all of them. Worked out from the journal, like the players. A library that gets its journal
-- just now has the tables already.

CREATE TABLE IF NOT EXISTS player_class (
    folded  TEXT    PRIMARY KEY CHECK (folded <> ''),   -- as names are compared
    name    TEXT    NOT NULL                            -- as shown
) STRICT, WITHOUT ROWID;

CREATE TABLE IF NOT EXISTS player_class_member (
    class     TEXT    NOT NULL REFERENCES player_class (folded) ON DELETE CASCADE,
    player_id INTEGER NOT NULL REFERENCES player (id) ON DELETE CASCADE,
    PRIMARY KEY (class, player_id)
) STRICT, WITHOUT ROWID;
