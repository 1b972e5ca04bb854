//! The values of a curve that matter: ends, jumps, plateaus, peaks, the slice; and where it is zero.

use crate::panel::Shown;
use crate::view::BeamView;
use mechanics::beam::{Side, Zero};

/// A value worth telling.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KeyValue {
    /// Where, m.
    pub station: f64,
    /// The side of the station on which it holds, where the curve jumps or ends there.
    pub side: Option<Side>,
    /// The value, SI, with the sign of the engine.
    pub value: f64,
    /// Whether it gets a label in the drawing.
    pub labelled: bool,
    /// Whether a dot marks it on the curve.
    pub dot: bool,
    /// Whether the curve turns there.
    pub peak: bool,
}

/// All values of a curve that matter, from left to right.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct KeyValues {
    /// The values.
    pub values: Vec<KeyValue>,
    /// Where the curve passes zero without a jump, inside the beam, m.
    pub crossings: Vec<f64>,
}

/// A curve with more labels than these cannot be read: the largest values keep theirs.
const MOST_LABELS: usize = 60;

/// Gathers the values of a curve that matter.
pub fn gather(view: &BeamView<'_>, shown: Shown) -> KeyValues {
    beside(view, shown, Some(view.problem.slice.at))
}

/// The same for a drawing that does not show the slice, so that what the slice would tell has a label of its own.
pub(crate) fn gather_without_slice(view: &BeamView<'_>, shown: Shown) -> KeyValues {
    beside(view, shown, None)
}

fn beside(view: &BeamView<'_>, shown: Shown, slice: Option<f64>) -> KeyValues {
    let solution = view.solution;
    let curve = shown.curve();
    let length = view.problem.beam.length;
    let nothing = solution.nothing(curve);
    let mut values = Vec::new();
    let stations: Vec<f64> = solution.stations().collect();
    let is_flat = |place: usize| {
        let Some(segment) = solution.segments().get(place) else { return false };
        let (start, end) = (segment.value(curve, 0.0), segment.value(curve, segment.length()));
        let middle = segment.value(curve, 0.5 * segment.length());
        (start - end).abs() <= nothing && (start - middle).abs() <= nothing
    };
    let mut place = 0;
    for (number, &station) in stations.iter().enumerate() {
        let (left, right) =
            (solution.value(curve, station, Side::Left), solution.value(curve, station, Side::Right));
        let (first, last) = (number == 0, number + 1 == stations.len());
        let jumps = (left - right).abs() > nothing;
        // a plateau tells its value once, in its middle
        let flat_before = !first && is_flat(number - 1);
        let flat_after = !last && is_flat(number);
        let point = |value: f64, side: Option<Side>, labelled: bool| KeyValue {
            station,
            side,
            value,
            labelled: labelled && value != 0.0,
            dot: false,
            peak: false,
        };
        if first {
            values.push(point(right, Some(Side::Right), !flat_after));
        } else if last {
            values.push(point(left, Some(Side::Left), !flat_before));
        } else if jumps {
            values.push(point(left, Some(Side::Left), !flat_before));
            values.push(point(right, Some(Side::Right), !flat_after));
        } else {
            let force = solution.jumps().get(number).is_some_and(|jump| jump.force_up != 0.0);
            let matters = match shown {
                // V has a kink where a spread load begins, ends or jumps
                Shown::Shear => {
                    let (before, after) = (
                        solution.load_intensity(station, Side::Left),
                        solution.load_intensity(station, Side::Right),
                    );
                    (before - after).abs() > 1e-9 * before.abs().max(after.abs())
                }
                Shown::Moment => force,
            };
            values.push(point(left, None, matters && !flat_before && !flat_after));
        }
        if flat_after && number >= place {
            let mut end = number + 1;
            while end + 1 < stations.len()
                && is_flat(end)
                && (solution.value(curve, stations[end], Side::Left)
                    - solution.value(curve, stations[end], Side::Right))
                .abs()
                    <= nothing
            {
                end += 1;
            }
            values.push(KeyValue {
                station: 0.5 * (station + stations[end]),
                side: None,
                value: right,
                // the slice tells the value of the plateau on which it stands
                labelled: right != 0.0
                    && !slice.is_some_and(|slice| station <= slice && slice < stations[end]),
                dot: false,
                peak: false,
            });
            place = end;
        }
    }
    for station in solution.turning_points(curve) {
        let value = solution.value(curve, station, Side::Left);
        values.push(KeyValue { station, side: None, value, labelled: value != 0.0, dot: true, peak: true });
    }
    let near = 1e-9 * length;
    values.sort_by(|a, b| a.station.total_cmp(&b.station));
    // a peak at a breakpoint is told once
    values.dedup_by(|later, earlier| {
        let same = (later.station - earlier.station).abs() <= near
            && later.side == earlier.side
            && (later.value - earlier.value).abs() <= nothing;
        if same {
            earlier.labelled |= later.labelled;
            earlier.dot |= later.dot;
            earlier.peak |= later.peak;
        }
        same
    });
    for value in &mut values {
        // the slice tells its own value
        let at_slice = slice.is_some_and(|slice| (value.station - slice).abs() <= near)
            && value.side != Some(Side::Left);
        value.labelled &= !at_slice;
    }
    let mut sizes: Vec<f64> =
        values.iter().filter(|value| value.labelled).map(|value| value.value.abs()).collect();
    sizes.sort_by(|a, b| b.total_cmp(a));
    if let Some(&least) = sizes.get(MOST_LABELS) {
        values.iter_mut().for_each(|value| value.labelled &= value.value.abs() > least);
    }
    let crossings = solution
        .zeros(curve)
        .into_iter()
        .filter_map(|zero| match zero {
            Zero::At { place, changes_sign: true } if place.side.is_none() => Some(place.station),
            _ => None,
        })
        .take(MOST_LABELS)
        .collect();
    KeyValues { values, crossings }
}
