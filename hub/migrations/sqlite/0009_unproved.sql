-- Of a long push, a line's own signature is checked after the push was taken: until then a later line of its phone vouches
-- for it. Nobody is handed an entry from the first such place on.
CREATE TABLE unproved (
    from_pos INTEGER PRIMARY KEY,
    to_pos   INTEGER NOT NULL CHECK (to_pos >= from_pos)
) STRICT;

-- Phones are told which of their lines turned out not to be signed.
CREATE INDEX entry_damaged ON entry (dev, seq) WHERE aside = 'damaged';

DROP TRIGGER entry_is_only_erased;

-- An entry, once taken, stays as it is, or goes, or is set aside because it is not signed.
CREATE TRIGGER entry_is_only_erased BEFORE UPDATE ON entry
WHEN NOT (OLD.erased_ms IS NULL AND NEW.erased_ms IS NOT NULL
    AND NEW.pos = OLD.pos AND NEW.dev = OLD.dev AND NEW.seq = OLD.seq AND NEW.hash = OLD.hash AND NEW.aside IS OLD.aside
    AND NEW.jws = '' AND NEW.received_ms = 0 AND NEW.shared = 0
    AND NEW.at_ms IS NULL AND NEW.what IS NULL AND NEW.machine IS NULL AND NEW.round IS NULL
    AND (NEW.session IS NULL OR NEW.session IS OLD.session))
AND NOT (OLD.aside IS NULL AND NEW.aside = 'damaged' AND OLD.erased_ms IS NULL AND NEW.erased_ms IS NULL
    AND NEW.pos = OLD.pos AND NEW.dev = OLD.dev AND NEW.seq = OLD.seq AND NEW.hash = OLD.hash AND NEW.jws = OLD.jws
    AND NEW.received_ms = OLD.received_ms AND NEW.shared = OLD.shared AND NEW.at_ms IS OLD.at_ms
    AND NEW.session IS OLD.session AND NEW.what IS OLD.what AND NEW.machine IS OLD.machine AND NEW.round IS OLD.round)
BEGIN
    SELECT RAISE(ABORT, 'entries are never changed, only erased or set aside');
END;
