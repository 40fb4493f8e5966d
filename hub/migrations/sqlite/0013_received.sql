-- What is kept no longer is looked for by when it was learned: in most logs there is little of it, or nothing.
CREATE INDEX entry_received ON entry (received_ms) WHERE erased_ms IS NULL;
