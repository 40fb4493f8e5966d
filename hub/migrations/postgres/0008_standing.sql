-- The same as `../sqlite/0010_standing.sql`; what it means is written there.
CREATE INDEX entry_standing ON entry (pos) WHERE what IN ('inducted', 'signed_off', 'role_given');
CREATE INDEX entry_starts ON entry (dev) WHERE what = 'machine_started';
