//! Loose planks against glued planks under one load: why there is longitudinal shear at all.

use crate::arrow;
use crate::cut_words::at_most;
use crate::drawing::{Description, Drawing, Mark, Step, bounds};
use crate::geometry::{Point, Rect};
use crate::label::{Escape, Placer, Seat, Wish};
use crate::legend::{Sample, legend};
use crate::palette::{Ink, MEDIUM, Stroke, THIN};
use crate::scene::Scene;
use crate::text::{Align, Label};
use mechanics::real;
use mechanics::section::Figure;
use workings::dimension::Dimension;
use workings::material::Behaviour;
use workings::role::Role;

/// Span on the sheet, px.
const SPAN: f64 = 240.0;
/// Depth of the pile on the sheet, px.
const PILE: f64 = 66.0;
/// Deflection of the loose pile at midspan, px: large, so that the slip is seen; that of the glued pile is smaller
/// in the true ratio.
const SAG: f64 = 46.0;
/// Points along a plank.
const POINTS: usize = 40;

/// A pile of planks: their depths from the bottom up, and how the glued pile compares with the loose one.
struct Pile {
    /// Depth of each plank over that of the pile.
    shares: Vec<f64>,
    /// The same of the planks as they lie loose: what stands on edge in the pile is laid flat.
    loose: Vec<f64>,
    /// How many times as stiff it is when glued.
    stiffness: f64,
    /// How many times as strong in bending it is when glued; known for equal planks.
    strength: Option<f64>,
    /// Whether it is the lesson's own section.
    own: bool,
}

/// The lesson's own planks, if its section is a pile of level planks, or of planks of wood of which some stand on edge; else three equal
/// ones.
fn pile(scene: &Scene) -> Pile {
    let section = scene.section;
    let thirds = vec![1.0 / 3.0; 3];
    let standard =
        Pile { shares: thirds.clone(), loose: thirds, stiffness: 9.0, strength: Some(3.0), own: false };
    let properties = section.properties();
    let mut planks = Vec::new();
    for (k, part) in section.parts().iter().enumerate() {
        let (Figure::Rectangle { breadth, height }, Some(p)) = (part.figure, section.part_properties(k))
        else {
            return standard;
        };
        let bottom = p.centroid.y - 0.5 * height;
        planks.push((bottom, height, breadth, part.modular_ratio, p.second_moment));
    }
    planks.sort_by(|a, b| a.0.total_cmp(&b.0));
    let hair = 1e-6 * properties.height();
    let stacked = planks.windows(2).all(|pair| (pair[0].0 + pair[0].1 - pair[1].0).abs() <= hair);
    // A plank lies flat. An upright web is none, but of wood it is a plank on edge.
    let flat = planks.iter().all(|plank| plank.2 >= plank.1);
    let is_wood =
        scene.problem.behaviour() == Behaviour::Grained && planks.iter().all(|plank| plank.3 == 1.0);
    if planks.len() < 2 || planks.len() > 8 || !stacked || !(flat || is_wood) {
        return standard;
    }
    // Laid flat, I falls with the square of the sides: b h³/12 becomes h b³/12.
    let laid = |&(_, height, breadth, ratio, own): &(f64, f64, f64, f64, f64)| match breadth >= height {
        true => (height, ratio * own),
        false => (breadth, ratio * own * (breadth / height) * (breadth / height)),
    };
    let laid: Vec<(f64, f64)> = planks.iter().map(laid).collect();
    let loose: f64 = laid.iter().map(|(_, own)| own).sum();
    let like = planks.iter().all(|plank| {
        (plank.1 - planks[0].1).abs() <= hair
            && (plank.2 - planks[0].2).abs() <= hair
            && plank.3 == planks[0].3
    });
    Pile {
        shares: planks.iter().map(|plank| plank.1 / properties.height()).collect(),
        loose: laid.iter().map(|(thick, _)| thick / properties.height()).collect(),
        stiffness: properties.second_moment / loose,
        // Equal planks: W grows from n b (h/n)²/6 to b h²/6.
        strength: like.then_some(planks.len() as f64),
        own: true,
    }
}

/// The deflected axis of a simply supported beam under a force at midspan: deflection over that at midspan, and slope
/// over (deflection at midspan / span), at a share of the span. Source: any table of beam deflections,
/// `w = P x (3 L² - 4 x²) / (48 E I)` up to midspan.
fn shape(share: f64) -> (f64, f64) {
    let (x, sign) = if share <= 0.5 { (share, 1.0) } else { (1.0 - share, -1.0) };
    (3.0 * x - 4.0 * x * x * x, sign * (3.0 - 12.0 * x * x))
}

