//! What acts on the slice from outside between its two faces.

use crate::solved::Solved;
use mechanics::beam::Load;

/// The loads and reactions on the slice.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct SliceLoad {
    /// The sum of their sizes, N; that of a couple counts over the slice's length.
    pub(super) size: f64,
    /// Their moment about the right face, N m: what makes `M' - M` less than `V dx`.
    pub(super) moment_about_right: f64,
    /// Whether some of it acts at a point, so that V or M jumps within the slice.
    pub(super) jumps: bool,
}

impl SliceLoad {
    /// Of the slice of a lesson.
    pub(super) fn of(solved: &Solved) -> Self {
        let ids = solved.slice();
        let (from, to) = (solved.value(ids.left_station), solved.value(ids.right_station));
        let length = to - from;
        let slack = crate::build::SAME_STATION * solved.problem().beam.length;
        // What acts at a face acts outside the slice: its V and M are the limits from inside.
        let inside = |x: f64| x > from + slack && x < to - slack;
        let mut sum = Self::default();
        for load in &solved.problem().beam.loads {
            match *load {
                Load::Force { station, down } if inside(station) => {
                    sum.add(down, to - station);
                    sum.jumps |= down != 0.0;
                }
                Load::Couple { station, ccw } if inside(station) => {
                    sum.turn(ccw, length);
                    sum.jumps |= ccw != 0.0;
                }
                Load::Spread { from: start, to: end, down_from, down_to } => {
                    let (a, b) = (start.max(from), end.min(to));
                    if b > a {
                        let at = |x: f64| down_from + (down_to - down_from) * (x - start) / (end - start);
                        // Two triangles, each with its centroid a third from its thick end.
                        let (w_a, w_b) = (at(a), at(b));
                        sum.add(w_a * (b - a) / 2.0, to - (a + (b - a) / 3.0));
                        sum.add(w_b * (b - a) / 2.0, to - (b - (b - a) / 3.0));
                    }
                }
                Load::Force { .. } | Load::Couple { .. } => {}
            }
        }
        for reaction in solved.beam().reactions() {
            if inside(reaction.station) {
                sum.add(-reaction.force, to - reaction.station);
                sum.turn(reaction.couple, length);
            }
        }
        sum
    }

    fn add(&mut self, down: f64, arm: f64) {
        self.size += down.abs();
        self.moment_about_right += down * arm;
    }

    fn turn(&mut self, ccw: f64, length: f64) {
        self.size += ccw.abs() / length;
        self.moment_about_right += ccw;
    }
}
