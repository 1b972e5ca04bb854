//! Properties of beams, on thousands of beams drawn at random.

mod beams;
mod laws;
mod likeness;
mod motions;
mod peaks;
