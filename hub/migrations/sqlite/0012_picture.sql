-- Pictures that phones handed over, each under the SHA-256 of its bytes, base64url, as the log names it; whoever hands the same over
-- has a row of their own. It goes with the last line of that phone's member which names it. `of_tag` says whether such a line is a
-- tag, which is everybody's to see.

CREATE TABLE picture (
    sha     TEXT NOT NULL,
    dev     TEXT NOT NULL REFERENCES device (dev),
    of_tag  INTEGER NOT NULL CHECK (of_tag IN (0, 1)),
    bytes   BLOB NOT NULL,
    kept_ms INTEGER NOT NULL,
    PRIMARY KEY (sha, dev)
) STRICT;

CREATE INDEX picture_dev ON picture (dev);
