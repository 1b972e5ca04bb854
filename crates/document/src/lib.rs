//! document
