//! Values at any other place than the lesson's own: "and what if we cut there?"
//!
//! These are the engine's own values, without formulas: the workings of another slice and cut, with formulas, are
//! those of [`Solved::at`].

use crate::dimension::Dimension;
use crate::quantity::Quantity;
use crate::role::Role;
use crate::solved::Solved;
use crate::value::Value;
use crate::working::{HeightSide, Place};
use mechanics::beam::Side;
use mechanics::section::CutFault;
use mechanics::stress::StressOverDepth;

impl Solved {
    /// Shear force, bending moment, slope and deflection at a station (m), from both sides; at an end of the beam
    /// from the inner side only. `None` where the station lies off the beam.
    pub fn values_at_station(&self, station: f64) -> Option<Vec<Value>> {
        let beam = self.beam();
        let length = beam.length();
        if !(0.0..=length).contains(&station) {
            return None;
        }
        let sides = [Side::Left, Side::Right];
        let inner = |side: &Side| match side {
            Side::Left => station > 0.0,
            Side::Right => station < length,
        };
        let mut values = Vec::new();
        for side in sides.into_iter().filter(inner) {
            let place = Place { station: Some(station), side: Some(side), ..Place::default() };
            let mut push = |name, role, value, dimension| {
                values.push(Value::placed(self, name, role, place, Quantity::new(value, dimension)));
            };
            push("shear force", Role::ShearForce, beam.shear(station, side), Dimension::FORCE);
            let moment = beam.bending_moment(station, side);
            push("bending moment", Role::BendingMoment, moment, Dimension::MOMENT);
            push("slope", Role::Slope, beam.slope(station, side), Dimension::NONE);
            push("deflection", Role::Deflection, beam.deflection(station), Dimension::LENGTH);
        }
        Some(values)
    }

    /// The part above a level cut at a height (m, in the outline's coordinates), and the stresses there at a
    /// station (m): bending stress, shear flow, and the width and the shear stress on both sides of a jump.
    ///
    /// # Errors
    /// Where the cut misses the section.
    pub fn values_at_cut(&self, station: f64, side: Side, height: f64) -> Result<Vec<Value>, CutFault> {
        let cut = self.section().level_cut(height, HeightSide::Above)?;
        let shear = self.beam().shear(station, side);
        let moment = self.beam().bending_moment(station, side);
        let stress = StressOverDepth::new(self.section(), moment, shear);
        let mut values = Vec::new();
        let mut push = |name, role, value, dimension, at_station: bool, height_side| {
            let station = at_station.then_some(station);
            let side = at_station.then_some(side);
            let place = Place { station, side, height: Some(height), height_side };
            values.push(Value::placed(self, name, role, place, Quantity::new(value, dimension)));
        };
        push("area above the cut", Role::AreaBeyond, cut.area, Dimension::AREA, false, None);
        push(
            "centroid height of the part above the cut",
            Role::CentroidHeight,
            cut.centroid.y,
            Dimension::LENGTH,
            false,
            None,
        );
        let q = cut.first_moment;
        push(
            "first moment of the part above the cut",
            Role::FirstMoment,
            q,
            Dimension::LENGTH_3,
            false,
            None,
        );
        let flow = stress.shear_flow(height);
        push("shear flow", Role::ShearFlow, flow, Dimension::FORCE_PER_LENGTH, true, None);
        // Where the width does not jump both sides give the same, and one row is enough.
        let jumps = cut.width_below != cut.width_above;
        for height_side in [HeightSide::Below, HeightSide::Above] {
            if !jumps && height_side == HeightSide::Above {
                break;
            }
            let shown = jumps.then_some(height_side);
            let width = cut.width(height_side);
            push("width at the cut", Role::WidthAtCut, width, Dimension::LENGTH, false, shown);
            let tau = stress.shear_stress(height, height_side);
            push("shear stress on the cut", Role::ShearStress, tau, Dimension::STRESS, true, shown);
        }
        let place =
            Place { station: Some(station), side: Some(side), height: Some(height), height_side: None };
        values.extend(self.bending_stresses_at(&stress, place, height));
        Ok(values)
    }

    /// The bending stress at a height: one value where all the material there is of one modulus, else one for each part
    /// that the height meets.
    fn bending_stresses_at(&self, stress: &StressOverDepth, place: Place, height: f64) -> Vec<Value> {
        let mut parts = self.parts_at(height, HeightSide::Below);
        parts.extend(self.parts_at(height, HeightSide::Above));
        parts.sort_unstable();
        parts.dedup();
        let ratios: Vec<f64> = parts.iter().map(|&part| self.section().parts()[part].modular_ratio).collect();
        let value = |name: &str, part: usize| {
            let sigma = Quantity::new(stress.bending_stress_in(part, height), Dimension::STRESS);
            Value::placed(self, name, Role::BendingStress, place, sigma)
        };
        match parts.as_slice() {
            [] => Vec::new(),
            [first, ..] if ratios.iter().all(|ratio| *ratio == ratios[0]) => {
                vec![value("bending stress", *first)]
            }
            several => several
                .iter()
                .map(|&part| value(&format!("bending stress in {}", self.problem().part_names[part]), part))
                .collect(),
        }
    }

    /// The parts that a level line meets, seen from one side.
    pub(crate) fn parts_at(&self, height: f64, side: HeightSide) -> Vec<usize> {
        self.section().chords(height, side).into_iter().map(|chord| chord.part).collect()
    }
}
