-- Rulebooks that stewards published from a phone, each whole, in the order of their numbers; the newest is in force as long as the
-- shop's file is still the one that it was written over (`over_book`: the SHA-256 of that file, as `book` is of the text).

CREATE TABLE rulebook (
    number       INTEGER PRIMARY KEY,
    text         TEXT NOT NULL,
    book         TEXT NOT NULL,
    over_book    TEXT NOT NULL,
    note         TEXT NOT NULL,
    by_member    TEXT NOT NULL,
    published_ms INTEGER NOT NULL
) STRICT;
