//! All papers in a few files, to be printed at once.

use super::folder::Folder;
use super::given::Written;
use super::printed::Printing;
use crate::failure::Failure;
use assessment::cores;
use assessment::issue::Issue;
use document::tree::{Paper, Print};

/// So many papers are in one file: the typesetter holds all of them at once, some 3 MB each.
const IN_ONE_FILE: usize = 50;

/// A file to be printed at once.
struct Batch<'a> {
    /// What it is called in the folder.
    name: String,
    papers: Vec<&'a Written<'a>>,
}

/// Writes them, by sheet and size of print, in the order of the students' ids.
///
/// # Errors
/// Where the typesetter complains or a file cannot be written.
pub fn put(
    folder: &Folder,
    papers: &[Written<'_>],
    printing: &Printing<'_>,
    issue: &Issue,
) -> Result<(), Failure> {
    let batches = batches(papers, printing);
    let title = format!("{}, to print", issue.papers().lesson().about.title);
    let made = cores::each(&batches, |batch| -> Result<(), Failure> {
        let mut documents = Vec::new();
        for paper in &batch.papers {
            let (set, _) = paper.set(issue)?;
            documents.extend(printing.pages(paper, &set).map(|pages| pages.paper));
        }
        let made = document::pdf::pdf_of_all(&documents, &title, &batch.name)
            .map_err(|error| Failure::Ours(error.to_string()))?;
        folder.renew(&batch.name, &made.bytes)
    });
    made.into_iter().collect::<Result<(), Failure>>()?;
    let names: Vec<String> = batches.into_iter().map(|batch| batch.name).collect();
    folder.leave_only("to-print", &names)
}

fn batches<'a>(papers: &'a [Written<'a>], printing: &Printing<'_>) -> Vec<Batch<'a>> {
    let mut batches = Vec::new();
    for (sheet, sheet_name) in [(Paper::A4, "a4"), (Paper::UsLetter, "letter")] {
        for (print, print_name) in [(Print::Usual, ""), (Print::Large, "-large")] {
            let is_so = |paper: &&Written<'_>| {
                printing.form(paper).is_some_and(|(_, form)| form.sheet == sheet && form.print == print)
            };
            let alike: Vec<&Written<'_>> = papers.iter().filter(is_so).collect();
            batches.extend(alike.chunks(IN_ONE_FILE).enumerate().map(|(place, some)| Batch {
                name: format!("to-print/{sheet_name}{print_name}-{:02}.pdf", place + 1),
                papers: some.to_vec(),
            }));
        }
    }
    batches
}
