//! Whether the words for materials and their moduli of elasticity agree: materials are told apart by their modulus.

use super::allowable;
use super::node::Table;
use super::words::{in_quotes, modulus_about, modulus_in_words};
use crate::finding::Report;
use workings::material::Behaviour;
use workings::problem::Allowable;
use workings::shear_stiffness::ShearGiven;
use workings::style::Style;

/// A material by its word, where it has one, and its modulus, Pa.
struct Known {
    word: Option<String>,
    modulus: f64,
}

/// What a table states of a material in shear.
pub(super) fn shear(table: &Table) -> ShearGiven {
    ShearGiven {
        poisson_ratio: table.number("poisson"),
        shear_modulus: table.value("shear-modulus").map(|given| given.value),
    }
}

/// Remarks upon a modulus that nothing has that is called so: a unit was mistaken, as a rule.
pub(super) fn check_moduli(
    section: Option<&Table>,
    material: Option<&Table>,
    style: &Style,
    report: &mut Report,
) {
    let of_beam = material.map(|table| (table, "name"));
    let of_parts = section.into_iter().flat_map(|table| table.tables("parts")).map(|part| (part, "material"));
    for (table, word) in of_beam.into_iter().chain(of_parts) {
        let (Some(name), Some(modulus)) = (table.owned_text(word), table.value("E")) else { continue };
        let behaviour = Behaviour::of(&name);
        if behaviour == Behaviour::Ductile {
            check_shear(table, modulus.value, style, report);
        }
        let Some((least, most)) = behaviour.moduli() else { continue };
        if !(least..=most).contains(&modulus.value) {
            let is = if modulus.value < least { "soft" } else { "stiff" };
            let [least, most] = [least, most].map(|modulus| modulus_in_words(style, modulus));
            report
                .remark(
                    table.place("E"),
                    format!("nothing that is called {} is as {is} as this", in_quotes(&name)),
                )
                .mend(format!("an `E` between {least} and {most}; is the unit as it was meant?"));
        }
    }
}

/// Remarks upon a shear modulus that a metal of this modulus of elasticity, Pa, cannot have: it is alike in all directions.
fn check_shear(table: &Table, elastic_modulus: f64, style: &Style, report: &mut Report) {
    let ShearGiven { poisson_ratio, shear_modulus: Some(stated) } = shear(table) else { return };
    // Poisson's ratio from 0 to 1/2; where it is stated, one modulus, to a tenth.
    let of = |ratio: f64| elastic_modulus / (2.0 * (1.0 + ratio));
    let (least, most) = poisson_ratio.map_or((of(0.5), of(0.0)), |ratio| (0.9 * of(ratio), 1.1 * of(ratio)));
    if !(least..=most).contains(&stated) {
        let [least, most] = [least, most].map(|modulus| modulus_about(style, modulus));
        report
            .remark(
                table.place("shear-modulus"),
                "a metal that is alike in all directions has another shear modulus",
            )
            .mend(format!("E / (2 (1 + poisson)), between {least} and {most}"));
    }
}

/// Tells every part that states of its material how it shears or what it may bear but has no modulus of its own, or states it otherwise
/// than what it is one material with.
pub(super) fn check_stated(section: &Table, material: Option<&Table>, report: &mut Report) {
    let Some(of_beam) = material.and_then(|table| table.value("E")) else { return };
    let mut known = vec![(of_beam.value, material.map(shear).unwrap_or_default(), Allowable::default())];
    for part in section.tables("parts") {
        let sheared = shear(part);
        let borne = part.table("allowable").map(allowable::stated).unwrap_or_default();
        let words = ["poisson", "shear-modulus", "allowable"];
        let Some(word) = words.into_iter().find(|word| part.has(word)) else { continue };
        let Some(own) = part.value("E") else {
            if !part.has("E") {
                report
                    .add(
                        part.place(word),
                        format!("`{word}` is that of a material, and this part has no `E` of its own"),
                    )
                    .mend(match word {
                        "allowable" => "give it its own `E`, or state it under [allowable]".to_owned(),
                        _ => format!("give it its own `E`, or state `{word}` under [material]"),
                    });
            }
            continue;
        };
        match known.iter().position(|of| of.0 == own.value) {
            Some(of) => {
                let (_, known_shear, known_borne) = &mut known[of];
                let other_shear = !sheared.is_empty() && !known_shear.is_empty() && *known_shear != sheared;
                let none = Allowable::default();
                let other_borne = borne != none && *known_borne != none && *known_borne != borne;
                if other_shear || other_borne {
                    let word = if other_shear { word } else { "allowable" };
                    report
                        .add(
                            part.place(word),
                            format!("parts of one modulus of elasticity count as one material, and another has another `{word}`"),
                        )
                        .mend("state both alike, or give the parts moduli that differ");
                }
                if known_shear.is_empty() {
                    *known_shear = sheared;
                }
                if *known_borne == none {
                    *known_borne = borne;
                }
            }
            None => known.push((own.value, sheared, borne)),
        }
    }
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
