//! What a log says about its sessions.
