//! `glueline tune`: numbers that come out round, survive rounding, and hide no usual mistake.

use crate::arguments::Tune;
use crate::failure::Failure;
use crate::output::Refusal;
use crate::serve::file::{Condition, LessonFile, Unread, Unsaved};
use crate::source;
use assessment::tune::{Search, Tuned};
use lesson::edit::Manuscript;
use lesson::papers::{Draw, Papers};
use serde::Serialize;
use std::fmt::Write as _;
use std::path::Path;
use unicode_width::UnicodeWidthStr as _;

#[derive(Serialize)]
struct Report<'a> {
    lesson: &'a str,
    #[serde(flatten)]
    tuned: &'a Tuned,
}

/// Searches, prints what was found, and writes it into the lesson where that was asked for.
///
/// # Errors
/// Where the lesson has mistakes or nothing varies in it, a result is unknown, or nothing was found that could be written.
pub fn run(job: &Tune) -> Result<(), Failure> {
    let unread = |error| Failure::Unread(job.lesson.clone(), error);
    let file = LessonFile::at(&job.lesson).map_err(unread)?;
    let content = file.read().map_err(|why| {
        unread(match why {
            Unread::Gone => std::io::ErrorKind::NotFound.into(),
            Unread::Unusable { why, .. } => std::io::Error::other(why),
        })
    })?;
    let papers = Papers::read(&content.text, &job.lesson.display().to_string()).map_err(|findings| {
        source::tell(&findings);
        Failure::Lesson
    })?;
    source::tell(&papers.lesson().remarks);
    let lesson = papers.lesson().clone();
    let names = names(&lesson, &job.results)?;
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    let search = Search::new(papers, &names).map_err(|fault| Failure::Asked(fault.to_string()))?;
    let tuned = search.run(usize::from(job.count));
    if job.json {
        let report = Report { lesson: &lesson.about.title, tuned: &tuned };
        let text = serde_json::to_string_pretty(&report).map_err(|error| Failure::Ours(error.to_string()))?;
        anstream::println!("{text}");
    } else {
        anstream::print!("{}", told(&tuned));
    }
    if !job.write {
        return Ok(());
    }
    if tuned.rows.is_empty() {
        return Err(Failure::Asked(format!("nothing fits, so {} was left as it is", job.lesson.display())));
    }
    let draws: Vec<Draw> = tuned.rows.into_iter().map(|row| row.draw).collect();
    let mut manuscript = Manuscript::new(content.text);
    manuscript
        .restrict(&lesson, &draws)
        .map_err(|fault| Failure::Asked(format!("the combinations could not be written: {fault}")))?;
    write(&job.lesson, &file, manuscript.text(), content.tag)?;
    // What a program reads stays JSON alone.
    if !job.json {
        let papers = if draws.len() == 1 { "this combination" } else { "these combinations" };
        anstream::println!("\nreplaced {}: its papers have {papers} and no others", job.lesson.display());
    }
    Ok(())
}

/// The names asked for. Some names have a comma of their own: what is a name as it stands is not taken apart.
fn names(lesson: &lesson::Lesson, given: &[String]) -> Result<Vec<String>, Failure> {
    if given.is_empty() {
        return Ok(Vec::new());
    }
    let solved = source::solve(lesson)?;
    let mut names = Vec::new();
    for text in given {
        if solved.workings().get(text.trim()).is_some() {
            names.push(text.trim().to_owned());
        } else {
            names.extend(text.split(',').map(str::trim).filter(|name| !name.is_empty()).map(str::to_owned));
        }
    }
    if names.is_empty() {
        return Err(Failure::Asked(
            "--results names nothing; `glueline values` lists what there is".to_owned(),
        ));
    }
    Ok(names)
}

/// Puts the new text in the lesson's place, whole or not at all, unless somebody changed the lesson while it was searched.
fn write(path: &Path, file: &LessonFile, text: &str, tag: String) -> Result<(), Failure> {
    let reading = lesson::read(text, &path.display().to_string());
    if reading.lesson.is_none() {
        source::tell(&reading.findings);
        return Err(Failure::Ours("the lesson with its new rows has mistakes".to_owned()));
    }
    let refusal = |unsaved| match unsaved {
        Unsaved::Changed(_) => Refusal::Changed(path.to_owned()),
        Unsaved::Refused(why) => Refusal::System { path: path.to_owned(), error: std::io::Error::other(why) },
    };
    file.save(text, &Condition::Still(tag)).map(|_| ()).map_err(|unsaved| refusal(unsaved).into())
}

/// What was found, to read: a table, the reasons for each row, how many there were, and what to widen.
fn told(tuned: &Tuned) -> String {
    let mut text = if tuned.rows.is_empty() { String::from("nothing fits\n") } else { table(tuned) };
    for (at, row) in tuned.rows.iter().enumerate() {
        let _ = writeln!(text);
        for (line, sentence) in row.explanation.iter().enumerate() {
            let number = if line == 0 { (at + 1).to_string() } else { String::new() };
            let _ = writeln!(text, "{number:>4}  {sentence}");
        }
    }
    for miss in &tuned.misses {
        let choices: Vec<String> =
            miss.choices.iter().map(|choice| format!("{} = {}", choice.name, choice.is)).collect();
        let _ = writeln!(text, "\nnearly: {}", choices.join(", "));
        for reason in &miss.reasons {
            let _ = writeln!(text, "      {reason}");
        }
    }
    if !tuned.collapsed.is_empty() {
        let _ = writeln!(
            text,
            "\nwarning: the same on all of these papers, though others that fit have other values: {}\n  to mend it: ask for more \
             combinations: --count",
            tuned.collapsed.join(", ")
        );
    }
    let _ = writeln!(text, "\n{}", tuned.census.in_words().join("\n"));
    for advice in &tuned.advice {
        let _ = writeln!(text, "\nto find more: {advice}");
    }
    text
}

/// One line for each row: its number, what varies, and the results that are to be round.
fn table(tuned: &Tuned) -> String {
    let mut lines: Vec<Vec<&str>> = Vec::new();
    let numbers: Vec<String> = (1..=tuned.rows.len()).map(|number| number.to_string()).collect();
    let varies =
        tuned.rows.first().into_iter().flat_map(|row| row.choices.iter().map(|choice| &*choice.name));
    let results = tuned.results.iter().take(tuned.exact).map(String::as_str);
    lines.push([""].into_iter().chain(varies).chain(results).collect());
    for (row, number) in tuned.rows.iter().zip(&numbers) {
        let choices = row.choices.iter().map(|choice| &*choice.is);
        let results = row.results.iter().take(tuned.exact).map(|result| &*result.shown);
        lines.push([number.as_str()].into_iter().chain(choices).chain(results).collect());
    }
    let columns = lines.iter().map(Vec::len).max().unwrap_or(0);
    let width =
        |column: usize| lines.iter().filter_map(|line| line.get(column)).map(|cell| cell.width()).max();
    let widths: Vec<usize> = (0..columns).map(|column| width(column).unwrap_or(0)).collect();
    let mut text = String::new();
    for line in &lines {
        let cells = line.iter().zip(&widths).enumerate().map(|(column, (cell, width))| {
            let pad = " ".repeat(width.saturating_sub(cell.width()));
            // The number to the right under the others, all else to the left under its name.
            if column == 0 { format!("{:>4}", format!("{pad}{cell}")) } else { format!("{cell}{pad}") }
        });
        let _ = writeln!(text, "{}", cells.collect::<Vec<_>>().join("  ").trim_end());
    }
    text
}
