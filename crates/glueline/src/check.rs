//! `glueline check`: every mistake of a lesson, with its place and how to mend it.

use crate::arguments::Check;
use crate::failure::Failure;
use crate::source;
use serde::Serialize;

/// A finding with the file it stands in.
#[derive(Serialize)]
struct Report {
    file: String,
    #[serde(flatten)]
    finding: lesson::Finding,
}

/// Reads and solves each lesson, and tells what is wrong.
///
/// # Errors
/// [`Failure::Lesson`] where any of them has mistakes, [`Failure::Unread`] where any could not be read, after all have
/// been looked at.
pub fn run(job: &Check) -> Result<(), Failure> {
    let mut faulty = false;
    let mut unread = None;
    let mut reports = Vec::new();
    for path in &job.lessons {
        let text = match source::text(path) {
            Ok(text) => text,
            // The others are looked at all the same; the last that could not be read ends the run.
            Err(failure) => {
                if let Some(earlier) = unread.replace(failure) {
                    Failure::tell(&earlier);
                }
                continue;
            }
        };
        let name = path.display().to_string();
        let reading = lesson::read(&text, &name);
        if job.json {
            reports.extend(
                reading
                    .findings
                    .iter()
                    .map(|finding| Report { file: name.clone(), finding: finding.clone() }),
            );
        } else {
            source::tell(&reading.findings);
        }
        match reading.lesson {
            None => {
                faulty = true;
                if !job.json {
                    let count = reading.findings.len();
                    let noun = if count == 1 { "mistake" } else { "mistakes" };
                    anstream::eprintln!("{name}: {count} {noun}");
                }
            }
            Some(lesson) => {
                if !job.json {
                    source::tell(&lesson.remarks);
                }
                let solved = source::solve(&lesson)?;
                if !job.json {
                    anstream::println!(
                        "{name}: good; {} values, every balance closes",
                        solved.workings().len()
                    );
                }
            }
        }
    }
    if job.json {
        let text =
            serde_json::to_string_pretty(&reports).map_err(|error| Failure::Ours(error.to_string()))?;
        anstream::println!("{text}");
    }
    match unread {
        Some(failure) => Err(failure),
        None if faulty => Err(Failure::Lesson),
        None => Ok(()),
    }
}
