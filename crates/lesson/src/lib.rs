//! The lesson file: reading it with every mistake named at its place, writing it back, its schema and its reference page.
//!
//! A lesson file is TOML that a lecturer who is no programmer can read aloud. [`read()`] turns its text into a checked
//! [`Lesson`] in SI, or into findings: what is wrong, where, and how to mend it. All mistakes of a file are found in one
//! run. The keys of the format stand in one table ([`key`]); reading, the JSON Schema and the reference page all use it.
//!
//! This crate never computes a stress, never draws, and never opens a file: it is given text and gives text.

pub mod builtin;
mod composed;
pub mod edit;
pub mod finding;
pub mod key;
mod lesson;
pub mod marking;
pub mod papers;
pub mod question;
mod reading;
mod reference;
pub mod requirement;
mod schema;
mod template;

pub use finding::Finding;
pub use lesson::{
    About, Choices, Lesson, NamedValue, Scene, Texts, ValueChoice, VariantChoice, Variation, When,
};
pub use question::Question;
pub use reading::{Reading, Shown, read, read_as_shown};
pub use reference::reference_page;
pub use schema::schema;
pub use template::template;
