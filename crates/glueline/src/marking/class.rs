//! The papers that a class has, from the folder that they were made in.

use crate::failure::Failure;
use crate::papers::class_list;
use crate::papers::folder::LEDGER;
use crate::papers::forms::Letters;
use crate::papers::printed::Printing;
use crate::{source, written};
use assessment::cores;
use assessment::ledger::holders;
use assessment::set::SetPaper;
use document::tree::Paper as Sheet;
use exchange::answers::{AskedOn, Mark, PaperAsked};
use exchange::roster::Roster;
use exchange::table::{Habit, Marks};
use sha2::{Digest as _, Sha256};
use std::collections::HashMap;
use std::path::Path;
use workings::style::DecimalMark;

/// A student with the paper that was handed out.
#[derive(Debug)]
pub struct Holder {
    /// The student's id, or the name of the form.
    pub student: String,
    /// Their name; empty where no class list tells it.
    pub name: String,
    /// The number of the paper.
    pub number: String,
    /// What tells the text of this paper from any other: the first figures of its SHA-256.
    pub digest: String,
    /// What it asks and what is right.
    pub set: SetPaper,
}

/// All who have a paper, in the order of the ledger; at least one.
#[derive(Debug)]
pub struct Class {
    pub holders: Vec<Holder>,
    /// The class list; none where none was named.
    roster: Option<Roster>,
}

/// So many figures of a digest tell the papers of a term apart.
const DIGEST: usize = 12;

impl Class {
    /// Reads the papers of a folder, as they were handed out, and the names of a class list.
    ///
    /// # Errors
    /// Where the folder holds no papers, or something in it cannot be read.
    pub fn read(folder: &Path, list: Option<&Path>) -> Result<Self, Failure> {
        let ledger = folder.join(LEDGER);
        let text = std::fs::read_to_string(&ledger).map_err(|error| match error.kind() {
            std::io::ErrorKind::NotFound => Failure::Asked(format!(
                "{} holds no {LEDGER}, so it is no folder of papers\n  to mend it: name the folder that glueline papers made",
                folder.display()
            )),
            _ => Failure::Unread(ledger.clone(), error),
        })?;
        let holders =
            holders(&text).map_err(|fault| Failure::Asked(format!("{}: {fault}", ledger.display())))?;
        if holders.is_empty() {
            return Err(Failure::Asked(format!("nobody has a paper in {}", folder.display())));
        }
        let roster = list.map(class_list).transpose()?;
        let names: HashMap<&str, &str> = roster
            .iter()
            .flat_map(|roster| roster.students())
            .map(|student| (student.id.as_str(), student.name.as_str()))
            .collect();
        let read = cores::each(&holders, |(student, number)| {
            let number = number.to_string();
            let path = folder.join("lessons").join(format!("{number}.toml"));
            let text = source::text(&path)?;
            let digest = format!("{:x}", Sha256::digest(&text)).chars().take(DIGEST).collect();
            let name = names.get(student.as_str()).map(|name| (*name).to_owned()).unwrap_or_default();
            Ok(Holder { student: student.clone(), name, number, digest, set: set(&text, &path)? })
        });
        Ok(Self { holders: read.into_iter().collect::<Result<_, Failure>>()?, roster })
    }

    /// What was asked of everybody.
    pub fn asked(&self, on: AskedOn) -> Vec<PaperAsked> {
        let asked = |holder: &Holder| PaperAsked::of(&holder.set, &holder.student, &holder.number, on);
        self.holders.iter().map(asked).collect()
    }

    /// The decimal mark on the papers.
    pub fn printed(&self) -> Mark {
        match self.decimal_mark() {
            DecimalMark::Point => Mark::Point,
            DecimalMark::Comma => Mark::Comma,
        }
    }

    /// How the tables are written, for the spreadsheets of the course.
    pub fn habit(&self) -> Habit {
        let marks = match self.decimal_mark() {
            DecimalMark::Point => Marks::Point,
            DecimalMark::Comma => Marks::Comma,
        };
        Habit { marks, for_spreadsheets: true }
    }

    fn decimal_mark(&self) -> DecimalMark {
        self.holders.first().map_or(DecimalMark::Point, |holder| holder.set.solved.style().decimal_mark)
    }

    /// How the pages of the class are printed: as its papers were.
    pub fn printing(&self) -> Printing<'_> {
        let sheet = self.holders.first().map_or(Sheet::A4, |holder| written::paper(&holder.set.lesson));
        Printing::new(sheet, self.roster.as_ref(), Letters::new())
    }

    /// The paper of a number.
    pub fn paper(&self, number: &str) -> Option<&Holder> {
        self.holders.iter().find(|holder| holder.number == number)
    }
}

fn set(text: &str, path: &Path) -> Result<SetPaper, Failure> {
    let name = path.display().to_string();
    let reading = lesson::read(text, &name);
    let Some((lesson, solved)) = reading.lesson.zip(reading.solved) else {
        source::tell(&reading.findings);
        return Err(Failure::Lesson);
    };
    SetPaper::new(lesson, solved).map_err(|faults| {
        let why: Vec<String> = faults.iter().map(|fault| format!("{name}: {fault}")).collect();
        Failure::Asked(why.join("\n"))
    })
}
