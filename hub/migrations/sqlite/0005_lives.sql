-- One row for each start of a hub: what was told behind the end of an older copy holds no longer once that is put back.

CREATE TABLE life (
    nth      INTEGER PRIMARY KEY AUTOINCREMENT,
    tag      INTEGER NOT NULL CHECK (tag > 0),
    from_pos INTEGER NOT NULL CHECK (from_pos >= 0)
) STRICT;
