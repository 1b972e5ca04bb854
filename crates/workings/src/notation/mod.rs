//! The notation of a course: which letter a role has, what it is called, and the habits of sign.

mod habits;
mod symbol_text;

pub use habits::*;
pub use symbol_text::{Letter, Mark, Run, RunLevel, SymbolText};

use crate::role::{Role, Symbol};
use std::collections::BTreeMap;

/// A tradition's table of symbols.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Profile {
    /// `upward`: North American mechanics of materials; V Q/(I t), y up.
    #[default]
    Upward,
    /// `upward-b`: the same with b for the width at the cut; V Q/(I b).
    UpwardB,
    /// `area-arm`: British and Indian teaching; F A ȳ/(I b).
    AreaArm,
    /// `code-axes`: the symbols of the Eurocodes; V S/(I t), z down.
    CodeAxes,
    /// `downward`: German teaching; V S/(I b), z down.
    Downward,
    /// `bow-marks`: Dutch and Belgian teaching; V S/(b I), bow marks for signs.
    BowMarks,
}

/// The symbols, words and sign habits of a course.
#[derive(Clone, Debug, PartialEq)]
pub struct Notation {
    /// The table that it starts from.
    pub profile: Profile,
    /// Its habits: those of the profile, or as the course changed them.
    pub habits: Habits,
    /// Symbols that the course changed.
    changed: BTreeMap<Role, String>,
}

/// Why a symbol cannot be used.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotationFault {
    /// The text is not a symbol, such as `V`, `I_y`, `A'` or `S*`.
    NotASymbol(String),
    /// The symbol is already that of another role, which can stand on the same page.
    Taken(Role),
}

impl Profile {
    /// All of them.
    pub const ALL: [Self; 6] =
        [Self::Upward, Self::UpwardB, Self::AreaArm, Self::CodeAxes, Self::Downward, Self::BowMarks];

    /// Its name in a lesson file.
    pub fn name(self) -> &'static str {
        match self {
            Self::Upward => "upward",
            Self::UpwardB => "upward-b",
            Self::AreaArm => "area-arm",
            Self::CodeAxes => "code-axes",
            Self::Downward => "downward",
            Self::BowMarks => "bow-marks",
        }
    }

    /// The profile of this name.
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|profile| profile.name().eq_ignore_ascii_case(name.trim()))
    }
}

impl Default for Notation {
    fn default() -> Self {
        Self::of(Profile::default())
    }
}

impl Notation {
    /// The notation of a profile, unchanged.
    pub fn of(profile: Profile) -> Self {
        Self { profile, habits: Habits::of(profile), changed: BTreeMap::new() }
    }

    /// Gives a role another symbol: `V`, `I_y`, `A'`, `S*`, `ȳ'`.
    ///
    /// # Errors
    /// Where the text is no symbol, or the symbol belongs to another role that can stand on the same page.
    pub fn extend(&mut self, role: Role, symbol: &str) -> Result<(), NotationFault> {
        todo!()
    }

    /// The symbol of a role, with its index.
    pub fn symbol(&self, symbol: &Symbol) -> SymbolText {
        todo!()
    }

    /// What a role is called: `shear force`, `second moment of area` (or `moment of inertia`).
    pub fn words(&self, role: Role) -> &'static str {
        todo!()
    }

    /// The role of this name (`shear force`, `first moment`), for the lesson file's own symbols.
    pub fn role_named(name: &str) -> Option<Role> {
        todo!()
    }
}
