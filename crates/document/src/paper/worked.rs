//! The worked solution of the parts of a paper, in their order: what one part has found the next does not find again.

use super::answers::plain_figure;
use super::value_words::place;
use crate::notes::{Author, Drawings, line};
use crate::tree::{Block, Inline};
use assessment::set::{Ask, Band, Part, PlacePart, SetPaper};
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
    pub(crate) fn new(set: &'a SetPaper) -> Self {
        let of = |part: &Part| match part.ask {
            Ask::Sketch { sketch } => Some(drawing(sketch)),
            _ => None,
        };
        let names: Vec<&str> = set.parts().filter_map(of).collect();
        let drawings = Drawings::some(&set.solved, &names);
        let author = Author::new(&set.lesson, &set.solved, drawings);
        Self { set, author, found: BTreeSet::new(), drawn: Vec::new() }
    }

    pub(crate) fn solved(&self) -> &'a Solved {
        &self.set.solved
    }

    /// How a part is found, as far as it has not been found before.
    pub(crate) fn part(&mut self, part: &Part) -> Vec<Block> {
        match &part.ask {
            Ask::Value(value) => self.way(&value.working),
            Ask::Choice(choice) => self.way(&choice.value.working),
            Ask::Place(place) => self.way(&place.working),
            Ask::Sketch { sketch } => self.sketch(part, *sketch),
        }
    }

    fn way(&mut self, working: &str) -> Vec<Block> {
        let workings = self.solved().workings();
        let Some(id) = workings.id(working) else { return Vec::new() };
        let mut needed = BTreeSet::new();
        let mut open = vec![id];
        while let Some(id) = open.pop() {
            if !self.found.contains(&id) && needed.insert(id) {
                open.extend(workings.reads(id));
            }
        }
        self.found.extend(&needed);
        let is_found = |id: &Id| workings.working(*id).formula != Formula::Given;
        let ids: Vec<Id> = needed.into_iter().filter(is_found).collect();
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