/// The band of a plank between two distances above the axis that bends, its ends square to it.
fn band(left: f64, level: f64, sag: f64, axis: f64, low: f64, high: f64) -> Vec<Point> {
    let at = |share: f64, above: f64| {
        let (deflection, slope) = shape(share);
        let slope = slope * sag / SPAN;
        let size = real::hypot(1.0, slope);
        // The normal of a line that falls by `slope` points up and, where the line falls, to the right.
        let (nx, ny) = (slope / size, -1.0 / size);
        let offset = above - axis;
        Point::new(left + share * SPAN + offset * nx, level - axis + sag * deflection + offset * ny)
    };
    let shares = (0..=POINTS).map(|k| k as f64 / POINTS as f64);
    let mut points: Vec<Point> = shares.clone().map(|s| at(s, low)).collect();
    points.extend(shares.rev().map(|s| at(s, high)));
    points
}

/// One pile, loose or glued, on its supports and under its load.
fn sketch(pile: &Pile, left: f64, glued: bool) -> (Vec<Mark>, Vec<Mark>) {
    let sag = if glued { SAG / pile.stiffness } else { SAG };
    let mut planks = Vec::new();
    let shares = if glued { &pile.shares } else { &pile.loose };
    let depth = PILE * shares.iter().sum::<f64>();
    let mut low = 0.0;
    for share in shares {
        let high = low + share * PILE;
        // Loose planks bend each about its own middle; glued ones all about the middle of the pile.
        let axis = if glued { 0.5 * PILE } else { 0.5 * (low + high) };
        let points = band(left, 0.0, sag, axis, low, high);
        planks.push(Mark::Polygon {
            points: points.clone(),
            stroke: Some(Stroke::solid(Ink::Line, if glued { THIN } else { MEDIUM })),
            fill: Some(Ink::Material),
        });
        // Upright lines before bending, so that the slip shows within the pile too.
        for k in [0.25, 0.75] {
            let index = (k * POINTS as f64) as usize;
            let (from, to) = (points[index], points[2 * POINTS + 1 - index]);
            planks.push(Mark::Line { from, to, stroke: Stroke::solid(Ink::Quiet, THIN) });
        }
        if glued && low > 0.0 {
            let joint = band(left, 0.0, sag, axis, low, low);
            let steps = zigzag(&joint[..=POINTS]);
            planks.push(Mark::Path { steps, stroke: Some(Stroke::solid(Ink::Line, 1.0)), fill: None });
        }
        low = high;
    }
    if glued {
        let outline = band(left, 0.0, sag, 0.5 * PILE, 0.0, PILE);
        planks.push(Mark::Polygon { points: outline, stroke: Some(Stroke::OUTLINE), fill: None });
    }
    let mut rest = Vec::new();
    for x in [left, left + SPAN] {
        let apex = Point::new(x, 3.0);
        rest.push(Mark::Polygon {
            points: vec![apex, apex.moved(-9.0, 15.0), apex.moved(9.0, 15.0)],
            stroke: Some(Stroke::solid(Ink::Line, 1.0)),
            fill: Some(Ink::Paper),
        });
        rest.push(Mark::Line {
            from: apex.moved(-14.0, 15.0),
            to: apex.moved(14.0, 15.0),
            stroke: Stroke::solid(Ink::Line, 1.0),
        });
    }
    let middle = left + 0.5 * SPAN;
    let top = -depth + sag;
    let load = Stroke::solid(Ink::Line, 1.75);
    rest.extend(arrow::straight(Point::new(middle, -PILE - 52.0), Point::new(middle, top - 3.0), load));
    (planks, rest)
}

/// A fine zigzag along a line of points.
fn zigzag(points: &[Point]) -> Vec<Step> {
    points
        .iter()
        .enumerate()
        .map(|(k, &p)| {
            let side = if k % 2 == 0 { 1.8 } else { -1.8 };
            let at = p.moved(0.0, side);
            if k == 0 { Step::Move(at) } else { Step::Line(at) }
        })
        .collect()
}

