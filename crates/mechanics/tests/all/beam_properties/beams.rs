//! Beams drawn at random, awkward ones on purpose.

use mechanics::beam::{Beam, Curve, Fault, Hold, Load, Side, Solution, Support};
use proptest::prelude::*;

/// Stations as shares of the length. Most lie on a coarse grid, so that loads, supports, hinges and ends fall on
/// each other again and again; some lie a little beside it, some anywhere.
fn share() -> impl Strategy<Value = f64> {
    let grid = || (0..=16_u8).prop_map(|k| f64::from(k) / 16.0);
    // Not nearer, or the rounding of the stations alone would show when they are written in other units.
    let beside = prop_oneof![-2e-4..-1e-5, 1e-5..2e-4_f64];
    prop_oneof![
        6 => grid(),
        1 => (grid(), beside).prop_map(|(at, by)| f64::clamp(at + by, 0.0, 1.0)),
        2 => 0.0..=1.0,
    ]
}

fn size() -> impl Strategy<Value = f64> {
    prop_oneof![1 => Just(0.0), 4 => (-8..=8_i8).prop_map(f64::from), 4 => -10.0..10.0]
}

fn hold() -> impl Strategy<Value = Hold> {
    prop_oneof![
        6 => Just(Hold::STILL),
        1 => (-1.0..1.0).prop_map(|moved| Hold::Rigid { moved: moved * 1e-2 }),
        1 => (-2.0..3.0).prop_map(|power| Hold::Spring { stiffness: mechanics::real::pow(10.0, power) }),
    ]
}

fn support() -> impl Strategy<Value = Support> {
    let free = || Just(Hold::Free);
    let holds = prop_oneof![
        6 => (hold(), free()),
        2 => (hold(), hold()),
        1 => (free(), hold()),
    ];
    (share(), holds).prop_map(|(station, (transverse, rotation))| Support { station, transverse, rotation })
}

pub fn load() -> impl Strategy<Value = Load> {
    let stretch = prop_oneof![
        6 => (share(), share()),
        1 => share().prop_map(|from| (from, from + 3e-4)),
    ];
    prop_oneof![
        3 => (share(), size()).prop_map(|(station, down)| Load::Force { station, down }),
        2 => (share(), size()).prop_map(|(station, ccw)| Load::Couple { station, ccw }),
        3 => (stretch, size(), size()).prop_map(|((a, b), down_from, down_to)| {
            Load::Spread { from: a.min(b), to: a.max(b).min(1.0), down_from, down_to }
        }),
    ]
}

/// A beam of length 1 and rigidity 1 that may be anything: sound, faulty, a mechanism.
pub fn any_beam() -> impl Strategy<Value = Beam> {
    let supports = prop::collection::vec(support(), 1..7);
    let hinges = prop_oneof![
        3 => Just(Vec::new()),
        2 => prop::collection::vec(share(), 1..5),
    ];
    (supports, hinges, prop::collection::vec(load(), 0..9)).prop_map(|(supports, hinges, loads)| Beam {
        length: 1.0,
        flexural_rigidity: 1.0,
        supports,
        hinges,
        loads,
    })
}

/// The same without what is plainly wrong: things at one place, loads of no length, couples at hinges.
pub fn mended_beam() -> impl Strategy<Value = Beam> {
    any_beam().prop_map(|mut beam| {
        let near = |a: f64, b: f64| (a - b).abs() < 1e-9;
        let mut taken: Vec<f64> = Vec::new();
        beam.supports.retain(|support| {
            let free = !taken.iter().any(|&other| near(other, support.station));
            taken.push(support.station);
            free
        });
        let mut taken = vec![0.0, 1.0];
        beam.hinges.retain(|&hinge| {
            let free = !taken.iter().any(|&other| near(other, hinge));
            taken.push(hinge);
            free
        });
        let hinges = beam.hinges.clone();
        let at_hinge = |station: f64| hinges.iter().any(|&hinge| near(hinge, station));
        for support in &mut beam.supports {
            if at_hinge(support.station) {
                support.rotation = Hold::Free;
            }
        }
        beam.loads.retain(|load| match *load {
            Load::Couple { station, .. } => !at_hinge(station),
            Load::Spread { from, to, .. } => from < to,
            Load::Force { .. } => true,
        });
        beam
    })
}

