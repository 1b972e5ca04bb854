//! `glueline start`: a commented lesson to edit.

use crate::arguments::Start;
use crate::failure::Failure;
use crate::output::{Existing, Refusal, write};
use std::path::PathBuf;

/// Writes the starting lesson under the name asked for.
///
/// # Errors
/// [`Failure::Asked`] where the name is no name of a file; [`Failure::Unwritten`] where a file is in the way.
pub fn run(job: &Start) -> Result<(), Failure> {
    let name = job.name.strip_suffix(".toml").unwrap_or(&job.name);
    let stem = PathBuf::from(name)
        .file_name()
        .map(|stem| stem.to_string_lossy().into_owned())
        .filter(|stem| !stem.is_empty() && !stem.starts_with('.'))
        .ok_or_else(|| Failure::Asked(format!("{:?} is no name for a file", job.name)))?;
    let path = PathBuf::from(format!("{name}.toml"));
    if path.exists() {
        return Err(Refusal::Lesson(path).into());
    }
    write(&path, lesson::template(&stem).as_bytes(), Existing::Keep)?;
    anstream::println!(
        "wrote {path}\n\nnext:  edit {path} in any text editor\n       glueline check {path}\n       glueline notes {path}\n\nafter each change the same again; add --replace to write the notes anew",
        path = path.display()
    );
    Ok(())
}
