//! `glueline papers`: a class list and a lesson become papers with numbers of their own, their keys, and the table that shows
//! them to be fair.

mod batches;
mod fairness;
pub mod folder;
pub mod forms;
mod given;
mod key;
mod package;
pub mod printed;
pub mod progress;
mod readme;
mod term_secret;

use crate::arguments::Papers as Job;
use crate::failure::Failure;
use crate::output::Existing;
use crate::{source, written};
use assessment::cores;
use assessment::issue::Issue;
use assessment::ledger::{Ledger, LedgerFault};
use assessment::secret::ExamSecret;
use batches::Writing;
use exchange::fault::Fault;
use exchange::roster::Roster;
use folder::{Folder, LEDGER};
use given::Written;
use lesson::papers::Papers;
use printed::Printing;
use progress::Progress;
use std::path::{Path, PathBuf};

/// Makes the papers of a class, or a few forms for it.
///
/// # Errors
/// Where the lesson or the class list has mistakes, no draw may be given out, the ledger or the secret is of something else,
/// or a file cannot be read or written.
pub fn run(job: &Job) -> Result<(), Failure> {
    #[cfg(not(feature = "pdf"))]
    if job.qti.is_some() {
        // A package holds its drawings as PNG.
        return Err(written::without_typesetter());
    }
    let text = source::text(&job.lesson)?;
    let papers = Papers::read(&text, &job.lesson.display().to_string()).map_err(|findings| {
        source::tell(&findings);
        Failure::Lesson
    })?;
    source::tell(&papers.lesson().remarks);
    if papers.lesson().questions.is_empty() {
        return Err(Failure::Asked(format!(
            "{} has no [[question]], so its papers would ask for nothing\n  to mend it: say what students are asked for:\n\n  \
             [[question]]\n  ask = \"shear stress on the cut\"",
            job.lesson.display()
        )));
    }
    let roster = job.class.as_deref().map(class_list).transpose()?;
    let out = match &job.out {
        Some(out) => out.clone(),
        None => PathBuf::from(format!("{}-papers", source::stem(&job.lesson))),
    };
    let existing = if job.replace { Existing::Replace } else { Existing::Keep };
    let folder = Folder::open(&out, existing)?;

    let issue = Issue::new(papers);
    let mut ledger = ledger(&folder, &issue)?;
    let secret = secret(job, &ledger)?;
    let ids: Vec<&str> = match &roster {
        Some(roster) => roster.students().iter().map(|student| student.id.as_str()).collect(),
        None => Vec::new(),
    };
    let letters = match &roster {
        Some(roster) => forms::give(&issue, &secret, &mut ledger, (roster, job.forms))?,
        None => None,
    };
    let drawn = match (&roster, job.forms) {
        (None, Some(count)) => issue.give_forms(&secret, &mut ledger, count),
        _ if letters.is_some() => Ok(()),
        _ => {
            let drawn = Progress::new("papers drawn", ids.len());
            issue.give(&secret, &mut ledger, &ids, &|done| drawn.at(done))
        }
    };
    drawn.map_err(|fault| no_paper(&fault, &issue))?;
    let written = Written::all(&issue, &ledger)?;
    let printing = Printing::new(
        written::sheet(job.paper, issue.papers().lesson()),
        roster.as_ref(),
        letters.clone().unwrap_or_default(),
    );
    refuse_other_papers(&folder, &written, &issue, &printing)?;
    folder.renew(LEDGER, ledger.text().as_bytes())?;
    let writing = Writing { issue: &issue, printing: &printing, folder: &folder, packages: job.qti };
    let (given, missing) = writing.all(&written)?;
    folder.renew("keys/key.csv", &key::csv(&given, &issue)?)?;
    folder.renew("keys/key.json", key::json(&given, &issue)?.as_bytes())?;
    let report = fairness::Report::of(&issue, &given, &letters, issue.thrown_out(&secret, &ledger));
    folder.renew("fairness.txt", report.text(&issue).as_bytes())?;
    folder.renew("fairness.json", report.json()?.as_bytes())?;
    folder.renew("README.txt", readme::text(&issue, given.len()).as_bytes())?;
    anstream::print!("{}", report.text(&issue));
    for line in printed::remarks(&missing) {
        anstream::println!("{line}");
    }
    if let Some(words) = job.qti.and_then(|_| exchange::qti::left_out(issue.papers().lesson())) {
        anstream::println!("for the learning platform: {words}");
    }
    let (fresh, unchanged) = folder.counts();
    anstream::println!(
        "\n{} in {}: {fresh} files written, {unchanged} there already\nto hand out: {}; keep all the rest to yourself",
        counted(given.len(), "paper"),
        out.display(),
        handed_out(&out)
    );
    Ok(())
}

/// The folders that hold nothing of the key.
fn handed_out(out: &Path) -> String {
    let papers = out.join("papers").display().to_string();
    match cfg!(feature = "pdf") {
        true => format!("{papers}, or for the printer {}", out.join("to-print").display()),
        false => papers,
    }
}

