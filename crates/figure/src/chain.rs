//! The dimensions below a beam: the slice's station, the chain of distances, the whole length.

use crate::dimension;
use crate::drawing::Mark;
use crate::geometry::Point;
use crate::label::{Escape, Placer, Seat, Wish};
use crate::palette::{Dash, Ink, Stroke, THIN};
use crate::scale::HALF_DEPTH;
use crate::sketch::{Dimensions, Shows};
use crate::support::BeamPlace;
use crate::text::Label;
use crate::view::BeamView;
use mechanics::beam::Load;
use workings::role::Role;

/// Distance between rows of dimensions, px.
const ROW: f64 = 22.0;
/// Distance between rows of values that found no room in the chain, px.
const LOWER_ROW: f64 = 14.0;
/// Free room between a tick and a value that stands beside its dimension line, px, besides the gap of all values.
const BESIDE_TICK: f64 = 4.0;
/// A chain of more stations than these keeps its ticks only: its values cannot be read.
const MOST_STATIONS: usize = 50;
/// An extension line.
const EXTENSION: Stroke = Stroke { ink: Ink::Quiet, width: 0.5, dash: Dash::Solid };

/// Stations that the chain of dimensions names, m, from left to right.
pub fn stations(view: &BeamView<'_>) -> Vec<f64> {
    let beam = &view.problem.beam;
    let mut stations = vec![0.0, beam.length];
    stations.extend(beam.supports.iter().map(|support| support.station));
    stations.extend(&beam.hinges);
    for load in &beam.loads {
        match *load {
            Load::Force { station, .. } | Load::Couple { station, .. } => stations.push(station),
            Load::Spread { from, to, .. } => stations.extend([from, to]),
        }
    }
    stations.sort_by(f64::total_cmp);
    stations.dedup_by(|a, b| (*a - *b).abs() <= 1e-9 * beam.length);
    stations
}

/// Draws the dimensions below `bottom` px.
pub fn chain(view: &BeamView<'_>, shows: Shows, bottom: f64, placer: &mut Placer) -> Vec<Mark> {
    let (along, small) = (view.along(), view.sheet.small);
    let mut marks = Vec::new();
    let mut row = bottom + 20.0;
    let stations = stations(view);
    let pixels: Vec<f64> = stations.iter().map(|&station| along.px(station)).collect();
    if shows.slice && view.problem.slice.at > 0.0 {
        // The extension lines of the chain run through this row: a value on one would be taken for its.
        for &x in &pixels {
            placer.avoid_line(Point::new(x, row - ROW / 2.0), Point::new(x, row + ROW));
        }
        marks.extend(slice_row(view, row, placer));
        row += ROW;
    }
    let ends = (along.px(0.0), along.px(view.problem.beam.length));
    for &x in &pixels {
        placer.avoid_line(Point::new(x, row - 12.0), Point::new(x, row + 3.0));
    }
    for x in [ends.0, ends.1] {
        placer.avoid_line(Point::new(x, row), Point::new(x, row + 300.0));
    }
    let is_piece = shows.dimensions == Dimensions::Piece;
    let with_chain = !is_piece || stations.len() > 2;
    if with_chain {
        marks.extend(dimension::chain(&pixels, row));
    }
    let chain_row = row;
    let mut lowest = row;
    let mut crowded = Vec::new();
    let with_values = with_chain && stations.len() <= MOST_STATIONS;
    for pair in stations.windows(2).filter(|_| with_values) {
        let label = Label::words(view.scribe.station_text(pair[1] - pair[0]));
        let (from, to) = (along.px(pair[0]), along.px(pair[1]));
        if !put_on_line(&label, (from, to), row, small, placer) {
            crowded.push((label, (from + to) / 2.0));
        }
    }
    for (label, middle) in crowded {
        lowest = lowest.max(put_below(&label, (middle, row), small, placer, &mut marks));
    }
    if stations.len() > 2 || is_piece {
        row = match (lowest > row, with_chain) {
            (true, _) => lowest + ROW - 5.0,
            (false, true) => row + ROW,
            (false, false) => row,
        };
        marks.extend(dimension::level(ends.0, ends.1, row));
        let mut label = Label::words(view.scribe.station_text(view.problem.beam.length));
        if is_piece {
            label = view.scribe.symbol(Role::Station, "").equals(label);
        }
        if !put_on_line(&label, ends, row, small, placer) {
            put_below(&label, ((ends.0 + ends.1) / 2.0, row), small, placer, &mut marks);
        }
    }
    let mut extensions = Vec::new();
    for (&station, &x) in stations.iter().zip(&pixels) {
        let is_end = view.place(station) != BeamPlace::Inside;
        let end = if is_end { row } else { chain_row } + 4.0;
        // from below whatever stands under the station
        let start = placer.foot(x, HALF_DEPTH, chain_row - 9.0) + 3.0;
        extensions.push(Mark::Line { from: Point::new(x, start), to: Point::new(x, end), stroke: EXTENSION });
    }
    extensions.extend(marks);
    extensions
}

