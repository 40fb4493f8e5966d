-- Where phones are reached when nobody looks at them, and what was said to them: each call once, whichever process says it.
-- `what` is a name of shared_core::call; `at_ms` the instant that it is about, `nth` which saying of it.

CREATE TABLE push (
    dev      TEXT PRIMARY KEY REFERENCES device (dev),
    endpoint TEXT NOT NULL,
    p256dh   TEXT NOT NULL,
    auth     TEXT NOT NULL,
    set_ms   INTEGER NOT NULL
) STRICT;

CREATE TABLE call (
    session   TEXT NOT NULL,
    what      TEXT NOT NULL,
    at_ms     INTEGER NOT NULL,
    nth       INTEGER NOT NULL,
    out_by_ms INTEGER NOT NULL,
    said_ms   INTEGER NOT NULL,
    PRIMARY KEY (session, what, at_ms, nth)
) STRICT;
