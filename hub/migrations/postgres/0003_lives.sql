-- The same table as in `../sqlite/0005_lives.sql`.

CREATE TABLE life (
    nth      BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    tag      BIGINT NOT NULL CHECK (tag > 0),
    from_pos BIGINT NOT NULL CHECK (from_pos >= 0)
);
