//! The solution of a beam, determinate or not, by one method.
//!
//! Nodes stand only at supports, hinges and the two ends. The unknowns are the bending moments at the nodes
//! and the deflections of those that no rigid support holds; the equations say that forces balance where the beam
//! may move up and down, and that neighbouring elements meet without a kink. That is the theorem of three
//! moments (Clapeyron) carried on to hinges, springs and moving nodes: between rigid supports it is those
//! very equations, and for a determinate beam the equations of balance alone settle the moments.
//!
//! Moments rather than rotations are the unknowns because supports 2 mm apart on a beam of 10 m then do no
//! harm: no stiffness `12 E I / l³` enters, whose ratios would eat eleven digits.

use super::layout::{Breakpoint, Layout};
use super::nodes::NodeValues;
use super::segment::Segment;
use super::sizes::{ROUNDING, Sizes};
use super::solution::{Jump, Reaction, Solution};
use super::{Beam, Fault, Hold, Support};

impl Beam {
    /// Solves the beam: reactions, and all curves along it.
    ///
    /// The cost grows with the number of loads, supports and hinges (and the sorting of their stations).
    ///
    /// # Errors
    /// All of [`Beam::faults`], or [`Fault::OutOfRange`] where the results are too large to be held.
    ///
    /// # Source
    /// Euler-Bernoulli theory of the straight prismatic beam, `E I v'''' = -w`: shear deformation is left out, see
    /// [`Beam::solve_with_shear`].
    ///
    /// ```
    /// use mechanics::beam::{Beam, Load, Side, Support};
    ///
    /// let beam = Beam {
    ///     length: 6.0,
    ///     flexural_rigidity: 16.8e6,
    ///     supports: vec![Support::pin(0.0), Support::pin(6.0)],
    ///     hinges: vec![],
    ///     loads: vec![Load::Force { station: 4.0, down: 18.0e3 }],
    /// };
    /// let solution = beam.solve().unwrap();
    /// assert_eq!(solution.reactions()[1].force, 12.0e3);                   // P a / l
    /// assert_eq!(solution.shear(4.0, Side::Left), 6.0e3);
    /// assert_eq!(solution.bending_moment(4.0, Side::Left), 24.0e3);        // P a b / l
    /// ```
    pub fn solve(&self) -> Result<Solution, Vec<Fault>> {
        self.solve_with_shear(0.0)
    }

    /// Solves the beam with what shear adds to its deflections: `f / (G A)`, 1/N, is the slope of the axis against the section under a unit of
    /// shear force, `f` the form factor of the section. Where balance alone does not settle the reactions, these follow suit.
    ///
    /// # Errors
    /// As [`Beam::solve`]; [`Fault::ShearFlexibility`] where it is less than nothing, or no number.
    ///
    /// # Source
    /// Timoshenko's beam, `deflection' = slope - V f / (G A)`, any textbook of structural mechanics.
    ///
    /// ```
    /// use mechanics::beam::{Beam, Load, Support};
    ///
    /// let beam = Beam {
    ///     length: 2.0,
    ///     flexural_rigidity: 4.0e5,
    ///     supports: vec![Support::fixed(0.0)],
    ///     hinges: vec![],
    ///     loads: vec![Load::Force { station: 2.0, down: 3.0e3 }],
    /// };
    /// let tip = beam.solve_with_shear(1.0e-7).unwrap().deflection(2.0);
    /// // F l³ / (3 E I) + F l f / (G A)
    /// assert!((tip + 3.0e3 * 8.0 / (3.0 * 4.0e5) + 3.0e3 * 2.0 * 1.0e-7).abs() < 1e-15);
    /// ```
    pub fn solve_with_shear(&self, shear_flexibility: f64) -> Result<Solution, Vec<Fault>> {
        let mut faults = self.faults();
        if !(shear_flexibility >= 0.0 && shear_flexibility.is_finite()) {
            faults.push(Fault::ShearFlexibility { shear_flexibility });
        }
        if !faults.is_empty() {
            return Err(faults);
        }
        let layout = Layout::of(self);
        let nodes = self.nodes(&layout, shear_flexibility);
        self.sweep(&layout, &nodes, shear_flexibility).ok_or_else(|| vec![Fault::OutOfRange])
    }

