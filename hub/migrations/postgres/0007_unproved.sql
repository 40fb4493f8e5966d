-- The same as `../sqlite/0009_unproved.sql`; what it means is written there.

CREATE TABLE unproved (
    from_pos BIGINT PRIMARY KEY,
    to_pos   BIGINT NOT NULL CHECK (to_pos >= from_pos)
);

CREATE INDEX entry_damaged ON entry (dev, seq) WHERE aside = 'damaged';

CREATE OR REPLACE FUNCTION entry_is_only_erased() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    IF NEW.pos = OLD.pos AND NEW.dev = OLD.dev AND NEW.seq = OLD.seq AND NEW.hash = OLD.hash AND OLD.erased_ms IS NULL
        AND (
            (NEW.erased_ms IS NOT NULL
                AND NEW.aside IS NOT DISTINCT FROM OLD.aside
                AND NEW.jws = '' AND NEW.received_ms = 0 AND NEW.shared = 0
                AND NEW.at_ms IS NULL AND NEW.what IS NULL AND NEW.machine IS NULL AND NEW.round IS NULL
                AND (NEW.session IS NULL OR NEW.session IS NOT DISTINCT FROM OLD.session))
            OR (NEW.erased_ms IS NULL AND OLD.aside IS NULL AND NEW.aside = 'damaged'
                AND NEW.jws = OLD.jws AND NEW.received_ms = OLD.received_ms AND NEW.shared = OLD.shared
                AND NEW.at_ms IS NOT DISTINCT FROM OLD.at_ms AND NEW.session IS NOT DISTINCT FROM OLD.session
                AND NEW.what IS NOT DISTINCT FROM OLD.what AND NEW.machine IS NOT DISTINCT FROM OLD.machine
                AND NEW.round IS NOT DISTINCT FROM OLD.round)
        ) THEN
        RETURN NEW;
    END IF;
    RAISE EXCEPTION 'entries are never changed, only erased or set aside';
END;
$$;
