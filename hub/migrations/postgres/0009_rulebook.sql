-- The same table as the step of the same name in `../sqlite` makes; what it means is written there.

CREATE TABLE rulebook (
    number       BIGINT PRIMARY KEY,
    text         TEXT COLLATE "C" NOT NULL,
    book         TEXT COLLATE "C" NOT NULL,
    over_book    TEXT COLLATE "C" NOT NULL,
    note         TEXT COLLATE "C" NOT NULL,
    by_member    TEXT COLLATE "C" NOT NULL,
    published_ms BIGINT NOT NULL
);
