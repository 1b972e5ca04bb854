//! The worked solution of the parts of a paper, in their order: what one part has found the next does not find again.

use super::answers::plain_figure;
use super::value_words::place;
use crate::notes::{Author, Drawings, line};
use crate::tree::{Block, Inline};
use assessment::set::{Ask, Band, Part, PlacePart, SetPaper};
use figure::paper::Letters;
use lesson::question::Sketch;
use std::collections::BTreeSet;
use workings::solved::Solved;
use workings::working::{Formula, Id};

/// Who writes it.
pub(crate) struct Worked<'a> {
    set: &'a SetPaper,
    author: Author<'a>,
    /// What has been found already.
    found: BTreeSet<Id>,
    /// The drawings so far, with the part at which each stands.
    drawn: Vec<(&'static str, String)>,
}

impl<'a> Worked<'a> {
    pub(crate) fn new(set: &'a SetPaper, letters: Letters) -> Self {
        let of = |part: &Part| match part.ask {
            Ask::Sketch { sketch } => Some(drawing(sketch)),
            _ => None,
        };
        let names: Vec<&str> = set.parts().filter_map(of).collect();
        let drawings = Drawings::some_on(&set.solved, letters.sheet(), &names);
        let author = Author::new(&set.lesson, &set.solved, drawings);
        Self { set, author, found: BTreeSet::new(), drawn: Vec::new() }
    }

    pub(crate) fn solved(&self) -> &'a Solved {
        &self.set.solved
    }

    /// How a part is found, as far as it has not been found before.
    pub(crate) fn part(&mut self, part: &Part) -> Vec<Block> {
        match (&part.ask, asked(part)) {
            (Ask::Sketch { sketch }, _) => self.sketch(part, *sketch),
            (_, Some(working)) => self.way(working),
            (_, None) => Vec::new(),
        }
    }

    /// As [`Worked::part`]; of what has been found before the last line once more, so that no part is without one.
    pub(crate) fn part_told(&mut self, part: &Part) -> Vec<Block> {
        let blocks = self.part(part);
        let workings = self.solved().workings();
        let id = asked(part).and_then(|working| workings.id(working));
        let Some(id) = id.filter(|id| workings.working(*id).formula != Formula::Given) else { return blocks };
        if !blocks.is_empty() {
            return blocks;
        }
        let again = line![
            "It has been found on the way to an earlier question, step by step. Its last step was this."
        ];
        std::iter::once(Block::Paragraph(again)).chain(self.author.step_again(id)).collect()
    }

    fn way(&mut self, working: &str) -> Vec<Block> {
        let workings = self.solved().workings();
        let Some(id) = workings.id(working) else { return Vec::new() };
        // Whoever needs a reaction need not find the second moment of the section first, where that falls out.
        let without = self.solved().rigidity_that_falls_out(id);
        let (mut needed, mut falls_out) = (BTreeSet::new(), false);
        let mut open = vec![id];
        while let Some(id) = open.pop() {
            if Some(id) == without {
                falls_out = true;
            } else if !self.found.contains(&id) && needed.insert(id) {
                open.extend(workings.reads(id));
            }
        }
        self.found.extend(&needed);
        let is_found = |id: &Id| workings.working(*id).formula != Formula::Given;
        let ids: Vec<Id> = needed.into_iter().filter(is_found).collect();
        if let Some(rigidity) = without.filter(|rigidity| falls_out && !self.found.contains(rigidity)) {
            self.author.rigidity_falls_out(rigidity, id);
        }
        self.author.solution_of(&ids);
        std::mem::take(&mut self.author.blocks)
    }

    fn sketch(&mut self, part: &Part, sketch: Sketch) -> Vec<Block> {
        if sketch == Sketch::LargestShearStress {
            self.author.largest();
        }
        let mut blocks = std::mem::take(&mut self.author.blocks);
        let name = drawing(sketch);
        match self.drawn.iter().find(|(drawn, _)| *drawn == name) {
            Some((_, label)) => {
                let words = format!("See the drawing at question {label}.");
                blocks.push(Block::Paragraph(line![words]));
            }
            None => {
                blocks.extend(self.author.drawing(name).map(plain_figure));
                self.drawn.push((name, part.label.clone()));
            }
        }
        blocks
    }
}

/// The name of the working that a part asks for, or that it asks where to find; none for a drawing.
pub(super) fn asked(part: &Part) -> Option<&str> {
    match &part.ask {
        Ask::Value(value) => Some(&value.working),
        Ask::Choice(choice) => Some(&choice.value.working),
        Ask::Place(place) => Some(&place.working),
        Ask::Sketch { .. } => None,
    }
}

/// The drawing that answers a sketch.
fn drawing(sketch: Sketch) -> &'static str {
    match sketch {
        Sketch::ShearForce | Sketch::BendingMoment => "diagrams",
        Sketch::BendingStress | Sketch::ShearStress | Sketch::LargestShearStress => "depth",
        Sketch::PartBeyond => "piece",
    }
}

/// Every place that is right.
pub(crate) fn right_places(part: &PlacePart) -> Vec<Inline> {
    let told = part.right.iter().map(|Band { lower, upper }| {
        if lower == upper {
            line![place(*lower, part.along)]
        } else {
            line!["anywhere between ", place(*lower, part.along), " and ", place(*upper, part.along)]
        }
    });
    crate::notes::alternatives(told.collect())
}
