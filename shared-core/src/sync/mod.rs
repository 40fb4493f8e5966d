//! How the log reaches the hub.
