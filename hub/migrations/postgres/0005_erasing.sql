-- The same as `../sqlite/0007_erasing.sql`; what it means is written there.

ALTER TABLE entry ADD COLUMN erased_ms BIGINT;

CREATE FUNCTION entry_is_only_erased() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    IF OLD.erased_ms IS NULL AND NEW.erased_ms IS NOT NULL
        AND NEW.pos = OLD.pos AND NEW.dev = OLD.dev AND NEW.seq = OLD.seq AND NEW.hash = OLD.hash
        AND NEW.aside IS NOT DISTINCT FROM OLD.aside
        AND NEW.jws = '' AND NEW.received_ms = 0 AND NEW.shared = 0
        AND NEW.at_ms IS NULL AND NEW.what IS NULL AND NEW.machine IS NULL AND NEW.round IS NULL
        AND (NEW.session IS NULL OR NEW.session IS NOT DISTINCT FROM OLD.session) THEN
        RETURN NEW;
    END IF;
    RAISE EXCEPTION 'entries are never changed, only erased';
END;
$$;

DROP TRIGGER entry_is_not_changed ON entry;
CREATE TRIGGER entry_is_only_erased BEFORE UPDATE ON entry
    FOR EACH ROW EXECUTE FUNCTION entry_is_only_erased();
CREATE TRIGGER entry_is_not_removed BEFORE DELETE ON entry
    FOR EACH ROW EXECUTE FUNCTION entry_stays();

CREATE TABLE erasure (
    id       BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    dev      TEXT COLLATE "C" NOT NULL,
    from_seq BIGINT NOT NULL,
    to_seq   BIGINT NOT NULL CHECK (to_seq >= from_seq),
    made_ms  BIGINT NOT NULL
);
