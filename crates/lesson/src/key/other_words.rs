//! Words of other books and tools for what the lesson file calls otherwise. They are not taken, but answered.

/// A word that is not taken, and the key that is meant where it is one of the table's.
const KEYS: &[(&str, &str)] = &[
    ("udl", "spread"),
    ("distributed", "spread"),
    ("uniform", "spread"),
    ("line-load", "spread"),
    ("w", "spread"),
    ("q", "spread"),
    ("point", "force"),
    ("load", "force"),
    ("moment", "couple"),
    ("start", "from"),
    ("end", "to"),
    ("position", "at"),
    ("x", "at"),
    ("y", "at"),
    ("fix", "fixed"),
    ("clamp", "fixed"),
    ("clamped", "fixed"),
    ("built-in", "fixed"),
    ("encastre", "fixed"),
    ("wall", "fixed"),
    ("hinge", "pin"),
    ("hinged", "pin"),
    ("simple", "pin"),
    ("dx", "length"),
    ("span", "length"),
    ("youngs-modulus", "E"),
    ("modulus", "E"),
    ("modulus-of-elasticity", "E"),
    ("elastic-modulus", "E"),
    ("nu", "poisson"),
    ("poisson-ratio", "poisson"),
    ("poissons-ratio", "poisson"),
    ("G", "shear-modulus"),
    ("modulus-of-rigidity", "shear-modulus"),
    ("breadth", "width"),
    ("b", "width"),
    ("depth", "height"),
    ("h", "height"),
    ("d", "height"),
    ("tf", "flange-thickness"),
    ("tw", "web-thickness"),
    ("points", "marks"),
    ("author", "lecturer"),
    ("weight", "self-weight"),
    ("significant-figures", "figures"),
];

/// A value that is not taken, with the key it stands for and the value that is meant.
const CHOICES: &[(&str, &str, &str)] = &[
    ("units", "si", "metric"),
    ("units", "imperial", "US"),
    ("units", "us customary", "US"),
    ("units", "customary", "US"),
    ("units", "usc", "US"),
    ("units", "english", "US"),
    ("second-moment", "inertia", "moment of inertia"),
    ("shape", "square", "rectangle"),
    ("shape", "round", "circle"),
    ("shape", "pipe", "tube"),
    ("shape", "tee", "T"),
    ("shape", "i-beam", "I"),
    ("shape", "u", "channel"),
    ("shape", "c", "channel"),
    ("shape", "l", "angle"),
    ("kind", "glued", "glue"),
    ("kind", "welded", "weld"),
    ("kind", "nailed", "nails"),
    ("kind", "bolted", "bolts"),
    ("kind", "screwed", "screws"),
];

/// Keys by which a course might hope to turn the signs of V and M, which are the same in every lesson.
const SIGNS: &[&str] = &[
    "positive-shear",
    "positive-moment",
    "moment-slope",
    "shear-slope",
    "shear-sign",
    "moment-sign",
    "sign",
    "signs",
    "sign-convention",
    "sagging",
    "hogging",
];

/// The key of a table, one of `words`, that another word for it means.
pub(crate) fn key_meant(word: &str, words: &[&'static str]) -> Option<&'static str> {
    let (_, meant) = KEYS.iter().find(|(other, meant)| *other == word && words.contains(meant))?;
    Some(meant)
}

/// The choice of a key that another word for it means.
pub(crate) fn choice_meant(key: &str, text: &str) -> Option<&'static str> {
    let text = text.trim().to_lowercase();
    let (_, _, meant) = CHOICES.iter().find(|(of, other, _)| *of == key && *other == text)?;
    Some(meant)
}

/// Whether a key under `[notation]` would turn the sign of V or M about.
pub(crate) fn turns_signs(path: &str, word: &str) -> bool {
    path == "notation" && SIGNS.contains(&word)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::key::{Form, all};

    #[test]
    fn what_is_meant_is_a_word_of_ours_and_what_is_not_taken_is_none() {
        for (other, meant) in KEYS {
            assert!(all().iter().any(|key| key.word() == *meant), "{meant}");
            assert_ne!(other, meant);
        }
        for (key, other, meant) in CHOICES {
            let taken = |choices: &[&str]| choices.contains(meant) && !choices.contains(other);
            let is_choice = |form: &Form| matches!(form, Form::Choice(choices) if taken(choices));
            assert!(
                all().iter().any(|known| known.word() == *key && is_choice(&known.form)),
                "{key} {meant}"
            );
        }
        for sign in SIGNS {
            assert!(!all().iter().any(|key| key.path == format!("notation.{sign}")), "{sign}");
        }
    }
}
