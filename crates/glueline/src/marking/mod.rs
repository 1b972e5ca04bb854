//! `glueline mark`: what a class answered is judged, each answer against the student's own paper.

mod class;
mod pages;
mod tables;
mod to_mark;

use crate::arguments::{DecimalMark, Mark as Job};
use crate::failure::Failure;
use crate::output::{Existing, write};
use crate::papers::progress::Progress;
use crate::papers::{counted, list_of, printed, warn_of};
use assessment::cores;
use assessment::mark::{Answer, Judged, Marked, Marker, Units};
use assessment::review::MarkedStudent;
use assessment::set::{Ask, Part};
use class::{Class, Holder};
use exchange::answers::{self, Answers, AskedOn, Decisions, Habit, Mark, PaperAnswers, Read};
use std::collections::BTreeMap;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use to_mark::ByHand;

/// What a person reads, and decides to say.
const TO_READ: &str = "to-read.csv";
/// What a person marks.
const TO_MARK: &str = "to-mark.csv";
/// The rows that are nobody's.
const NOT_PLACED: &str = "not-placed.csv";

/// What one student answered, and what became of it.
#[derive(Debug)]
pub struct OfStudent<'a> {
    holder: &'a Holder,
    given: &'a PaperAnswers,
    /// The answers as they were marked, by the labels of the parts.
    answers: Vec<(String, Answer)>,
    marked: Marked,
}

impl OfStudent<'_> {
    /// As the review of the class takes it.
    fn as_marked(&self) -> MarkedStudent<'_> {
        MarkedStudent {
            student: &self.holder.student,
            paper: &self.holder.set,
            answers: &self.answers,
            marked: &self.marked,
        }
    }

    /// The answers, judged and as they were given.
    fn all(&self) -> impl Iterator<Item = (&Judged, &answers::Answer)> {
        self.marked.parts.iter().zip(&self.given.answers)
    }
}

/// Whether a person marks an answer or has marked it, and has not to read it first.
fn is_to_mark(judged: &Judged, answer: &answers::Answer) -> bool {
    let to_read = matches!(answer.read, Read::ByHand(_)) && !answer.decided;
    judged.decided.is_some() || judged.earned.is_none() && !to_read
}

/// Marks a class.
///
/// # Errors
/// Where the folder holds no papers, the answers or what a person decided cannot be read, or a file cannot be written.
pub fn run(job: &Job) -> Result<(), Failure> {
    let class = Class::read(&job.papers, job.class.as_deref())?;
    let out = job.out.clone().unwrap_or_else(|| beside(&job.papers));
    let on = if job.platform { AskedOn::Platform } else { AskedOn::Paper };
    let answers = read(job, &class, on, &out)?;
    let by_hand = ByHand::read(&out.join(TO_MARK), &class, &answers)?;

    let (progress, done) = (Progress::new("papers marked", class.holders.len()), AtomicUsize::new(0));
    let pairs: Vec<(&Holder, &PaperAnswers)> = class.holders.iter().zip(&answers.papers).collect();
    let marked = cores::each(&pairs, |(holder, given)| {
        let answers = answered(holder, given);
        let marked = marked(holder, &answers, on, &by_hand)?;
        progress.at(done.fetch_add(1, Ordering::Relaxed) + 1);
        Ok(OfStudent { holder, given, answers, marked })
    });
    let marked: Vec<OfStudent<'_>> = marked.into_iter().collect::<Result<_, Failure>>()?;

    let put = |name: &str, content: &[u8]| {
        write(&out.join(name), content, Existing::Replace).map_err(Failure::from)
    };
    let habit = class.habit();
    put("marks.csv", &tables::marks(&marked, habit)?)?;
    put("answers.csv", &tables::answers(&marked, habit)?)?;
    put(TO_READ, &tables::to_read(&answers.to_read, habit)?)?;
    put(NOT_PLACED, &tables::not_placed(&answers.unplaced, habit)?)?;
    put(TO_MARK, &by_hand.written(&marked, habit)?)?;
    let mut missing = pages::put_feedback(&class, &marked, units(on), &out)?;
    missing.push(Some(pages::put_review(&marked, &answers, units(on), &out)?));
    tell(&marked, &answers, &by_hand, &out);
    pages::tell_of_left_feedback(&marked, &out)?;
    for line in printed::remarks(&missing) {
        anstream::println!("{line}");
    }
    Ok(())
}

/// The answers, with what a person has read of them before.
fn read(job: &Job, class: &Class, on: AskedOn, out: &Path) -> Result<Answers, Failure> {
    let bytes = std::fs::read(&job.answers).map_err(|error| Failure::Unread(job.answers.clone(), error))?;
    let to_read = out.join(TO_READ);
    let decisions = match contents(&to_read)? {
        Some(bytes) => Decisions::read(&bytes).map_err(|faults| list_of(&to_read, &faults))?,
        None => Decisions::default(),
    };
    let declared = job.decimal.map(|mark| match mark {
        DecimalMark::Point => Mark::Point,
        DecimalMark::Comma => Mark::Comma,
    });
    let habit = Habit { declared, printed: class.printed() };
    let answers = answers::read(&bytes, &class.asked(on), habit, &decisions)
        .map_err(|faults| list_of(&job.answers, &faults))?;
    warn_of(&job.answers, &answers.remarks);
    warn_of(&to_read, &answers.of_decisions);
    Ok(answers)
}

