//! The beam cut at its breakpoints: what acts at each, and the spread load between them.

use super::twofold::Twofold;
use super::{Beam, Load, SAME_STATION};

// A load spread over less than this share of the beam's length is taken as two forces at its ends that have
// the same resultant and moment; M in between changes by less than this share of the resultant times the
// length. Shorter ones could be distorted when their ends are taken as one with stations of other things.
const SPREAD_AS_FORCES: f64 = 1e-10;

/// A station at which something stands, acts, begins or ends.
#[derive(Clone, Copy, Debug)]
pub(super) struct Breakpoint {
    pub(super) station: f64,
    /// Sum of the applied point forces, N, down.
    pub(super) down: f64,
    /// Sum of the applied couples, N m, counter-clockwise.
    pub(super) ccw: f64,
    /// Load intensity just right of it, N/m, down, and its growth, N/m².
    pub(super) intensity: f64,
    pub(super) growth: f64,
}

/// A breakpoint where the beam is held or jointed, or ends.
#[derive(Clone, Copy, Debug)]
pub(super) struct Node {
    /// Index of its breakpoint.
    pub(super) breakpoint: usize,
    pub(super) support: Option<usize>,
    pub(super) hinge: bool,
}

/// The beam's breakpoints and nodes, from left to right; the first and the last of either are the ends.
pub(super) struct Layout {
    pub(super) breakpoints: Vec<Breakpoint>,
    pub(super) nodes: Vec<Node>,
}

#[derive(Clone, Copy)]
enum Event {
    End,
    Support(usize),
    Hinge,
    Force(f64),
    Couple(f64),
    SpreadBegins(u32),
    SpreadEnds(u32),
}

/// A spread load, its ends moved to the breakpoints they belong to.
#[derive(Clone, Copy)]
struct Spread {
    from: f64,
    to: f64,
    down_from: f64,
    down_to: f64,
    /// What keeps the resultant the same when the ends moved by a rounding.
    factor: f64,
}

impl Spread {
    fn growth(&self) -> Twofold {
        let rise =
            Twofold::product(self.down_to, self.factor).minus(Twofold::product(self.down_from, self.factor));
        rise.over(Twofold::sum(self.to, -self.from))
    }
}

impl Layout {
    /// Lays out a beam without faults.
    pub(super) fn of(beam: &Beam) -> Self {
        let mut spreads = Vec::new();
        let mut events = events(beam, &mut spreads);
        // Stable, so that forces at one station are added in the order of the loads, on any machine.
        events.sort_by(|a, b| a.0.total_cmp(&b.0));
        let near = SAME_STATION * beam.length;
        let mut breakpoints: Vec<Breakpoint> = Vec::with_capacity(events.len());
        let mut nodes = Vec::with_capacity(beam.supports.len() + beam.hinges.len() + 2);
        let mut ends = Vec::with_capacity(events.len());
        let mut group = 0;
        while group < events.len() {
            let mut end = group;
            while end < events.len() && events[end].0 - events[group].0 <= near {
                end += 1;
            }
            let together = &mut events[group..end];
            breakpoints.push(breakpoint(together, breakpoints.len(), &mut nodes));
            let station = breakpoints[breakpoints.len() - 1].station;
            for (_, event) in together {
                match *event {
                    Event::SpreadBegins(index) => spreads[index as usize].from = station,
                    Event::SpreadEnds(index) => spreads[index as usize].to = station,
                    _ => {}
                }
            }
            ends.push(end);
            group = end;
        }
        spread_out(&events, &ends, &mut spreads, &mut breakpoints);
        Self { breakpoints, nodes }
    }
}

