//! Who could have left it.
