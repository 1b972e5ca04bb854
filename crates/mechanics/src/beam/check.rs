//! Everything that is wrong with a beam, found at once.

use super::fault::{Fault, Given};
use super::{Beam, Freedom, Hold, Load, SAME_STATION, Side, Support};

impl Beam {
    /// Everything that is wrong with this beam, in the order length, rigidity, supports, hinges, loads, and last
    /// the motions that nothing prevents. Empty for a beam that can be solved, unless its results would be out
    /// of the range of numbers, which only [`Beam::solve`] can tell.
    ///
    /// Motions are looked for as soon as the length, the supports and the hinges are sound, whatever is wrong
    /// with the loads.
    pub fn faults(&self) -> Vec<Fault> {
        let mut faults = Vec::new();
        self.length_and_rigidity(&mut faults);
        let reach = Reach { length: self.length, near: SAME_STATION * self.length };
        let hinges = sorted(self.hinges.iter().copied());
        let sound_length = reach.near >= 0.0 && reach.length.is_finite() && self.length > 0.0;
        let before = faults.len();
        for (index, support) in self.supports.iter().enumerate() {
            support_alone(index, support, sound_length.then_some(reach), &mut faults);
        }
        for (index, &station) in self.hinges.iter().enumerate() {
            hinge_alone(index, station, sound_length.then_some(reach), &mut faults);
        }
        if sound_length {
            self.together(reach, &hinges, &mut faults);
        }
        let sound_holds = sound_length && faults.len() == before;
        for (index, load) in self.loads.iter().enumerate() {
            check_load(index, load, sound_length.then_some(reach), &hinges, &mut faults);
        }
        if sound_holds {
            faults.extend(self.free_motions().into_iter().map(Fault::Mechanism));
        }
        faults
    }

    fn length_and_rigidity(&self, faults: &mut Vec<Fault>) {
        if finite(Given::Length, self.length, faults) && self.length <= 0.0 {
            faults.push(Fault::LengthNotPositive { length: self.length });
        }
        let flexural_rigidity = self.flexural_rigidity;
        if finite(Given::FlexuralRigidity, flexural_rigidity, faults) && flexural_rigidity <= 0.0 {
            faults.push(Fault::RigidityNotPositive { flexural_rigidity });
        }
    }

    /// Supports and hinges that stand at one station.
    fn together(&self, reach: Reach, hinges: &[Stand], faults: &mut Vec<Fault>) {
        let supports = sorted(self.supports.iter().map(|support| support.station));
        for (first, second, station) in neighbours(&supports, reach) {
            faults.push(Fault::SupportsTogether { first, second, station });
        }
        for (first, second, station) in neighbours(hinges, reach) {
            faults.push(Fault::HingesTogether { first, second, station });
        }
        for (support, held) in self.supports.iter().enumerate() {
            let station = held.station;
            let hinge = reach.at(hinges, station).filter(|_| held.rotation != Hold::Free);
            if let Some(hinge) = hinge {
                faults.push(Fault::RotationHeldAtHinge { support, hinge, station });
            }
        }
    }
}

/// A station and the index of what stands there.
type Stand = (f64, usize);

/// In the order of the stations, so that thousands need not be compared pair by pair.
fn sorted(stations: impl Iterator<Item = f64>) -> Vec<Stand> {
    let mut stands: Vec<Stand> =
        stations.enumerate().filter(|(_, at)| at.is_finite()).map(|(index, at)| (at, index)).collect();
    stands.sort_unstable_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    stands
}

/// Those that stand at one station: the two indices in the order of the input, and the station.
fn neighbours(stands: &[Stand], reach: Reach) -> Vec<(usize, usize, f64)> {
    let together = stands.windows(2).filter(|pair| pair[1].0 - pair[0].0 <= reach.near);
    let mut pairs: Vec<_> =
        together.map(|pair| (pair[0].1.min(pair[1].1), pair[0].1.max(pair[1].1), pair[0].0)).collect();
    pairs.sort_unstable_by_key(|pair| (pair.0, pair.1));
    pairs
}

