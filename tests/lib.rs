//! Nothing to see here: the tests are beside this file, one binary a folder.
