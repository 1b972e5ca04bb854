//! Projected pages: the lecture in few words, one page for each step of the reveal.

mod beyond;
mod supports;

use crate::notes::{Drawings, document, line};
use crate::tree::{Block, Document, Equation, Figure, Inline, Paper, Slide};
use figure::drawing::Drawing;
use lesson::Lesson;
use workings::derivation::derivation;
use workings::elastic::ElasticTruth;
use workings::expression::Expression;
use workings::material::Behaviour;
use workings::solved::Solved;
use workings::working::{Chapter, Id, Working};

/// A drawing higher than this share of its width stands beside the words.
const TALL: f64 = 0.5;

/// The projected pages of a lesson.
pub fn slides(lesson: &Lesson, solved: &Solved) -> Document {
    let truth = ElasticTruth::of(solved).ok();
    let drawing = truth.as_ref().and_then(|truth| figure::elastic::elastic(solved, truth));
    let drawings = Drawings::of(solved).and(drawing).and(figure::carrying::carrying(solved));
    let show = Show { solved, drawings, slides: Vec::new() };
    document(lesson, solved, Paper::Wide, "Lecture", show.all(truth.as_ref()))
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
    fn shown(&mut self, title: &str, drawing: &str, steps: Vec<Vec<Block>>) {
        let Some(drawing) = self.drawings.get(drawing) else { return };
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
    fn line_of(&self, id: Id) -> Vec<Block> {
        vec![Block::Equation(Equation::of(&self.solved.workings().equation(id), self.solved.style()))]
    }

    fn result(&self, id: Id) -> Inline {
        let working = self.solved.workings().working(id);
        let symbol = Expression::Symbol(working.symbol.clone());
        Inline::Math(Expression::Equal(vec![symbol, self.solved.workings().result(id)]))
    }

    /// Results in one line, for which there is room.
    fn results(&self, ids: &[Id]) -> Vec<Block> {
        let mut line = Vec::new();
        for &id in ids {
            if !line.is_empty() {
                line.push("\u{2003} ".into());
            }
            line.push(self.result(id));
        }
        vec![Block::Paragraph(line)]
    }

    fn all(mut self, truth: Option<&ElasticTruth>) -> Vec<Block> {
        self.shown("The beam", "beam-given", vec![words("What force along the beam acts on the cut?")]);
        let reactions: Vec<Id> = self
            .solved
            .workings()
            .chapter(Chapter::Reactions)
            .filter(|(_, working)| {
                working.name.starts_with("reaction at") || working.name.starts_with("couple at")
            })
            .map(|(id, _)| id)
            .collect();
        self.hinges();
        self.redundants();
        let steps = vec![self.results(&reactions)];
        self.shown("The reactions", "free-body", steps);
        let key = self.solved.key();
        let steps = vec![self.results(&[key.shear, key.moment])];
        self.shown("Shear force and bending moment", "diagrams", steps);
        let (title, slide, asks) = match self.solved.problem().behaviour() {
            Behaviour::Grained | Behaviour::Untold => (
                "Loose planks, glued planks",
                "Loose planks slide on one another.",
                "What stops them when they are glued?",
            ),
            Behaviour::Ductile | Behaviour::Brittle => (
                "Loose layers, one piece",
                "Loose layers slide on one another.",
                "What stops them when they are one piece?",
            ),
        };
        self.shown(title, "planks", vec![words(slide), words(asks)]);
        let stays = self.solved.moment_stays();
        self.shown(
            "A slice of the beam",
            "slice",
            vec![words(match stays {
                false => "The bending moment changes from face to face.",
                true => "The bending moment is the same on both faces.",
            })],
        );
        self.shown(
            "Bending stress on its two faces",
            "faces",
            vec![words("Each whole face balances itself."), words("A part of it need not.")],
        );
        let steps = vec![self.results(&[key.centroid, key.second_moment])];
        self.shown("The section, and the part beyond the cut", "section", steps);
        self.transformed();
        // The drawing has the force on the cut, so the question stands before it.
        self.slide(
            "The piece beyond the cut",
            Vec::new(),
            vec![words("Cut it free. Its two faces are not pushed alike."), words("What holds it?")],
        );
        self.shown("The piece beyond the cut", "pictorial", Vec::new());
        self.shown(
            "The force on the cut",
            "piece",
            vec![words(match stays {
                false => "It makes up for the difference of the two resultants.",
                true => "The two resultants are equal: nothing is left for it.",
            })],
        );
        self.derivation();
        let steps = [key.first_moment, key.width, key.stress_on_cut].map(|id| self.line_of(id)).to_vec();
        self.slide("With this beam's numbers", Vec::new(), steps);
        self.shown(
            "Shear stress over the depth",
            "depth",
            vec![words("Where is it largest, and why there?")],
        );
        self.walls();
        self.cells();
        self.skew();
        self.point();
        self.joints();
        self.allowables();
        self.elastic(truth);
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

    /// The modular ratios beside the transformed section; then for each material its stress where it is largest at the slice.
    fn transformed(&mut self) {
        let workings = self.solved.workings();
        let materials = self.solved.problem().materials();
        let ratios = materials.iter().filter_map(|material| {
            workings.id(&format!("modular ratio of {}", material.name)).filter(|_| !material.is_reference())
        });
        // The drawing is broad: beside it there is room for words alone.
        let ratios: Vec<Vec<Block>> = ratios.map(|id| self.line_of(id)).collect();
        if !materials.is_empty() {
            self.slide("How much more each material bears", Vec::new(), ratios);
        }
        self.shown("The transformed section", "transformed", vec![words("Which material bears more?")]);
        let stresses = materials.iter().filter_map(|material| {
            let start = format!("bending stress in {} at ", material.name);
            let of_it =
                workings.chapter(Chapter::Materials).filter(|(_, working)| working.name.starts_with(&start));
            let size = |(_, working): &(Id, &Working)| working.value.value.abs();
            of_it.max_by(|one, other| size(one).total_cmp(&size(other))).map(|(id, _)| self.line_of(id))
        });
        let stresses: Vec<Vec<Block>> = stresses.collect();
        if !stresses.is_empty() {
            self.slide("Stress in each material", Vec::new(), stresses);
        }
    }

    /// The shear flow in thin walls; nothing where there are none.
    fn walls(&mut self) {
        let ids = |names: &[&str]| -> Vec<Id> {
            names.iter().filter_map(|name| self.solved.workings().id(name)).collect()
        };
        let centre = ids(&[
            "distance of the shear centre from the web",
            "torque if the load stands over the centroid",
        ]);
        let mut steps = vec![words("Where does the flow begin? Which way does it run?")];
        steps.extend(ids(&["largest shear stress in the walls"]).iter().map(|&id| self.line_of(id)));
        if !centre.is_empty() {
            steps.push(words("Where must the load stand so that the beam does not twist?"));
            steps.extend(centre.iter().map(|&id| self.results(&[id])));
        }
        self.shown("Shear flow in the walls", "wall-flow", steps);
    }

    /// Bending askew; nothing where the level axis is a principal one.
    fn skew(&mut self) {
        let workings = self.solved.workings();
        let names = ["product moment of area", "inclination of the neutral axis"];
        let mut ids: Vec<Id> = names.iter().filter_map(|name| workings.id(name)).collect();
        // Of several materials those of each.
        let is_largest = |name: &str| name.starts_with("largest skew ") && name.ends_with(" at the slice");
        let is_share = |name: &str| name.starts_with("share that the simple formula finds");
        let told = |(id, working): (Id, &Working)| {
            (is_largest(&working.name) || is_share(&working.name)).then_some(id)
        };
        ids.extend(workings.chapter(Chapter::Skew).filter_map(told));
        let results: Vec<Vec<Block>> = ids.iter().map(|&id| self.results(&[id])).collect();
        let mut steps = vec![words("The load stands upright. Why does the neutral axis not lie level?")];
        steps.extend(results);
        self.shown("Bending askew", "skew", steps);
    }

    /// Each step of the derivation in symbols, then in numbers; the sentences are the lecturer's.
    fn derivation(&mut self) {
        let style = self.solved.style();
        for step in derivation(self.solved) {
            if !step.symbols.is_empty() {
                let symbols = Block::Equation(Equation::aligned(&step.symbols, style));
                let numbers = (!step.numbers.is_empty())
                    .then(|| vec![Block::Equation(Equation::aligned(&step.numbers, style))]);
                let mut steps = vec![vec![symbols]];
                steps.extend(numbers);
                self.slide(step.title, Vec::new(), steps);
            }
        }
    }
}
