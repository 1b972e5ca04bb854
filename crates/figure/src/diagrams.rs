//! Load, shear force and bending moment on one x axis.

use crate::beam::MARGIN;
use crate::beam_grips;
use crate::drawing::{Description, Drawing, Mark, bounds};
use crate::geometry::Point;
use crate::keyvalues::{self, KeyValues};
use crate::label::{Escape, Placer, Seat, Wish};
use crate::palette::{Ink, Stroke};
use crate::panel::{self, Shown};
use crate::sketch::{self, Dimensions, Shows};
use crate::text::Label;
use crate::view::BeamView;
use crate::words;
use mechanics::beam::{Reached, Side};
use workings::role::Role;

/// Distance between two panels, px.
const GAP: f64 = 22.0;

/// The beam with its loads and reactions, the shear force and the bending moment, one below the other.
pub fn diagrams(view: &BeamView<'_>) -> Drawing {
    let mut placer = Placer::new();
    let shows = Shows { supports: true, reactions: true, dimensions: Dimensions::None, slice: true };
    let sketch = sketch::sketch(view, view.solution.reactions(), shows, &mut placer);
    let mut marks = sketch.marks;
    let first_top = bounds(&marks).bottom + 6.0;
    let mut labels = Vec::new();
    let mut top = first_top;
    let mut groups = Vec::new();
    let mut axes = Vec::new();
    let mut signs = Vec::new();
    let keys = [Shown::Shear, Shown::Moment].map(|shown| (shown, keyvalues::gather(view, shown)));
    for (shown, values) in &keys {
        let drawn = panel::panel(view, *shown, values, top + GAP);
        panel::avoid(&mut placer, &drawn);
        let x = view.along().px(view.problem.slice.at);
        let bottom = bounds(&drawn.marks).bottom;
        placer.avoid_line(Point::new(x, top), Point::new(x, bottom + 6.0));
        // the lines that will tie the zeros of V to the peaks of M
        for &station in &keys[0].1.crossings {
            let x = view.along().px(station);
            let (from, to) = match shown {
                Shown::Shear => (drawn.axis + 3.0, bottom + GAP),
                Shown::Moment => (top, drawn.axis),
            };
            placer.avoid_line(Point::new(x, from), Point::new(x, to));
        }
        for wish in &drawn.wishes {
            placer.put(wish);
        }
        placer.put(&slice_value(view, *shown, &drawn));
        let placed = placer.take_marks();
        top = bounds(&drawn.marks).joined(bounds(&placed)).bottom;
        axes.push(drawn.axis);
        let (id, title) = match shown {
            Shown::Shear => ("shear-force", "Shear force"),
            Shown::Moment => ("bending-moment", "Bending moment"),
        };
        groups.push(Mark::group(id, title, drawn.marks));
        signs.extend(drawn.signs);
        labels.extend(placed);
    }
    // where V is zero M turns: the two are tied by a line
    let mut ties = Vec::new();
    if let [(_, shear), _] = &keys
        && let [shear_axis, moment_axis] = axes.as_slice()
    {
        for &station in &shear.crossings {
            let x = view.along().px(station);
            ties.push(Mark::Line {
                from: Point::new(x, *shear_axis + 3.0),
                to: Point::new(x, *moment_axis),
                stroke: Stroke::dotted(Ink::Quiet, 0.75),
            });
        }
    }
    if !ties.is_empty() {
        marks.push(Mark::group("ties", "Zeros of the shear force", ties));
    }
    marks.extend(groups);
    marks.push(Mark::group(
        "slice-station",
        "Station of the slice",
        panel::slice_line(view, first_top, top + 6.0),
    ));
    marks.push(Mark::group("signs", "Signs", signs));
    let foot = Point::new(view.along().px(view.problem.slice.at), top + 6.0);
    marks.push(Mark::Grip(beam_grips::station(view, foot)));
    placer.put(&panel::slice_label(view, top + 6.0));
    labels.extend(placer.take_marks());
    marks.push(Mark::group("values", "", labels));

    let mut long = Description::new();
    if view.told {
        words::beam(view, &mut long);
        words::loads(view, &mut long);
        words::reactions(view, view.solution.reactions(), &mut long);
        describe(view, &keys, &mut long);
        words::arrows(sketch.stretched, &mut long);
    }
    let short = short(view, &keys);
    Drawing::on_sheet("diagrams", "Shear force and bending moment", MARGIN, view.sheet.width, marks)
        .described(short, long)
}

/// The value at the slice, in the colour of the cut.
fn slice_value(view: &BeamView<'_>, shown: Shown, drawn: &panel::Panel) -> Wish {
    let at = view.problem.slice.at;
    let value = view.solution.value(shown.curve(), at, Side::Right);
    let number = Label::words(text(view, shown, value));
    let label = view.scribe.symbol(shown.role(), "").equals(number);
    let y = drawn.y(value);
    let above = y < drawn.axis;
    let seats: &[Seat] = if above {
        &[Seat::AboveRight, Seat::AboveLeft, Seat::Right, Seat::Left]
    } else {
        &[Seat::BelowRight, Seat::BelowLeft, Seat::Right, Seat::Left]
    };
    let escape = if above { Escape::Up } else { Escape::Down };
    Wish::new(label, Point::new(view.along().px(at), y)).seats(seats, escape).gap(5.0).ink(Ink::Cut)
}