fn check_load(load: usize, given: &Load, reach: Option<Reach>, hinges: &[Stand], faults: &mut Vec<Fault>) {
    let off = |end, station: f64, faults: &mut Vec<Fault>| {
        let sound = finite(Given::LoadStation(load, end), station, faults);
        if let Some(reach) = reach.filter(|reach| sound && !reach.holds(station)) {
            faults.push(Fault::LoadOffBeam { load, end, station, length: reach.length });
        }
        sound
    };
    match *given {
        Load::Force { station, down } => {
            off(None, station, faults);
            finite(Given::LoadSize(load, None), down, faults);
        }
        Load::Couple { station, ccw } => {
            let sound = off(None, station, faults);
            finite(Given::LoadSize(load, None), ccw, faults);
            let hinge = reach.filter(|_| sound).and_then(|reach| reach.at(hinges, station));
            // A couple of no size has no side to ask for.
            if let Some(hinge) = hinge.filter(|_| ccw != 0.0) {
                faults.push(Fault::CoupleAtHinge { load, hinge, station });
            }
        }
        Load::Spread { from, to, down_from, down_to } => {
            let sound = off(Some(Side::Left), from, faults) & off(Some(Side::Right), to, faults);
            if sound && from == to {
                faults.push(Fault::SpreadOfNoLength { load, station: from });
            } else if sound && from > to {
                faults.push(Fault::SpreadBackwards { load, from, to });
            }
            finite(Given::LoadSize(load, Some(Side::Left)), down_from, faults);
            finite(Given::LoadSize(load, Some(Side::Right)), down_to, faults);
        }
    }
}

/// The stations that lie on the beam, and how near two are taken as one, m.
#[derive(Clone, Copy)]
struct Reach {
    length: f64,
    near: f64,
}

impl Reach {
    fn holds(self, station: f64) -> bool {
        station >= -self.near && station <= self.length + self.near
    }

    /// What stands at a station.
    fn at(self, stands: &[Stand], station: f64) -> Option<usize> {
        let first = stands.partition_point(|stand| stand.0 < station - self.near);
        stands.get(first).filter(|stand| stand.0 <= station + self.near).map(|stand| stand.1)
    }
}

/// Whether a number is finite; reports it if not.
fn finite(given: Given, value: f64, faults: &mut Vec<Fault>) -> bool {
    if !value.is_finite() {
        faults.push(Fault::NotFinite { given, value });
    }
    value.is_finite()
}

fn support_alone(support: usize, given: &Support, reach: Option<Reach>, faults: &mut Vec<Fault>) {
    let station = given.station;
    let sound = finite(Given::SupportStation(support), station, faults);
    if let Some(reach) = reach.filter(|reach| sound && !reach.holds(station)) {
        faults.push(Fault::SupportOffBeam { support, station, length: reach.length });
    }
    for (against, hold) in [(Freedom::Transverse, given.transverse), (Freedom::Rotation, given.rotation)] {
        match hold {
            Hold::Free => {}
            Hold::Rigid { moved } => {
                finite(Given::SupportMovement(support, against), moved, faults);
            }
            Hold::Spring { stiffness } => {
                if finite(Given::SupportStiffness(support, against), stiffness, faults) && stiffness <= 0.0 {
                    faults.push(Fault::StiffnessNotPositive { support, against, stiffness });
                }
            }
        }
    }
}

fn hinge_alone(hinge: usize, station: f64, reach: Option<Reach>, faults: &mut Vec<Fault>) {
    let sound = finite(Given::HingeStation(hinge), station, faults);
    let Some(reach) = reach.filter(|_| sound) else { return };
    if !reach.holds(station) {
        faults.push(Fault::HingeOffBeam { hinge, station, length: reach.length });
    } else if station <= reach.near || station >= reach.length - reach.near {
        faults.push(Fault::HingeAtEnd { hinge, station });
    }
}
