-- What shows that a buddy is in the room: which devices hang there as boards, and what members' figures are checked
-- against. Both are handed to phones, which work without a network.

CREATE TABLE board (
    dev  TEXT PRIMARY KEY REFERENCES device (dev),
    room TEXT NOT NULL
) STRICT;

CREATE TABLE pin (
    member TEXT PRIMARY KEY,
    salt   TEXT NOT NULL,
    rounds INTEGER NOT NULL,
    digest TEXT NOT NULL,
    set_ms INTEGER NOT NULL
) STRICT;
