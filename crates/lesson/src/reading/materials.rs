//! Whether the words for materials and their moduli of elasticity agree: materials are told apart by their modulus.

use super::node::Table;
use super::words::in_quotes;
use crate::finding::Report;

/// A material by its word, where it has one, and its modulus, Pa.
struct Known {
    word: Option<String>,
    modulus: f64,
}

/// Tells every part whose word for its material does not agree with its modulus.
pub(super) fn check(section: &Table, material: Option<&Table>, report: &mut Report) {
    let Some(of_beam) = material.and_then(|table| table.value("E")) else { return };
    let word = material.and_then(|table| table.owned_text("name"));
    let mut known = vec![Known { word, modulus: of_beam.value }];
    for part in section.tables("parts") {
        let Some(word) = part.owned_text("material").filter(|word| !word.is_empty()) else { continue };
        if part.has("E") && part.value("E").is_none() {
            continue;
        }
        let own = part.value("E").map(|given| given.value);
        let modulus = own.unwrap_or(of_beam.value);
        let same_modulus = known.iter().position(|of| of.modulus == modulus);
        let other_modulus = known.iter().any(|of| of.modulus != modulus && of.word.as_ref() == Some(&word));
        let place = part.place("material");
        match same_modulus.and_then(|of| known[of].word.clone()) {
            Some(other) if other != word && own.is_none() => {
                report
                    .add(
                        place,
                        format!(
                            "this part has no modulus of its own, so it is made of {}",
                            in_quotes(&other)
                        ),
                    )
                    .mend("give it its own `E`, or take `material` out");
            }
            _ if other_modulus => {
                report
                    .add(
                        place,
                        format!(
                            "{} has another modulus of elasticity elsewhere in this lesson",
                            in_quotes(&word)
                        ),
                    )
                    .mend("give it the same `E` throughout, or call one of the two by another word");
            }
            Some(other) if other != word => {
                report
                    .add(
                        place,
                        format!(
                            "{} has the modulus of {}: these two count as one material",
                            in_quotes(&word),
                            in_quotes(&other)
                        ),
                    )
                    .mend("call both by one word, or give them moduli that differ");
            }
            _ => {}
        }
        match same_modulus {
            Some(of) => {
                known[of].word.get_or_insert(word);
            }
            None => known.push(Known { word: Some(word), modulus }),
        }
    }
}
