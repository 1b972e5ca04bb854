//! The shear stress over the depth, where it is largest, and the finite slice against the formula.

use super::author::Author;
use super::line;
use crate::tree::{Alignment, Inline};
use lesson::{Scene, When};
use mechanics::stress::{PlaceSide, Reason};
use workings::dimension::Dimension;
use workings::quantity::Quantity;
use workings::role::Role;

fn length(value: f64) -> Inline {
    Inline::Quantity(Quantity::new(value, Dimension::LENGTH), Role::Depth)
}

impl Author<'_> {
    pub(crate) fn shear(&mut self) {
        self.chapter("Shear stress over the depth");
        self.own_words(Scene::Shear, When::Before);
        let number = self.next_figure();
        self.say(line![format!(
            "Where a shear stress acts on the cut, an equal one acts on the upright face beside it, or the small element \
             between them would spin (figure {number}). So the same formula gives the upright shear stress in the section."
        )]);
        self.figure(
            "shear-element",
            line!["A small element at the cut: equal shear stresses on its level and its upright faces."],
        );
        self.simple_formula_does_not_hold();
        let number = self.next_figure();
        self.say(line![format!(
            "Move the cut from the lowest fibre to the highest, and the formula gives the shear stress at every height \
             (figure {number}). At the outer fibres nothing lies beyond the cut, so the stress is zero there, where the \
             bending stress is largest."
        )]);
        self.figure(
            "depth",
            line!["Bending stress and shear stress over the depth at the slice, beside the section."],
        );
        if self.drawing("first-moment").is_some() {
            let number = self.next_figure();
            self.say(line![format!("Figure {number} shows what of the formula changes with the height of the cut, besides the width.")]);
        }
        self.figure(
            "first-moment",
            line!["The first moment of the part beyond a cut, for every height of the cut: largest at the neutral axis."],
        );
        self.largest();
        self.stress_balances();
        self.approach();
        self.own_words(Scene::Shear, When::After);
    }

    /// Where the shear stress is largest, and why there.
    pub(crate) fn largest(&mut self) {
        let largest = self.solved.stress().largest_shear_stress();
        let value = Inline::Quantity(Quantity::new(largest.value, Dimension::STRESS), Role::ShearStress);
        let mean = Inline::Quantity(Quantity::new(largest.mean, Dimension::STRESS), Role::MeanShearStress);
        let mut words = line!["It is largest, ", Inline::Strong(vec![value]), ", "];
        let places = largest.places.iter().map(|place| {
            let side = match place.side {
                PlaceSide::Below => "just below ",
                PlaceSide::Above => "just above ",
                PlaceSide::Both => "at ",
                PlaceSide::Contact => "on the contact at ",
            };
            line![side, length(place.height)]
        });
        words.extend(super::author::listed(places.collect()));
        words.push(" from the lowest fibre. ".into());
        words.extend(match largest.reason {
            Reason::NeutralAxis => line![
                "That is the neutral axis: there the first moment is largest, and no narrower place makes up for its \
                 smaller first moment."
            ],
            Reason::WidthJumps { narrow, broad, .. } => line![
                "That is not the neutral axis. The width jumps there, from ",
                length(broad),
                " to ",
                length(narrow),
                ", and the narrow side must carry the same shear flow."
            ],
            Reason::WidthGrows { here, at_axis } => line![
                "That is not the neutral axis: towards the axis the width grows faster than the first moment does, from ",
                length(here),
                " to ",
                length(at_axis),
                "."
            ],
            Reason::NarrowContact { contact } => line![
                "That is where two parts touch over no more than ",
                length(contact),
                ": all of the shear flow must pass there."
            ],
            Reason::NoShearForce => {
                self.say(line!["No shear force acts at this station, so there is no shear stress at any height."]);
                return;
            }
        });
        words.extend(line![" Spread evenly over the section the shear force would give ", mean, "."]);
        self.say(words);
    }

    /// How the mean stress on the cut of a finite slice tends to the formula.
    fn approach(&mut self) {
        let approach = &self.solved.slice().approach;
        let stress = self.solved.key().stress_on_cut;
        if approach.len() < 2 {
            return;
        }
        self.part("The finite slice and the formula");
        self.say(line![
            "The formula holds for a slice of no length. On the cut of our finite slice it is a mean. Make the slice shorter, \
             and the mean tends to what the formula gives, ",
            self.symbol_and_value(stress),
            "; under an evenly spread load half the length leaves half the difference."
        ]);
        let rows = approach
            .iter()
            .map(|row| {
                vec![
                    vec![self.value(row.length)],
                    vec![self.value(row.mean_stress)],
                    vec![self.value(row.difference)],
                    row.ratio.map(|ratio| vec![self.value(ratio)]).unwrap_or_else(|| line!["–"]),
                ]
            })
            .collect();
        self.table(
            line!["The mean shear stress on the cut as the slice is halved again and again."],
            vec![
                line!["Length of the slice"],
                line!["Mean stress"],
                line!["Difference from the formula"],
                line!["Ratio to the one before"],
            ],
            vec![Alignment::Right; 4],
            rows,
        );
    }
}
