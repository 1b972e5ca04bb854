//! Sections on which the drawings are tried.

use crate::outline;
use crate::scene::{Scene, Values};
use mechanics::beam::{Beam, Support};
use mechanics::section::{Edge, Figure, HeightSide, Loop, Part, Point, Section};
use mechanics::slice::{Slice, SliceGivens};
use workings::problem::{CutPlace, Joint, JointKind, Problem, SlicePlace};
use workings::style::Style;

pub fn p(x: f64, y: f64) -> Point {
    Point { x: x * 1e-3, y: y * 1e-3 }
}
pub fn poly(points: &[(f64, f64)]) -> Loop {
    Loop {
        start: p(points[0].0, points[0].1),
        path: points[1..].iter().map(|q| Edge::Line { to: p(q.0, q.1) }).collect(),
    }
}
pub fn circle(x: f64, y: f64, r: f64) -> Loop {
    let arc = |to| Edge::Arc { to, centre: p(x, y), counter_clockwise: true };
    Loop { start: p(x + r, y), path: vec![arc(p(x - r, y)), arc(p(x + r, y))] }
}
pub fn part(outline: Loop, holes: Vec<Loop>) -> Part {
    Part { outline, holes, modular_ratio: 1.0, figure: Figure::Outline }
}
pub fn rect(x: f64, y: f64, b: f64, h: f64) -> Part {
    part(poly(&[(x, y), (x + b, y), (x + b, y + h), (x, y + h)]), vec![])
}
pub fn rolled() -> Part {
    // 100 x 200, t_w 5.6, t_f 8.5, r 12
    let (b, h, w, f, r) = (100.0, 200.0, 5.6, 8.5, 12.0);
    let (l, rr) = ((b - w) / 2.0, (b + w) / 2.0);
    let line = |x, y| Edge::Line { to: p(x, y) };
    let arc = |x, y, cx, cy| Edge::Arc { to: p(x, y), centre: p(cx, cy), counter_clockwise: false };
    part(
        Loop {
            start: p(0.0, 0.0),
            path: vec![
                line(b, 0.0),
                line(b, f),
                line(rr + r, f),
                arc(rr, f + r, rr + r, f + r),
                line(rr, h - f - r),
                arc(rr + r, h - f, rr + r, h - f - r),
                line(b, h - f),
                line(b, h),
                line(0.0, h),
                line(0.0, h - f),
                line(l - r, h - f),
                arc(l, h - f - r, l - r, h - f - r),
                line(l, f + r),
                arc(l - r, f, l - r, f + r),
                line(0.0, f),
            ],
        },
        vec![],
    )
}
pub fn cases() -> Vec<(&'static str, Vec<Part>, f64, HeightSide)> {
    use HeightSide::{Above, Below};
    let t = part(
        poly(&[
            (30.0, 0.0),
            (50.0, 0.0),
            (50.0, 80.0),
            (80.0, 80.0),
            (80.0, 120.0),
            (0.0, 120.0),
            (0.0, 80.0),
            (30.0, 80.0),
        ]),
        vec![],
    );
    let channel = part(
        poly(&[(0., 0.), (80., 0.), (80., 12.), (8., 12.), (8., 188.), (80., 188.), (80., 200.), (0., 200.)]),
        vec![],
    );
    let channel_left = part(
        poly(&[(80., 0.), (80., 200.), (0., 200.), (0., 188.), (72., 188.), (72., 12.), (0., 12.), (0., 0.)]),
        vec![],
    );
    let angle = part(poly(&[(0., 0.), (75., 0.), (75., 10.), (10., 10.), (10., 100.), (0., 100.)]), vec![]);
    let holes = part(
        poly(&[(0., 0.), (120., 0.), (140., 90.), (70., 160.), (0., 110.)]),
        vec![circle(40., 50., 18.), poly(&[(75., 40.), (110., 40.), (105., 80.), (85., 85.)])],
    );
    let boxed = vec![
        rect(-100., 0., 200., 50.),
        rect(-100., 50., 25., 200.),
        rect(75., 50., 25., 200.),
        rect(-100., 250., 200., 50.),
    ];
    let i_unequal = part(
        poly(&[
            (30., 0.),
            (90., 0.),
            (90., 15.),
            (65., 15.),
            (65., 180.),
            (120., 180.),
            (120., 200.),
            (0., 200.),
            (0., 180.),
            (55., 180.),
            (55., 15.),
            (30., 15.),
        ]),
        vec![],
    );
    let half = part(
        Loop {
            start: p(100., 0.),
            path: vec![Edge::Arc { to: p(0., 0.), centre: p(50., 0.), counter_clockwise: true }],
        },
        vec![],
    );
    vec![
        ("t-above", vec![t.clone()], 80.0, Above),
        ("t-low", vec![t.clone()], 30.0, Below),
        ("t-na", vec![t], 80.0, Below),
        ("channel", vec![channel], 150.0, Above),
        ("channel-left", vec![channel_left], 100.0, Above),
        ("angle", vec![angle], 40.0, Above),
        ("holes", vec![holes.clone()], 60.0, Above),
        ("holes-below", vec![holes], 60.0, Below),
        ("box", boxed.clone(), 250.0, Above),
        ("box-below", boxed, 50.0, Below),
        ("i-unequal", vec![i_unequal], 100.0, Above),
        ("circle", vec![part(circle(50., 50., 50.), vec![])], 60.0, Above),
        ("tube", vec![part(circle(50., 50., 50.), vec![circle(50., 50., 38.)])], 50.0, Above),
        ("half", vec![half], 20.0, Above),
        ("triangle", vec![part(poly(&[(0., 0.), (120., 0.), (60., 150.)]), vec![])], 50.0, Above),
        ("rolled", vec![rolled()], 191.5, Above),
        (
            "planks",
            vec![rect(0., 0., 150., 50.), rect(0., 50., 150., 50.), rect(0., 100., 150., 50.)],
            100.0,
            Above,
        ),
        ("wide", vec![rect(0., 0., 400., 60.)], 40.0, Above),
        ("tall", vec![rect(0., 0., 20., 300.)], 290.0, Above),
    ]
}

