-- What is kept no longer: a line's body goes, and its device, number and hash stay, so that the chain stays whole. The hash
-- covers the signature too, which nobody can guess who has only the body.
--
-- `session` stays where a line of somebody else was erased because it names a person: their session then shows that
-- lines of it are missing.
ALTER TABLE entry ADD COLUMN erased_ms INTEGER;

DROP TRIGGER entry_is_not_changed;

-- An entry, once taken, stays as it is, or goes.
CREATE TRIGGER entry_is_only_erased BEFORE UPDATE ON entry
WHEN NOT (OLD.erased_ms IS NULL AND NEW.erased_ms IS NOT NULL
    AND NEW.pos = OLD.pos AND NEW.dev = OLD.dev AND NEW.seq = OLD.seq AND NEW.hash = OLD.hash AND NEW.aside IS OLD.aside
    AND NEW.jws = '' AND NEW.received_ms = 0 AND NEW.shared = 0
    AND NEW.at_ms IS NULL AND NEW.what IS NULL AND NEW.machine IS NULL AND NEW.round IS NULL
    AND (NEW.session IS NULL OR NEW.session IS OLD.session))
BEGIN
    SELECT RAISE(ABORT, 'entries are never changed, only erased');
END;

-- What phones are told to forget as well, oldest first.
CREATE TABLE erasure (
    id       INTEGER PRIMARY KEY AUTOINCREMENT,
    dev      TEXT NOT NULL,
    from_seq INTEGER NOT NULL,
    to_seq   INTEGER NOT NULL CHECK (to_seq >= from_seq),
    made_ms  INTEGER NOT NULL
) STRICT;
