//! All papers in a few files, to be printed at once.

use super::folder::Folder;
use super::given::Written;
use super::printed::Printing;
use crate::failure::Failure;
use assessment::cores;
use assessment::issue::Issue;
use document::tree::{Document, Paper, Print};

/// So many papers are in one file: the typesetter holds all of them at once, some 3 MB each.
const IN_ONE_FILE: usize = 50;

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
    let mut names = Vec::new();
    for (sheet, sheet_name) in [(Paper::A4, "a4"), (Paper::UsLetter, "letter")] {
        for (print, print_name) in [(Print::Usual, ""), (Print::Large, "-large")] {
            let is_so = |paper: &&Written<'_>| {
                printing.form(paper).is_some_and(|(_, form)| form.sheet == sheet && form.print == print)
            };
            let alike: Vec<&Written<'_>> = papers.iter().filter(is_so).collect();
            for (place, some) in alike.chunks(IN_ONE_FILE).enumerate() {
                let documents: Vec<Option<Document>> = cores::each(some, |paper| {
                    let (set, _) = paper.set(issue)?;
                    Ok(printing.pages(paper, &set).map(|pages| pages.paper))
                })
                .into_iter()
                .collect::<Result<_, Failure>>()?;
                let documents: Vec<Document> = documents.into_iter().flatten().collect();
                let title = format!("{}, to print", issue.papers().lesson().about.title);
                let name = format!("to-print/{sheet_name}{print_name}-{:02}.pdf", place + 1);
                let made = document::pdf::pdf_of_all(&documents, &title, &name)
                    .map_err(|error| Failure::Ours(error.to_string()))?;
                folder.renew(&name, &made.bytes)?;
                names.push(name);
            }
        }
    }
    folder.leave_only("to-print", &names)
}
