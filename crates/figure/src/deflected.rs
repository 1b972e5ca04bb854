//! The deflected shape, drawn many times too large.

use crate::arrow;
use crate::beam::MARGIN;
use crate::drawing::{Description, Drawing, Mark, Step, bounds};
use crate::geometry::Point;
use crate::label::{Escape, Placer, Seat, Wish};
use crate::palette::{HEAVY, Ink, Stroke, THIN};
use crate::scale::Along;
use crate::support;
use crate::text::{Label, SMALL};
use crate::view::BeamView;
use crate::words;
use mechanics::beam::{Curve, Hold, Reached, Side};
use mechanics::real;
use workings::dimension::Dimension;
use workings::role::Role;

/// The largest deflection is drawn no larger than this, px.
const LARGEST: f64 = 56.0;
/// Pieces of a curve for each segment of the beam: a quintic drawn by cubics that share its slopes.
const PIECES: u32 = 4;

/// The deflected shape.
pub fn deflected(view: &BeamView<'_>) -> Drawing {
    let solution = view.solution;
    let along = view.along();
    let largest = solution.extremes(Curve::Deflection).largest_size;
    let factor = exaggeration(along, largest.value);
    // px up for each metre of deflection
    let up = factor * along.span() / along.length;
    let point = |station: f64| Point::new(along.px(station), -solution.deflection(station) * up);

    let straight = Mark::Line {
        from: Point::new(along.left, 0.0),
        to: Point::new(along.right, 0.0),
        stroke: Stroke::AXIS,
    };
    let mut steps = Vec::new();
    let mut trace = Vec::new();
    for segment in solution.segments() {
        let piece = segment.length() / f64::from(PIECES);
        let at = |s: f64| Point::new(along.px(segment.from + s), -segment.value(Curve::Deflection, s) * up);
        // a third of the way along the tangent, as a cubic of the sheet wants it
        let handle = |s: f64| -segment.value(Curve::Slope, s) * up * piece / 3.0;
        let third = (along.px(segment.from + piece) - along.px(segment.from)) / 3.0;
        if steps.is_empty() {
            steps.push(Step::Move(at(0.0)));
            trace.push(at(0.0));
        }
        for number in 0..PIECES {
            let (from, to) = (f64::from(number) * piece, f64::from(number + 1) * piece);
            steps.push(Step::Curve {
                first: at(from).moved(third, handle(from)),
                second: at(to).moved(-third, -handle(to)),
                to: at(to),
            });
            trace.extend([at(0.5 * (from + to)), at(to)]);
        }
    }
    let curve = Mark::Path { steps, stroke: Some(Stroke::solid(Ink::Line, HEAVY)), fill: None };

    let mut placer = Placer::new();
    // The curve is heavy: a name keeps off its edges too.
    for off in [-HEAVY, 0.0, HEAVY] {
        let edge: Vec<Point> = trace.iter().map(|at| at.moved(0.0, off)).collect();
        placer.avoid_polyline(&edge);
    }
    placer.avoid_line(Point::new(along.left, 0.0), Point::new(along.right, 0.0));
    let mut signs = Vec::new();
    let mut wishes = Vec::new();
    for (number, held) in view.problem.beam.supports.iter().enumerate() {
        let place = view.place(held.station);
        let sign = support::sign(held, view.support_kind(number), place, point(held.station), 1.0);
        placer.avoid_rect(sign.rect);
        let middle = sign.rect.middle();
        let name = view.support_name(number);
        if !name.is_empty() {
            let left = Point::new(sign.rect.left, middle.y);
            let right = Point::new(sign.rect.right, middle.y);
            wishes.push(
                Wish::new(Label::words(name), left)
                    .seats(&[Seat::Left], Escape::Down)
                    .or(right, Seat::Right)
                    .or(Point::new(middle.x, sign.rect.bottom), Seat::Below),
            );
        }
        signs.extend(sign.marks);
        signs.extend(sign.front);
    }
    let mut hinges = Vec::new();
    for &hinge in &view.problem.beam.hinges {
        let mark = Mark::Circle {
            centre: point(hinge),
            radius: 3.2,
            stroke: Some(Stroke::OUTLINE),
            fill: Some(Ink::Paper),
        };
        placer.avoid_rect(mark.rect());
        hinges.push(mark);
    }

    let mut dimension = Vec::new();
    let place = largest.reached.first().map(|reached| match *reached {
        Reached::At(place) => place.station,
        Reached::Over { from, to } => 0.5 * (from + to),
    });
    if let Some(station) = place.filter(|_| largest.value > 0.0) {
        let tip = point(station);
        let root = Point::new(tip.x, 0.0);
        dimension.extend(arrow::straight_with_head(root, tip, Stroke::solid(Ink::Quiet, THIN), 7.0));
        placer.avoid_marks(&dimension);
        let below = tip.y > 0.0;
        let deflection = solution.value(Curve::Deflection, station, Side::Left);
        let size = view.scribe.value(deflection.abs(), Dimension::LENGTH, Role::Deflection);
        let symbol = view.scribe.symbol(Role::Deflection, "max");
        let label = crate::reactions::sized(symbol, deflection, size);
        let seats: &[Seat] = if below {
            &[Seat::Below, Seat::BelowRight, Seat::BelowLeft]
        } else {
            &[Seat::Above, Seat::AboveRight, Seat::AboveLeft]
        };
        let escape = if below { Escape::Down } else { Escape::Up };
        placer.put(&Wish::new(label, tip).seats(seats, escape).gap(5.0));
        let text = words::place(view, station);
        let seats: &[Seat] = if below {
            &[Seat::Above, Seat::AboveRight, Seat::AboveLeft]
        } else {
            &[Seat::Below, Seat::BelowRight, Seat::BelowLeft]
        };
        let escape = if below { Escape::Up } else { Escape::Down };
        let label = view.scribe.symbol(Role::Station, "").equals(Label::words(text));
        let wish = Wish::new(label, root).seats(seats, escape);
        placer.put(&wish.size(SMALL).ink(Ink::Quiet));
    }
    for wish in &wishes {
        placer.put(wish);
    }
    let mut marks = vec![
        Mark::group("straight", "The beam before it is loaded", vec![straight]),
        Mark::group("supports", "Supports", signs),
        Mark::group("deflected", "Deflected shape", vec![curve]),
    ];
    if !hinges.is_empty() {
        marks.push(Mark::group("hinges", "Internal hinges", hinges));
    }
    if !dimension.is_empty() {
        marks.push(Mark::group("largest", "Largest deflection", dimension));
    }
    let labels = placer.take_marks();
    if factor > 0.0 {
        let bottom = bounds(&marks).joined(bounds(&labels)).bottom;
        let remark = Label::words(remark(factor));
        placer.put(
            &Wish::new(remark, Point::new(0.5 * (along.left + along.right), bottom + 4.0))
                .seats(&[Seat::Below], Escape::Down)
                .size(SMALL)
                .ink(Ink::Quiet),
        );
    }
    marks.push(Mark::group("labels", "", labels.into_iter().chain(placer.take_marks()).collect()));

    let mut long = Description::new();
    words::beam(view, &mut long);
    describe(view, factor, place, &mut long);
    let short = short(view, place);
    Drawing::on_sheet("deflected", "Deflected shape of the beam", MARGIN, view.sheet.width, marks)
        .described(short, long)
}

