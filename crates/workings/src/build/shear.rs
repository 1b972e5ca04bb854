//! The shear stress: on the cut, at the neutral axis, the largest over the depth and along the beam.

use super::builder::{Builder, Entry, zero};
use super::cut::{Cut, CutWorkings, side_words};
use super::names::with_article;
use super::section::SectionWorkings;
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::material::side_by_side;
use crate::role::Role;
use crate::working::{Chapter, HeightSide, Id};
use mechanics::section::Section;
use mechanics::stress::{PlaceSide, Reason, StressOverDepth};

const CHAPTER: Chapter = Chapter::Shear;

/// What the shear chapter leaves.
#[derive(Clone, Debug)]
pub(crate) struct ShearWorkings {
    pub(crate) cut: CutWorkings,
    pub(crate) stress_on_cut: Id,
    /// How far the part beyond reaches from the cut.
    pub(crate) depth: Id,
    /// Where the width jumps at the cut, what holds on its other side.
    pub(crate) other_side: Option<CutStress>,
    pub(crate) at_axis: CutStress,
    /// Where the stress is largest, if neither the cut nor the neutral axis is the place.
    pub(crate) at_largest: Option<CutStress>,
    pub(crate) largest_over_depth: Id,
    pub(crate) largest_along_beam: Id,
    /// The area of the section as drawn.
    pub(crate) plain_area: Id,
}

/// A cut and the shear stress on it.
#[derive(Clone, Debug)]
pub(crate) struct CutStress {
    pub(crate) cut: CutWorkings,
    pub(crate) stress: Id,
}

/// Said of `V Q / (I t)` where materials of several moduli lie side by side on a cut; nothing elsewhere.
pub(super) fn of_no_material(engine: &Section, height: f64, side: HeightSide) -> &'static str {
    match side_by_side(engine, height, side) {
        true => " Materials lie side by side there: it is a mean over them, and the stress of none of them.",
        false => "",
    }
}

