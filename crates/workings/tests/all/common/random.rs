//! Random lessons: beams of every kind under crowded loads, sections of every kind.

use super::Maker;
use mechanics::beam::{Hold, Load, Support};
use mechanics::section::shapes::{self, Shape};
use mechanics::section::{HeightSide, Point};
use proptest::prelude::*;
use workings::problem::SupportKind;

fn size() -> impl Strategy<Value = f64> {
    // Whole millimetres, so that edges meet often.
    (2_u32..40).prop_map(|n| f64::from(n) * 5e-3)
}

pub fn shape() -> impl Strategy<Value = Shape> {
    let sizes = (size(), size(), size(), size(), size(), size());
    (0_u8..13, sizes, any::<bool>()).prop_filter_map(
        "the shape is sound",
        |(kind, (a, b, c, d, e, f), up)| {
            match kind {
                0 => shapes::rectangle(a, b),
                1 => shapes::tee(a + b, a + c, d, b, up),
                2 => shapes::i_section(a + d + f, (b + c, d), (b + e, f), b),
                3 => shapes::channel(a + b, c + 2.0 * d, d, b),
                4 => shapes::angle(a + b, c + d, b, d),
                5 => shapes::rectangular_tube(a + 2.0 * b, c + 2.0 * b, b),
                6 => shapes::circle(a),
                7 => shapes::round_tube(a + 2.0 * b, b),
                8 => shapes::half_circle(a, up),
                9 => shapes::triangle(a, b, c, up),
                10 => shapes::trapezoid(a, b, c, d),
                11 => shapes::rolled_i(a + b + 0.04, c + 2.0 * d + 0.04, a, d, 0.01),
                _ => shapes::polygon(&[
                    Point::new(0.0, 0.0),
                    Point::new(a, 0.0),
                    Point::new(a, b),
                    Point::new(a + c, b),
                    Point::new(a + c, b + d),
                    Point::new(0.0, b + d),
                ]),
            }
            .ok()
            .filter(|shape| mechanics::section::Section::new(shape.parts.clone()).is_ok())
        },
    )
}

/// Of a beam 10 m long: how it stands.
#[derive(Clone, Debug)]
pub struct Stand {
    supports: Vec<(SupportKind, Support)>,
    hinges: Vec<f64>,
}

pub fn stand() -> impl Strategy<Value = Stand> {
    let at = |n: u32| f64::from(n) * 0.25;
    (0_u8..11, 1_u32..16, 20_u32..40, 1_u32..20).prop_map(move |(kind, a, b, c)| {
        let (a, b, c) = (at(a), at(b), f64::from(c) * 1e-4);
        let pin = |x: f64| (SupportKind::Pin, Support::pin(x));
        let fixed = |x: f64| (SupportKind::Fixed, Support::fixed(x));
        let settled = |x: f64| {
            let hold = Hold::Rigid { moved: -c };
            (SupportKind::Roller, Support { station: x, transverse: hold, rotation: Hold::Free })
        };
        let (supports, hinges) = match kind {
            0 => (vec![pin(0.0), pin(10.0)], vec![]),
            1 => (vec![pin(a), pin(b)], vec![]),
            2 => (vec![fixed(0.0)], vec![]),
            3 => (vec![fixed(10.0)], vec![]),
            4 => (vec![fixed(0.0), pin(b)], vec![]),
            5 => (vec![pin(0.0), pin(b), pin(10.0)], vec![]),
            6 => (vec![pin(0.0), settled(a), pin(b), pin(10.0)], vec![]),
            7 => (vec![pin(0.0), pin(a), settled(5.0), pin(b), pin(10.0)], vec![]),
            8 => (vec![fixed(0.0), pin(b)], vec![a]),
            9 => (vec![pin(0.0), pin(a), pin(b)], vec![a + 0.125]),
            _ => {
                let spring = Support::spring(b, 1e6 / c);
                (vec![pin(0.0), (SupportKind::Spring, spring), fixed(10.0)], vec![])
            }
        };
        Stand { supports, hinges }
    })
}

fn load() -> impl Strategy<Value = Load> {
    let at = |n: u32| f64::from(n) * 0.5;
    (0_u8..5, 0_u32..20, 1_u32..10, -20_i32..40, -20_i32..40).prop_map(move |(kind, from, long, one, two)| {
        let (start, end) = (at(from), at((from + long).min(20)));
        let (one, two) = (f64::from(one) * 500.0, f64::from(two) * 500.0);
        match kind {
            0 | 1 => Load::Force { station: start, down: one },
            // Couples stand off the hinges, which are at eighths or quarters.
            2 => Load::Couple { station: start + 0.03, ccw: one },
            3 => Load::Spread { from: start, to: end, down_from: one, down_to: one },
            _ => Load::Spread { from: start, to: end, down_from: one, down_to: two },
        }
    })
}

/// A lesson on a beam of 10 m.
pub fn lesson() -> impl Strategy<Value = Maker> {
    let loads = prop::collection::vec(load(), 1..7);
    let places = (0_u32..39, 1_u32..20, 0.02_f64..0.98, any::<bool>(), any::<bool>());
    let made = (shape(), stand(), loads, places).prop_map(
        |(shape, stand, loads, (at, long, share, above, beyond))| {
            let parts = shape.part_names.iter().copied().zip(shape.parts.clone()).collect();
            let mut maker = Maker::new(10.0, parts);
            for (name, (kind, support)) in ["A", "B", "C", "D", "E"].into_iter().zip(stand.supports) {
                maker = maker.support(name, kind, support);
            }
            for hinge in stand.hinges {
                maker = maker.hinge(hinge);
            }
            for (place, load) in loads.into_iter().enumerate() {
                maker = maker.load(&(place + 1).to_string(), load);
            }
            let section = mechanics::section::Section::new(shape.parts).expect("the shape is sound");
            let properties = *section.properties();
            let side = |above| if above { HeightSide::Above } else { HeightSide::Below };
            let height = properties.bottom + share * properties.height();
            // Every third cut lies on a level of the section.
            let levels: Vec<f64> = section.levels().collect();
            let height = if at % 3 == 0 && levels.len() > 2 { levels[levels.len() / 2] } else { height };
            maker.slice(f64::from(at) * 0.25, f64::from(long) * 0.0125).cut(height, side(above), side(beyond))
        },
    );
    made.prop_filter("the beam is sound", |maker: &Maker| maker.problem.beam.faults().is_empty())
}

impl std::fmt::Debug for Maker {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            f,
            "{:?} {:?} {:?} {:?}",
            self.problem.beam, self.problem.slice, self.problem.cut, self.problem.parts
        )
    }
}
