//! The usual mistakes of students in this unit: what is done, why it is wrong, and the wrong value that it gives.
//!
//! A mistake replaces the formula of one working; everything after it is evaluated again from the wrong value. Which
//! workings of a lesson a mistake can befall is the lesson's to say: [`all`] gives each mistake once for every working
//! that it can befall there, and none where what it needs is not there (a rectangle has no outline that could be taken
//! as full). Whether two mistakes, or a mistake and the right answer, come to the same value is a property of the
//! lesson's numbers and not looked at here.
//!
//! ```
//! # use mechanics::beam::{Beam, Load, Support};
//! # use mechanics::section::{HeightSide, shapes};
//! # use workings::problem::{CutPlace, LoadLabel, Problem, SlicePlace, SupportKind, SupportLabel};
//! # use workings::{mistake, solved::Solved, style::Style};
//! # let shape = shapes::rectangle(0.1, 0.2).expect("a sound rectangle");
//! # let label = |name: &str| SupportLabel { name: name.into(), kind: SupportKind::Pin };
//! # let problem = Problem {
//! #     title: String::new(),
//! #     beam: Beam {
//! #         length: 4.0,
//! #         flexural_rigidity: 1e7,
//! #         supports: vec![Support::pin(0.0), Support::pin(4.0)],
//! #         hinges: Vec::new(),
//! #         loads: vec![Load::Force { station: 1.0, down: 20e3 }],
//! #     },
//! #     elastic_modulus: 0.0,
//! #     shear: Default::default(),
//! #     density: None,
//! #     supports: vec![label("A"), label("B")],
//! #     loads: vec![LoadLabel { name: "P".into(), self_weight: false }],
//! #     parts: shape.parts,
//! #     part_names: vec!["plank".into()],
//! #     part_materials: Vec::new(),
//! #     section_name: "plank".into(),
//! #     joints: Vec::new(),
//! #     allowable: Default::default(),
//! #     further_cuts: Vec::new(),
//! #     slice: SlicePlace { at: 0.5, length: 0.1 },
//! #     cut: CutPlace { height: 0.15, side: HeightSide::Below, beyond: HeightSide::Above, joint: None },
//! # };
//! let solved = Solved::new(problem, Style::default()).expect("a sound lesson"); // 20 kN at 1 m of 4 m
//! let asked = solved.workings().id("reaction at A").expect("a support A");
//! let all = mistake::all(&solved);
//! let halved = all.iter().find(|applied| applied.id() == "equal-shares").expect("it can befall A");
//! assert!(halved.changes(&solved, asked));
//! assert_eq!(halved.value(&solved, asked), Ok(10e3)); // N, where 15 kN is right
//! ```

mod applied;
mod bending;
mod carrying;
mod first_moment;
mod inner_forces;
mod joints;
mod lesson;
mod loads;
mod materials;
mod own;
mod reach;
mod reactions;
mod saying;
mod section;
mod shear;
mod skew;
pub mod slip;
mod source;
mod spans;
mod walls;

pub use applied::Applied;
pub use own::{OwnFault, OwnField, OwnMistake};
pub use saying::{Said, Saying};
pub use source::Source;

use crate::solved::Solved;
use crate::style::Style;
use crate::working::Chapter;
use lesson::{Lesson, Replaced};
use own::OwnFormula;
use std::borrow::Cow;

/// What sort of mistake it is: the three classes of McMullen and Rocha, [`Source::StickingPoints`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Kind {
    /// A wrong notion of what happens in the beam.
    Concept,
    /// The right notion, a wrong way to the number.
    Procedure,
    /// The right way, a slip on it.
    Execution,
}

/// A wrong formula for one working, with the feedback that it earns.
#[derive(Clone, Debug)]
pub struct Mistake {
    id: Cow<'static, str>,
    chapter: Chapter,
    kind: Option<Kind>,
    does: Cow<'static, str>,
    feedback: Cow<'static, str>,
    sources: &'static [Source],
    makes: Makes,
}

/// How a mistake finds what it replaces.
#[derive(Clone, Debug)]
enum Makes {
    /// One entry for each working that it befalls.
    Usual(fn(&Lesson<'_>) -> Vec<Replaced>),
    Own(OwnFormula),
}

impl Mistake {
    /// A mistake of the catalogue.
    const fn usual(
        (id, chapter, kind): (&'static str, Chapter, Kind),
        does: &'static str,
        feedback: &'static str,
        sources: &'static [Source],
        makes: fn(&Lesson<'_>) -> Vec<Replaced>,
    ) -> Self {
        Self {
            id: Cow::Borrowed(id),
            chapter,
            kind: Some(kind),
            does: Cow::Borrowed(does),
            feedback: Cow::Borrowed(feedback),
            sources,
            makes: Makes::Usual(makes),
        }
    }

    /// Its stable name: `q-to-the-cut`.
    pub fn id(&self) -> &str {
        &self.id
    }

    /// The chapter of the worked solution in which it is made.
    pub fn chapter(&self) -> Chapter {
        self.chapter
    }

    /// What sort of mistake it is; none where a lecturer did not say.
    pub fn kind(&self) -> Option<Kind> {
        self.kind
    }

    /// Whether nothing but a sign is lost by it: then no step of the lecture is misunderstood.
    pub fn is_of_sign(&self) -> bool {
        matches!(self.id(), "v-sign" | "m-sign")
    }

    /// What the student does, in one line that follows on "the student", in the course's symbols.
    pub fn does(&self, style: &Style) -> Saying {
        self.said(&self.does, style)
    }

    /// What to say to the student, in the course's symbols; a lecturer's own words as they are.
    pub fn feedback(&self, style: &Style) -> Saying {
        self.said(&self.feedback, style)
    }

    fn said(&self, text: &str, style: &Style) -> Saying {
        match self.makes {
            Makes::Usual(_) => Saying::of(text, style),
            Makes::Own(_) => Saying::plain(text),
        }
    }

    /// Where it is known from.
    pub fn sources(&self) -> &'static [Source] {
        self.sources
    }

    /// The mistake in a lesson: once for each working that it can befall.
    pub fn applied(&self, solved: &Solved) -> Vec<Applied> {
        let made = match &self.makes {
            Makes::Usual(makes) => makes(&Lesson::of(solved)),
            Makes::Own(formula) => formula.replaced(solved).into_iter().collect(),
        };
        made.into_iter().map(|replaced| Applied::new(self.id.clone(), replaced)).collect()
    }
}

/// The catalogue, chapter by chapter.
pub fn catalogue() -> impl Iterator<Item = &'static Mistake> {
    [
        reactions::MISTAKES.as_slice(),
        inner_forces::MISTAKES.as_slice(),
        spans::MISTAKES.as_slice(),
        section::MISTAKES.as_slice(),
        bending::MISTAKES.as_slice(),
        materials::MISTAKES.as_slice(),
        shear::MISTAKES.as_slice(),
        first_moment::MISTAKES.as_slice(),
        walls::MISTAKES.as_slice(),
        skew::MISTAKES.as_slice(),
        joints::MISTAKES.as_slice(),
        carrying::MISTAKES.as_slice(),
    ]
    .into_iter()
    .flatten()
}

/// The mistake of the catalogue of this id.
pub fn named(id: &str) -> Option<&'static Mistake> {
    catalogue().find(|mistake| mistake.id == id)
}

/// Every mistake of the catalogue in a lesson, once for each working that it can befall.
pub fn all(solved: &Solved) -> Vec<Applied> {
    catalogue().flat_map(|mistake| mistake.applied(solved)).collect()
}
