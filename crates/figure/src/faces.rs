//! The slice from the side with the bending stress on its two faces, which differ because M does.

use crate::cut_words::at_most;
use crate::dimension;
use crate::drawing::{Description, Drawing, Mark, bounds};
use crate::geometry::Point;
use crate::label::{Escape, Placer, Seat, Wish};
use crate::legend::{Sample, legend};
use crate::palette::{Ink, Stroke, THIN};
use crate::scene::Scene;
use crate::stress_block::{Band, BlockScale, bands, block, difference};
use crate::text::Label;
use workings::dimension::Dimension;
use workings::role::Role;

/// Height of the slice on the sheet, px.
const HEIGHT: f64 = 240.0;
/// Its length, px: not to scale, so that the blocks find room beside it.
const LENGTH: f64 = 170.0;
/// Longest stress, px.
const LONGEST: f64 = 110.0;

/// The slice with the bending stress on its two faces.
pub(crate) fn faces(scene: &Scene) -> Drawing {
    let w = &scene.writer;
    let v = &scene.values;
    let e = scene.extent;
    let per_height = HEIGHT / e.height();
    let greatest = scene.greatest_bending_stress();
    let per_stress = if greatest > 0.0 { scene.across(LONGEST) / greatest } else { 0.0 };
    let scale = |face: usize| BlockScale {
        stress: per_stress,
        zero: HEIGHT + e.bottom * per_height,
        height: per_height,
        face: if face == 0 { 0.0 } else { scene.across(LENGTH) },
        outside: if face == 0 { -1.0 } else { 1.0 },
    };
    let axis = scale(0).y(v.neutral_axis);
    let bands = bands(scene, false);
    let comparison = Comparison::of(scene);
    let mut marks = vec![Mark::Polygon {
        points: vec![
            Point::new(0.0, 0.0),
            Point::new(scene.across(LENGTH), 0.0),
            Point::new(scene.across(LENGTH), HEIGHT),
            Point::new(0.0, HEIGHT),
        ],
        stroke: Some(Stroke::OUTLINE),
        fill: Some(Ink::Material),
    }];
    let mut placer = Placer::new();
    let mut wishes = Vec::new();
    let beyond = scene.across(LONGEST) + 18.0;
    let axis_line = Mark::Line {
        from: Point::new(-beyond, axis),
        to: Point::new(scene.across(LENGTH) + beyond, axis),
        stroke: Stroke::dash_dot(Ink::Line, THIN),
    };
    placer.avoid_marks(std::slice::from_ref(&axis_line));
    let at = |label: Label, at: Point, seats: &[Seat]| Wish::new(label, at).seats(seats, Escape::Any);
    wishes.push(at(Label::words("NA"), Point::new(scene.across(LENGTH) + beyond, axis), &[Seat::Right]));
    for face in [0, 1] {
        let title =
            if face == 0 { "Bending stress on the left face" } else { "Bending stress on the right face" };
        let mut inner = block(scene, &bands, face, scale(face), 26.0);
        if face == 1 && comparison != Comparison::OtherSense {
            inner.extend(difference(scene, &bands, scale(1)));
        }
        placer.avoid_marks(&inner);
        let id = if face == 0 { "left-face" } else { "right-face" };
        marks.push(Mark::group(id, title, inner));
        wishes.extend(values_on(scene, &bands, face, scale(face)));
        let x = if face == 0 { 0.0 } else { scene.across(LENGTH) };
        let name = Label::words(if face == 0 { "left face" } else { "right face" });
        let moment = if face == 0 { w.symbol(Role::BendingMoment) } else { w.grown(Role::BendingMoment) };
        let moment = moment.equals(w.value_beside(
            v.moment[face],
            Dimension::MOMENT,
            Role::BendingMoment,
            scene.greater_moment(),
        ));
        let seat = if face == 0 { Seat::AboveLeft } else { Seat::AboveRight };
        wishes.push(at(name, Point::new(x, -52.0), &[seat]).gap(0.0).ink(Ink::Quiet));
        wishes.push(at(moment, Point::new(x, -34.0), &[seat]).gap(0.0));
    }
    marks.push(Mark::group("neutral-axis", "Neutral axis", vec![axis_line]));
    let mut lengths = dimension::level(0.0, scene.across(LENGTH), HEIGHT + 30.0);
    for x in [0.0, scene.across(LENGTH)] {
        lengths.extend(dimension::extension(Point::new(x, HEIGHT), Point::new(x, HEIGHT + 30.0)));
    }
    placer.avoid_marks(&lengths);
    let length = w.named_given(Role::SliceLength, v.length, Dimension::LENGTH);
    wishes.push(at(length, Point::new(0.5 * scene.across(LENGTH), HEIGHT + 30.0), &[Seat::Below]));
    for wish in &wishes {
        placer.put(wish);
    }
    marks.push(Mark::group("length", "Length of the slice", lengths));
    marks.push(Mark::group("labels", "Labels", placer.into_marks()));
    let mut entries = if greatest > 0.0 {
        vec![
            (Sample::Tension, Label::words("tension, T")),
            (Sample::Compression, Label::words("compression, C")),
            match comparison {
                Comparison::OtherSense => (Sample::None, Label::words(TURNED)),
                _ => (
                    Sample::Line(Stroke::dotted(Ink::Line, 1.0)),
                    Label::words("the left face's stress again"),
                ),
            },
        ]
    } else {
        vec![(Sample::None, Label::words("no bending moment here, so no bending stress"))]
    };
    entries.push((Sample::None, w.symbol(Role::SliceLength).and_words(" not to scale")));
    let under = bounds(&marks);
    marks.push(legend(&entries, under, scene.sheet));
    let (short, long) = describe(scene, &bands);
    Drawing::fitted("faces", "Bending stress on the two faces of the slice", 12.0, scene.sheet.width, marks)
        .described(short, long)
}

