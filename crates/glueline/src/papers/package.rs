//! The questions of a paper as a package for a learning platform. The key is in it, and the name of the file says so.

use super::folder::Folder;
use super::given::Written;
use crate::arguments::{Form, Qti};
use crate::failure::Failure;
use crate::figures;
use assessment::set::SetPaper;
use document::paper::what_is_given;
use document::tree::{Block, Figure};
use exchange::fault::Fault;
use exchange::qti::{Given, Identifier, Package, Passage, Picture, Questions, Version, left_out};

/// Writes the package of a paper among the keys.
///
/// # Errors
/// Where a question cannot stand in a package, this build makes no PNG, or a file is in the way.
pub fn put(folder: &Folder, set: &SetPaper, written: &Written<'_>, version: Qti) -> Result<(), Failure> {
    let number = written.entry.number.to_string();
    let name = identifier(&format!("paper-{number}"))?;
    let questions = Questions::of(set, &name, &given(set)?).map_err(|fault| ours(&fault))?;
    // All of it is drawn by hand: nothing for a platform to ask.
    if questions.items.is_empty() {
        return Ok(());
    }
    let title = format!("{}, paper {number}", set.lesson.about.title);
    let package =
        Package { identifier: name, title, items: questions.items, left_out: left_out(&set.lesson) };
    let version = match version {
        Qti::V21 => Version::Qti21,
        Qti::V30 => Version::Qti30,
    };
    let archive = package.zip(version).map_err(|faults| {
        let told: Vec<String> = faults.iter().map(ToString::to_string).collect();
        Failure::Asked(format!("the questions of paper {number} cannot be packed: {}", told.join("; ")))
    })?;
    folder.renew(&format!("keys/{}", archive.name), &archive.bytes)
}

/// What is given: words, and drawings with theirs.
fn given(set: &SetPaper) -> Result<Given, Failure> {
    let style = set.solved.style();
    let mut given = Given::default();
    let mut words = Vec::new();
    for block in what_is_given(set) {
        match block {
            Block::Figure(figure) => given.pictures.push(picture(&figure, set)?),
            block => words.push(block),
        }
    }
    given.words = Passage::of(&words, style).map_err(|fault| ours(&fault))?;
    Ok(given)
}

fn picture(figure: &Figure, set: &SetPaper) -> Result<Picture, Failure> {
    let drawing = &figure.drawing;
    let description = document::described(&drawing.long);
    Ok(Picture {
        name: identifier(&drawing.name)?,
        png: figures::content(drawing, Form::Png, &set.lesson.about.language)?,
        svg: drawing.svg(),
        alt: drawing.short.clone(),
        description: Passage::of(&description, set.solved.style()).map_err(|fault| ours(&fault))?,
    })
}

fn identifier(name: &str) -> Result<Identifier, Failure> {
    Identifier::new(name).ok_or_else(|| Failure::Ours(format!("{name:?} cannot be a name in a package")))
}

fn ours(fault: &Fault) -> Failure {
    Failure::Ours(fault.to_string())
}