/// A problem with this section and this cut, all else plain.
pub fn problem(parts: Vec<Part>, cut: f64, beyond: HeightSide) -> Problem {
    let joint = |name: &str, kind, k: usize| Joint {
        name: name.into(),
        kind,
        beyond: vec![k],
        rows: 2,
        spacing: Some(0.05),
        fastener_capacity: None,
    };
    let joints = match parts.len() {
        4 => vec![joint("glue line 1", JointKind::Glue, 3), joint("nails 1", JointKind::Fasteners, 0)],
        3 => vec![joint("glue line 1", JointKind::Glue, 2), joint("glue line 2", JointKind::Glue, 0)],
        _ => Vec::new(),
    };
    let part_names = (1..=parts.len()).map(|k| format!("part {k}")).collect();
    Problem {
        title: String::new(),
        beam: Beam {
            length: 4.0,
            flexural_rigidity: 1e6,
            supports: vec![Support::pin(0.0), Support::pin(4.0)],
            hinges: Vec::new(),
            loads: Vec::new(),
        },
        elastic_modulus: 11e9,
        density: None,
        supports: Vec::new(),
        loads: Vec::new(),
        parts,
        part_names,
        section_name: "section".into(),
        joints,
        slice: SlicePlace { at: 1.0, length: 0.05 },
        cut: CutPlace { height: cut * 1e-3, side: outline::opposite(beyond), beyond, joint: None },
    }
}

/// The values of that problem's slice under a shear force of 7 kN and a moment of 8 kN m.
pub fn values(problem: &Problem, section: &Section) -> Values {
    let (moment, shear, length) = (8.0e3, 7.0e3, problem.slice.length);
    let givens = SliceGivens::from_moments(moment, moment + shear * length, length);
    let open = Slice::new(section, givens, problem.cut.height, problem.cut.beyond).unwrap();
    let p = section.properties();
    Values {
        station: problem.slice.at,
        length,
        shear: [givens.shear_left, givens.shear_right],
        moment: [givens.moment_left, givens.moment_right],
        neutral_axis: p.centroid.y,
        centroid_across: p.centroid.x,
        area_beyond: open.cut.area,
        centroid_beyond: (open.cut.area > 0.0).then_some(open.cut.centroid),
        width: open.cut.width(problem.cut.side),
        resultant: [open.left.beyond.force, open.right.beyond.force],
        resultant_height: [open.left.beyond.height, open.right.beyond.height],
        force_on_cut: open.force_on_cut,
        stress_on_cut: open.formula_shear_stress_left(problem.cut.side),
        load: givens.load,
    }
}

#[test]
fn draw_all() {
    let Ok(folder) = std::env::var("DRAW_INTO") else { return };
    for (name, parts, cut, side) in cases() {
        let section = Section::new(parts.clone()).unwrap_or_else(|f| panic!("{name} {f:?}"));
        let problem = problem(parts, cut, side);
        let values = values(&problem, &section);
        let style = Style::default();
        let scene = Scene::new(&problem, &section, values, &style);
        for drawing in crate::scene_drawings(&scene) {
            std::fs::write(format!("{folder}/{name}-{}.svg", drawing.name), drawing.svg()).unwrap();
            for (a, b) in drawing.overlaps() {
                println!("OVERLAP {name} {}: {} / {}", drawing.name, a.text, b.text);
            }
        }
    }
}
