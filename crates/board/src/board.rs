//! A board: the text of a lesson, and what of it stands on the page.

use crate::blocks::{Blocks, other_blocks};
use crate::difference::{Change, difference};
use crate::fields::{Field, fields};
use crate::handle::{Handle, Handles, given_at, named_at};
use crate::results::Results;
use crate::section_keys::SectionKeys;
use crate::seen::Seen;
use crate::sheet::{self, Content, Part};
use crate::stop_words::StopWords;
use crate::truth::Truth;
use document::html::fragment;
use figure::drawing::Drawing;
use figure::scale::{Measured, Sheet};
use lesson::edit::{Input, Manuscript, NewValue};
use lesson::{Lesson, Shown};
use serde::Serialize;
use std::collections::BTreeMap;
use workings::solved::Solved;

/// A lesson on a board.
#[derive(Clone, Debug)]
pub struct Board {
    /// The name of its file, for findings.
    name: String,
    /// The text that the sheet shows.
    text: String,
    /// What the text gives that can be given anew.
    inputs: Vec<Input>,
    lesson: Lesson,
    solved: Solved,
    plan: Vec<Part>,
    /// The paths of the section's values and the names of its parts, and which side of a part hangs on which value.
    section: (Vec<String>, SectionKeys),
    /// What can be dragged, by the id of the piece.
    grips: BTreeMap<String, Vec<Handle>>,
    /// What the fields of the page say.
    fields: Vec<Field>,
    results: Results,
    /// What the page holds, by the id of the piece.
    shown: BTreeMap<String, String>,
    /// What of it is of the text that is shown, where not everything is.
    told: Option<Seen>,
    /// The sheet that the drawings are drawn on.
    sheet: Sheet,
    /// How far the formula is from the truth.
    truth: Truth,
}

/// Why a text was not taken; the board then stays as it was.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Refusal {
    /// What was wrong, each with its place and how to mend it, as plain text.
    pub findings: Vec<String>,
    /// The first of them in one sentence.
    pub first: String,
}

/// What the page must change.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Answer {
    /// The text that is shown now.
    pub text: String,
    /// The title of the lesson.
    pub title: String,
    /// The whole sheet, where its plan is another than before.
    pub sheet: Option<String>,
    /// Pieces whose content is another, each as a whole.
    pub pieces: Vec<(String, String)>,
    /// Pieces in which some blocks are others now.
    pub blocks: Vec<(String, Blocks)>,
    /// Drawings in which something moved.
    pub drawings: Vec<(String, Vec<Change>)>,
    /// Fields that say something else now.
    pub fields: Vec<Field>,
    /// What can be dragged, by the id of the drawing's piece, where it is another now; nothing where its list is empty.
    pub grips: Vec<(String, Vec<Handle>)>,
}

impl Board {
    /// A board with this lesson. `name` is the name of its file.
    ///
    /// # Errors
    /// Where the lesson has mistakes.
    pub fn new(text: &str, name: &str) -> Result<Self, Refusal> {
        let (lesson, solved, inputs) = read(text, name)?;
        let plan = sheet::plan(&lesson, &solved);
        Ok(Self {
            name: name.to_owned(),
            text: text.to_owned(),
            inputs,
            lesson,
            solved,
            plan,
            section: Default::default(),
            grips: BTreeMap::new(),
            fields: Vec::new(),
            results: Results::default(),
            shown: BTreeMap::new(),
            told: Some(Seen::default()),
            sheet: Sheet::USUAL,
            truth: Truth::default(),
        })
    }

    /// The text of the lesson that is shown.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The lesson that is shown.
    pub fn lesson(&self) -> &Lesson {
        &self.lesson
    }

    /// The lesson that is shown, solved.
    pub fn solved(&self) -> &Solved {
        &self.solved
    }

    /// The whole sheet with every piece drawn, as HTML; the board then knows that the page holds it.
    pub fn sheet(&mut self) -> String {
        self.sheet_with(|_| true)
    }

    /// The same without what comes later: for the file of a page.
    pub(crate) fn sheet_of_a_page(&mut self) -> String {
        self.sheet_with(|content| !content.comes_later())
    }