/// The answers of a paper as they are marked.
fn answered(holder: &Holder, given: &PaperAnswers) -> Vec<(String, Answer)> {
    let answer = |(part, answer): (&Part, &answers::Answer)| {
        // A drawing lies on the desk: of one for which nothing is written the file says nothing.
        let aside =
            matches!(part.ask, Ask::Sketch { .. }) && answer.raw.trim().is_empty() && !given.rows.is_empty();
        let answer = if aside { Answer::Unreadable(String::new()) } else { answer.for_marking() };
        (part.label.clone(), answer)
    };
    holder.set.parts().zip(&given.answers).map(answer).collect()
}

/// In which units numbers without one stand.
fn units(on: AskedOn) -> Units {
    match on {
        AskedOn::Paper => Units::Printed,
        AskedOn::Platform => Units::Typed,
    }
}

/// One paper, with what a person decided of it.
fn marked(
    holder: &Holder,
    answers: &[(String, Answer)],
    on: AskedOn,
    by_hand: &ByHand,
) -> Result<Marked, Failure> {
    let marker = Marker::new(&holder.set).map_err(|error| Failure::Ours(error.to_string()))?;
    let mut marked = marker.in_units(units(on)).mark(answers).map_err(|faults| {
        let told: Vec<String> = faults.iter().map(ToString::to_string).collect();
        Failure::Ours(told.join("; "))
    })?;
    // What a person decided was held against the papers when it was read.
    marked.decide(&holder.number, by_hand.decisions()).map_err(|faults| {
        let told: Vec<String> = faults.iter().map(ToString::to_string).collect();
        Failure::List(told.join("\n"))
    })?;
    Ok(marked)
}

/// The content of a file that need not be there.
fn contents(path: &Path) -> Result<Option<Vec<u8>>, Failure> {
    match std::fs::read(path) {
        Ok(bytes) => Ok(Some(bytes)),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(None),
        Err(error) => Err(Failure::Unread(path.to_owned(), error)),
    }
}

/// `girder-marks` for `girder-papers`.
fn beside(papers: &Path) -> PathBuf {
    let name = papers.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    papers.with_file_name(format!("{}-marks", name.strip_suffix("-papers").unwrap_or(&name)))
}

/// What came of it, in some lines.
fn tell(marked: &[OfStudent<'_>], answers: &Answers, by_hand: &ByHand, out: &Path) {
    let answered = answers.papers.iter().filter(|paper| !paper.rows.is_empty()).count();
    anstream::println!("{} of {} answered", answered, counted(marked.len(), "paper"));
    let mut verdicts: BTreeMap<&str, usize> = BTreeMap::new();
    for judged in marked.iter().filter(|one| !one.given.rows.is_empty()).flat_map(|one| &one.marked.parts) {
        *verdicts.entry(judged.verdict.word()).or_default() += 1;
    }
    let mut verdicts: Vec<_> = verdicts.into_iter().collect();
    verdicts.sort_by_key(|&(word, count)| (std::cmp::Reverse(count), word));
    for (word, count) in verdicts {
        anstream::println!("  {count:>6}  {}", word.replace('-', " "));
    }
    let waiting = answers.to_read.iter().filter(|entry| entry.decided.is_empty()).count();
    if waiting > 0 {
        anstream::println!(
            "{} a person has to read: fill in the last column of {} and run the same again",
            counted(waiting, "answer"),
            out.join(TO_READ).display()
        );
    }
    // The rows of the list that are still to be filled in; what has to be read first is told above.
    let waiting = |(judged, answer): &(&Judged, &answers::Answer)| {
        is_to_mark(judged, answer) && judged.marks().is_none()
    };
    let to_mark = marked.iter().flat_map(OfStudent::all).filter(waiting).count();
    if to_mark > 0 {
        anstream::println!(
            "{} a person has to mark: fill in the marks in {} and run the same again",
            counted(to_mark, "answer"),
            out.join(TO_MARK).display()
        );
    }
    if by_hand.changed() > 0 {
        anstream::println!(
            "{} changed since a person marked {}: {} shows the old marks beside, and they do not count",
            if by_hand.changed() == 1 {
                "1 answer has".to_owned()
            } else {
                format!("{} answers have", by_hand.changed())
            },
            if by_hand.changed() == 1 { "it" } else { "them" },
            out.join(TO_MARK).display()
        );
    }
    if !answers.unplaced.is_empty() {
        anstream::println!(
            "{} of the answers {} to no paper: {} says why, and whose they may be",
            counted(answers.unplaced.len(), "row"),
            if answers.unplaced.len() == 1 { "belongs" } else { "belong" },
            out.join(NOT_PLACED).display()
        );
    }
    anstream::println!("the marks: {}", out.join("marks.csv").display());
    if answered > 0 {
        anstream::println!(
            "the class, for yourself: {}",
            out.join(pages::REVIEW).with_extension("html").display()
        );
    }
    anstream::println!("for the students, to each their own: {}", out.join(pages::FEEDBACK).display());
}
