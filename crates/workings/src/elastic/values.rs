//! The elastic truth as rows of the table of values.

use super::{ElasticTruth, InMaterial};
use crate::dimension::Dimension;
use crate::quantity::Quantity;
use crate::role::{Role, Symbol};
use crate::solved::Solved;
use crate::value::Value;
use crate::working::{HeightSide, Place};
use mechanics::section::Point;

/// No smaller error than this part of the stress is claimed.
const LEAST_ERROR: f64 = 1e-6;

impl ElasticTruth {
    /// The values as rows. They stand apart from the rows of the lesson: only they need the solution.
    pub fn values(&self, solved: &Solved) -> Vec<Value> {
        let mut rows = self.values_at_levels(solved);
        rows.extend(self.largest_values(solved));
        rows.extend(self.values_of_section(solved));
        rows
    }

    fn values_at_levels(&self, solved: &Solved) -> Vec<Value> {
        let properties = solved.section().properties();
        let mut rows = Vec::new();
        for (level, whose) in [(self.cut, "on the cut"), (self.axis, "at the neutral axis")] {
            let Some(level) = level else { continue };
            let row = Rows { solved, place: at(solved, Some((level.height, Some(level.side)))) };
            let across = level.across;
            let askew = self.bends_askew();
            let says = match askew {
                true => {
                    "V Q / (I t), which does not hold for this section: under an upright load alone it bends askew."
                }
                false => "V Q / (I t): a mean over the width.",
            };
            rows.push(
                row.stress(&format!("shear stress by the formula, {whose}"), "", across.formula)
                    .that_says(says),
            );
            let says = match askew {
                true => "By balance it is what the full formula gives, with the product moment.",
                false => "By balance it is what the formula gives.",
            };
            rows.push(
                row.stress(&format!("mean of the true shear stress, {whose}"), "mean", across.mean)
                    .that_says(says),
            );
            rows.extend(across.balanced_over_formula().filter(|_| askew).map(|ratio| {
                row.number(&format!("full formula over simple formula, {whose}"), Role::Ratio, ratio)
                    .that_says("By so many times the mean is larger than V Q / (I t) says.")
            }));
            if !level.has_largest {
                continue;
            }
            rows.push(
                row.stress(&format!("largest true shear stress, {whose}"), "max", across.largest_up.value)
                    .that_says("The upright part, where it is largest across the width."),
            );
            rows.push(row.length(
                &format!("its place to the right of the leftmost fibre, {whose}"),
                Role::Across,
                properties.told(across.largest_up.x - properties.left),
            ));
            rows.extend(across.ratio().map(|ratio| {
                let over = if askew { "its mean" } else { "formula" };
                row.number(&format!("largest true over {over}, {whose}"), Role::Ratio, ratio)
                    .that_says("One where the stress is the same all over the width.")
            }));
        }
        rows
    }

    fn largest_values(&self, solved: &Solved) -> Vec<Value> {
        let properties = solved.section().properties();
        let formula = &self.largest_by_formula;
        let place = formula.places.first().map(|place| (place.height, None));
        let by_formula = Rows { solved, place: at(solved, place) };
        let most = self.largest;
        let likely = most.error.max(LEAST_ERROR * most.value);
        let row = Rows { solved, place: at(solved, Some((most.at.y, None))) };
        let Point { x, .. } = most.at;
        let whole = if most.beside_corner.is_some() {
            "The whole shear stress, upright and level parts together; it lies beside a sharp corner, where it has no limit."
        } else {
            "The whole shear stress, upright and level parts together."
        };
        vec![
            by_formula.stress("largest shear stress of the section by the formula", "max", formula.value),
            row.stress("largest true shear stress of the section", "max", most.value).that_says(whole),
            row.length(
                "its place to the right of the leftmost fibre, of the section",
                Role::Across,
                properties.told(x - properties.left),
            ),
            row.value("likely error of it", Symbol::plain(Role::Residual), likely, Dimension::STRESS).that_says(
                "By how much two solutions of different fineness differ there; less than a millionth of the stress is not claimed.",
            ),
            row.number("largest true over formula, of the section", Role::Ratio, self.ratio_of_largest()),
        ]
    }

    /// Shear modulus and largest stress of each material, and its stress where it lies beside another.
    fn values_of_materials(&self, solved: &Solved) -> Vec<Value> {
        let whole = Rows { solved, place: Place::default() };
        let problem = solved.problem();
        let mut rows = Vec::new();
        if self.materials.is_empty() {
            rows.push(whole.shear_modulus("", "", problem.shear_modulus(), problem.shear.is_empty()));
        }
        for InMaterial { material, shear_modulus, is_assumed, largest, cut, axis } in &self.materials {
            let (name, letter) = (&material.name, &material.letter);
            rows.push(whole.shear_modulus(&format!(" of {name}"), letter, *shear_modulus, *is_assumed));
            for (level, whose) in [(cut, "on the cut"), (axis, "at the neutral axis")] {
                let Some(level) = level else { continue };
                let row = Rows { solved, place: at(solved, Some((level.height, Some(level.side)))) };
                let (alike, mean) = (level.across.balanced, level.across.mean);
                rows.push(
                    row.stress(&format!("shear stress in {name}, all sheared alike, {whose}"), letter, alike)
                        .that_says(
                            "q G_i / Σ(G b): what lies side by side is taken to be sheared alike. An approximation.",
                        ),
                );
                let index = format!("{letter}, mean");
                rows.push(
                    row.stress(&format!("mean of the true shear stress in {name}, {whose}"), &index, mean)
                        .that_says("Over the width of this material alone."),
                );
                if level.has_largest {
                    let index = format!("{letter}, max");
                    let most = level.across.largest_up.value;
                    rows.push(row.stress(
                        &format!("largest true shear stress in {name}, {whose}"),
                        &index,
                        most,
                    ));
                }
            }
            rows.extend(largest.iter().map(|largest| {
                let row = Rows { solved, place: at(solved, Some((largest.at.y, None))) };
                let index = format!("{letter}, max");
                row.stress(&format!("largest true shear stress in {name}"), &index, largest.value)
                    .that_says("The whole shear stress in this material, upright and level parts together.")
            }));
        }
        rows
    }

