//! The notation of a course: which letter a role has, what it is called, and the habits of sign.

mod habits;
mod spoken;
mod symbol_text;
mod table;

pub use habits::*;
pub(crate) use spoken::greek;
pub(crate) use symbol_text::lowered_digit;
pub use symbol_text::{Below, Letter, Mark, Run, RunLevel, SymbolText};

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
    changed: BTreeMap<Role, Vec<Letter>>,
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

/// The formulas that our sentences name, and the roles of their letters.
const FORMULAS: [(&str, &[(char, Role)]); 3] =
    [("V Q / (I t)", &SHEAR), ("V Q/(I t)", &SHEAR), ("M y / I", &BENDING)];
const SHEAR: [(char, Role); 4] =
    [('V', Role::ShearForce), ('Q', Role::FirstMoment), ('I', Role::SecondMoment), ('t', Role::WidthAtCut)];
const BENDING: [(char, Role); 3] =
    [('M', Role::BendingMoment), ('y', Role::Depth), ('I', Role::SecondMoment)];

impl Notation {
    /// A sentence in the words of the course: where it calls I the moment of inertia, so does the sentence, and both formulas
    /// have its symbols.
    pub fn in_its_words(&self, sentence: &str) -> String {
        let sentence = &FORMULAS.iter().fold(sentence.to_owned(), |sentence, (ours, letters)| match sentence
            .contains(ours)
        {
            true => sentence.replace(ours, &self.in_its_letters(ours, letters)),
            false => sentence,
        });
        match self.habits.second_moment_words {
            SecondMomentWords::SecondMomentOfArea => sentence.to_owned(),
            SecondMomentWords::MomentOfInertia => sentence
                .replace("second moments", "moments of inertia")
                .replace("second moment of area", "moment of inertia")
                .replace("second moment", "moment of inertia")
                .replace("Second moment", "Moment of inertia"),
        }
    }

    /// One of our formulas in the symbols of the course.
    fn in_its_letters(&self, formula: &str, letters: &[(char, Role)]) -> String {
        let letter = |sign: char| letters.iter().find(|(letter, _)| *letter == sign);
        let written = |sign: char| match letter(sign) {
            Some((_, role)) => self.symbol(&Symbol::plain(*role)).plain(),
            None => sign.to_string(),
        };
        formula.chars().map(written).collect()
    }

    /// The notation of a profile, unchanged.
    pub fn of(profile: Profile) -> Self {
        Self { profile, habits: Habits::of(profile), changed: BTreeMap::new() }
    }

    /// Gives a role another symbol: `V`, `I_y`, `A'`, `S*`, `ȳ'`.
    ///
    /// # Errors
    /// Where the text is no symbol, or the symbol belongs to another role that can stand on the same page.
    pub fn extend(&mut self, role: Role, symbol: &str) -> Result<(), NotationFault> {
        let letters =
            symbol_text::read(symbol).ok_or_else(|| NotationFault::NotASymbol(symbol.to_owned()))?;
        let mut tried = self.clone();
        tried.changed.insert(role, letters);
        match tried.collides_with(role) {
            Some(other) => Err(NotationFault::Taken(other)),
            None => {
                *self = tried;
                Ok(())
            }
        }
    }

    /// Another role whose symbol, alone or with an index, could be taken for the symbol of this one.
    fn collides_with(&self, role: Role) -> Option<Role> {
        // Indices that workings commonly have.
        const INDICES: [&str; 6] = ["", "1", "2", "A", "B", "max"];
        let symbols = |role: Role| INDICES.map(|index| plain(&self.letters(role, index)));
        let own = symbols(role);
        table::ROWS
            .iter()
            .map(|row| row.role)
            .filter(|other| *other != role && !table::share_a_letter(*other, role))
            .find(|other| symbols(*other).iter().any(|symbol| own.contains(symbol)))
    }

    /// The symbol of a role, with its index.
    ///
    /// A load that the lecturer named by a symbol is written so (`P`, `w_0`), unless it is the symbol of something else; a name in
    /// words stands below the letter of loads of its kind, as no word is a quantity.
    pub fn symbol(&self, symbol: &Symbol) -> SymbolText {
        let letters = self.named(symbol).unwrap_or_else(|| self.letters(symbol.role, &symbol.index));
        SymbolText {
            words: spoken::words(self.words(symbol.role), symbol.role, &symbol.index),
            spoken: spoken::letters(&letters, |base| self.has_capital_of(base)),
            letters,
        }
    }