/// The dimension from the left end to the slice.
fn slice_row(view: &BeamView<'_>, row: f64, placer: &mut Placer) -> Vec<Mark> {
    let (left, x) = (view.along().px(0.0), view.along().px(view.problem.slice.at));
    let mut marks = dimension::level(left, x, row);
    marks.push(Mark::Line {
        from: Point::new(x, HALF_DEPTH + 2.0),
        to: Point::new(x, row + 4.0),
        stroke: Stroke::dashed(Ink::Cut, THIN),
    });
    let value = Label::words(view.scribe.station_text(view.problem.slice.at));
    let label = view.scribe.symbol(Role::Station, "").equals(value);
    placer.avoid_line(Point::new(left, row), Point::new(x, row));
    placer.put(
        &Wish::new(label, Point::new((left + x) / 2.0, row))
            .seats(&[Seat::Above], Escape::Up)
            .or(Point::new(x + BESIDE_TICK, row), Seat::Right)
            .or(Point::new(left - BESIDE_TICK, row), Seat::Left)
            .gap(3.0)
            .size(view.sheet.small)
            .ink(Ink::Quiet),
    );
    marks
}

/// Puts a value on its dimension line, where there is room between its ticks.
fn put_on_line(label: &Label, (from, to): (f64, f64), row: f64, size: f64, placer: &mut Placer) -> bool {
    let width = label.width(size);
    for part in [0.5, 0.375, 0.625, 0.25, 0.75] {
        let middle = from + (to - from) * part;
        let (at, align) = Seat::Above.place(Point::new(middle, row), 2.0, size);
        let has_room = middle - width / 2.0 > from + 2.0 && middle + width / 2.0 < to - 2.0;
        if has_room && placer.is_free(label.rect(at, align, size)) {
            placer.put_at(label, at, align, size, Ink::Quiet);
            return true;
        }
    }
    false
}

/// Puts a value below its dimension line, in the first row with room, tied to the middle of its stretch; gives
/// back the lower edge of the text.
fn put_below(
    label: &Label,
    (middle, row): (f64, f64),
    size: f64,
    placer: &mut Placer,
    marks: &mut Vec<Mark>,
) -> f64 {
    let anchor = Point::new(middle, row);
    let mut number = 0.0;
    loop {
        for shift in [0.0, -9.0, 9.0, -18.0, 18.0, -27.0, 27.0] {
            let (at, align) =
                Seat::Below.place(Point::new(middle + shift, row + LOWER_ROW * number), 4.0, size);
            let rect = label.rect(at, align, size);
            let top = Point::new(middle.clamp(rect.left, rect.right), rect.top);
            // after that many rows the lines may be crossed: there are only so many labels
            let is_free = placer.is_free(rect) || (number > 40.0 && shift == 0.0);
            if is_free && placer.is_clear_between(top, anchor) {
                // A shorter leader would look like a sign of the label.
                if top.distance(anchor) > 8.0 {
                    marks.push(Mark::Line { from: top, to: anchor.moved(0.0, 1.5), stroke: Stroke::LEADER });
                    placer.avoid_line(top, anchor);
                }
                placer.put_at(label, at, align, size, Ink::Quiet);
                return rect.bottom;
            }
        }
        number += 1.0;
        if number > 60.0 {
            // sixty rows are taken: the search without bounds finds a place
            let wish = Wish::new(label.clone(), anchor).seats(&[Seat::Below], Escape::Down);
            return placer.put(&wish.size(size).ink(Ink::Quiet)).bottom;
        }
    }
}