/// A value of a curve with the unit of its axis.
fn text(view: &BeamView<'_>, shown: Shown, value: f64) -> String {
    let largest = view.solution.extremes(shown.curve()).largest_size.value;
    view.scribe.text_beside(value, shown.dimension(), shown.role(), largest)
}

fn describe(view: &BeamView<'_>, keys: &[(Shown, KeyValues)], long: &mut Description) {
    let scribe = view.scribe;
    let solution = view.solution;
    // one row for each breakpoint and peak
    let mut stations: Vec<f64> = solution.stations().collect();
    stations
        .extend(keys.iter().flat_map(|(_, keys)| &keys.values).filter(|key| key.peak).map(|key| key.station));
    stations.push(view.problem.slice.at);
    stations.sort_by(f64::total_cmp);
    stations.dedup_by(|a, b| (*a - *b).abs() <= 1e-9 * view.problem.beam.length);
    let largest =
        [Shown::Shear, Shown::Moment].map(|shown| solution.extremes(shown.curve()).largest_size.value);
    let mut rows = Vec::new();
    for &station in &stations {
        let mut row = vec![words::place(view, station)];
        for ((shown, _), largest) in keys.iter().zip(largest) {
            let number = |side| {
                let value = solution.value(shown.curve(), station, side);
                scribe.text_beside(value, shown.dimension(), shown.role(), largest)
            };
            row.extend([number(Side::Left), number(Side::Right)]);
        }
        rows.push(row);
    }
    let [v, m] = [Role::ShearForce, Role::BendingMoment];
    let (v_words, m_words) = (scribe.style().notation.words(v), scribe.style().notation.words(m));
    let (v, m) = (scribe.symbol_text(v, ""), scribe.symbol_text(m, ""));
    let [v_left, v_right, m_left, m_right] = [(&v, "left"), (&v, "right"), (&m, "left"), (&m, "right")]
        .map(|(symbol, side)| format!("{symbol} {side}"));
    long.table(
        &format!("{} {v} and {m_words} {m}, left and right of key stations", words::capitalized(v_words)),
        &["Station", &v_left, &v_right, &m_left, &m_right],
        rows,
    );
    for (shown, keys) in keys {
        let name = scribe.style().notation.words(shown.role());
        let extremes = solution.extremes(shown.curve());
        for (extreme, word) in [(&extremes.highest, "highest"), (&extremes.lowest, "most negative")] {
            let Some(extreme) = extreme else { continue };
            let value = text(view, *shown, extreme.value);
            let places: Vec<String> = extreme
                .reached
                .iter()
                .map(|reached| match *reached {
                    Reached::At(place) => format!("at {}", words::place(view, place.station)),
                    Reached::Over { from, to } => {
                        format!("from {} to {}", words::place(view, from), words::place(view, to))
                    }
                })
                .collect();
            long.sentence(format!("The {word} {name} is {value}, {}.", places.join(" and ")));
        }
        if !keys.crossings.is_empty() {
            let places: Vec<String> =
                keys.crossings.iter().map(|&station| words::place(view, station)).collect();
            let what = match shown {
                Shown::Shear => "passes zero at",
                Shown::Moment => "changes sign (contraflexure) at",
            };
            long.sentence(format!("The {name} {what} {}.", places.join(", ")));
        }
        long.sentence(format!(
            "Positive {name} is drawn {} the axis.",
            if shown.positive_up(view) { "above" } else { "below" }
        ));
    }
    let at = view.problem.slice.at;
    let values: Vec<String> = keys
        .iter()
        .map(|(shown, _)| {
            let value = solution.value(shown.curve(), at, Side::Right);
            let text = text(view, *shown, value);
            format!("{} = {text}", scribe.symbol_text(shown.role(), ""))
        })
        .collect();
    let station = words::station(view, at);
    let symbol = scribe.symbol_text(Role::Station, "");
    long.sentence(format!("At the slice, {symbol} = {station}: {}.", values.join(", ")));
}

fn short(view: &BeamView<'_>, keys: &[(Shown, KeyValues)]) -> String {
    let mut parts = Vec::new();
    for (shown, _) in keys {
        let extremes = view.solution.extremes(shown.curve());
        let value = view.scribe.text(extremes.largest_size.value, shown.dimension(), shown.role());
        let reached = extremes.largest_size.reached.first().map(|reached| match *reached {
            Reached::At(place) => format!(" at {}", words::place(view, place.station)),
            Reached::Over { from, .. } => format!(" from {}", words::place(view, from)),
        });
        let symbol = view.scribe.symbol_text(shown.role(), "");
        parts.push(format!("the largest size of {symbol} is {value}{}", reached.unwrap_or_default()));
    }
    words::shortened(format!("Load, shear force and bending moment over the beam: {}.", parts.join("; ")))
}