fn events(beam: &Beam, spreads: &mut Vec<Spread>) -> Vec<(f64, Event)> {
    let on_beam = |station: f64| station.clamp(0.0, beam.length);
    let count = 2 + beam.supports.len() + beam.hinges.len() + 2 * beam.loads.len();
    let mut events = Vec::with_capacity(count);
    events.push((0.0, Event::End));
    events.push((beam.length, Event::End));
    for (index, support) in beam.supports.iter().enumerate() {
        events.push((on_beam(support.station), Event::Support(index)));
    }
    events.extend(beam.hinges.iter().map(|&station| (on_beam(station), Event::Hinge)));
    for load in &beam.loads {
        match *load {
            Load::Force { station, down } => events.push((on_beam(station), Event::Force(down))),
            Load::Couple { station, ccw } => events.push((on_beam(station), Event::Couple(ccw))),
            Load::Spread { from, to, down_from, down_to } => {
                let length = to - from;
                let (from, to) = (on_beam(from), on_beam(to));
                if length <= SPREAD_AS_FORCES * beam.length {
                    let third = length / 6.0;
                    events.push((from, Event::Force((2.0 * down_from + down_to) * third)));
                    events.push((to, Event::Force((down_from + 2.0 * down_to) * third)));
                } else {
                    let index = spreads.len() as u32;
                    spreads.push(Spread { from, to, down_from, down_to, factor: length });
                    events.push((from, Event::SpreadBegins(index)));
                    events.push((to, Event::SpreadEnds(index)));
                }
            }
        }
    }
    events
}

/// Makes one breakpoint of events at one station.
fn breakpoint(together: &[(f64, Event)], index: usize, nodes: &mut Vec<Node>) -> Breakpoint {
    let mut made = Breakpoint { station: together[0].0, down: 0.0, ccw: 0.0, intensity: 0.0, growth: 0.0 };
    let mut node = Node { breakpoint: index, support: None, hinge: false };
    let (mut is_node, mut rank) = (false, 0);
    // What holds the beam says where the breakpoint is, before what loads it.
    let mut stands = |station: f64, its_rank: u8, made: &mut Breakpoint| {
        is_node = true;
        if its_rank > rank {
            rank = its_rank;
            made.station = station;
        }
    };
    for &(station, event) in together {
        match event {
            Event::End => stands(station, 3, &mut made),
            Event::Support(support) => {
                node.support = Some(support);
                stands(station, 2, &mut made);
            }
            Event::Hinge => {
                node.hinge = true;
                stands(station, 1, &mut made);
            }
            Event::Force(down) => made.down += down,
            Event::Couple(ccw) => made.ccw += ccw,
            Event::SpreadBegins(_) | Event::SpreadEnds(_) => {}
        }
    }
    if is_node {
        nodes.push(node);
    }
    made
}

/// Writes the sum of the spread loads right of each breakpoint, whose events end at `ends`.
fn spread_out(
    events: &[(f64, Event)],
    ends: &[usize],
    spreads: &mut [Spread],
    breakpoints: &mut [Breakpoint],
) {
    for spread in spreads.iter_mut() {
        // It held the length as given.
        spread.factor /= spread.to - spread.from;
    }
    let (mut intensity, mut growth) = (Twofold::default(), Twofold::default());
    let mut active = 0_usize;
    let (mut begin, mut before) = (0, 0.0);
    for (breakpoint, &end) in breakpoints.iter_mut().zip(ends) {
        intensity = intensity.plus(growth.times(Twofold::sum(breakpoint.station, -before)));
        for (_, event) in &events[begin..end] {
            match *event {
                Event::SpreadBegins(which) => {
                    let spread = spreads[which as usize];
                    intensity = intensity.plus(Twofold::product(spread.down_from, spread.factor));
                    growth = growth.plus(spread.growth());
                    active += 1;
                }
                Event::SpreadEnds(which) => {
                    let spread = spreads[which as usize];
                    intensity = intensity.minus(Twofold::product(spread.down_to, spread.factor));
                    growth = growth.minus(spread.growth());
                    active -= 1;
                }
                _ => {}
            }
        }
        if active == 0 {
            (intensity, growth) = (Twofold::default(), Twofold::default());
        }
        breakpoint.intensity = intensity.value();
        breakpoint.growth = growth.value();
        (begin, before) = (end, breakpoint.station);
    }
}
