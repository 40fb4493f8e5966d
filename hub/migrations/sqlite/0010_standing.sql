-- Who was inducted, signed off or given a role: all of it is read whenever cards are made.
CREATE INDEX entry_standing ON entry (pos) WHERE what IN ('inducted', 'signed_off', 'role_given');
CREATE INDEX entry_starts ON entry (dev) WHERE what = 'machine_started';
