//! What a section is made of: its parts by their modulus of elasticity, each material with a name and a letter.

use crate::problem::{Allowable, Problem};
use crate::shear_stiffness::ShearGiven;
use mechanics::section::{HeightSide, Section};

/// What one part is made of, as the lesson states it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PartMaterial {
    /// The lecturer's word for it: `steel`.
    pub name: Option<String>,
    /// Its own modulus of elasticity, Pa, where it is not that of reference.
    pub elastic_modulus: Option<f64>,
    /// What is stated of it in shear.
    pub shear: ShearGiven,
    /// What it may bear.
    pub allowable: Allowable,
}

/// How a material fails, as far as its word tells it: what makes bending and shear comparable hangs on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Behaviour {
    /// A metal that yields, alike in all directions: steel, aluminium.
    Ductile,
    /// Wood and what is made of it: its strengths along and across the grain differ.
    Grained,
    /// Concrete, masonry, glass, cast iron: tension cracks it long before compression crushes it.
    Brittle,
    /// No word for it, or one that is none of these.
    Untold,
}

/// Words for what cracks in tension. A word counts as a whole: `glass` is none of `glassy`.
const BRITTLE: [&str; 14] = [
    "concrete",
    "mortar",
    "masonry",
    "brick",
    "brickwork",
    "stone",
    "granite",
    "marble",
    "sandstone",
    "glass",
    "ceramic",
    "plaster",
    "gypsum",
    "cement",
];

/// Words for wood.
const GRAINED: [&str; 29] = [
    "wood",
    "softwood",
    "hardwood",
    "timber",
    "glulam",
    "lumber",
    "plywood",
    "chipboard",
    "bamboo",
    "spruce",
    "fir",
    "larch",
    "pine",
    "hemlock",
    "cedar",
    "douglas",
    "redwood",
    "oak",
    "beech",
    "birch",
    "ash",
    "maple",
    "walnut",
    "poplar",
    "chestnut",
    "teak",
    "balsa",
    "lvl",
    "clt",
];

/// Words for metals that yield.
const DUCTILE: [&str; 9] =
    ["steel", "aluminium", "aluminum", "copper", "brass", "bronze", "titanium", "magnesium", "duralumin"];

impl Behaviour {
    /// Of the lecturer's word for a material: `laminated timber`, `stainless steel`. What cracks or has a grain comes first:
    /// `steel fibre concrete` is concrete.
    pub fn of(name: &str) -> Self {
        let lower = name.to_lowercase();
        let words: Vec<&str> = lower.split(|letter: char| !letter.is_alphanumeric()).collect();
        let any = |known: &[&str]| words.iter().any(|word| known.contains(word));
        let iron = |kind: &str| words.contains(&"iron") && words.contains(&kind);
        if any(&BRITTLE) || iron("cast") {
            Self::Brittle
        } else if any(&GRAINED) {
            Self::Grained
        } else if any(&DUCTILE) || iron("wrought") {
            Self::Ductile
        } else {
            Self::Untold
        }
    }
}

impl Behaviour {
    /// Between which moduli of elasticity, Pa, all that behaves so lies, with room to spare. From memory of tables of materials: lead 16 GPa to
    /// tungsten 410 GPa; across the grain of balsa 0.1 GPa to along that of the densest woods 30 GPa; plaster 2 GPa to sapphire 440 GPa.
    pub fn moduli(self) -> Option<(f64, f64)> {
        match self {
            Self::Ductile => Some((10e9, 500e9)),
            Self::Grained => Some((0.05e9, 50e9)),
            Self::Brittle => Some((0.5e9, 500e9)),
            Self::Untold => None,
        }
    }
}

/// One of several materials of a section: all parts of one modulus.
#[derive(Clone, Debug, PartialEq)]
pub struct Material {
    /// The lecturer's word for it, or the names of its parts.
    pub name: String,
    /// The index of its symbols, and the letter on its parts in a drawing: `s` for steel.
    pub letter: String,
    /// Its modulus over that of reference.
    pub modular_ratio: f64,
    /// Its modulus of elasticity, Pa; none where the lesson gives the ratio alone.
    pub elastic_modulus: Option<f64>,
    /// Its parts, by their place in the section.
    pub parts: Vec<usize>,
}

impl Material {
    /// Whether it is the one to which the others are transformed.
    pub fn is_reference(&self) -> bool {
        self.modular_ratio == 1.0
    }
}

impl Problem {
    /// The materials of the section in the order of its parts, where one of them is not that of reference; else none.
    pub fn materials(&self) -> Vec<Material> {
        if self.parts.iter().all(|part| part.modular_ratio == 1.0) {
            return Vec::new();
        }
        let mut found: Vec<Material> = Vec::new();
        for (place, part) in self.parts.iter().enumerate() {
            let ratio = part.modular_ratio;
            if let Some(known) = found.iter_mut().find(|known| known.modular_ratio == ratio) {
                known.parts.push(place);
                continue;
            }
            let own = self.part_materials.get(place).and_then(|of| of.elastic_modulus);
            let known = self.elastic_modulus > 0.0 && self.elastic_modulus.is_finite();
            let elastic_modulus =
                known.then(|| own.filter(|_| ratio != 1.0).unwrap_or(ratio * self.elastic_modulus));
            let (name, letter) = (String::new(), String::new());
            found.push(Material { name, letter, modular_ratio: ratio, elastic_modulus, parts: vec![place] });
        }
        let named: Vec<Option<String>> = found.iter().map(|material| self.name_of(material)).collect();
        let letters = letters(&named);
        for ((material, name), letter) in found.iter_mut().zip(named).zip(letters) {
            material.name = name.unwrap_or_else(|| self.names_of_parts(material));
            material.letter = letter;
        }
        found
    }

