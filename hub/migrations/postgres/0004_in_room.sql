-- The same tables as `../sqlite/0006_in_room.sql` makes; what they mean is written there.

CREATE TABLE board (
    dev  TEXT COLLATE "C" PRIMARY KEY REFERENCES device (dev),
    room TEXT COLLATE "C" NOT NULL
);

CREATE TABLE pin (
    member TEXT COLLATE "C" PRIMARY KEY,
    salt   TEXT COLLATE "C" NOT NULL,
    rounds BIGINT NOT NULL,
    digest TEXT COLLATE "C" NOT NULL,
    set_ms BIGINT NOT NULL
);