    /// The symbol of a role where it stands under a d and means no one thing: `dA`, where the whole area is `A_tot`.
    pub(crate) fn element(&self, role: Role) -> SymbolText {
        let mut text = self.symbol(&Symbol::plain(role));
        if !self.changed.contains_key(&role) {
            text.letters = table::letters(self.profile, role)[1].clone();
            text.spoken = spoken::letters(&text.letters, |base| self.has_capital_of(base));
        }
        text
    }

    /// The letters of a role, alone or as they take an index.
    fn base_letters(&self, role: Role, indexed: bool) -> &[Letter] {
        match self.changed.get(&role) {
            Some(letters) => letters,
            // It follows where the course writes a bending moment in another way.
            None if role == Role::ReleasedMoment => self.base_letters(Role::BendingMoment, indexed),
            None => &table::letters(self.profile, role)[usize::from(indexed)],
        }
    }

    fn letters(&self, role: Role, index: &str) -> Vec<Letter> {
        // It is a product, and follows where the course writes one of its factors in another way.
        if role == Role::FlexuralRigidity && !self.changed.contains_key(&role) {
            let factors =
                [Role::ElasticModulus, Role::SecondMoment].map(|factor| self.base_letters(factor, false));
            return factors.concat();
        }
        let mut letters = self.base_letters(role, !index.is_empty()).to_vec();
        if !index.is_empty() {
            letters.iter_mut().for_each(|letter| letter.below.push(Below::of(index)));
        }
        letters
    }

    /// The symbol of a load by the lecturer's own name for it, unless another role is written so.
    fn named(&self, symbol: &Symbol) -> Option<Vec<Letter>> {
        let load = matches!(symbol.role, Role::PointForce | Role::Couple | Role::SpreadLoad);
        if !load || !symbol.index.starts_with(char::is_alphabetic) {
            return None;
        }
        let letters = symbol_text::read_name(&symbol.index)?;
        let index = letters.first().map(Letter::below_text).unwrap_or_default();
        let taken = table::ROWS.iter().map(|row| row.role).filter(|role| *role != symbol.role).any(|role| {
            // `A3` would be the area of part 3, `Vz` the shear force along z.
            let same_base = |of: &[Letter]| of.len() == 1 && of[0].base == letters[0].base;
            (same_base(self.base_letters(role, false)) && self.letters(role, "") == letters)
                || (same_base(self.base_letters(role, true)) && self.letters(role, &index) == letters)
        });
        (!taken).then_some(letters)
    }

    /// Whether the course uses the capital of a small letter.
    fn has_capital_of(&self, base: &str) -> bool {
        let mut characters = base.chars();
        let (Some(small), None) = (characters.next().filter(char::is_ascii_lowercase), characters.next())
        else {
            return false;
        };
        let is_capital = |letter: &Letter| letter.base.chars().eq([small.to_ascii_uppercase()]);
        table::ROWS.iter().any(|row| self.base_letters(row.role, false).iter().any(is_capital))
    }

    /// What a role is called: `shear force`, `second moment of area` (or `moment of inertia`).
    pub fn words(&self, role: Role) -> &'static str {
        match (self.habits.second_moment_words, role) {
            (SecondMomentWords::MomentOfInertia, Role::SecondMoment) => "moment of inertia",
            (SecondMomentWords::MomentOfInertia, Role::SecondMomentUpright) => {
                "moment of inertia about the upright axis"
            }
            (SecondMomentWords::MomentOfInertia, Role::ProductMoment) => "product of inertia",
            _ => table::of(role).words,
        }
    }

    /// The role of this name (`shear force`, `first moment`), for the lesson file's own symbols.
    pub fn role_named(name: &str) -> Option<Role> {
        let name = name.trim();
        match name {
            "moment of inertia" => Some(Role::SecondMoment),
            _ => table::ROWS.iter().find(|row| row.words == name).map(|row| row.role),
        }
    }

    /// What each role is called, in the order of the roles.
    pub fn role_names() -> impl Iterator<Item = (Role, &'static str)> {
        table::ROWS.iter().map(|row| (row.role, row.words))
    }
}

fn plain(letters: &[Letter]) -> String {
    SymbolText { letters: letters.to_vec(), words: String::new(), spoken: String::new() }.plain()
}

#[cfg(test)]
mod tests;