/// A beam that can be solved, stretched to a length between millimetres and kilometres and to other forces.
pub fn sound_beam() -> impl Strategy<Value = Beam> {
    let scale = || (-3.0..3.0).prop_map(|power| mechanics::real::pow(10.0, power));
    (mended_beam(), scale(), scale()).prop_filter_map("a mechanism", |(beam, length, force)| {
        let motion = beam.faults().iter().any(|fault| matches!(fault, Fault::Mechanism(_)));
        (!motion).then(|| in_units(&beam, length, force))
    })
}

/// The same beam with its lengths and its forces written in other units.
pub fn in_units(beam: &Beam, length: f64, force: f64) -> Beam {
    let hold = |hold: Hold, of_movement: f64, of_action: f64| match hold {
        Hold::Free => Hold::Free,
        Hold::Rigid { moved } => Hold::Rigid { moved: moved * of_movement },
        Hold::Spring { stiffness } => Hold::Spring { stiffness: stiffness * of_action / of_movement },
    };
    let support = |support: &Support| Support {
        station: support.station * length,
        transverse: hold(support.transverse, length, force),
        rotation: hold(support.rotation, 1.0, force * length),
    };
    let load = |load: &Load| match *load {
        Load::Force { station, down } => Load::Force { station: station * length, down: down * force },
        Load::Couple { station, ccw } => {
            Load::Couple { station: station * length, ccw: ccw * force * length }
        }
        Load::Spread { from, to, down_from, down_to } => Load::Spread {
            from: from * length,
            to: to * length,
            down_from: down_from * force / length,
            down_to: down_to * force / length,
        },
    };
    Beam {
        length: beam.length * length,
        flexural_rigidity: beam.flexural_rigidity * force * length * length,
        supports: beam.supports.iter().map(support).collect(),
        hinges: beam.hinges.iter().map(|hinge| hinge * length).collect(),
        loads: beam.loads.iter().map(load).collect(),
    }
}

/// The beam seen from behind.
pub fn mirrored(beam: &Beam) -> Beam {
    let length = beam.length;
    let turned = |hold: Hold| match hold {
        Hold::Rigid { moved } => Hold::Rigid { moved: -moved },
        other => other,
    };
    let support = |support: &Support| Support {
        station: length - support.station,
        transverse: support.transverse,
        rotation: turned(support.rotation),
    };
    let load = |load: &Load| match *load {
        Load::Force { station, down } => Load::Force { station: length - station, down },
        Load::Couple { station, ccw } => Load::Couple { station: length - station, ccw: -ccw },
        Load::Spread { from, to, down_from, down_to } => {
            Load::Spread { from: length - to, to: length - from, down_from: down_to, down_to: down_from }
        }
    };
    Beam {
        supports: beam.supports.iter().map(support).collect(),
        hinges: beam.hinges.iter().map(|hinge| length - hinge).collect(),
        loads: beam.loads.iter().map(load).collect(),
        ..beam.clone()
    }
}

pub fn solved(beam: &Beam) -> Solution {
    beam.solve().unwrap_or_else(|faults| panic!("{faults:?}"))
}

/// The size of what a curve was added up from.
pub fn scale(solution: &Solution, curve: Curve) -> f64 {
    1e13 * solution.nothing(curve)
}

pub const SIDES: [Side; 2] = [Side::Left, Side::Right];

/// Every breakpoint, every middle between two, and some stations besides, each from both sides.
pub fn stations(solution: &Solution) -> Vec<(f64, Side)> {
    let mut stations: Vec<f64> = solution.stations().collect();
    for segment in solution.segments() {
        stations.extend([0.1, 0.5, 0.83].map(|share| segment.from + share * segment.length()));
    }
    stations.into_iter().flat_map(|station| SIDES.map(|side| (station, side))).collect()
}

/// Whether two numbers agree to 1e-9 of a scale.
pub fn agree(a: f64, b: f64, scale: f64) -> bool {
    (a - b).abs() <= 1e-9 * scale
}
