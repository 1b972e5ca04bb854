//! `glueline page`: the live board as one file.

use crate::arguments::Page;
use crate::failure::Failure;
use crate::source;
use crate::written::{not_the_lesson, put};
use std::path::PathBuf;

/// The board as a browser runs it, packed; compiled when this command was.
pub const ENGINE: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/engine.packed"));

/// Writes the board of a lesson as one HTML file.
///
/// # Errors
/// Where the lesson has mistakes, or a file is in the way.
pub fn run(job: &Page) -> Result<(), Failure> {
    let text = source::text(&job.lesson)?;
    source::checked(&text, &job.lesson.display().to_string())?;
    let out = job.out.clone();
    let out = out.unwrap_or_else(|| PathBuf::from(format!("{}-board.html", source::stem(&job.lesson))));
    not_the_lesson(&out, &job.lesson)?;
    let page = page(&text, &source::stem(&job.lesson))?;
    put(&out, page.as_bytes(), job.replace)
}

/// The board of a lesson that has been checked; `stem` is the name of its file, without the folder, which is no business of
/// those to whom the page is handed out.
///
/// # Errors
/// Where the lesson has mistakes.
pub fn page(text: &str, stem: &str) -> Result<String, Failure> {
    board::page::page(text, &format!("{stem}.toml"), ENGINE, false)
        .map_err(|refusal| Failure::Ours(refusal.first))
}
