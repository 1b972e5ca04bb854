//! workings