/// How many times too large deflections are drawn: one figure and noughts, as large as the sheet allows; 0 where the beam stays straight.
fn exaggeration(along: Along, largest: f64) -> f64 {
    let to_scale = largest * along.span() / along.length;
    let most = LARGEST / to_scale;
    if !(most.is_finite() && to_scale > 0.0) {
        return 0.0;
    }
    let power = real::pow(10.0, real::log10(most).floor());
    let steps = [8.0, 6.0, 5.0, 4.0, 3.0, 2.0, 1.0];
    power * steps.into_iter().find(|step| step * power <= most * (1.0 + 1e-9)).unwrap_or(1.0)
}

fn remark(factor: f64) -> String {
    format!("deflections of bending alone, drawn {} times too large", plain(factor))
}

/// A factor of one figure and noughts, in digits.
fn plain(factor: f64) -> String {
    if factor >= 1.0 {
        format!("{factor:.0}")
    } else {
        format!("{factor:.9}").trim_end_matches('0').to_owned()
    }
}

fn describe(view: &BeamView<'_>, factor: f64, place: Option<f64>, long: &mut Description) {
    let value = |station: f64| {
        let deflection = view.solution.deflection(station);
        let size = view.scribe.text(deflection.abs(), Dimension::LENGTH, Role::Deflection);
        match deflection {
            d if d > 0.0 => format!("{size} up"),
            d if d < 0.0 => format!("{size} down"),
            _ => "0".to_owned(),
        }
    };
    let mut stations: Vec<f64> = view.solution.stations().collect();
    stations.extend(view.solution.turning_points(Curve::Deflection));
    stations.sort_by(f64::total_cmp);
    let near = 1e-9 * view.problem.beam.length;
    stations.dedup_by(|a, b| (*a - *b).abs() <= near);
    let rows = stations.iter().map(|&station| vec![words::place(view, station), value(station)]).collect();
    long.table("Deflection of bending alone at key stations", &["Station", "Deflection"], rows);
    match place {
        Some(station) if factor > 0.0 => {
            long.sentence(format!(
                "The largest deflection of bending is {}, at {}; what shear adds is not drawn.",
                value(station),
                words::place(view, station)
            ));
            long.sentence(format!("In the drawing: {}.", remark(factor)));
        }
        _ => long.sentence("The beam stays straight."),
    }
}

fn short(view: &BeamView<'_>, place: Option<f64>) -> String {
    let length = words::station(view, view.problem.beam.length);
    let most = place.map_or(String::new(), |station| {
        let size =
            view.scribe.text(view.solution.deflection(station).abs(), Dimension::LENGTH, Role::Deflection);
        format!("; the largest deflection of bending is {size} at {}", words::place(view, station))
    });
    let hold = view.problem.beam.supports.iter().filter(|support| support.transverse != Hold::Free).count();
    words::shortened(format!(
        "Deflected shape of the beam, {length} long, on {hold} support{}, drawn too large{most}.",
        if hold == 1 { "" } else { "s" }
    ))
}
