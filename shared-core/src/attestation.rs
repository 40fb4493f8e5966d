//! What must be attested, and until when it holds.
