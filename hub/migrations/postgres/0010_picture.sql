-- The same table as the step of the same name in `../sqlite` makes; what it means is written there.

CREATE TABLE picture (
    sha     TEXT COLLATE "C" NOT NULL,
    dev     TEXT COLLATE "C" NOT NULL REFERENCES device (dev),
    of_tag  BIGINT NOT NULL CHECK (of_tag IN (0, 1)),
    bytes   BYTEA NOT NULL,
    kept_ms BIGINT NOT NULL,
    PRIMARY KEY (sha, dev)
);

CREATE INDEX picture_dev ON picture (dev);
