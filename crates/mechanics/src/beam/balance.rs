//! The checks that a solution makes of itself.

use super::element::GAUSS;
use super::segment::horner;
use super::sizes::ROUNDING;
use super::{Beam, Curve, Hold, Load, Segment, Side, Solution};

/// What must close.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Law {
    /// Sum of all vertical forces, N: loads against reactions.
    SumOfForces,
    /// Sum of all moments about the left end, N m: loads against reactions.
    SumOfMoments,
    /// `dV/dx = -w` on each segment, and the jump of V at each breakpoint, integrated: N.
    ShearFromLoad,
    /// `dM/dx = V` and the jumps of M, in the same way: N m.
    BendingMomentFromShear,
    /// `d(slope)/dx = M / (E I)` and no kink but at hinges, in the same way: rad.
    SlopeFromBendingMoment,
    /// `d(deflection)/dx = slope - V f / (G A)` and no step, in the same way: m.
    DeflectionFromSlope,
    /// V falls to nothing beyond the right end, N.
    ShearAtRightEnd,
    /// M falls to nothing beyond the right end, N m.
    BendingMomentAtRightEnd,
    /// M is zero at each hinge, N m.
    Hinges,
    /// Each rigid support moves up or down as it was told, m.
    SupportMovements,
    /// Each support that keeps from turning turns as it was told, rad.
    SupportRotations,
    /// Each spring's force is its stiffness times its movement, N.
    SpringForces,
    /// Each rotational spring's couple is its stiffness times its rotation, N m.
    SpringCouples,
}

/// One law, how far it is from closing, and the size of what was balanced.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Balance {
    /// Which law.
    pub law: Law,
    /// The largest error found, in the law's unit; not negative.
    pub residual: f64,
    /// The size of the terms that were balanced, in the same unit; not negative.
    pub scale: f64,
}

impl Balance {
    /// The residual may be this share of the scale.
    pub const BOUND: f64 = 1e-9;

    fn new(law: Law) -> Self {
        Self { law, residual: 0.0, scale: 0.0 }
    }

    /// Takes in one more equation of the same law: the worst one counts. A residual that is no number is the
    /// worst of all.
    fn meet(&mut self, residual: f64, scale: f64) {
        let (residual, scale) = (residual.abs(), scale.abs());
        let worse = residual * self.scale > self.residual * scale;
        if worse || residual.is_nan() || (self.residual == 0.0 && scale > self.scale) {
            (self.residual, self.scale) = (residual, scale);
        }
    }

    /// Residual as a share of the scale; 0 where there is nothing to balance.
    pub fn relative(&self) -> f64 {
        if self.residual == 0.0 { 0.0 } else { self.residual / self.scale }
    }

    /// Whether the residual stays within [`Self::BOUND`] of the scale.
    pub fn closes(&self) -> bool {
        self.residual <= Self::BOUND * self.scale
    }
}

impl Solution {
    /// Checks this solution against the laws that it must obey as that of `beam`: one balance for each [`Law`] that has
    /// anything to say of it.
    pub fn balances(&self, beam: &Beam) -> Vec<Balance> {
        let mut balances = Vec::with_capacity(13);
        balances.extend(self.sums(beam));
        let laws = [
            Law::ShearFromLoad,
            Law::BendingMomentFromShear,
            Law::SlopeFromBendingMoment,
            Law::DeflectionFromSlope,
        ];
        for (curve, law) in Curve::ALL.into_iter().zip(laws) {
            balances.push(self.integrated(curve, law));
        }
        balances.extend(self.right_end());
        balances.extend(self.hinges(beam));
        balances.extend(self.supports(beam));
        balances
    }

    /// The size of the terms that a curve was added up from.
    fn scale(&self, curve: Curve) -> f64 {
        self.nothing(curve) / ROUNDING
    }

    fn sums(&self, beam: &Beam) -> [Balance; 2] {
        let (mut force, mut moment) = ([0.0, 0.0], [0.0, 0.0]);
        let mut add = |up: f64, station: f64, ccw: f64| {
            force[0] += up;
            force[1] += up.abs();
            moment[0] += up * station + ccw;
            moment[1] += (up * station).abs() + ccw.abs();
        };
        for load in &beam.loads {
            match *load {
                Load::Force { station, down } => add(-down, station, 0.0),
                Load::Couple { ccw, .. } => add(0.0, 0.0, ccw),
                Load::Spread { from, to, down_from, down_to } => {
                    // The trapezium as two triangles, each with its resultant at a third.
                    let third = (to - from) / 3.0;
                    add(-down_from * (to - from) / 2.0, from + third, 0.0);
                    add(-down_to * (to - from) / 2.0, to - third, 0.0);
                }
            }
        }
        for reaction in &self.reactions {
            add(reaction.force, reaction.station, reaction.couple);
        }
        let (mut forces, mut moments) = (Balance::new(Law::SumOfForces), Balance::new(Law::SumOfMoments));
        let shear = self.scale(Curve::Shear);
        forces.meet(force[0], shear.max(force[1]));
        let bending_moment = self.scale(Curve::BendingMoment) + shear * self.length;
        moments.meet(moment[0], bending_moment.max(moment[1]));
        [forces, moments]
    }

