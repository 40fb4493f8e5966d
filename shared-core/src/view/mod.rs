//! What a screen may say.
