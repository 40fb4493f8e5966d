-- Who speaks for whom, who is signed in, and the signed log as it arrived. Instants are milliseconds since the epoch.

CREATE TABLE device (
    dev       TEXT PRIMARY KEY,
    member    TEXT NOT NULL,
    joined_ms INTEGER NOT NULL
) STRICT;

CREATE TABLE session (
    token_sha256 BLOB PRIMARY KEY,
    dev          TEXT NOT NULL REFERENCES device (dev),
    ends_ms      INTEGER NOT NULL
) STRICT;

CREATE INDEX session_ends ON session (ends_ms);

-- `pos` is the cursor that phones pull by: it only grows, and is never given twice.
-- `aside` says why a line counts for nothing; it keeps its place, so that the log goes on behind it.
-- The columns after it repeat what the line says, where it can be read, so that a pull need not open every line.
CREATE TABLE entry (
    pos         INTEGER PRIMARY KEY AUTOINCREMENT,
    dev         TEXT NOT NULL REFERENCES device (dev),
    seq         INTEGER NOT NULL CHECK (seq > 0),
    hash        TEXT NOT NULL,
    jws         TEXT NOT NULL,
    received_ms INTEGER NOT NULL,
    aside       TEXT,
    shared      INTEGER NOT NULL CHECK (shared IN (0, 1)),
    at_ms       INTEGER,
    session     TEXT,
    what        TEXT,
    machine     TEXT,
    UNIQUE (dev, seq)
) STRICT;

CREATE INDEX entry_tags ON entry (machine, at_ms) WHERE what IN ('tagged_out', 'tag_cleared');
CREATE INDEX entry_leavings ON entry (session) WHERE what = 'left';

-- Entries that a device could not read any more and that will not come: what is missing stays visible.
CREATE TABLE lost_stretch (
    dev         TEXT NOT NULL REFERENCES device (dev),
    from_seq    INTEGER NOT NULL,
    to_seq      INTEGER NOT NULL CHECK (to_seq >= from_seq),
    received_ms INTEGER NOT NULL,
    PRIMARY KEY (dev, from_seq)
) STRICT;

-- An entry, once taken, stays as it is.
CREATE TRIGGER entry_is_not_changed BEFORE UPDATE ON entry
BEGIN
    SELECT RAISE(ABORT, 'entries are never changed');
END;

CREATE TRIGGER entry_is_not_removed BEFORE DELETE ON entry
BEGIN
    SELECT RAISE(ABORT, 'entries are never removed');
END;
