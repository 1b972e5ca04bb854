//! Projected pages: the lecture in few words, one page for each step of the reveal.

use crate::notes::{Drawings, document, line};
use crate::tree::{Block, Document, Equation, Figure, Inline, Paper, Slide};
use figure::drawing::Drawing;
use lesson::Lesson;
use workings::expression::Expression;
use workings::solved::Solved;
use workings::working::Chapter;

/// A drawing higher than this share of its width stands beside the words.
const TALL: f64 = 0.5;

/// The projected pages of a lesson.
pub fn slides(lesson: &Lesson, solved: &Solved) -> Document {
    let show = Show { solved, drawings: Drawings::of(solved), slides: Vec::new() };
    document(lesson, solved, Paper::Wide, "Lecture", show.all())
}

struct Show<'a> {
    solved: &'a Solved,
    drawings: Drawings,
    slides: Vec<Block>,
}

fn words(words: &str) -> Vec<Block> {
    vec![Block::Paragraph(line![words])]
}

fn picture(drawing: Drawing) -> Block {
    Block::Figure(Box::new(Figure { drawing, number: None, caption: Vec::new() }))
}

impl Show<'_> {
    fn slide(&mut self, title: &str, side: Vec<Block>, steps: Vec<Vec<Block>>) {
        self.slides.push(Block::Slide(Slide { title: line![title], side, steps }));
    }

    /// A drawing with what is said to it; the drawing alone comes first.
    fn shown(&mut self, title: &str, drawing: Option<Drawing>, steps: Vec<Vec<Block>>) {
        let Some(drawing) = drawing else { return };
        // A tall drawing would leave no room for words below it, or become too small to be read from the last row.
        if drawing.height > TALL * drawing.width {
            let mut all = vec![Vec::new()];
            all.extend(steps);
            self.slide(title, vec![picture(drawing)], all);
        } else {
            let mut all = vec![vec![picture(drawing)]];
            all.extend(steps);
            self.slide(title, Vec::new(), all);
        }
    }

    /// The line of a working: formula, numbers, result.
    fn line_of(&self, name: &str) -> Option<Vec<Block>> {
        let workings = self.solved.workings();
        let id = workings.id(name)?;
        Some(vec![Block::Equation(Equation::of(&workings.equation(id), self.solved.style()))])
    }

    fn result(&self, name: &str) -> Option<Inline> {
        let working = self.solved.workings().get(name)?;
        let symbol = Expression::Symbol(working.symbol.clone());
        let value = Expression::Quantity(working.value, working.symbol.role);
        Some(Inline::Math(Expression::Equal(vec![symbol, value])))
    }

    /// Results in one line, for which there is room.
    fn results(&self, names: &[&str]) -> Option<Vec<Block>> {
        let mut line = Vec::new();
        for name in names {
            if let Some(result) = self.result(name) {
                if !line.is_empty() {
                    line.push("  \u{2003}".into());
                }
                line.push(result);
            }
        }
        (!line.is_empty()).then(|| vec![Block::Paragraph(line)])
    }

    fn all(mut self) -> Vec<Block> {
        let drawings = std::mem::take(&mut self.drawings);
        self.shown("The beam", drawings.given, vec![words("What force along the beam acts on the cut?")]);
        let reactions: Vec<String> = self
            .solved
            .workings()
            .chapter(Chapter::Reactions)
            .map(|(_, working)| working.name.clone())
            .filter(|name| name.starts_with("reaction at") || name.starts_with("couple at"))
            .collect();
        let names: Vec<&str> = reactions.iter().map(String::as_str).collect();
        let steps = self.results(&names).into_iter().collect();
        self.shown("The reactions", drawings.free_body, steps);
        let at_slice = self.results(&["shear force at the slice", "bending moment at the slice"]);
        self.shown("Shear force and bending moment", drawings.diagrams, at_slice.into_iter().collect());
        self.shown(
            "Loose planks, glued planks",
            drawings.planks,
            vec![words("Loose planks slide on one another."), words("What stops them when they are glued?")],
        );
        self.shown(
            "A slice of the beam",
            drawings.slice,
            vec![words("The bending moment changes from face to face.")],
        );
        self.shown(
            "Bending stress on its two faces",
            drawings.faces,
            vec![words("Each whole face balances itself."), words("A part of it need not.")],
        );
        let section = self.results(&["centroid height", "second moment"]);
        self.shown(
            "The section, and the part beyond the cut",
            drawings.section,
            section.into_iter().collect(),
        );
        self.shown("The piece beyond the cut", drawings.pictorial, vec![words("What holds it?")]);
        self.shown(
            "The force on the cut",
            drawings.piece,
            vec![words("It makes up for the difference of the two resultants.")],
        );
        self.derivation();
        let steps: Vec<Vec<Block>> =
            ["first moment at the cut", "width at the cut", "shear stress on the cut"]
                .iter()
                .filter_map(|name| self.line_of(name))
                .collect();
        if !steps.is_empty() {
            self.slide("With this beam's numbers", Vec::new(), steps);
        }
        self.shown(
            "Shear stress over the depth",
            drawings.depth,
            vec![words("Where is it largest, and why there?")],
        );
        self.slide(
            "What the formula leaves out",
            Vec::new(),
            vec![vec![Block::List {
                ordered: false,
                items: vec![
                    words("It is a mean over the width."),
                    words("Flanges: not the stress that it gives."),
                    words("Near forces, supports and ends: not valid."),
                    words("Elastic, prismatic, plane sections."),
                ],
            }]],
        );
        self.slides
    }

    fn derivation(&mut self) {}
}
