//! What stands on the sheet, in the order of the lecture.
//!
//! The sheet is one column of scenes, each a few steps that can be revealed one by one. A step holds pieces; a piece has
//! a name that stays while its content changes.

use crate::results::printed;
use document::html::{escaped, fragment};
use document::notes;
use lesson::{Lesson, Scene, When};
use std::fmt::Write as _;
use workings::derivation::{Step as DerivationStep, derivation};
use workings::expression::Expression;
use workings::print::mathml;
use workings::solved::Solved;
use workings::value::values;
use workings::working::Chapter;

/// What a piece shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Content {
    /// The drawing of this name.
    Drawing(&'static str),
    /// What is to be said before the drawing of this name.
    WordsBefore(&'static str),
    /// The values that can be typed under this heading of the lesson file.
    Fields(&'static str),
    /// The lecturer's own words before or after the scene.
    Words(Scene, When),
    /// The result of the workings of one chapter, an equation each.
    Results(Chapter),
    /// The shear stress on the cut: the formula, the formula with numbers, and what comes out.
    StressAtCut,
    /// One step of the derivation.
    Derivation(usize),
    /// What the joints must carry.
    Joints,
    /// What the formula leaves out.
    Limits,
    /// How far the formula is from the truth; its content is made by the board, when somebody asks.
    Elastic,
    /// Every value of the lesson.
    Values,
}

impl Content {
    /// Whether it is left out of the file of a page, and comes when the engine has started: the long lists, a seventh of the
    /// file that nobody reads in its first tenth of a second, and the drawings with the most lines.
    pub fn comes_later(self) -> bool {
        matches!(
            self,
            Self::Results(_) | Self::Values | Self::Drawing("fields" | "trajectories" | "pictorial")
        )
    }
}

/// One piece of the sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Piece {
    /// Its name on the page, unique and stable.
    pub id: String,
    /// What it shows.
    pub content: Content,
}

/// What is revealed at once.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// The question that may be put to the class before the step is shown; empty for none.
    pub predict: &'static str,
    /// Its pieces.
    pub pieces: Vec<Piece>,
}

/// One scene of the sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// Its name on the page.
    pub name: &'static str,
    /// Its heading.
    pub title: &'static str,
    /// Its steps.
    pub steps: Vec<Step>,
}

fn step(predict: &'static str, contents: &[Content]) -> Step {
    let pieces = contents.iter().map(|&content| Piece { id: id(content), content }).collect();
    Step { predict, pieces }
}

fn id(content: Content) -> String {
    match content {
        Content::Drawing(name) => format!("drawing-{name}"),
        Content::WordsBefore(drawing) => format!("words-before-{drawing}"),
        Content::Fields(group) => format!("fields-{group}"),
        Content::Words(scene, When::Before) => format!("before-{}", scene.word()),
        Content::Words(scene, When::After) => format!("after-{}", scene.word()),
        Content::Results(chapter) => format!("results-{}", format!("{chapter:?}").to_lowercase()),
        Content::StressAtCut => "stress-at-the-cut".to_owned(),
        Content::Derivation(number) => format!("derivation-{number}"),
        Content::Joints => "joints".to_owned(),
        Content::Limits => "limits".to_owned(),
        Content::Elastic => "elastic".to_owned(),
        Content::Values => "values".to_owned(),
    }
}

