//! Who is here, and how old that knowledge is.
