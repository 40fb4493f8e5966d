//! Noise and vibration adding up.
