//! How far the formula is from the truth, in the numbers of the lesson.

use super::author::{Author, listed};
use super::line;
use crate::tree::{Alignment, Inline};
use workings::dimension::Dimension;
use workings::elastic::{AtLevel, ElasticTruth, NoTruth};
use workings::quantity::Quantity;
use workings::role::Role;

/// Above this part of the deflection of bending, that of shear is no longer a little: in a timber beam of twelve depths with a
/// load in its middle it is about that much. Common practice, no source.
const MUCH_OF_SHEAR: f64 = 0.10;

/// Less than this part of it is nothing that could be told from nothing.
const NONE_OF_SHEAR: f64 = 1e-9;

fn stress(value: f64) -> Inline {
    Inline::Quantity(Quantity::new(value.abs(), Dimension::STRESS), Role::ShearStress)
}

fn length(value: f64) -> Inline {
    Inline::Quantity(Quantity::new(value, Dimension::LENGTH), Role::Depth)
}

fn modulus(value: f64) -> Inline {
    Inline::Quantity(Quantity::new(value, Dimension::STRESS), Role::ShearModulus)
}

fn number(value: f64, role: Role) -> Inline {
    Inline::Quantity(Quantity::new(value, Dimension::NONE), role)
}

impl Author<'_> {
    pub(crate) fn elastic(&mut self, truth: &Result<ElasticTruth, NoTruth>) {
        self.part("How far the formula is from the truth");
        let truth = match truth {
            Ok(truth) => truth,
            Err(none) => {
                let words = none.to_string();
                self.say(line![format!("{}.", capital(&words))]);
                return;
            }
        };
        self.say(match truth.bends_askew() {
            false => line![
                "The theory of elasticity tells how the shear stress is spread over the width of this very section. The formula is \
                 the mean over the width, and that mean is right: it is the balance of the part beyond the cut. How much larger \
                 the stress is somewhere on that width, the formula cannot say."
            ],
            true => line![
                "The theory of elasticity tells how the shear stress is spread over this very section. Here it is solved for the \
                 upright shear force alone, through the shear centre, on a beam that is free to bend askew. So the simple formula does \
                 not apply: not even its mean over the width is right. The balance of the part beyond the cut asks for that of the \
                 full formula, with the product moment."
            ],
        });
        let on_cut = truth.materials.iter().any(|one| one.cut.is_some());
        let at_axis = truth.materials.iter().any(|one| one.axis.is_some());
        for (level, place, is_mixed) in
            [(truth.cut, "On the cut", on_cut), (truth.axis, "At the neutral axis", at_axis)]
        {
            if let Some(level) = level {
                self.level(&level, place, is_mixed);
            }
        }
        self.largest_of_all(truth);
        self.in_each_material(truth);
        if self.drawing("elastic").is_some() {
            self.drawn_truth();
        }
        let mut words = self.sag_in_words(truth);
        words.extend(line![
            " The energy of shear in a unit of length is that of an even stress times a form factor: ",
            number(truth.form_factor_of_formula, Role::FormFactor),
            " by the formula, ",
            number(truth.form_factor, Role::FormFactor),
            " in truth. With the true one and the shear modulus ",
            modulus(self.solved.problem().shear_modulus()),
            ", shear tilts the axis at the slice by ",
            Inline::Quantity(Quantity::new(truth.tilt, Dimension::NONE), Role::Slope),
            ", besides the slope of bending."
        ]);
        if !truth.materials.is_empty() {
            words.push(
                " The even stress would be that of a section as drawn with this shear modulus in all of it, that of the material of \
                 reference; where another material is stiffer in shear, the factor may be below one."
                    .into(),
            );
        }
        if let Some(coefficient) = truth.shear_coefficient {
            words.extend(line![
                " Tables have a shear coefficient in its place: after Cowper it is ",
                number(coefficient, Role::ShearCoefficient),
                ", and one over it, ",
                number(1.0 / coefficient, Role::FormFactor),
                ", stands where the true form factor stands. Where Poisson's ratio is zero the two are equal; else they differ, for the form \
                 factor makes the energy right and the coefficient the mean movement of the section. The deflection of shear that \
                 is printed here uses the form factor."
            ]);
            let (given, ratio) = (self.solved.problem().shear_modulus(), truth.poisson_ratio());
            let elastic_modulus = self.solved.problem().elastic_modulus;
            let alike = elastic_modulus / (2.0 * (1.0 + ratio));
            if (given - alike).abs() > 1e-3 * alike {
                words.extend(line![
                    " The coefficient is that of Poisson's ratio ",
                    number(ratio, Role::PoissonRatio),
                    ", as of a material that is alike in all directions; here the shear modulus is given by itself, ",
                    number(given / elastic_modulus, Role::Ratio),
                    " of the modulus of elasticity."
                ]);
            }
        }
        self.say(words);
        for caution in truth.cautions(self.solved) {
            self.say(line![self.style.notation.in_its_words(&caution)]);
        }
    }

    /// Of several materials: what each bears.
    fn in_each_material(&mut self, truth: &ElasticTruth) {
        if truth.materials.is_empty() {
            return;
        }
        let level = |level: Option<AtLevel>, value: &dyn Fn(&AtLevel) -> Option<f64>| match level {
            Some(level) => value(&level).map_or_else(|| line!["no limit"], |value| vec![stress(value)]),
            None => line!["–"],
        };
        let beside = truth.materials.iter().any(|one| one.cut.is_some());
        let rows = truth.materials.iter().map(|one| {
            let mut row = vec![line![one.material.name.clone()], vec![modulus(one.shear_modulus)]];
            if beside {
                row.push(level(one.cut, &|level| Some(level.across.balanced)));
                row.push(level(one.cut, &|level| level.has_largest.then_some(level.across.largest_up.value)));
            }
            let largest = one.largest.map_or_else(|| line!["no limit"], |most| vec![stress(most.value)]);
            row.push(largest);
            row
        });
        let rows = rows.collect();
        let mut header = vec![line!["Material"], line!["Shear modulus"]];
        if beside {
            header.push(line!["On the cut, all sheared alike"]);
            header.push(line!["On the cut, truly largest"]);
        }
        header.push(line!["Truly largest of the section"]);
        let mut alignment = vec![Alignment::Right; header.len()];
        alignment[0] = Alignment::Left;
        self.table(line!["The shear stress in each material at the slice."], header, alignment, rows);
    }

    fn drawn_truth(&mut self) {
        let number_of_figure = self.next_figure();
        let flanges =
            match self.solved.section().width_jumps().iter().any(|jump| jump.below > 0.0 && jump.above > 0.0)
            {
                true => {
                    ", and where the width jumps it turns into parts that the formula knows only as a width"
                }
                false => "",
            };
        self.say(line![format!(
            "Figure {number_of_figure} shows the stress all over the section: it runs along the outline{flanges}."
        )]);
        self.figure(
            "elastic",
            line!["The true shear stress of the section, and over the depth beside the formula."],
        );
    }

    /// The largest deflection of bending, and what shear adds to it.
    pub(super) fn sag_in_words(&self, truth: &ElasticTruth) -> Vec<Inline> {
        let Some(sag) = truth.sag_of_shear(self.solved) else {
            return line!["The beam does not bend, so there is no deflection that shear could add to."];
        };
        let deflection =
            |value: f64| Inline::Quantity(Quantity::new(value, Dimension::LENGTH), Role::Deflection);
        let mut words = line![
            "Without what shear adds the largest deflection is ",
            deflection(sag.without),
            match self.solved.free_sideways() {
                Some(_) => ", up or down in a beam that is free to go sideways. ",
                None => ". ",
            },
        ];
        let share = sag.share();
        if share.abs() < NONE_OF_SHEAR {
            words.push("Shear adds nothing to it.".into());
            return words;
        }
        let way = if share > 0.0 { " to it" } else { " off it" };
        words.extend(line![
            if share > 0.0 { "Shear adds " } else { "Shear takes " },
            deflection(sag.added.abs())
        ]);
        match share.abs() > MUCH_OF_SHEAR {
            true => words.extend(line![
                format!("{way}, too much to be left out: in all the largest is "),
                Inline::Strong(vec![deflection(sag.with)]),
                ". The deflected beam that is drawn counts bending alone."
            ]),
            false => words.push(format!("{way}, which is little and is not counted.").into()),
        }
        words
    }

    fn level(&mut self, level: &AtLevel, place: &str, is_mixed: bool) {
        let across = level.across;
        let properties = self.solved.section().properties();
        let askew = self.bends_askew();
        let mut words = match askew {
            false => line![format!("{place} the formula gives "), stress(across.formula)],
            true => {
                let mut words = line![format!("{place} the simple formula gives "), stress(across.formula)];
                words.extend(line![", the full one ", stress(across.balanced)]);
                if let Some(ratio) = across.balanced_over_formula() {
                    words.extend(line![": ", number(ratio, Role::Ratio), " times as much"]);
                }
                words
            }
        };
        if is_mixed {
            words.push(", a mean over the materials that lie side by side there".into());
        }
        if level.has_largest {
            words.extend(line![
                "; the true stress is largest, ",
                Inline::Strong(vec![stress(across.largest_up.value)]),
                ", at ",
                length(properties.told(across.largest_up.x - properties.left)),
                " from the left edge"
            ]);
            match across.ratio() {
                Some(ratio) => words.extend(line![
                    ": ",
                    number(ratio, Role::Ratio),
                    if askew { " times the full formula." } else { " times the formula." }
                ]),
                None => words.push(".".into()),
            }
        } else {
            words.push(
                match askew {
                    false => ", and the true mean is the same; the stress has no largest value there, for a sharp corner is near.",
                    true => ", which is the true mean; the stress has no largest value there, for a sharp corner is near.",
                }
                .into(),
            );
        }
        self.say(words);
    }

    fn largest_of_all(&mut self, truth: &ElasticTruth) {
        let properties = self.solved.section().properties();
        let largest = truth.largest;
        let mut words = line![
            match self.bends_askew() {
                false => "Over the whole section the formula gives at most ",
                true => "Over the whole section the simple formula, which does not apply, gives at most ",
            },
            stress(truth.largest_by_formula.value),
            "; the true stress reaches ",
            Inline::Strong(vec![stress(largest.value)]),
            ", ",
            length(properties.told(largest.at.y - properties.bottom)),
            " above the lowest fibre and ",
            length(properties.told(largest.at.x - properties.left)),
            " from the left edge: ",
            number(truth.ratio_of_largest(), Role::Ratio),
            " times as much."
        ];
        if let Some((own, names)) = truth.side_by_side_at_largest() {
            let names: Vec<Vec<Inline>> = names.iter().map(|name| line![(*name).to_owned()]).collect();
            words.push(" That is because ".into());
            words.extend(listed(names));
            words.push(
                format!(
                    " lie side by side there: the formula spreads the shear flow evenly over all of them, while {} takes of it as \
                     its shear modulus asks.",
                    own.material.name
                )
                .into(),
            );
        }
        if largest.beside_corner.is_some() {
            words.push(" That is beside a sharp corner, and nearer to it the stress is larger still.".into());
        }
        self.say(words);
    }
}

pub(super) fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