impl Builder<'_> {
    /// The height of the cut: that of a joint of two pieces where it lies there, else given.
    pub(crate) fn cut_height(
        &mut self,
        section: &SectionWorkings,
        depth: f64,
    ) -> Result<Id, EvaluationError> {
        let cut = &self.problem.cut;
        let entry = Entry::new(Chapter::Given, Role::CutHeight, "", "height of the cut")
            .height(cut.height, Some(cut.side));
        let near = 1e-12 * depth;
        let piece_below = section
            .pieces
            .iter()
            .find(|piece| !piece.placed.piece.hole && (piece.placed.piece.top - cut.height).abs() <= near);
        match piece_below.and_then(|piece| Some((piece.placed.top()?, &piece.placed.piece.name))) {
            Some((top, name)) => self
                .formula(entry.says(format!("The cut runs along the top of {}.", with_article(name))), top),
            None => self.given(
                entry.says("The cut runs at this height above the base line."),
                cut.height,
                Dimension::LENGTH,
            ),
        }
    }

    /// All shear stresses.
    pub(crate) fn shear(
        &mut self,
        section: &SectionWorkings,
        engine: &Section,
        height: Id,
        shear: Id,
        largest_shear: Id,
    ) -> Result<ShearWorkings, EvaluationError> {
        let problem = self.problem;
        let CutHere { side, beyond } = CutHere { side: problem.cut.side, beyond: problem.cut.beyond };
        let main = Cut { height, side, beyond, words: "the cut", index: "" };
        let depth = engine.properties().height();
        let depth_of_part = self.depth_beyond(section, &main)?;
        let cut = self.cut(section, engine, &main)?;
        let says = format!(
            "{}{}",
            match self.value(shear) == 0.0 {
                false =>
                    "The two stress resultants on the part beyond differ from face to face; the shear stress on the cut makes up the \
                     difference.",
                true =>
                    "V is zero here, so the stress resultant on the part beyond does not change, and the cut has nothing to make up.",
            },
            of_no_material(engine, problem.cut.height, side)
        );
        let stress_on_cut =
            self.shear_stress(section, shear, &cut, &main, "shear stress on the cut", &says)?;
        let entry = Entry::new(CHAPTER, Role::ShearFlow, "", "shear flow on the cut")
            .height(self.value(height), None)
            .says("The force on the cut per unit length of the beam.");
        let flow = Expression::from(shear) * cut.first_moment.into() / section.second_moment.into();
        self.formula(entry, flow)?;
        let other_side = self.other_side(section, engine, shear, &cut, &main)?;
        let at_axis = self.at_axis(section, engine, shear, (&main, &cut, stress_on_cut))?;
        let profile = StressOverDepth::new(engine, 0.0, 1.0).largest_shear_stress();
        let mut largest = at_axis.clone();
        let mut at_largest = None;
        let place = profile.places.first().copied();
        let mut says =
            "The shear stress is largest at the neutral axis: Q is largest there, and no place is so much narrower \
                        that Q over t is larger."
                .to_owned();
        if let Some(place) = place.filter(|_| !profile.at_neutral_axis) {
            says = reason_words(profile.reason);
            let side_of_place = match place.side {
                PlaceSide::Below => HeightSide::Below,
                PlaceSide::Above => HeightSide::Above,
                PlaceSide::Both | PlaceSide::Contact => HeightSide::Below,
            };
            let jumps = matches!(place.side, PlaceSide::Below | PlaceSide::Above);
            let is_cut = (place.height - problem.cut.height).abs() <= 1e-9 * depth
                && (!jumps || side_of_place == problem.cut.side);
            largest = if is_cut {
                CutStress { cut: cut.clone(), stress: stress_on_cut }
            } else {
                let place = (place.height, side_of_place, beyond);
                at_largest.insert(self.at_largest(section, engine, shear, place, &says)?).clone()
            };
        }
        let mean = place.map_or("", |place| of_no_material(engine, place.height, HeightSide::Above));
        let stress = |index: &str, name: &str| Entry::new(CHAPTER, Role::ShearStress, index, name);
        let entry = stress("max", "largest shear stress over the depth").says(says + mean);
        let entry = match place {
            Some(place) => entry.height(place.height, None),
            None => entry,
        };
        let over_depth = self.formula(entry, largest.stress.into())?;
        let product = Expression::from(largest_shear).size() * largest.cut.first_moment.into();
        let below = Expression::from(section.second_moment) * largest.cut.width.into();
        let station = self.workings.working(largest_shear).place;
        let entry = stress("max, beam", "largest shear stress along the beam").says(format!(
            "Over the whole beam its size is largest where that of V is: at the same height of the section.{mean}"
        ));
        let entry = match station.station {
            Some(x) => entry.at(x, station.side),
            None => entry,
        };
        let largest_along_beam = self.formula(entry, product / below)?;
        let plain_area = self.mean(section, engine, shear, over_depth)?;
        Ok(ShearWorkings {
            cut,
            stress_on_cut,
            depth: depth_of_part,
            other_side,
            at_axis,
            at_largest,
            largest_over_depth: over_depth,
            largest_along_beam,
            plain_area,
        })
    }

    /// The upright extent of the part beyond: not needed for Q, but often taken for the width.
    fn depth_beyond(&mut self, section: &SectionWorkings, cut: &Cut<'_>) -> Result<Id, EvaluationError> {
        let depth = match cut.beyond {
            HeightSide::Above => Expression::from(section.top) - cut.height.into(),
            HeightSide::Below => self.difference(cut.height, section.bottom),
        };
        let entry = Entry::new(CHAPTER, Role::Height, "beyond", "depth of the part beyond the cut")
            .says("How far the part beyond reaches, from the cut to the outer fibre.");
        self.formula(entry, depth)
    }

    fn shear_stress(
        &mut self,
        section: &SectionWorkings,
        shear: Id,
        cut: &CutWorkings,
        at: &Cut<'_>,
        name: &str,
        says: &str,
    ) -> Result<Id, EvaluationError> {
        let place = self.workings.working(shear).place;
        let mut entry = Entry::new(CHAPTER, Role::ShearStress, at.index, name)
            .height(self.value(at.height), Some(at.side));
        if let Some(station) = place.station {
            entry = entry.at(station, place.side);
        }
        if self.value(cut.width) == 0.0 {
            // An apex: Q goes to zero faster than t does.
            let entry =
                entry.says("The section ends in a point here: both Q and t are zero, and so is the stress.");
            return self.formula(entry, zero(Dimension::STRESS, Role::ShearStress));
        }
        let above = Expression::from(shear) * cut.first_moment.into();
        let below = Expression::from(section.second_moment) * cut.width.into();
        self.formula(entry.says(says), above / below)
    }

    /// Where the width jumps at the cut, the stress on its other side.
    fn other_side(
        &mut self,
        section: &SectionWorkings,
        engine: &Section,
        shear: Id,
        cut: &CutWorkings,
        at: &Cut<'_>,
    ) -> Result<Option<CutStress>, EvaluationError> {
        let height = self.value(at.height);
        let near = 1e-9 * engine.properties().height();
        let widths = [HeightSide::Below, HeightSide::Above].map(|side| engine.width(height, side));
        if (widths[0] - widths[1]).abs() <= near || widths.iter().any(|&width| width <= near) {
            return Ok(None);
        }
        let side = match at.side {
            HeightSide::Above => HeightSide::Below,
            HeightSide::Below => HeightSide::Above,
        };
        let words = format!("the cut, just {} it", side_words(side));
        let other =
            Cut { height: at.height, side, beyond: at.beyond, words: &words, index: side_words(side) };
        let width = self.width(section, engine, &other)?;
        let cut = CutWorkings { width, ..cut.clone() };
        let name = format!("shear stress just {} the cut", side_words(side));
        let says = "The width jumps at the cut, Q does not: the same force spreads over another width.";
        let stress = self.shear_stress(section, shear, &cut, &other, &name, says)?;
        Ok(Some(CutStress { cut, stress }))
    }

    fn at_axis(
        &mut self,
        section: &SectionWorkings,
        engine: &Section,
        shear: Id,
        (main, main_cut, main_stress): (&Cut<'_>, &CutWorkings, Id),
    ) -> Result<CutStress, EvaluationError> {
        let axis = engine.neutral_axis();
        let near = 1e-9 * engine.properties().height();
        // Where the width jumps at the axis itself, the narrower side has the larger stress.
        let (below, above) = (engine.width(axis, HeightSide::Below), engine.width(axis, HeightSide::Above));
        let side = if above < below - near { HeightSide::Above } else { HeightSide::Below };
        let at = Cut {
            height: section.centroid,
            side,
            beyond: main.beyond,
            words: "the neutral axis",
            index: "NA",
        };
        let says = "The neutral axis, where sigma is zero: the part beyond it has the largest Q, so the largest force acts on the cut.";
        let jumps = (above - below).abs() > near;
        if (self.value(main.height) - axis).abs() <= near && (!jumps || main.side == side) {
            return self.cut_is_at_axis(&at, main_cut, main_stress, says);
        }
        let cut = self.cut(section, engine, &at)?;
        let stress =
            self.shear_stress(section, shear, &cut, &at, "shear stress at the neutral axis", says)?;
        Ok(CutStress { cut, stress })
    }

    /// Where the lesson cuts at the neutral axis, what was found there is taken over.
    fn cut_is_at_axis(
        &mut self,
        at: &Cut<'_>,
        cut: &CutWorkings,
        stress: Id,
        says: &str,
    ) -> Result<CutStress, EvaluationError> {
        let height = self.value(at.height);
        let mut same = |role: Role, what: &str, says: &str, id: Id| {
            let entry = Entry::new(CHAPTER, role, at.index, format!("{what} at the neutral axis"))
                .height(height, Some(at.side))
                .says(says);
            self.formula(entry, id.into())
        };
        let of_the_cut = "The cut lies at the neutral axis, so the first moment is that of the cut.";
        let first_moment = same(Role::FirstMoment, "first moment", of_the_cut, cut.first_moment)?;
        let width = same(Role::WidthAtCut, "width", "The width is that of the cut, too.", cut.width)?;
        let stress = same(Role::ShearStress, "shear stress", says, stress)?;
        Ok(CutStress { cut: CutWorkings { first_moment, width, ..cut.clone() }, stress })
    }

    fn at_largest(
        &mut self,
        section: &SectionWorkings,
        engine: &Section,
        shear: Id,
        (place, side, beyond): (f64, HeightSide, HeightSide),
        says: &str,
    ) -> Result<CutStress, EvaluationError> {
        let entry = Entry::new(CHAPTER, Role::CutHeight, "max", "height of the largest shear stress")
            .height(place, Some(side));
        let near = 1e-12 * engine.properties().height();
        let piece = section
            .pieces
            .iter()
            .map(|piece| &piece.placed)
            .find(|placed| !placed.piece.hole && (placed.piece.top - place).abs() <= near);
        let height = match piece.and_then(|placed| placed.top()) {
            Some(top) => self.formula(entry.says(says), top)?,
            None => {
                let how = "Found as the root of the slope of the shear stress over the depth.";
                self.engine(entry.says(says), how, (Vec::new(), Call::Fixed), place, Dimension::LENGTH)?
            }
        };
        let at = Cut { height, side, beyond, words: "the place of the largest shear stress", index: "m" };
        let cut = self.cut(section, engine, &at)?;
        let name = "shear stress at the place of the largest";
        let stress = self.shear_stress(section, shear, &cut, &at, name, says)?;
        Ok(CutStress { cut, stress })
    }

    /// `V / A`, and how many times the largest stress exceeds it.
    fn mean(
        &mut self,
        section: &SectionWorkings,
        engine: &Section,
        shear: Id,
        largest: Id,
    ) -> Result<Id, EvaluationError> {
        let properties = engine.properties();
        let area = if !section.materials.is_empty() {
            let entry = Entry::new(CHAPTER, Role::Area, "drawn", "area as drawn")
                .says("The area of all parts as drawn, whatever they are made of.");
            let how = "Integrated exactly round the outline.";
            self.engine(entry, how, (Vec::new(), Call::Fixed), properties.plain_area, Dimension::AREA)?
        } else {
            section.area
        };
        let entry = Entry::new(CHAPTER, Role::MeanShearStress, "", "mean shear stress").says(
            "The mean over the section, for comparison: the stress varies over the depth and is zero at the outer \
             fibres.",
        );
        let mean = self.formula(entry, Expression::from(shear) / area.into())?;
        if self.value(mean) != 0.0 {
            let entry = Entry::new(
                CHAPTER,
                Role::Ratio,
                "max",
                "ratio of the largest shear stress to the mean",
            )
            .says(
                "How many times the largest exceeds the mean; 3/2 for a rectangle, 4/3 for a circle, 2 for a \
                     thin round tube.",
            );
            self.formula(entry, Expression::from(largest) / mean.into())?;
        }
        Ok(area)
    }
}

struct CutHere {
    side: HeightSide,
    beyond: HeightSide,
}

fn reason_words(reason: Reason) -> String {
    match reason {
        Reason::WidthJumps { .. } => {
            "The shear stress is largest off the neutral axis, where the width jumps: towards the axis the section is \
             broader, and Q does not grow enough to make up for it."
        }
        Reason::WidthGrows { .. } => {
            "The shear stress is largest off the neutral axis: the width grows towards the axis faster than Q does, \
             and it is Q over t that counts."
        }
        Reason::NarrowContact { .. } => {
            "The shear stress is largest where two parts touch: the contact is narrower than the parts themselves."
        }
        Reason::NeutralAxis | Reason::NoShearForce => "The shear stress is largest at the neutral axis.",
    }
    .to_owned()
}
