//! A lesson file on its way in: read, checked, solved.

use crate::failure::Failure;
use lesson::Lesson;
use std::path::Path;
use workings::solved::Solved;

/// The text of a lesson file.
///
/// # Errors
/// [`Failure::Unread`] where the file is not there, not readable or not text.
pub fn text(path: &Path) -> Result<String, Failure> {
    std::fs::read_to_string(path).map_err(|error| Failure::Unread(path.to_owned(), error))
}

/// A checked lesson from its text; all its mistakes are told on standard error.
///
/// # Errors
/// [`Failure::Lesson`] where it has mistakes.
pub fn checked(text: &str, name: &str) -> Result<Lesson, Failure> {
    let reading = lesson::read(text, name);
    tell(&reading.findings);
    tell(reading.lesson.as_ref().map_or(&[], |lesson| &lesson.remarks));
    reading.lesson.ok_or(Failure::Lesson)
}

/// Tells findings on standard error, one after the other.
pub fn tell(findings: &[lesson::Finding]) {
    use std::io::IsTerminal as _;
    let colour = std::io::stderr().is_terminal();
    for finding in findings {
        anstream::eprintln!("{}\n", finding.render(colour));
    }
}

/// A lesson solved: reads the file, checks it, solves it.
///
/// # Errors
/// As [`text`] and [`checked`]; [`Failure::Ours`] where a balance does not close.
pub fn solved(path: &Path) -> Result<(Lesson, Solved), Failure> {
    let text = text(path)?;
    let lesson = checked(&text, &path.display().to_string())?;
    let solved = solve(&lesson)?;
    Ok((lesson, solved))
}

/// A checked lesson solved.
///
/// # Errors
/// [`Failure::Ours`] where a balance does not close.
pub fn solve(lesson: &Lesson) -> Result<Solved, Failure> {
    Solved::new(lesson.problem.clone(), lesson.style.clone()).map_err(|faults| {
        let words: Vec<String> = faults.iter().map(ToString::to_string).collect();
        Failure::Ours(words.join("\n"))
    })
}

/// The name of a lesson file without its folder and ending, for the names of what is made from it.
pub fn stem(path: &Path) -> String {
    path.file_stem().map_or_else(|| "lesson".into(), |stem| stem.to_string_lossy().into_owned())
}
