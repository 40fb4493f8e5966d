-- What must not depend on which process is asked: settings, challenges that were used, codes on their way.

CREATE TABLE setting (
    name   TEXT PRIMARY KEY,
    value  TEXT NOT NULL,
    set_ms INTEGER NOT NULL
) STRICT;

CREATE TABLE spent_challenge (
    challenge_sha256 BLOB PRIMARY KEY,
    until_ms         INTEGER NOT NULL
) STRICT;

CREATE TABLE carried (
    id          INTEGER PRIMARY KEY AUTOINCREMENT,
    to_member   TEXT NOT NULL,
    from_member TEXT NOT NULL,
    code        BLOB NOT NULL,
    until_ms    INTEGER NOT NULL
) STRICT;

CREATE INDEX carried_to ON carried (to_member, id);

CREATE TABLE handed_over (
    id  INTEGER NOT NULL REFERENCES carried (id) ON DELETE CASCADE,
    dev TEXT NOT NULL,
    PRIMARY KEY (id, dev)
) STRICT;