/// The stresses at the ends of each band, and the letters of tension and compression.
fn values_on(scene: &Scene, bands: &[Band], face: usize, scale: BlockScale) -> Vec<Wish> {
    let mut wishes: Vec<(f64, Wish)> = Vec::new();
    let mut known: Vec<f64> = Vec::new();
    for band in bands {
        for height in [band.from, band.to] {
            let stress = scene.stress[face].bending_stress_in(band.part, height);
            if stress == 0.0 || known.contains(&stress) {
                continue;
            }
            known.push(stress);
            let outermost = height == scene.extent.bottom || height == scene.extent.top;
            let value = scene.writer.value_beside(
                stress.abs(),
                Dimension::STRESS,
                Role::BendingStress,
                scene.greatest_bending_stress(),
            );
            let (letter, ink) =
                if stress > 0.0 { ("\u{a0}T", Ink::Tension) } else { ("\u{a0}C", Ink::Compression) };
            let label = value.and_words(letter);
            let tip = scale.tip(stress, height);
            let above = height > scene.values.neutral_axis;
            let seats: Vec<Seat> = match (outermost, above, face) {
                (true, true, 0) => vec![Seat::AboveLeft, Seat::Above, Seat::Left],
                (true, true, _) => vec![Seat::AboveRight, Seat::Above, Seat::Right],
                (true, false, 0) => vec![Seat::BelowLeft, Seat::Below, Seat::Left],
                (true, false, _) => vec![Seat::BelowRight, Seat::Below, Seat::Right],
                (false, _, 0) => vec![Seat::Left, Seat::AboveLeft, Seat::BelowLeft],
                (false, _, _) => vec![Seat::Right, Seat::AboveRight, Seat::BelowRight],
            };
            // Where there is room, over the block's own middle instead of out beyond its tip.
            let at = if outermost { Point::new(0.5 * (tip.x + scale.face), tip.y) } else { tip };
            let seats: Vec<Seat> = match (outermost, above) {
                (true, true) => std::iter::once(Seat::Above).chain(seats).collect(),
                (true, false) => std::iter::once(Seat::Below).chain(seats).collect(),
                _ => seats,
            };
            let size = if outermost { stress.abs() } else { 0.0 };
            wishes.push((size, Wish::new(label, at).seats(&seats, Escape::Any).ink(ink)));
        }
    }
    // Of those at an outermost fibre the largest stands where its block is broadest, the others where they still find room.
    wishes.sort_by(|a, b| b.0.total_cmp(&a.0));
    wishes.into_iter().map(|(_, wish)| wish).collect()
}