    fn values_of_section(&self, solved: &Solved) -> Vec<Value> {
        let row = Rows { solved, place: Place::default() };
        let here = Rows { solved, place: at(solved, None) };
        let mut rows = self.values_of_materials(solved);
        rows.extend([
            row.number("Poisson's ratio", Role::PoissonRatio, self.poisson_ratio()).that_says(
                match solved.problem().shear.assumes_poisson_ratio(solved.problem().elastic_modulus) {
                    true => "Assumed: the lesson does not state it.",
                    false => "As the lesson states it, or its shear modulus.",
                },
            ),
            row.number("form factor of the formula", Role::FormFactor, self.form_factor_of_formula)
                .that_says("The energy of shear in a unit of length is f V² / (2 G A); 6/5 for a rectangle."),
            row.number("form factor of the true stress", Role::FormFactor, self.form_factor)
                .that_says("The deflection of shear is reckoned with this one."),
        ]);
        rows.extend(self.shear_coefficient.map(|coefficient| {
            row.number("shear coefficient", Role::ShearCoefficient, coefficient).that_says(
                "After Cowper: the mean line of the beam slopes by V / (k G A) more than its sections turn. Where Poisson's \
                 ratio is zero, 1/k is the form factor of the true stress; else they differ a little, for k makes the mean \
                 movement right and f the energy.",
            )
        }));
        let symbol = Symbol::indexed(Role::Slope, "V");
        rows.push(
            here.value("angle by which shear tilts the axis", symbol, self.tilt, Dimension::NONE).that_says(
                "f V / (G A) with the form factor of the true stress and the shear modulus of the material of reference.",
            ),
        );
        rows.extend(self.centre_and_torsion(solved));
        rows.extend(self.sag_of_shear(solved).map(|sag| {
            let row = |name, index, value| {
                row.value(name, Symbol::indexed(Role::Deflection, index), value, Dimension::LENGTH)
            };
            [
                row("deflection that shear adds to the largest", "V", sag.added).that_says(
                    "The axis slopes by f V / (G A) against the sections, and the beam is held as it is; less than zero where this takes \
                     something off the largest deflection.",
                ),
                row("largest deflection with that of shear", "max, V", sag.with)
                    .that_says("By its size; what supports that give or have moved add is counted."),
            ]
        }).into_iter().flatten());
        rows
    }

    /// Where the shear force must act lest it twist the beam, and how stiff the section is against twisting.
    fn centre_and_torsion(&self, solved: &Solved) -> [Value; 3] {
        let row = Rows { solved, place: Place::default() };
        let Point { x, y } = self.elastic.shear_centre();
        let properties = solved.section().properties();
        let [right, y] = [x - properties.left, y].map(|distance| properties.told(distance));
        [
            row.length("place of the true shear centre to the right", Role::Across, right).that_says(
                "From the leftmost fibre; negative to its left. A shear force through the centre does not twist the beam.",
            ),
            row.length("height of the true shear centre", Role::CutHeight, y)
                .that_says("Above the base line."),
            row.value(
                "true torsion constant",
                Symbol::plain(Role::TorsionConstant),
                self.elastic.torsion_constant(),
                Dimension::LENGTH_4,
            )
            .that_says("A torque T twists a beam that is free to warp by T / (G J) in a unit of length."),
        ]
    }
}

fn at(solved: &Solved, height: Option<(f64, Option<HeightSide>)>) -> Place {
    Place {
        station: Some(solved.problem().slice.at),
        height: height.map(|height| height.0),
        height_side: height.and_then(|height| height.1),
        ..Place::default()
    }
}

/// Makes rows of one place.
struct Rows<'a> {
    solved: &'a Solved,
    place: Place,
}

impl Rows<'_> {
    fn value(&self, name: &str, symbol: Symbol, value: f64, dimension: Dimension) -> Value {
        Value {
            chapter: "elastic",
            symbol: self.solved.style().symbol(&symbol).plain(),
            stands_for: symbol.clone(),
            ..Value::placed(self.solved, name, symbol.role, self.place, Quantity::new(value, dimension))
        }
    }

    fn stress(&self, name: &str, index: &str, value: f64) -> Value {
        self.value(name, Symbol::indexed(Role::ShearStress, index), value, Dimension::STRESS)
    }

    fn length(&self, name: &str, role: Role, value: f64) -> Value {
        self.value(name, Symbol::plain(role), value, Dimension::LENGTH)
    }

    fn shear_modulus(&self, of: &str, index: &str, modulus: f64, is_assumed: bool) -> Value {
        let symbol = Symbol::indexed(Role::ShearModulus, index);
        self.value(&format!("shear modulus{of}"), symbol, modulus, Dimension::STRESS).that_says(
            match is_assumed {
                true => {
                    "E / (2 (1 + ν)), as of a material that is alike in all directions, with an assumed Poisson's ratio."
                }
                false => "As the lesson states it, or its Poisson's ratio.",
            },
        )
    }

    fn number(&self, name: &str, role: Role, value: f64) -> Value {
        self.value(name, Symbol::plain(role), value, Dimension::NONE)
    }
}

impl Value {
    fn that_says(self, sentence: &str) -> Self {
        Self { sentence: sentence.to_owned(), ..self }
    }
}
