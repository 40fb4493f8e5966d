//! Fire watch: until when embers must be looked for.
