//! How symbols are spoken, and what quantities are called with their index.

use super::symbol_text::{Letter, Mark, lowered_digit};
use crate::role::Role;

/// Greek letters: the letter, its name, which is also its name in LaTeX save where [`latex_name`] says else.
pub(crate) const GREEK: [(char, &str); 34] = [
    ('α', "alpha"),
    ('β', "beta"),
    ('γ', "gamma"),
    ('δ', "delta"),
    ('ε', "epsilon"),
    ('ζ', "zeta"),
    ('η', "eta"),
    ('θ', "theta"),
    ('ι', "iota"),
    ('κ', "kappa"),
    ('λ', "lambda"),
    ('μ', "mu"),
    ('ν', "nu"),
    ('ξ', "xi"),
    ('π', "pi"),
    ('ρ', "rho"),
    ('σ', "sigma"),
    ('τ', "tau"),
    ('υ', "upsilon"),
    ('φ', "phi"),
    ('χ', "chi"),
    ('ψ', "psi"),
    ('ω', "omega"),
    ('Γ', "Gamma"),
    ('Δ', "Delta"),
    ('Θ', "Theta"),
    ('Λ', "Lambda"),
    ('Ξ', "Xi"),
    ('Π', "Pi"),
    ('Σ', "Sigma"),
    ('Υ', "Upsilon"),
    ('Φ', "Phi"),
    ('Ψ', "Psi"),
    ('Ω', "Omega"),
];

/// The name of a Greek letter.
pub(crate) fn greek(letter: &str) -> Option<&'static str> {
    GREEK.iter().find(|(greek, _)| letter.chars().eq([*greek])).map(|(_, name)| *name)
}

/// A symbol as it is spoken; `has_capital` tells whether the course also uses the capital of a small letter, in which
/// case the small one is said to be small: q and Q sound alike.
pub(super) fn letters(letters: &[Letter], has_capital: impl Fn(&str) -> bool) -> String {
    let one = |letter: &Letter| {
        let mut words = Vec::new();
        if letter.difference {
            words.push("delta".to_owned());
        }
        match greek(&letter.base) {
            Some(name) => words.push(name.to_owned()),
            None if has_capital(&letter.base) => words.push(format!("small {}", letter.base)),
            None => words.push(letter.base.clone()),
        }
        if letter.bar {
            words.push("bar".to_owned());
        }
        match letter.mark {
            Mark::None => {}
            Mark::Prime => words.push("prime".to_owned()),
            Mark::Star => words.push("star".to_owned()),
        }
        for below in &letter.below {
            // "I sub y y", not a word "yy".
            let spaced: Vec<String> = below.text.chars().map(String::from).collect();
            let text = match greek(&below.text) {
                Some(name) => name.to_lowercase(),
                None if below.italic => spaced.join(" "),
                None => lowered_in_words(&below.text),
            };
            words.push(format!("sub {text}"));
        }
        words.join(" ")
    };
    let spoken: Vec<String> = letters.iter().map(one).collect();
    spoken.join(" ")
}

/// `P₁` as `P 1`: a lowered digit is heard as a digit.
fn lowered_in_words(text: &str) -> String {
    let mut words = String::with_capacity(text.len());
    for c in text.chars() {
        match lowered_digit(c) {
            Some(digit) => {
                if !words.ends_with(|last: char| last.is_ascii_digit()) {
                    words.push(' ');
                }
                words.push(digit);
            }
            None => words.push(c),
        }
    }
    words
}

/// What a quantity is called with its index: `reaction at A`, `largest bending moment`, `area 1`.
pub(super) fn words(words: &str, role: Role, index: &str) -> String {
    match index {
        "" => words.to_owned(),
        "max" => format!("largest {words}"),
        "min" => format!("smallest {words}"),
        "left" | "right" => format!("{words} on the {index}"),
        "top" | "bottom" => format!("{words} at the {index}"),
        "above" | "below" => format!("{words} {index}"),
        _ => match role {
            Role::Reaction
            | Role::ReactionCouple
            | Role::ReleasedMoment
            | Role::UnitMoment
            | Role::Station => format!("{words} at {index}"),
            _ if index.contains(' ') => format!("{words} of {index}"),
            _ => format!("{words} {index}"),
        },
    }
}