    /// What one of several materials may bear: of that of reference what the lesson states for all, of another what a part of it states.
    pub fn allowable_of(&self, material: &Material) -> Allowable {
        if material.is_reference() {
            return Allowable { deflection: None, ..self.allowable };
        }
        let stated = material.parts.iter().filter_map(|&part| Some(self.part_materials.get(part)?.allowable));
        stated.into_iter().find(|of| *of != Allowable::default()).unwrap_or_default()
    }

    /// How the material of a section of one material fails; of several, and where two words differ, nothing is told.
    pub fn behaviour(&self) -> Behaviour {
        let mut told =
            self.part_materials.iter().map(|of| Behaviour::of(of.name.as_deref().unwrap_or_default()));
        match told.next() {
            Some(first) if told.all(|other| other == first) => first,
            _ => Behaviour::Untold,
        }
    }

    /// The word that the lesson has for a material.
    fn name_of(&self, material: &Material) -> Option<String> {
        let of_part = |part: &usize| self.part_materials.get(*part)?.name.as_deref().map(str::trim);
        material.parts.iter().filter_map(of_part).find(|name| !name.is_empty()).map(str::to_owned)
    }

    /// `core`, `left plate and right plate`, `rib 1 and others`.
    fn names_of_parts(&self, material: &Material) -> String {
        let name = |part: usize| match self.part_names.get(part) {
            Some(name) if !name.is_empty() => name.clone(),
            _ => format!("part {}", part + 1),
        };
        match *material.parts.as_slice() {
            [first, second] => format!("{} and {}", name(first), name(second)),
            [first] => name(first),
            [first, ..] => format!("{} and others", name(first)),
            [] => String::new(),
        }
    }
}

/// Whether parts of several moduli lie side by side on a level cut, in the coordinates of the outlines, m; seen from one side.
pub fn side_by_side(section: &Section, height: f64, side: HeightSide) -> bool {
    let ratio = |part: usize| section.parts().get(part).map(|part| part.modular_ratio);
    let chords = section.chords(height, side);
    chords.windows(2).any(|two| ratio(two[0].part) != ratio(two[1].part))
}

/// A letter for each material: the first of its name where these differ, else a, b, c.
fn letters(named: &[Option<String>]) -> Vec<String> {
    let initial = |name: &Option<String>| {
        let first = name.as_ref()?.chars().next()?;
        first.is_ascii_alphabetic().then(|| first.to_ascii_lowercase().to_string())
    };
    let initials: Option<Vec<String>> = named.iter().map(initial).collect();
    let distinct = |letters: &Vec<String>| (1..letters.len()).all(|k| !letters[..k].contains(&letters[k]));
    initials.filter(distinct).unwrap_or_else(|| {
        let letter = |place: usize| match u8::try_from(place) {
            Ok(place) if place < 26 => char::from(b'a' + place).to_string(),
            _ => (place + 1).to_string(),
        };
        (0..named.len()).map(letter).collect()
    })
}

#[cfg(test)]
mod tests {
    use super::{Behaviour, letters};

    fn of(names: &[Option<&str>]) -> Vec<String> {
        letters(&names.iter().map(|name| name.map(str::to_owned)).collect::<Vec<_>>())
    }

    #[test]
    fn materials_have_the_first_letter_of_their_names_where_these_differ() {
        assert_eq!(of(&[Some("Timber"), Some("steel")]), ["t", "s"]);
        assert_eq!(of(&[Some("spruce"), Some("steel")]), ["a", "b"]);
        assert_eq!(of(&[Some("timber"), None]), ["a", "b"]);
        assert_eq!(of(&[Some("Öl"), Some("steel")]), ["a", "b"]);
    }

    /// What each is, is common knowledge of materials, no source; that a word is read as a whole is ours.
    #[test]
    fn how_a_material_fails_is_told_by_its_word() {
        for (name, behaviour) in [
            ("Stainless steel", Behaviour::Ductile),
            ("aluminium", Behaviour::Ductile),
            ("wrought iron", Behaviour::Ductile),
            ("laminated timber", Behaviour::Grained),
            ("Douglas fir", Behaviour::Grained),
            ("plywood", Behaviour::Grained),
            ("concrete", Behaviour::Brittle),
            ("steel-fibre concrete", Behaviour::Brittle),
            ("cast iron", Behaviour::Brittle),
            ("iron", Behaviour::Untold),
            ("steelwork", Behaviour::Untold),
            ("foam", Behaviour::Untold),
            ("", Behaviour::Untold),
        ] {
            assert_eq!(Behaviour::of(name), behaviour, "{name}");
        }
    }
}
