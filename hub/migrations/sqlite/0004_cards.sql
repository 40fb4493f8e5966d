-- The hub's keys, the cards that they sign, one-time codes to join with, and phones that were taken off.
--
-- A device that was taken off stays: its entries are its member's for ever. `revoked_by` is the member who did it, '' from
-- the hub's own machine.
ALTER TABLE device ADD COLUMN revoked_ms INTEGER;
ALTER TABLE device ADD COLUMN revoked_by TEXT;

-- Numbered from 1, the one in use last. A key that is no longer in use is forgotten: its seed is empty.
CREATE TABLE hub_key (
    number    INTEGER PRIMARY KEY,
    seed      BLOB NOT NULL,
    statement TEXT NOT NULL
) STRICT;

CREATE TABLE card (
    dev    TEXT PRIMARY KEY REFERENCES device (dev),
    number INTEGER NOT NULL UNIQUE,
    jws    TEXT NOT NULL,
    face   TEXT NOT NULL
) STRICT;

-- The code itself is nowhere.
CREATE TABLE invite (
    id          INTEGER PRIMARY KEY AUTOINCREMENT,
    code_sha256 BLOB NOT NULL UNIQUE,
    member      TEXT NOT NULL,
    replaces    TEXT REFERENCES device (dev),
    kind        TEXT NOT NULL CHECK (kind IN ('first', 'another', 'replaces')),
    made_by     TEXT NOT NULL,
    made_ms     INTEGER NOT NULL,
    until_ms    INTEGER NOT NULL,
    used_by     TEXT,
    used_ms     INTEGER,
    revoked_ms  INTEGER
) STRICT;

-- What a phone handed in after it was taken off: it counts for nothing until a steward says that it does, and is then
-- taken into the log at its end.
CREATE TABLE late_line (
    dev         TEXT NOT NULL REFERENCES device (dev),
    seq         INTEGER NOT NULL,
    hash        TEXT NOT NULL,
    jws         TEXT NOT NULL,
    received_ms INTEGER NOT NULL,
    PRIMARY KEY (dev, hash)
) STRICT;

-- There is no code for everybody any more.
DELETE FROM setting WHERE name = 'join_code';
