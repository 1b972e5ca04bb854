//! What happens at the nodes: the equations and their solution.

use super::banded::{Equations, Term};
use super::element::{Element, Measure};
use super::layout::{Breakpoint, Layout};
use super::{Beam, Hold};

impl Beam {
    /// Solves for what happens at the nodes.
    pub(super) fn nodes(&self, layout: &Layout, shear_flexibility: f64) -> Vec<NodeValues> {
        let (length, rigidity) = (self.length, self.flexural_rigidity);
        let measure = Measure { length, rigidity, shear: shear_flexibility * rigidity / length / length };
        let elements: Vec<_> = layout
            .nodes
            .windows(2)
            .map(|pair| Element::of(&layout.breakpoints[pair[0].breakpoint..=pair[1].breakpoint]))
            .collect();
        let mut unknowns = 0;
        let mut unknown = || {
            unknowns += 1;
            Term { column: Some(unknowns - 1), constant: 0.0 }
        };
        let last = layout.nodes.len() - 1;
        let mut states = Vec::with_capacity(layout.nodes.len());
        for (index, node) in layout.nodes.iter().enumerate() {
            let Breakpoint { down, ccw, .. } = layout.breakpoints[node.breakpoint];
            let support = self.support(node.support);
            let transverse = support.map_or(Hold::Free, |support| support.transverse);
            let rotation = support.map_or(Hold::Free, |support| support.rotation);
            let deflection = match transverse {
                Hold::Rigid { moved } => Term::from(measure.scaled_deflection(moved)),
                Hold::Free | Hold::Spring { .. } => unknown(),
            };
            let nothing = Term::from(0.0);
            // Left and right of the node; outside the beam there is no moment.
            let moments = match (rotation, index == 0, index == last) {
                _ if node.hinge => [nothing, nothing],
                (Hold::Free, true, _) => [nothing, Term::from(-ccw)],
                (Hold::Free, _, true) => [Term::from(ccw), nothing],
                (Hold::Free, ..) => {
                    let left = unknown();
                    [left, Term { constant: -ccw, ..left }]
                }
                (_, true, _) => [nothing, unknown()],
                (_, _, true) => [unknown(), nothing],
                _ => [unknown(), unknown()],
            };
            states.push(State { transverse, rotation, hinge: node.hinge, down, ccw, deflection, moments });
        }
        let mut equations = Equations::with_unknowns(unknowns);
        for index in 0..states.len() {
            let left = index.checked_sub(1).map(|left| (&elements[left], &states[left]));
            let right = elements.get(index).map(|element| (element, &states[index + 1]));
            states[index].equations(measure, left, right, &mut equations);
        }
        let solved = equations.solve();
        let value = |term: Term| term.constant + term.column.map_or(0.0, |column| solved[column]);
        (0..states.len())
            .map(|index| {
                let state = &states[index];
                let deflection = value(state.deflection);
                let moments = state.moments.map(value);
                let mut values = NodeValues {
                    deflection: match state.transverse {
                        Hold::Rigid { moved } => moved,
                        _ => measure.deflection(deflection),
                    },
                    moments,
                    ..NodeValues::default()
                };
                if let Some(left) = index.checked_sub(1) {
                    let element = &elements[left];
                    let gain = moments[0] - value(states[left].moments[1]);
                    values.shears[0] = gain / element.length + element.shears[1];
                }
                if let Some(element) = elements.get(index) {
                    let next = &states[index + 1];
                    let moment = value(next.moments[0]);
                    values.shears[1] = (moment - moments[1]) / element.length + element.shears[0];
                    let deflections = [deflection, value(next.deflection)];
                    let rotation = element.rotation_at_left(measure, deflections, [moments[1], moment]);
                    values.slope_right = match state.rotation {
                        Hold::Rigid { moved } => moved,
                        _ => measure.rotation(rotation),
                    };
                }
                values
            })
            .collect()
    }
}

/// What the solved equations say of a node: left and right of it where there are two.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct NodeValues {
    pub(super) deflection: f64,
    pub(super) slope_right: f64,
    pub(super) shears: [f64; 2],
    pub(super) moments: [f64; 2],
}

/// A node and its unknowns.
pub(super) struct State {
    transverse: Hold,
    rotation: Hold,
    hinge: bool,
    down: f64,
    ccw: f64,
    /// Scaled.
    pub(super) deflection: Term,
    /// Bending moments left and right of it.
    pub(super) moments: [Term; 2],
}

type Neighbour<'a> = Option<(&'a Element, &'a State)>;

impl State {
    /// Writes as many equations as the node has unknowns.
    fn equations(&self, measure: Measure, left: Neighbour, right: Neighbour, equations: &mut Equations) {
        let Measure { length, rigidity, .. } = measure;
        // Forces at a node that may move: V_right - V_left + P + k v = 0, times L.
        let stiffness = match self.transverse {
            Hold::Rigid { .. } => None,
            Hold::Free => Some(0.0),
            Hold::Spring { stiffness } => Some(stiffness * length / rigidity * length * length),
        };
        if let Some(stiffness) = stiffness {
            equations.add_constant(self.down * length);
            if stiffness != 0.0 {
                equations.add(stiffness, self.deflection);
            }
            if let Some((element, other)) = left {
                let share = length / element.length;
                equations.add(-share, self.moments[0]);
                equations.add(share, other.moments[1]);
                equations.add_constant(-element.shears[1] * length);
            }
            if let Some((element, other)) = right {
                let share = length / element.length;
                equations.add(share, other.moments[0]);
                equations.add(-share, self.moments[1]);
                equations.add_constant(element.shears[0] * length);
            }
            equations.end_row();
        }
        if self.hinge {
            return;
        }
        let add_left = |(element, other): (&Element, &State), equations: &mut Equations| {
            element.add_rotation_at_right(measure, equations, [other, self]);
        };
        let add_right = |(element, other): (&Element, &State), sign, equations: &mut Equations| {
            element.add_rotation_at_left(measure, equations, sign, [self, other]);
        };
        // No kink.
        if let (Hold::Free | Hold::Spring { .. }, Some(left), Some(right)) = (self.rotation, left, right) {
            add_left(left, equations);
            add_right(right, -1.0, equations);
            equations.end_row();
        }
        match self.rotation {
            Hold::Free => {}
            Hold::Rigid { moved } => {
                // Both neighbours turn as the support does.
                let turned = measure.scaled_rotation(moved);
                if let Some(left) = left {
                    add_left(left, equations);
                    equations.add_constant(-turned);
                    equations.end_row();
                }
                if let Some(right) = right {
                    add_right(right, 1.0, equations);
                    equations.add_constant(-turned);
                    equations.end_row();
                }
            }
            Hold::Spring { stiffness } => {
                // k theta = M_right - M_left + C
                let flexibility = rigidity / length / stiffness;
                match (left, right) {
                    (_, Some(right)) => add_right(right, 1.0, equations),
                    (Some(left), None) => add_left(left, equations),
                    (None, None) => {}
                }
                equations.add(-flexibility, self.moments[1]);
                equations.add(flexibility, self.moments[0]);
                equations.add_constant(-flexibility * self.ccw);
                equations.end_row();
            }
        }
    }
}