    fn integrated(&self, curve: Curve, law: Law) -> Balance {
        let mut balance = Balance::new(law);
        let scale = self.scale(curve);
        for (index, segment) in self.segments.iter().enumerate() {
            let length = segment.length();
            let end = segment.value(curve, length);
            let derivative = |s: f64| match curve {
                Curve::Shear => -(segment.intensity_at_start + segment.intensity_growth * s),
                Curve::BendingMoment => segment.value(Curve::Shear, s),
                Curve::Slope => segment.value(Curve::BendingMoment, s) / segment.flexural_rigidity,
                Curve::Deflection => horner(&segment.axis_slope(), s),
            };
            let integral: f64 =
                GAUSS.iter().map(|&(at, weight)| weight * length * derivative(at * length)).sum();
            balance.meet(end - start(segment, curve) - integral, scale);
            if let Some(next) = self.segments.get(index + 1) {
                let jump = self.jumps[index + 1];
                let step = match curve {
                    Curve::Shear => jump.force_up,
                    Curve::BendingMoment => -jump.couple_ccw,
                    Curve::Slope => jump.kink,
                    Curve::Deflection => 0.0,
                };
                balance.meet(start(next, curve) - end - step, scale);
            }
        }
        balance
    }

    fn right_end(&self) -> [Balance; 2] {
        let mut shear = Balance::new(Law::ShearAtRightEnd);
        let mut bending_moment = Balance::new(Law::BendingMomentAtRightEnd);
        if let (Some(segment), Some(jump)) = (self.segments.last(), self.jumps.last()) {
            let end = |curve| segment.value(curve, segment.length());
            shear.meet(end(Curve::Shear) + jump.force_up, self.scale(Curve::Shear));
            let left = end(Curve::BendingMoment) - jump.couple_ccw;
            bending_moment.meet(left, self.scale(Curve::BendingMoment));
        }
        [shear, bending_moment]
    }

    /// A curve's raw value, rounding included.
    fn raw(&self, curve: Curve, station: f64, side: Side) -> f64 {
        self.place(station, side).map_or(f64::NAN, |(segment, s)| segment.value(curve, s))
    }

    fn hinges(&self, beam: &Beam) -> Option<Balance> {
        let mut balance = Balance::new(Law::Hinges);
        for &hinge in &beam.hinges {
            for side in [Side::Left, Side::Right] {
                let moment = self.raw(Curve::BendingMoment, hinge, side);
                balance.meet(moment, self.scale(Curve::BendingMoment));
            }
        }
        (!beam.hinges.is_empty()).then_some(balance)
    }

    fn supports(&self, beam: &Beam) -> impl Iterator<Item = Balance> {
        let mut movements = Balance::new(Law::SupportMovements);
        let mut rotations = Balance::new(Law::SupportRotations);
        let mut forces = Balance::new(Law::SpringForces);
        let mut couples = Balance::new(Law::SpringCouples);
        let mut asked = [false; 4];
        for (support, reaction) in beam.supports.iter().zip(&self.reactions) {
            for side in [Side::Left, Side::Right] {
                let moved = self.raw(Curve::Deflection, support.station, side);
                let scale = self.scale(Curve::Deflection);
                match support.transverse {
                    Hold::Free => {}
                    Hold::Rigid { moved: told } => {
                        asked[0] = true;
                        movements.meet(moved - told, scale + told.abs());
                    }
                    Hold::Spring { stiffness } => {
                        asked[2] = true;
                        let scale = self.scale(Curve::Shear) + stiffness * scale;
                        forces.meet(reaction.force + stiffness * moved, scale);
                    }
                }
                let turned = self.raw(Curve::Slope, support.station, side);
                let scale = self.scale(Curve::Slope);
                match support.rotation {
                    Hold::Free => {}
                    Hold::Rigid { moved: told } => {
                        asked[1] = true;
                        rotations.meet(turned - told, scale + told.abs());
                    }
                    Hold::Spring { stiffness } => {
                        asked[3] = true;
                        let scale = self.scale(Curve::BendingMoment) + stiffness * scale;
                        couples.meet(reaction.couple + stiffness * turned, scale);
                    }
                }
            }
        }
        let balances = [movements, rotations, forces, couples];
        balances.into_iter().zip(asked).filter_map(|(balance, asked)| asked.then_some(balance))
    }
}

/// A curve's value at the left end of a segment.
fn start(segment: &Segment, curve: Curve) -> f64 {
    match curve {
        Curve::Shear => segment.shear_at_start,
        Curve::BendingMoment => segment.bending_moment_at_start,
        Curve::Slope => segment.slope_at_start,
        Curve::Deflection => segment.deflection_at_start,
    }
}