    fn sheet_with(&mut self, written: impl Fn(Content) -> bool) -> String {
        self.shown.clear();
        self.grips.clear();
        let mut pieces: BTreeMap<String, String> = BTreeMap::new();
        let drawings = figure::some_on(&self.solved, self.sheet, |name| self.plans(name));
        for piece in self.plan.iter().flat_map(|part| &part.steps).flat_map(|step| &step.pieces) {
            let content = match piece.content {
                Content::Drawing(name) => {
                    let drawing = drawings.iter().find(|drawing| drawing.name == name);
                    drawing.map(Drawing::svg_for_a_page).unwrap_or_default()
                }
                Content::Fields(_) => String::new(),
                Content::Results(chapter) => self.results.all(chapter, &self.solved),
                Content::Elastic => self.truth.content(&self.lesson, &self.solved, self.sheet),
                other => sheet::content(other, &self.lesson, &self.solved, self.sheet.is_narrow()),
            };
            pieces.insert(piece.id.clone(), content);
        }
        let words: BTreeMap<&str, String> = drawings
            .iter()
            .map(|drawing| {
                (drawing.name.as_str(), fragment(&document::described(&drawing.long), self.solved.style()))
            })
            .collect();
        self.fields = fields(&self.inputs);
        let html = crate::page::sheet(&self.plan, &written, &pieces, &words, &drawings, &self.fields);
        pieces.extend(words.into_iter().map(|(name, words)| (format!("words-{name}"), words)));
        self.shown = pieces;
        html
    }

    /// The pieces that a page from a disk gets only when it answers, with their content: see [`Content::comes_later`].
    pub fn later_pieces(&self) -> Vec<(String, String)> {
        let pieces = self.plan.iter().flat_map(|part| &part.steps).flat_map(|step| &step.pieces);
        let later = pieces.filter(|piece| piece.content.comes_later());
        later.filter_map(|piece| Some((piece.id.clone(), self.shown.get(&piece.id)?.clone()))).collect()
    }

    /// Takes another text, as one step, and tells what the page must change. Of the drawings only those of `seen` are
    /// made (all where it is `None`); the others are told when they are asked for.
    ///
    /// # Errors
    /// Where the text has mistakes; the board then stays as it was.
    pub fn take(&mut self, text: &str, seen: Option<&Seen>) -> Result<Answer, Refusal> {
        self.sheet.measured = None;
        self.show(text, seen)
    }

    /// As [`Board::take`], with the arrows of loads still measured as they were.
    fn show(&mut self, text: &str, seen: Option<&Seen>) -> Result<Answer, Refusal> {
        if text != self.text {
            (self.lesson, self.solved, self.inputs) = read(text, &self.name)?;
            text.clone_into(&mut self.text);
            self.told = Some(Seen::default());
            let plan = sheet::plan(&self.lesson, &self.solved);
            if plan != self.plan {
                self.plan = plan;
                let sheet = self.sheet();
                let mut answer = self.changes(None);
                answer.sheet = Some(sheet);
                return Ok(answer);
            }
        } else if let Some(seen) = seen
            && self.told.as_ref().is_none_or(|told| seen.within(told))
        {
            return Ok(Answer {
                text: self.text.clone(),
                title: self.lesson.about.title.clone(),
                ..Answer::default()
            });
        }
        Ok(self.changes(seen))
    }

    /// Tells the elastic truth from now on, and tells what the page must change.
    pub fn tell_truth(&mut self) -> Answer {
        self.truth.ask();
        self.changes(None)
    }

    /// Draws on another sheet from now on, and tells what the page must change.
    pub fn draw_on(&mut self, sheet: Sheet) -> Answer {
        self.sheet = sheet;
        self.results.print_narrow(sheet.is_narrow());
        self.changes(None)
    }

    /// Gives one value of the lesson another wording: `set("cut.at", "25 mm")`. Where the lesson gives a name of its own
    /// at that place (`force = "P"`), a new value goes to the name, so that all that uses it follows.
    ///
    /// # Errors
    /// Where the place cannot be written or the lesson would then have mistakes; the board then stays as it was.
    pub fn set(&mut self, path: &str, value: &str, seen: Option<&Seen>) -> Result<Answer, Refusal> {
        let path = self.meant(path);
        self.sheet.measured = None;
        self.write(&path, value, seen)
    }

