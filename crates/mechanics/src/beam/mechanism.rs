//! Motions that nothing prevents, found from the kinematics of the rigid pieces between hinges.

use super::{Beam, Hold, SAME_STATION};
use std::fmt;

/// A hinge that takes part in a motion.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HingeAt {
    /// Index into [`Beam::hinges`](super::Beam::hinges).
    pub hinge: usize,
    /// Where it lies, m.
    pub station: f64,
}

/// How one rigid piece moves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PieceMotion {
    /// It keeps its direction and goes up or down.
    Slides,
    /// It turns about a station, which may lie off the piece.
    TurnsAbout {
        /// The centre, m.
        station: f64,
    },
}

/// A rigid piece of the beam, between hinges or ends, that moves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MovingPiece {
    /// Its left end, m.
    pub from: f64,
    /// Its right end, m.
    pub to: f64,
    /// Movement of its left end, positive up, as a share of the largest of the whole motion, which goes down (-1).
    pub up_from: f64,
    /// Movement of its right end, in the same measure.
    pub up_to: f64,
    /// How it moves.
    pub motion: PieceMotion,
}

/// A motion that nothing prevents, however small the load.
#[derive(Clone, Debug, PartialEq)]
pub enum Motion {
    /// Nothing at all holds the beam: it falls and turns.
    Loose,
    /// Nothing holds the beam up: it slides up and down as a whole.
    Slides,
    /// The beam as a whole turns about its one support.
    TurnsAbout {
        /// The support.
        support: usize,
        /// Where it stands, m.
        station: f64,
    },
    /// Pieces of the beam move against each other, or one swings about the hinge that joins it to the rest.
    Folds {
        /// The hinges at which the motion folds the beam, from left to right; never empty.
        folding: Vec<HingeAt>,
        /// Those hinges that move up or down themselves, from left to right; empty where a free end swings
        /// about a hinge that stays.
        moving: Vec<HingeAt>,
        /// The pieces that move, from left to right; never empty.
        pieces: Vec<MovingPiece>,
    },
}

impl fmt::Display for Motion {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Motion::Loose => write!(f, "nothing holds the beam: it falls and turns"),
            Motion::Slides => write!(f, "nothing holds the beam up: it slides up and down as a whole"),
            Motion::TurnsAbout { support, station } => {
                write!(f, "the beam is free to turn about support {} at {station} m", support + 1)
            }
            Motion::Folds { folding, moving, pieces } => {
                let stations = |hinges: &[HingeAt]| {
                    let list: Vec<_> = hinges.iter().map(|at| format!("{} m", at.station)).collect();
                    list.join(", ")
                };
                let (from, to) =
                    pieces.first().zip(pieces.last()).map_or((0.0, 0.0), |(a, b)| (a.from, b.to));
                write!(
                    f,
                    "the beam between {from} m and {to} m moves freely: it folds at {}",
                    stations(folding)
                )?;
                if !moving.is_empty() {
                    write!(f, ", where the hinge at {} goes up or down", stations(moving))?;
                }
                Ok(())
            }
        }
    }
}

impl Beam {
    /// The motions that nothing prevents, one for each independent one, from left to right.
    ///
    /// Between hinges the beam is rigid here, so a motion is a chain of straight lines and is told by how far the
    /// two ends and the hinges move. A piece with one hold ties the movements of its two ends to each other, two
    /// holds or a support under an end keep it still. So the ends and hinges fall into groups that move together,
    /// and a group that nothing keeps still is a motion. No stiffness and no tolerance enters.
    ///
    /// The length must be positive and supports and hinges sound ([`Beam::faults`] sees to that).
    pub(super) fn free_motions(&self) -> Vec<Motion> {
        if self.supports.iter().all(|held| held.transverse == Hold::Free && held.rotation == Hold::Free) {
            return vec![Motion::Loose];
        }
        let chain = Chain::new(self);
        let mut motions = Vec::new();
        let mut first = 0;
        while first < chain.joints.len() {
            let mut last = first;
            while last < chain.pieces.len() && !matches!(chain.pieces[last], Tie::Loose) {
                last += 1;
            }
            if (first..=last).all(|joint| !chain.still(joint)) {
                motions.push(chain.motion(first, last));
            }
            first = last + 1;
        }
        motions
    }
}

/// How the holds of one rigid piece tie the movements of its two ends.
#[derive(Clone, Copy, PartialEq)]
enum Tie {
    /// Not at all.
    Loose,
    /// It keeps its direction.
    Parallel,
    /// It turns about a support inside it.
    About { support: usize, station: f64 },
    /// It stays where it is.
    Still,
}

/// An end of the beam or a hinge.
struct Joint {
    station: f64,
    hinge: Option<usize>,
    /// The support that stands under it and holds it up.
    support: Option<usize>,
}

/// The beam as rigid pieces between joints; piece `k` lies between the joints `k` and `k + 1`.
struct Chain {
    joints: Vec<Joint>,
    pieces: Vec<Tie>,
}

