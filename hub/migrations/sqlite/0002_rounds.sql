-- The round that a line says was done, so that a pull finds the last word on each, however old.

ALTER TABLE entry ADD COLUMN round TEXT;

CREATE INDEX entry_rounds ON entry (round, at_ms) WHERE what = 'round_done';
