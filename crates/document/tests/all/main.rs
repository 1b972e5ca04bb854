//! Documents as pages and, with the typesetter, as PDF: what stands in them, what must not, and that no word of a lecturer or a
//! student breaks out of its place.

mod common;
mod feedback;
mod html;
mod joints;
mod lessons;
mod markdown;
#[cfg(feature = "pdf")]
mod marked_pdf;
mod materials;
mod paper;
#[cfg(feature = "pdf")]
mod paper_pdf;
#[cfg(feature = "pdf")]
mod pdf;
mod review;
mod walls;
