//! What several of the tests try, and what every page and every PDF must hold to.

pub mod asked;
pub mod every_block;
pub mod leaks;
pub mod page;
#[cfg(feature = "pdf")]
pub mod structure;
