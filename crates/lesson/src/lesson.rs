//! A checked lesson: what the lecturer stated, in SI, with the lecturer's own words beside it.

use crate::finding::Finding;
use crate::papers::Draw;
use crate::question::Question;
use crate::reading::vary;
use crate::requirement::Requirement;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use workings::mistake::Mistake;
use workings::problem::Problem;
use workings::quantity::Quantity;
use workings::style::Style;

/// A lesson that was read without findings.
#[derive(Clone, Debug)]
pub struct Lesson {
    /// Whose lesson it is and what it is called.
    pub about: About,
    /// The beam, its section, the slice and the cut, in SI.
    pub problem: Problem,
    /// How far above the neutral axis the file puts the cut, m; `None` where it puts it at a height, a joint or an edge. Only so
    /// is it known whether the height of the cut gives away that of the neutral axis.
    pub cut_from_axis: Option<f64>,
    /// How the course writes: notation, units, figures.
    pub style: Style,
    /// The lecturer's own words between the scenes.
    pub texts: Texts,
    /// What students are asked for, in the order of the file.
    pub questions: Vec<Question>,
    /// The lecturer's own mistakes, beside those of the catalogue, in the order of the file.
    pub mistakes: Vec<Mistake>,
    /// How far an answer may be from the right one and still be right, as a share of it: 0.01 for 1 %.
    pub tolerance: f64,
    /// The named values of the file, in its order.
    pub values: Vec<NamedValue>,
    /// What changes from paper to paper, in the order of the file: values first, then what has variants.
    pub vary: Vec<Variation>,
    /// The only draws that papers may have, in the order of the file; never empty. `None` where any of all choices will do.
    pub only: Option<Vec<Draw>>,
    /// What the numbers of every paper must meet, in the order of the file.
    pub requirements: Vec<Requirement>,
    /// What is not wrong, but may not be what was meant, in the order of the file.
    pub remarks: Vec<Finding>,
}

impl Lesson {
    /// The names of the values that change from paper to paper: those that vary, and those that are made from them.
    pub fn moving(&self) -> BTreeSet<String> {
        vary::moving(self.vary.iter().map(|variation| variation.name.as_str()), &self.values)
    }
}

/// Whose lesson it is: plain text throughout, never markup.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct About {
    /// The lesson's title.
    pub title: String,
    /// The course it belongs to.
    pub course: Option<String>,
    /// Who gives it.
    pub lecturer: Option<String>,
    /// One sentence: what the lesson is to teach.
    pub teaches: Option<String>,
    /// The language of the lecturer's own words, as a BCP 47 tag such as `en` or `en-GB`.
    pub language: String,
}

/// One stage of the lecture, in the order in which it is given.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Scene {
    /// The beam with its loads.
    Beam,
    /// The reactions.
    Reactions,
    /// Shear force and bending moment.
    Diagrams,
    /// The section: centroid, second moment.
    Section,
    /// The transformed section, where it has several materials.
    Transformed,
    /// The slice of length dx taken out of the beam.
    Slice,
    /// The bending stress on the two faces.
    Bending,
    /// The cut, and the part beyond it as a free body.
    Cut,
    /// From the balance of the piece to the formula.
    Derivation,
    /// The shear stress on the cut and over the depth.
    Shear,
    /// The shear flow in thin walls, and the shear centre.
    Walls,
    /// The state of stress at the cut and over the side of the beam.
    Point,
    /// Bending about an axis that is no principal one.
    Skew,
    /// What the joints must carry.
    Joints,
    /// What the beam may carry.
    Allowables,
    /// The worked solution.
    Solution,
    /// What the formula leaves out.
    Limits,
}

impl Scene {
    /// Every scene, in the order of the lecture.
    pub const ALL: [Scene; 17] = [
        Scene::Beam,
        Scene::Reactions,
        Scene::Diagrams,
        Scene::Section,
        Scene::Transformed,
        Scene::Slice,
        Scene::Bending,
        Scene::Cut,
        Scene::Derivation,
        Scene::Shear,
        Scene::Walls,
        Scene::Point,
        Scene::Skew,
        Scene::Joints,
        Scene::Allowables,
        Scene::Solution,
        Scene::Limits,
    ];