/// What is said where the bending moment changes its sign within the slice.
const TURNED: &str = "what is stretched on one face is pressed on the other";

/// How the stresses on the two faces may be compared.
#[derive(Clone, Copy, PartialEq)]
enum Comparison {
    /// The bending moments are the same.
    Same,
    /// Both sag or both hog: the difference can be seen.
    OneSense,
    /// One sags and the other hogs: no difference of sizes.
    OtherSense,
}

impl Comparison {
    fn of(scene: &Scene) -> Self {
        let [left, right] = scene.values.moment;
        if (left - right).abs() <= 1e-9 * left.abs().max(right.abs()) {
            Self::Same
        } else if left * right < 0.0 {
            Self::OtherSense
        } else {
            Self::OneSense
        }
    }
}

fn describe(scene: &Scene, bands: &[Band]) -> (String, Description) {
    let w = &scene.writer;
    let v = &scene.values;
    let moment = |face: usize| {
        w.text_beside(v.moment[face], Dimension::MOMENT, Role::BendingMoment, scene.greater_moment())
    };
    let comparison = Comparison::of(scene);
    let short = at_most(&format!(
        "Slice of the beam from the side with the bending stress on both faces: the bending moment is {} on the \
         left and {} on the right, so the stresses {}.",
        moment(0),
        moment(1),
        match comparison {
            Comparison::Same => "are the same",
            _ => "differ",
        }
    ));
    let mut long = Description::new();
    if !scene.told {
        return (short, long);
    }
    long.sentence(format!(
        "Side view of the slice, {} long. Left face: bending moment {}. Right face: bending moment {}.",
        w.given_text(v.length, Dimension::LENGTH, Role::SliceLength),
        moment(0),
        moment(1)
    ));
    long.sentence(
        "On each face the bending stress runs in a straight line through zero at the neutral axis; arrows of \
         tension point away from the face, arrows of compression towards it.",
    );
    let mut rows = Vec::new();
    for band in bands {
        for height in [band.to, band.from] {
            let mut row = vec![w.text(height - scene.extent.bottom, Dimension::LENGTH, Role::CutHeight)];
            for face in [0, 1] {
                row.push(stress_words(scene, scene.stress[face].bending_stress_in(band.part, height)));
            }
            rows.push(row);
        }
    }
    long.table(
        "Bending stress by height above the lowest fibre",
        &["height", "left face", "right face"],
        rows,
    );
    match comparison {
        Comparison::Same => {}
        Comparison::OneSense => {
            long.sentence("What the right face has more or less than the left one is hatched.")
        }
        Comparison::OtherSense => {
            long.sentence(format!("The bending moment changes its sign within the slice: {TURNED}."))
        }
    };
    (short, long)
}

/// A bending stress in words: size and kind.
pub(crate) fn stress_words(scene: &Scene, stress: f64) -> String {
    let size = scene.writer.text_beside(
        stress.abs(),
        Dimension::STRESS,
        Role::BendingStress,
        scene.greatest_bending_stress(),
    );
    match stress {
        s if s > 0.0 => format!("{size} tension"),
        s if s < 0.0 => format!("{size} compression"),
        _ => size,
    }
}