/// The plan of the sheet of a lesson: scenes, steps and pieces, still without content.
pub fn plan(lesson: &Lesson, solved: &Solved) -> Vec<Part> {
    use Content::{Derivation, Drawing, Fields, Joints, Limits, Results, StressAtCut, Values, Words};
    let words = |scene, when| -> Vec<Step> {
        lesson.texts.get(scene, when).map(|_| step("", &[Words(scene, when)])).into_iter().collect()
    };
    let scene = |name, title, scenes: &[Scene], steps: Vec<Step>| {
        let mut all: Vec<Step> = scenes.iter().flat_map(|&scene| words(scene, When::Before)).collect();
        all.extend(steps);
        all.extend(scenes.iter().flat_map(|&scene| words(scene, When::After)));
        Part { name, title, steps: all }
    };
    let proof = (0..derivation(solved).len()).map(|number| step("", &[Derivation(number)])).collect();
    let mut parts = vec![
        scene(
            "beam",
            "The beam and what it carries",
            &[Scene::Beam, Scene::Reactions],
            vec![
                step("", &[Drawing("beam-given"), Fields("values"), Fields("beam")]),
                step("Which support carries more?", &[Drawing("free-body"), Results(Chapter::Reactions)]),
            ],
        ),
        scene(
            "diagrams",
            "Shear force and bending moment",
            &[Scene::Diagrams],
            vec![step(
                "Where is M largest, and what is V there?",
                &[Drawing("diagrams"), Results(Chapter::Diagrams)],
            )],
        ),
        scene(
            "slice",
            "The slice",
            &[Scene::Slice, Scene::Bending],
            vec![
                step("", &[Drawing("slice"), Fields("slice")]),
                step(
                    "On which face are the stresses larger?",
                    &[Drawing("faces"), Results(Chapter::Bending)],
                ),
            ],
        ),
        scene(
            "section",
            "The section",
            &[Scene::Section],
            vec![step(
                "",
                &[Drawing("section"), Fields("section"), Fields("cut"), Results(Chapter::Section)],
            )],
        ),
        scene(
            "cut",
            "The piece beyond the cut",
            &[Scene::Cut],
            vec![
                step("The two faces do not push alike. What holds the piece?", &[Drawing("piece")]),
                step("", &[Drawing("pictorial")]),
            ],
        ),
        scene("derivation", "From the balance to the formula", &[Scene::Derivation], proof),
        scene(
            "shear",
            "The shear stress over the depth",
            &[Scene::Shear],
            vec![
                step(
                    "Where is the shear stress largest, and what is it at the top?",
                    &[Drawing("depth"), StressAtCut],
                ),
                step("", &[Results(Chapter::Shear)]),
                step("", &[Drawing("first-moment")]),
                step("", &[Drawing("shear-element")]),
                step("Halve the slice: what becomes of the difference?", &[Results(Chapter::Slice)]),
            ],
        ),
    ];
    if solved.workings().chapter(Chapter::Materials).next().is_some() {
        let steps = vec![
            step("Which material bears more, and how many times?", &[Drawing("transformed")]),
            step("", &[Results(Chapter::Materials)]),
        ];
        let title = "The transformed section";
        let place = parts.iter().position(|part| part.name == "cut").unwrap_or(parts.len());
        parts.insert(place, scene("transformed", title, &[Scene::Transformed], steps));
    }
    if solved.workings().chapter(Chapter::Walls).next().is_some() {
        let steps = vec![
            step("Where does the flow begin, and which way does it run?", &[Drawing("wall-flow")]),
            step("", &[Results(Chapter::Walls)]),
        ];
        parts.push(scene("walls", Chapter::Walls.title(), &[Scene::Walls], steps));
    }
    if !solved.section().properties().bends_askew() {
        parts.push(scene("point", Chapter::Point.title(), &[Scene::Point], at_points(solved)));
    }
    if solved.workings().chapter(Chapter::Skew).next().is_some() {
        let steps = vec![
            step("Which way will it go, when the load pulls straight down?", &[Drawing("skew")]),
            step("", &[Results(Chapter::Skew)]),
        ];
        parts.push(scene("skew", Chapter::Skew.title(), &[Scene::Skew], steps));
    }
    if !notes::joints(lesson, solved).is_empty() {
        parts.push(scene("joints", "What the joints must carry", &[], vec![step("", &[Joints])]));
    }
    if solved.workings().chapter(Chapter::Allowables).next().is_some() {
        let title = Chapter::Allowables.title();
        let steps = vec![step("What governs?", &[Results(Chapter::Allowables)])];
        parts.push(scene("allowables", title, &[Scene::Allowables], steps));
    }
    parts.push(scene("limits", "What the formula leaves out", &[], vec![step("", &[Limits])]));
    let steps = vec![step("By how much is the formula wrong, and where?", &[Content::Elastic])];
    parts.push(scene("elastic", "How far the formula is from the truth", &[], steps));
    parts.push(scene("values", "Every value", &[], vec![step("", &[Values])]));
    parts
}

/// The steps of the stress at a point; that of the cut only where it has one state of stress.
fn at_points(solved: &Solved) -> Vec<Step> {
    let shown = |drawing| [Content::WordsBefore(drawing), Content::Drawing(drawing)];
    let mut steps = Vec::new();
    if solved.workings().id("largest principal stress at the cut").is_some() {
        steps.push(step("Which way does the material pull most?", &shown("point")));
    }
    if solved.workings().chapter(Chapter::Point).next().is_some() {
        steps.push(step("", &[Content::Results(Chapter::Point)]));
    }
    steps.push(step("Where does which stress matter?", &shown("fields")));
    steps.push(step("How would a brittle beam crack?", &shown("trajectories")));
    steps
}

/// The content of a piece as HTML, where it is no drawing, no field, no list of results and not the elastic truth; for a narrow window where that is
/// said.
pub fn content(content: Content, lesson: &Lesson, solved: &Solved, narrow: bool) -> String {
    let style = solved.style();
    match content {
        Content::Drawing(_) | Content::Fields(_) | Content::Results(_) | Content::Elastic => String::new(),
        Content::WordsBefore(drawing) => fragment(&notes::words_before(drawing), style),
        Content::Words(scene, when) => {
            let text = lesson.texts.get(scene, when).unwrap_or_default();
            fragment(&document::markdown::blocks(text), style)
        }
        Content::StressAtCut => {
            let on_cut = solved.workings().id("shear stress on the cut");
            on_cut.map(|id| printed(&solved.workings().equation(id), style, narrow)).unwrap_or_default()
        }
        Content::Derivation(number) => {
            let steps: Vec<DerivationStep> = derivation(solved);
            let blocks = steps.get(number).map(|step| notes::derivation_step(step, style));
            fragment(&blocks.unwrap_or_default(), style)
        }
        Content::Joints => fragment(&notes::joints(lesson, solved), style),
        Content::Limits => fragment(&notes::limits(lesson, solved), style),
        Content::Values => table_of_values(solved),
    }
}

fn table_of_values(solved: &Solved) -> String {
    let style = solved.style();
    let mut out = String::from(
        "<div class=\"scroll\" tabindex=\"0\" role=\"group\" aria-label=\"Every value\">\n<table>\n<thead><tr>\
         <th scope=\"col\">what</th><th scope=\"col\">symbol</th><th scope=\"col\">value</th>\
         <th scope=\"col\">where</th></tr></thead>\n<tbody>\n",
    );
    let mut rows = values(solved);
    rows.extend(solved.further_values());
    for row in rows {
        let _ = writeln!(
            out,
            "<tr><th scope=\"row\">{}</th><td>{}</td><td class=\"r\" data-name=\"{}\" data-value=\"{}\">{}</td><td>{}</td></tr>",
            escaped(&row.name),
            mathml(&Expression::Symbol(row.stands_for), style),
            escaped(&row.name),
            row.value,
            escaped(&row.shown),
            escaped(&row.place),
        );
    }
    out.push_str("</tbody>\n</table>\n</div>\n");
    out
}