    /// Writes a value to the very place.
    fn write(&mut self, path: &str, value: &str, seen: Option<&Seen>) -> Result<Answer, Refusal> {
        let mut manuscript = Manuscript::new(self.text.as_str());
        let written = match self.inputs.iter().find(|input| input.path == path) {
            Some(input) => manuscript.reword(input, value),
            None => manuscript.set(path, NewValue::Text(value)),
        };
        written.map_err(|fault| refused(fault.to_string()))?;
        self.show(manuscript.text(), seen)
    }

    /// Drags what can be dragged to a value, SI: see [`Handle::wordings`].
    ///
    /// # Errors
    /// As [`Board::set`]; also where nothing of that name can be dragged.
    pub fn drag(
        &mut self,
        piece: &str,
        grip: &str,
        value: f64,
        snap: bool,
        seen: Option<&Seen>,
    ) -> Result<Answer, Refusal> {
        let handle =
            self.grips.get(piece).and_then(|handles| handles.iter().find(|handle| handle.id == grip));
        let Some(handle) = handle else {
            return Err(refused(format!("nothing called {grip} can be dragged")));
        };
        let path = handle.given_at.clone();
        // The arrows of loads stay measured by what there was when the drag began.
        let measured = Measured::of(&self.lesson.problem.beam);
        let before = self.sheet.measured.replace(self.sheet.measured.unwrap_or(measured));
        let mut answer = Err(refused("there is no such value".to_owned()));
        for wording in handle.wordings(value, snap) {
            answer = self.write(&path, &wording, seen);
            if answer.is_ok() {
                return answer;
            }
        }
        self.sheet.measured = before;
        answer
    }

    /// What the board would answer if something were dragged by one step, in another drawing each `turn`, and the other way
    /// in each other round; the board stays as it is. A browser runs code slowly until it has run it some times: with what
    /// it does while the hand is still, the first drag is as smooth as the tenth.
    ///
    /// # Errors
    /// As [`Board::drag`].
    pub fn rehearse(&self, turn: usize, seen: Option<Seen>) -> Result<Answer, Refusal> {
        let all: Vec<(&String, &Vec<Handle>)> =
            self.grips.iter().filter(|(_, all)| !all.is_empty()).collect();
        let (Some(round), Some(at)) = (turn.checked_div(all.len()), turn.checked_rem(all.len())) else {
            return Err(refused("nothing can be dragged".to_owned()));
        };
        let (piece, handles) = all[at];
        let handle = &handles[round / 2 % handles.len()];
        let way = if round % 2 == 0 { handle.step } else { -handle.step };
        let seen = seen.map(|mut seen| {
            seen.add(&Seen::from_iter([piece.trim_start_matches("drawing-")]));
            seen
        });
        self.clone().drag(piece, &handle.id, handle.value + way, false, seen.as_ref())
    }

    /// The place where the value at a path is given: under `[values]` where the path only names it.
    fn meant(&self, path: &str) -> String {
        given_at(path, named_at(&self.lesson, &self.inputs, path))
    }

    /// Whether a drawing of this name stands on the sheet.
    fn plans(&self, name: &str) -> bool {
        let mut pieces = self.plan.iter().flat_map(|part| &part.steps).flat_map(|step| &step.pieces);
        pieces.any(|piece| matches!(piece.content, Content::Drawing(drawing) if drawing == name))
    }

    /// What can be dragged in these drawings.
    fn hold(&mut self, drawings: &[Drawing]) -> Vec<(String, Vec<Handle>)> {
        let paths = self.inputs.iter().map(|input| &input.path).filter(|path| path.starts_with("section."));
        let paths = paths.chain(&self.lesson.problem.part_names);
        if !paths.clone().eq(&self.section.0) {
            let keys = SectionKeys::tried(&self.text, &self.lesson, &self.inputs);
            self.section = (paths.cloned().collect(), keys);
        }
        let handles = Handles {
            lesson: &self.lesson,
            inputs: &self.inputs,
            section: &self.section.1,
            words: StopWords::new(&self.lesson, self.solved.section(), &self.inputs),
        };
        let grips = drawings.iter().map(|drawing| (format!("drawing-{}", drawing.name), handles.of(drawing)));
        let grips: Vec<_> = grips.filter(|(piece, handles)| self.grips.get(piece) != Some(handles)).collect();
        self.grips.extend(grips.iter().cloned());
        grips
    }

