//! Lesson files: what is read and what it means, what is refused and in which words, what is written back.

mod any_text;
mod builtin;
mod edit;
mod meaning;
mod papers;
mod refused;
mod solved;
