-- What is gone is looked for by its place: whether a phone that was away for long may have missed it.
CREATE INDEX entry_erased ON entry (pos) WHERE erased_ms IS NOT NULL;
