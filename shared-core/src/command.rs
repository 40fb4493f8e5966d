//! What can be asked: the closed list of intentions.