/// Loose planks against glued planks.
pub(crate) fn planks(scene: &Scene) -> Drawing {
    let w = &scene.writer;
    let pile = pile(scene);
    let mut marks = Vec::new();
    let mut placer = Placer::new();
    let apart = SPAN + 64.0;
    let mut wishes = Vec::new();
    for (glued, left) in [(false, 0.0), (true, apart)] {
        let (planks, rest) = sketch(&pile, left, glued);
        placer.avoid_marks(&rest);
        placer.avoid_rect(Rect { left: left - 12.0, top: -PILE, right: left + SPAN + 12.0, bottom: 4.0 });
        let (id, title) = if glued { ("glued", "Glued planks") } else { ("loose", "Loose planks") };
        let text = match (glued, pile.loose == pile.shares) {
            (true, _) => "glued: one beam, no slip",
            (false, true) => "loose: each bends alone, they slip",
            (false, false) => "laid flat, loose: each bends alone, they slip",
        };
        let at = Point::new(left + 0.5 * SPAN, -PILE - 66.0);
        marks.push(Mark::group(id, title, planks));
        marks.push(Mark::group(format!("{id}-load"), format!("{title}: supports and load"), rest));
        marks.push(Mark::text(at, Label::words(text), Align::Middle));
        let sag = if glued { SAG / pile.stiffness } else { SAG };
        let deflection = if glued {
            w.symbol(Role::Deflection).and_words("\u{a0}/\u{a0}").followed_by(ratio(scene, pile.stiffness))
        } else {
            w.symbol(Role::Deflection)
        };
        // The sag of the lowest fibre, measured beside the load's line.
        let x = left + 0.5 * SPAN;
        marks.push(Mark::Line {
            from: Point::new(left, 0.0),
            to: Point::new(left + SPAN, 0.0),
            stroke: Stroke::dotted(Ink::Quiet, THIN),
        });
        wishes.push(
            Wish::new(deflection, Point::new(x, sag))
                .seats(&[Seat::Below], Escape::Down)
                .gap(8.0)
                .ink(Ink::Quiet),
        );
    }
    for wish in &wishes {
        placer.put(wish);
    }
    marks.push(Mark::group("labels", "Labels", placer.into_marks()));
    let count = pile.shares.len();
    let mut stiffer = Label::words("glued, the pile is\u{a0}").followed_by(ratio(scene, pile.stiffness));
    stiffer = stiffer.and_words(" times as stiff");
    if let Some(strength) = pile.strength {
        stiffer =
            stiffer.and_words(" and\u{a0}").followed_by(ratio(scene, strength)).and_words(" times as strong");
    }
    let mut entries = vec![(Sample::None, stiffer)];
    let whose = if pile.own { "the planks of this section" } else { "three equal planks, as an example" };
    entries.push((Sample::None, Label::words(whose)));
    entries.push((Sample::None, Label::words("deflections enlarged, in the true ratio")));
    let under = bounds(&marks);
    marks.push(legend(&entries, under, scene.sheet));
    let times = ratio(scene, pile.stiffness).plain();
    let short = at_most(&format!(
        "A pile of {count} planks under a force at midspan, loose and glued. The loose planks slip on each other, their \
         ends form steps; glued, the pile is {times} times as stiff."
    ));
    let mut long = Description::new();
    long.sentence(format!(
        "Two side views of a pile of {count} planks on two supports under a force at midspan: {whose}."
    ));
    let lie = if pile.loose == pile.shares { "lie loose" } else { "lie flat and loose" };
    long.sentence(format!(
        "Left: the planks {lie}. Each bends about its own middle, shortened above and lengthened below; where two \
         meet, the lower one is shortened and the upper one lengthened, so they slip, and their ends form steps."
    ));
    long.sentence(
        "Right: the planks are glued. They bend as one beam, its ends stay plane, and the glue must hold the \
         longitudinal shear that stops the slip.",
    );
    long.sentence(format!("Glued, the pile is {times} times as stiff: under the same load the loose one deflects {times} times as much."));
    if let Some(strength) = pile.strength {
        long.sentence(format!("It is {} times as strong in bending.", ratio(scene, strength).plain()));
    }
    Drawing::fitted("planks", "Loose planks against glued planks", 12.0, scene.sheet.width, marks)
        .described(short, long)
}

/// A ratio as the course writes numbers; a whole one as a whole number.
fn ratio(scene: &Scene, value: f64) -> Label {
    let whole = value.round();
    if (value - whole).abs() <= 1e-9 * whole {
        scene.writer.given(whole, Dimension::NONE, Role::Ratio)
    } else {
        scene.writer.value(value, Dimension::NONE, Role::Ratio)
    }
}