/// The class list, with every fault told at its row and column.
///
/// # Errors
/// [`Failure::Unread`], or [`Failure::List`].
pub fn class_list(path: &Path) -> Result<Roster, Failure> {
    let bytes = std::fs::read(path).map_err(|error| Failure::Unread(path.to_owned(), error))?;
    let roster = Roster::read(&bytes).map_err(|faults| list_of(path, &faults))?;
    warn_of(path, roster.warnings());
    Ok(roster)
}

/// Every fault of a list from outside, each at its row and column.
pub fn list_of(path: &Path, faults: &[Fault]) -> Failure {
    let told: Vec<String> =
        faults.iter().map(|fault| format!("{}, {fault}", path.display()).replace('\n', "\n  ")).collect();
    Failure::List(told.join("\n"))
}

/// Says on standard error what is odd in a list from outside.
pub fn warn_of(path: &Path, warnings: &[Fault]) {
    for warning in warnings {
        anstream::eprintln!("warning: {}, {}", path.display(), warning.to_string().replace('\n', "\n  "));
    }
}

/// The ledger of the folder, or a new one.
fn ledger(folder: &Folder, issue: &Issue) -> Result<Ledger, Failure> {
    let (lesson, space) = (&issue.papers().lesson().about.title, issue.space());
    let Some(text) = folder.text(LEDGER)? else {
        return Ok(Ledger::new::<ExamSecret>(lesson, space.clone()));
    };
    let read = Ledger::read::<ExamSecret>(&text, lesson, space);
    let ledger = match read {
        // The title may be mended after the first papers; they stay those of the lesson as it was called then.
        Err(LedgerFault::OtherLesson { found, .. }) => Ledger::read::<ExamSecret>(&text, &found, space),
        read => read,
    };
    ledger.map_err(|fault| Failure::Asked(format!("{}: {fault}", folder.path(LEDGER).display())))
}

/// The secret of the term: made where there is none, unless papers were drawn by one already.
fn secret(job: &Job, ledger: &Ledger) -> Result<ExamSecret, Failure> {
    let place = term_secret::place(job.secret.as_deref(), &job.lesson);
    match term_secret::read(&place)? {
        Some(secret) => match ledger.not_drawn_by(&secret) {
            None => Ok(secret),
            Some(student) => Err(Failure::Asked(format!(
                "{} is not the secret that drew the papers of the ledger (that of {student:?}, say)\n  to mend it: name the one \
                 that did: --secret FILE; or begin a new folder: -o FOLDER",
                place.display()
            ))),
        },
        None if ledger.is_empty() => term_secret::make(&place),
        None => Err(Failure::Asked(format!(
            "there is no {}, and without the secret that drew the papers of the ledger no other can be drawn\n  to mend it: put \
             it back, or name it: --secret FILE",
            place.display()
        ))),
    }
}

/// What the ledger says where no paper can be given, with what stands in the way.
fn no_paper(fault: &LedgerFault, issue: &Issue) -> Failure {
    if !matches!(fault, LedgerFault::NothingFits { .. }) {
        return Failure::Asked(fault.to_string());
    }
    let looked = issue.refused_of_sample();
    let why =
        looked.why.iter().map(|why| format!("\n  against {}: {}", counted(why.draws, "draw"), why.reason));
    Failure::Asked(format!(
        "no paper can be given out: {fault}\nof {} that were looked at first, something stands against {}:{}\n  to mend it: \
         glueline tune says what to widen",
        counted(looked.draws, "draw"),
        looked.refused,
        why.collect::<String>()
    ))
}

/// Refuses to go on where papers that were made before would now read otherwise, before anything is written. What students do not read may
/// change: marks for kinds of answers, mistakes that are known; the key and what marking goes by are then made anew.
fn refuse_other_papers(
    folder: &Folder,
    papers: &[Written<'_>],
    issue: &Issue,
    printing: &Printing<'_>,
) -> Result<(), Failure> {
    if folder.replaces() {
        return Ok(());
    }
    let reads_otherwise = |paper: &Written<'_>| {
        let name = printed::file_name(paper.student, &paper.entry.number.to_string());
        let Some(given) = folder.text(&printed::page(&name))? else { return Ok(false) };
        let (set, _) = paper.set(issue)?;
        match printing.pages(paper, &set) {
            Some(pages) => Ok(given != document::html::html(&pages.paper)),
            None => Ok(folder.text(&paper.lesson_file())?.is_some_and(|text| text != paper.text)),
        }
    };
    let otherwise =
        cores::each(papers, reads_otherwise).into_iter().collect::<Result<Vec<bool>, Failure>>()?;
    let others = otherwise.into_iter().filter(|otherwise| *otherwise).count();
    if others == 0 {
        return Ok(());
    }
    Err(Failure::Asked(format!(
        "the lesson or the class list has changed since the papers of this folder were made: {} would now read otherwise, and nothing was \
         touched\n  to mend it: put back what students read as it was ([marking] and [[mistake]] may change, and students may come and go); or \
         add --replace, if no paper has been given out; or name a new folder: -o FOLDER",
        counted(others, "paper")
    )))
}

/// A number and its noun.
pub fn counted(count: usize, noun: &str) -> String {
    format!("{count} {noun}{}", if count == 1 { "" } else { "s" })
}