    /// The fields that say something else than those of the page.
    fn retyped(&mut self) -> Vec<Field> {
        let now = fields(&self.inputs);
        let other = now.iter().filter(|field| !self.fields.contains(field)).cloned().collect();
        self.fields = now;
        other
    }

    /// What differs from what the page holds.
    fn changes(&mut self, seen: Option<&Seen>) -> Answer {
        let wanted = |name: &str| seen.is_none_or(|seen| seen.any(name));
        let planned = |name: &str| wanted(name) && self.plans(name);
        // A description is read at rest, not while something moves.
        let drawings = match seen {
            None => figure::some_on(&self.solved, self.sheet, planned),
            Some(_) => figure::some_untold(&self.solved, self.sheet, planned),
        };
        let mut answer = Answer {
            text: self.text.clone(),
            title: self.lesson.about.title.clone(),
            fields: self.retyped(),
            grips: self.hold(&drawings),
            ..Answer::default()
        };
        for piece in self.plan.iter().flat_map(|part| &part.steps).flat_map(|step| &step.pieces) {
            let new = match piece.content {
                Content::Fields(_) => continue,
                Content::Drawing(name) if !wanted(name) => continue,
                Content::Drawing(name) => {
                    let drawing = drawings.iter().find(|drawing| drawing.name == name);
                    drawing.map(Drawing::svg_for_a_page).unwrap_or_default()
                }
                Content::Results(chapter) => {
                    let block = |place| seen.is_none_or(|seen| seen.block(&piece.id, place));
                    if wanted(&piece.id) {
                        let blocks = self.results.changes(chapter, &self.solved, block);
                        answer.blocks.extend((!blocks.is_empty()).then(|| (piece.id.clone(), blocks)));
                    }
                    continue;
                }
                // It takes longer than a drag allows.
                Content::Elastic if seen.is_some() => continue,
                Content::Elastic => self.truth.content(&self.lesson, &self.solved, self.sheet),
                other if wanted(&piece.id) => {
                    sheet::content(other, &self.lesson, &self.solved, self.sheet.is_narrow())
                }
                _ => continue,
            };
            let id = piece.id.clone();
            let old = self.shown.get(&id).map_or("", String::as_str);
            if old == new {
                continue;
            }
            if matches!(piece.content, Content::Drawing(_)) {
                match difference(old, &new) {
                    Some(changes) => answer.drawings.push((id.clone(), changes)),
                    None => answer.pieces.push((id.clone(), new.clone())),
                }
            } else {
                match other_blocks(old, &new) {
                    Some(blocks) => answer.blocks.push((id.clone(), blocks)),
                    None => answer.pieces.push((id.clone(), new.clone())),
                }
            }
            self.shown.insert(id, new);
        }
        if seen.is_none() {
            for drawing in &drawings {
                let words = fragment(&document::described(&drawing.long), self.solved.style());
                let id = format!("words-{}", drawing.name);
                if self.shown.get(&id).is_some_and(|old| *old != words) {
                    answer.pieces.push((id.clone(), words.clone()));
                    self.shown.insert(id, words);
                }
            }
        }
        match (seen, &mut self.told) {
            (None, told) => *told = None,
            (Some(seen), Some(told)) => told.add(seen),
            (Some(_), None) => {}
        }
        answer
    }
}

fn read(text: &str, name: &str) -> Result<(Lesson, Solved, Vec<Input>), Refusal> {
    let Shown { reading, inputs } = lesson::read_as_shown(text, name);
    let (Some(lesson), Some(solved)) = (reading.lesson, reading.solved) else {
        let findings: Vec<String> = reading.findings.iter().map(|finding| finding.render(false)).collect();
        let first = reading.findings.first().map(headline).unwrap_or_default();
        return Err(Refusal { findings, first });
    };
    Ok((lesson, solved, inputs))
}

/// A finding in one line: what is wrong, and how to mend it.
fn headline(finding: &lesson::Finding) -> String {
    match &finding.mend {
        Some(mend) => format!("{}; {mend}", finding.headline),
        None => finding.headline.clone(),
    }
}

fn refused(what: String) -> Refusal {
    Refusal { findings: vec![what.clone()], first: what }
}
