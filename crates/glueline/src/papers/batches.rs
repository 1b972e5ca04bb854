//! The papers of the ledger, written batch by batch: those that go into one file for the printer are set together.

use super::folder::Folder;
use super::given::{Given, Written};
use super::package;
use super::printed::{self, Missing, Printing};
use super::progress::Progress;
use crate::arguments::Qti;
use crate::failure::Failure;
use assessment::cores;
use assessment::issue::Issue;
use document::tree::{Document, Paper, Print};
use std::sync::atomic::{AtomicUsize, Ordering};

/// So many papers are in one file: the typesetter holds all of them at once, some 3 MB each.
const IN_ONE_FILE: usize = 50;

/// What papers are written with.
#[derive(Clone, Copy, Debug)]
pub struct Writing<'a> {
    /// What was drawn, and from which lesson.
    pub issue: &'a Issue,
    /// How they are printed.
    pub printing: &'a Printing<'a>,
    /// Where they go.
    pub folder: &'a Folder,
    /// The packages that are made as well, if any.
    pub packages: Option<Qti>,
}

/// Papers that are set together.
#[derive(Debug)]
struct Batch<'a> {
    /// What the file with all of them is called; none where nobody knows how to print them.
    name: Option<String>,
    /// The papers, each with its place in the ledger.
    papers: Vec<(usize, &'a Written<'a>)>,
}

/// A paper whose key is written, and that is still to be set.
struct Made {
    given: Given,
    /// What its files are called, and what its student gets; none where nobody knows how to print it.
    paper: Option<(String, Document)>,
    /// What a reader of its PDFs will miss; none where it is not printed.
    missing: Option<Missing>,
}

impl Writing<'_> {
    /// Writes all papers, and the files for the printer; gives each with its key and with what a reader of its PDFs will miss (none
    /// where it was not printed), in the order of the ledger.
    ///
    /// So many batches as there are cores are at work at a time, and no more papers than theirs are held.
    ///
    /// # Errors
    /// Where a paper is unsound, the typesetter complains or a file cannot be written.
    pub fn all(&self, written: &[Written<'_>]) -> Result<(Vec<Given>, Vec<Option<Missing>>), Failure> {
        let (progress, done) = (Progress::new("keys written", written.len()), AtomicUsize::new(0));
        let batches = self.batches(written);
        if batches.iter().map(|batch| batch.papers.len()).sum::<usize>() != written.len() {
            return Err(Failure::Ours("a paper is of a sheet that is not printed".to_owned()));
        }
        let mut all: Vec<(usize, Given, Option<Missing>)> = Vec::new();
        for some in batches.chunks(cores::count()) {
            let papers: Vec<(usize, &Written<'_>)> =
                some.iter().flat_map(|batch| batch.papers.clone()).collect();
            let made = cores::each(&papers, |(place, paper)| {
                let made = self.made(paper)?;
                progress.at(done.fetch_add(1, Ordering::Relaxed) + 1);
                Ok((*place, made))
            });
            let mut made = made.into_iter().collect::<Result<Vec<_>, Failure>>()?.into_iter();
            let batches = some.iter().map(|batch| (batch, made.by_ref().take(batch.papers.len()).collect()));
            let batches: Vec<(&Batch<'_>, Vec<(usize, Made)>)> = batches.collect();
            let missing = cores::each(&batches, |(batch, papers)| self.set_together(batch, papers));
            for ((_, papers), missing) in batches.into_iter().zip(missing) {
                for ((place, paper), missing) in papers.into_iter().zip(missing?) {
                    all.push((place, paper.given, paper.missing.map(|of_key| &of_key | &missing)));
                }
            }
        }
        // A build without typesetter made none, and says nothing of those that are there.
        if cfg!(feature = "pdf") {
            let files: Vec<String> = batches.into_iter().filter_map(|batch| batch.name).collect();
            self.folder.leave_only("to-print", &files)?;
        }
        all.sort_by_key(|(place, ..)| *place);
        Ok(all.into_iter().map(|(_, given, missing)| (given, missing)).unzip())
    }

    /// All papers by sheet and size of print, in the order of the ledger; those that nobody knows how to print are last.
    fn batches<'a>(&self, papers: &'a [Written<'a>]) -> Vec<Batch<'a>> {
        let form = |paper| self.printing.form(paper).map(|(_, form)| (form.sheet, form.print));
        let batch = |wanted: Option<(Paper, Print)>, named: &dyn Fn(usize) -> Option<String>| {
            let papers: Vec<_> =
                papers.iter().enumerate().filter(|(_, paper)| form(paper) == wanted).collect();
            let batches = papers.chunks(IN_ONE_FILE).enumerate();
            batches
                .map(|(place, some)| Batch { name: named(place + 1), papers: some.to_vec() })
                .collect::<Vec<_>>()
        };
        let mut batches = Vec::new();
        for (sheet, sheet_name) in [(Paper::A4, "a4"), (Paper::UsLetter, "letter")] {
            for (print, print_name) in [(Print::Usual, ""), (Print::Large, "-large")] {
                let name = |number| Some(format!("to-print/{sheet_name}{print_name}-{number:02}.pdf"));
                batches.extend(batch(Some((sheet, print)), &name));
            }
        }
        batches.extend(batch(None, &|_| None));
        batches
    }

    /// Writes all of one paper but its PDF.
    fn made(&self, paper: &Written<'_>) -> Result<Made, Failure> {
        let (set, given) = paper.set(self.issue)?;
        // That students read no other paper than before was made sure of.
        self.folder.renew(&paper.lesson_file(), paper.text.as_bytes())?;
        let pages = self.printing.pages(paper, &set);
        let missing = pages.as_ref().map(|pages| printed::put(pages, self.folder)).transpose()?;
        if let Some(version) = self.packages {
            package::put(self.folder, &set, paper, version)?;
        }
        Ok(Made { given, paper: pages.map(|pages| (pages.name, pages.paper)), missing })
    }

    /// Writes the PDFs of the papers of a batch, and the file that has all of them; gives for each what a reader of it will miss.
    fn set_together(&self, batch: &Batch<'_>, papers: &[(usize, Made)]) -> Result<Vec<Missing>, Failure> {
        let Some(name) = &batch.name else { return Ok(vec![Missing::new(); papers.len()]) };
        let (names, documents): (Vec<&String>, Vec<&Document>) = papers
            .iter()
            .filter_map(|(_, made)| made.paper.as_ref())
            .map(|(name, paper)| (name, paper))
            .unzip();
        let title = format!("{}, to print", self.issue.papers().lesson().about.title);
        let Some(made) = printed::typeset_together(&documents, &title, name)? else {
            return Ok(vec![Missing::new(); papers.len()]);
        };
        self.folder.renew(name, &made.all)?;
        let each = names.iter().zip(made.each).map(|(name, made)| {
            self.folder.put(&format!("papers/{name}.pdf"), &made.bytes)?;
            Ok(made.missing)
        });
        each.collect()
    }
}
