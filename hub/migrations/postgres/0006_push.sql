-- The same tables as the step of the same name in `../sqlite` makes; what they mean is written there.

CREATE TABLE push (
    dev      TEXT COLLATE "C" PRIMARY KEY REFERENCES device (dev),
    endpoint TEXT COLLATE "C" NOT NULL,
    p256dh   TEXT COLLATE "C" NOT NULL,
    auth     TEXT COLLATE "C" NOT NULL,
    set_ms   BIGINT NOT NULL
);

CREATE TABLE call (
    session   TEXT COLLATE "C" NOT NULL,
    what      TEXT COLLATE "C" NOT NULL,
    at_ms     BIGINT NOT NULL,
    nth       BIGINT NOT NULL,
    out_by_ms BIGINT NOT NULL,
    said_ms   BIGINT NOT NULL,
    PRIMARY KEY (session, what, at_ms, nth)
);