    /// The word that stands for it in a lesson file: `before-beam`, `after-derivation`.
    pub const fn word(self) -> &'static str {
        match self {
            Scene::Beam => "beam",
            Scene::Reactions => "reactions",
            Scene::Diagrams => "diagrams",
            Scene::Section => "section",
            Scene::Transformed => "transformed",
            Scene::Slice => "slice",
            Scene::Bending => "bending",
            Scene::Cut => "cut",
            Scene::Derivation => "derivation",
            Scene::Shear => "shear",
            Scene::Walls => "walls",
            Scene::Point => "point",
            Scene::Skew => "skew",
            Scene::Joints => "joints",
            Scene::Allowables => "allowables",
            Scene::Solution => "solution",
            Scene::Limits => "limits",
        }
    }

    /// What it is about, in words that follow "the scene of".
    pub const fn in_words(self) -> &'static str {
        match self {
            Scene::Beam => "the beam with its loads",
            Scene::Reactions => "the reactions",
            Scene::Diagrams => "the shear force and bending moment diagrams",
            Scene::Section => "the section, its centroid and second moment",
            Scene::Transformed => "the transformed section and the stress in each material",
            Scene::Slice => "the slice that is taken out of the beam",
            Scene::Bending => "the bending stress on the two faces of the slice",
            Scene::Cut => "the cut and the piece beyond it",
            Scene::Derivation => "the derivation of the formula",
            Scene::Shear => "the shear stress on the cut and over the depth",
            Scene::Walls => "the shear flow in thin walls and the shear centre",
            Scene::Point => "the stress at a point and over the side of the beam",
            Scene::Skew => "bending askew, where the section has no upright axis of symmetry",
            Scene::Joints => "the joints",
            Scene::Allowables => "what the beam may carry",
            Scene::Solution => "the worked solution",
            Scene::Limits => "what the formula leaves out",
        }
    }
}

/// Whether a text stands before or after its scene.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum When {
    /// Before the scene.
    Before,
    /// After the scene.
    After,
}

/// The lecturer's own words between the scenes, as Markdown.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Texts(BTreeMap<(Scene, When), String>);

impl Texts {
    /// The Markdown that stands before or after a scene, where the lecturer wrote any.
    pub fn get(&self, scene: Scene, when: When) -> Option<&str> {
        self.0.get(&(scene, when)).map(String::as_str)
    }

    /// All texts, in the order of the lecture.
    pub fn iter(&self) -> impl Iterator<Item = (Scene, When, &str)> {
        self.0.iter().map(|(&(scene, when), text)| (scene, when, text.as_str()))
    }

    pub(crate) fn insert(&mut self, scene: Scene, when: When, text: String) {
        self.0.insert((scene, when), text);
    }
}

/// A named value of the lesson.
#[derive(Clone, Debug, PartialEq)]
pub struct NamedValue {
    /// Its name, such as `P`.
    pub name: String,
    /// Its value in SI.
    pub quantity: Quantity,
    /// What the lecturer wrote for it.
    pub written: String,
}

/// Something that changes from paper to paper: a named value, or a thing that has variants.
#[derive(Clone, Debug, PartialEq)]
pub struct Variation {
    /// The name under `[values]`, or what the `[[variant]]`s are variants of.
    pub name: String,
    /// What it may be, at least two.
    pub choices: Choices,
}

impl Variation {
    /// How many choices there are; at least two.
    pub fn count(&self) -> usize {
        match &self.choices {
            Choices::Values(values) => values.len(),
            Choices::Variants(variants) => variants.len(),
        }
    }

    /// A choice as the lecturer would say it: `4.5 kN`, `a T`; `None` where there is no such choice.
    pub fn words(&self, choice: usize) -> Option<&str> {
        match &self.choices {
            Choices::Values(values) => values.get(choice).map(|value| value.written.as_str()),
            Choices::Variants(variants) => variants.get(choice).map(|variant| variant.name.as_str()),
        }
    }
}

/// What may be chosen, in the order of the file.
#[derive(Clone, Debug, PartialEq)]
pub enum Choices {
    /// Values, each of the dimension of the named value.
    Values(Vec<ValueChoice>),
    /// Variants.
    Variants(Vec<VariantChoice>),
}

/// A value that a named value may take.
#[derive(Clone, Debug, PartialEq)]
pub struct ValueChoice {
    /// As it is written in a paper's lesson.
    pub written: String,
    /// Its value in SI: what comes of reading that text.
    pub quantity: Quantity,
    /// Where in the file it comes from.
    pub(crate) place: Range<usize>,
}

/// One of the variants of a thing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct VariantChoice {
    /// What it is called.
    pub name: String,
    /// Which `[[variant]]` of the file it is, from 0.
    pub(crate) index: usize,
}