    pub(super) fn support(&self, index: Option<usize>) -> Option<&Support> {
        index.and_then(|index| self.supports.get(index))
    }

    /// Integrates from node to node, segment by segment. `None` if a number grows beyond all bounds.
    fn sweep(&self, layout: &Layout, nodes: &[NodeValues], shear_flexibility: f64) -> Option<Solution> {
        let breakpoints = &layout.breakpoints;
        let mut reactions: Vec<_> = (self.supports.iter().enumerate())
            .map(|(support, held)| Reaction { support, station: held.station, force: 0.0, couple: 0.0 })
            .collect();
        let mut segments: Vec<Segment> = Vec::with_capacity(breakpoints.len());
        let mut jumps = Vec::with_capacity(breakpoints.len());
        let mut sizes = Sizes::new(self.length, self.flexural_rigidity);
        let mut next_node = 0;
        let mut finite = true;
        let mut values = [0.0; 4];
        for (index, breakpoint) in breakpoints.iter().enumerate() {
            let Breakpoint { station, down, ccw, intensity, growth } = *breakpoint;
            let mut jump = Jump { station, force_up: -down, couple_ccw: ccw, kink: 0.0 };
            let [shear, bending_moment, slope, _] = values;
            match layout.nodes.get(next_node).filter(|node| node.breakpoint == index) {
                Some(node) => {
                    let at = &nodes[next_node];
                    let support = node.support.and_then(|support| self.supports.get(support));
                    if let Some((support, held)) = node.support.zip(support) {
                        let reaction = &mut reactions[support];
                        if held.transverse != Hold::Free {
                            reaction.force = at.shears[1] - at.shears[0] + down;
                            jump.force_up = at.shears[1] - at.shears[0];
                        }
                        if held.rotation != Hold::Free {
                            reaction.couple = at.moments[0] - at.moments[1] - ccw;
                            jump.couple_ccw = at.moments[0] - at.moments[1];
                        }
                        sizes.act(reaction.force, reaction.couple);
                    }
                    if node.hinge {
                        jump.kink = at.slope_right - slope;
                    }
                    sizes.act(down, ccw);
                    next_node += 1;
                    let next = layout.nodes.get(next_node).zip(nodes.get(next_node));
                    let next = next.map_or([0.0; 3], |(next, then)| {
                        let moment = at.moments[1].abs().max(then.moments[0].abs());
                        [breakpoints[next.breakpoint].station - station, at.shears[1], moment]
                    });
                    sizes.node(support, down.abs() + jump.force_up.abs(), next);
                    values = [at.shears[1], at.moments[1], at.slope_right, at.deflection];
                }
                None => {
                    sizes.act_on_element(down, ccw);
                    values[0] = shear - down;
                    values[1] = bending_moment - ccw;
                }
            }
            jumps.push(jump);
            let Some(next) = breakpoints.get(index + 1) else { break };
            let segment = Segment {
                from: station,
                to: next.station,
                intensity_at_start: intensity,
                intensity_growth: growth,
                shear_at_start: values[0],
                bending_moment_at_start: values[1],
                slope_at_start: values[2],
                deflection_at_start: values[3],
                flexural_rigidity: self.flexural_rigidity,
                shear_flexibility,
            };
            finite &= values.iter().all(|value| value.is_finite());
            values = sizes.segment(&segment);
            segments.push(segment);
        }
        let nothing = sizes.scales().map(|scale| ROUNDING * scale);
        let held = finite
            && nothing.iter().all(|size| size.is_finite())
            && reactions.iter().all(|reaction| reaction.force.is_finite() && reaction.couple.is_finite());
        for reaction in &mut reactions {
            reaction.force = zero_below(nothing[0], reaction.force);
            reaction.couple = zero_below(nothing[1], reaction.couple);
        }
        held.then_some(Solution { length: self.length, reactions, segments, jumps, nothing })
    }
}

fn zero_below(nothing: f64, value: f64) -> f64 {
    if value.abs() <= nothing { 0.0 } else { value }
}