impl Chain {
    fn new(beam: &Beam) -> Self {
        let near = SAME_STATION * beam.length;
        let mut joints: Vec<_> = (beam.hinges.iter().enumerate())
            .map(|(hinge, &station)| Joint { station, hinge: Some(hinge), support: None })
            .collect();
        joints.push(Joint { station: 0.0, hinge: None, support: None });
        joints.push(Joint { station: beam.length, hinge: None, support: None });
        joints.sort_unstable_by(|a, b| a.station.total_cmp(&b.station));
        let mut pieces = vec![Tie::Loose; joints.len() - 1];
        for (support, held) in beam.supports.iter().enumerate() {
            let at = joints.partition_point(|joint| joint.station < held.station - near);
            let at_joint = joints.get(at).is_some_and(|joint| (joint.station - held.station).abs() <= near);
            // At a hinge a support holds no rotation, so at a joint the rotation is that of an end piece.
            let piece = if at_joint { at.min(pieces.len() - 1) } else { at.saturating_sub(1) };
            if held.rotation != Hold::Free {
                pieces[piece] = match pieces[piece] {
                    Tie::Loose | Tie::Parallel => Tie::Parallel,
                    Tie::About { .. } | Tie::Still => Tie::Still,
                };
            }
            if held.transverse == Hold::Free {
                continue;
            }
            if at_joint {
                joints[at].support = Some(support);
            } else {
                pieces[piece] = match pieces[piece] {
                    Tie::Loose => Tie::About { support, station: held.station },
                    Tie::Parallel | Tie::About { .. } | Tie::Still => Tie::Still,
                };
            }
        }
        Self { joints, pieces }
    }

    /// Whether a joint is kept still by what stands under it or by the pieces beside it.
    fn still(&self, joint: usize) -> bool {
        let beside = [joint.checked_sub(1).and_then(|left| self.pieces.get(left)), self.pieces.get(joint)];
        self.joints[joint].support.is_some() || beside.contains(&Some(&Tie::Still))
    }

    /// The motion in which the joints `first ..= last` move and all others stay.
    fn motion(&self, first: usize, last: usize) -> Motion {
        if self.pieces.len() == 1 {
            if let Tie::About { support, station } = self.pieces[0] {
                return Motion::TurnsAbout { support, station };
            }
            // A support under one end: the other end goes round it.
            let under_an_end = self.joints.iter().find_map(|joint| Some((joint.support?, joint.station)));
            return match under_an_end {
                Some((support, station)) => Motion::TurnsAbout { support, station },
                None => Motion::Slides,
            };
        }
        let mut up = vec![0.0; self.joints.len()];
        up[first] = 1.0;
        for piece in first..last {
            let (from, to) = (self.joints[piece].station, self.joints[piece + 1].station);
            up[piece + 1] = match self.pieces[piece] {
                Tie::About { station, .. } => -up[piece] * (to - station) / (station - from),
                _ => up[piece],
            };
        }
        let largest = up.iter().copied().fold(0.0, |a: f64, b| if b.abs() > a.abs() { b } else { a });
        for up in &mut up {
            *up /= -largest;
        }
        let pieces: Vec<_> = (first.saturating_sub(1)..(last + 1).min(self.pieces.len()))
            .map(|piece| self.moving_piece(piece, up[piece], up[piece + 1]))
            .collect();
        let hinges = |keep: &dyn Fn(usize) -> bool| -> Vec<HingeAt> {
            let kept = (0..self.joints.len()).filter(|&joint| keep(joint));
            let at = |joint: usize| {
                let Joint { station, hinge, .. } = self.joints[joint];
                hinge.map(|hinge| HingeAt { hinge, station })
            };
            kept.filter_map(at).collect()
        };
        let slope = |piece: usize| {
            (up[piece + 1] - up[piece]) / (self.joints[piece + 1].station - self.joints[piece].station)
        };
        let inner = 1..self.joints.len() - 1;
        let folds = |joint: usize| inner.contains(&joint) && slope(joint - 1) != slope(joint);
        if (0..self.joints.len()).any(folds) {
            Motion::Folds { folding: hinges(&folds), moving: hinges(&|joint| up[joint] != 0.0), pieces }
        } else {
            Motion::Slides
        }
    }

    fn moving_piece(&self, piece: usize, up_from: f64, up_to: f64) -> MovingPiece {
        let (from, to) = (self.joints[piece].station, self.joints[piece + 1].station);
        let motion = match self.pieces[piece] {
            Tie::Parallel => PieceMotion::Slides,
            Tie::About { station, .. } => PieceMotion::TurnsAbout { station },
            _ if up_from == up_to => PieceMotion::Slides,
            _ => PieceMotion::TurnsAbout { station: from + (to - from) * up_from / (up_from - up_to) },
        };
        MovingPiece { from, to, up_from, up_to, motion }
    }
}

#[cfg(test)]
mod tests {
    use crate::beam::{Beam, Fault, Motion, Support};

    /// Closed form: one support that lets the beam turn leaves the turn about it, also where it stands under an end.
    #[test]
    fn a_beam_on_one_pin_turns_about_it_wherever_it_stands() {
        for station in [0.0, 2.0, 6.0] {
            let beam = Beam {
                length: 6.0,
                flexural_rigidity: 1.0,
                supports: vec![Support::pin(station)],
                hinges: Vec::new(),
                loads: Vec::new(),
            };
            assert_eq!(beam.faults(), [Fault::Mechanism(Motion::TurnsAbout { support: 0, station })]);
        }
    }
}
