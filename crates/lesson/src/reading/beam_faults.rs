//! What the engine finds wrong with a beam, in words and at its place.

use super::beam::BeamRead;
use super::words::{along, force_in_words, listed};
use crate::finding::Report;
use mechanics::beam::{Beam, Fault, Given, Load, Motion, PieceMotion, Side};
use std::ops::Range;
use workings::problem::SupportKind;
use workings::style::Style;

/// Where the numbers of the beam stand in the file.
#[derive(Debug, Default)]
pub(super) struct Places {
    pub(super) length: Range<usize>,
    pub(super) supports_list: Range<usize>,
    pub(super) supports: Vec<Range<usize>>,
    pub(super) hinges: Vec<Range<usize>>,
    /// Of each load, where it stands or begins, and where it stands or ends.
    pub(super) loads: Vec<[Range<usize>; 2]>,
}

/// Tells all that is wrong. Motions are told only where every support was understood (`whole`), since the one that
/// was not may be the one that holds the beam.
pub(super) fn tell(read: &BeamRead, whole: bool, places: &Places, style: &Style, report: &mut Report) {
    // Without a length the motions can still be found: how the beam is held does not depend on where it ends.
    let stations =
        read.supports.iter().map(|(support, _)| support.station).chain(read.hinges.iter().copied());
    let furthest = stations.fold(0.0_f64, f64::max);
    let stand_in = if furthest > 0.0 && furthest.is_finite() { 2.0 * furthest } else { 1.0 };
    let known = read.length.is_some();
    let beam = read.beam(read.length.unwrap_or(stand_in), 1.0);
    if let Some(length) = read.length {
        tell_short_loads(read, length, places, style, report);
    }
    for fault in beam.faults() {
        match fault {
            Fault::Mechanism(motion) if whole => tell_motion(&motion, read, &beam, places, style, report),
            Fault::Mechanism(_) => {}
            Fault::SupportOffBeam { .. }
            | Fault::HingeAtEnd { .. }
            | Fault::LoadOffBeam { .. }
            | Fault::HingeOffBeam { .. }
                if !known && !begins_before(&fault) => {}
            fault => tell_fault(&fault, read, places, style, report),
        }
    }
}

/// A spread load over less than this part of the beam is a force in all but name: nobody could see how long it is.
const SHORTEST_SPREAD: f64 = 1e-5;

fn tell_short_loads(read: &BeamRead, length: f64, places: &Places, style: &Style, report: &mut Report) {
    for (index, (load, _)) in read.loads.iter().enumerate() {
        let Load::Spread { from, to, down_from, down_to } = *load else { continue };
        if to > from && to - from < SHORTEST_SPREAD * length {
            let force = 0.5 * (down_from + down_to) * (to - from);
            let [_, place] = places.loads.get(index).cloned().unwrap_or_default();
            report
                .add(
                    place,
                    format!(
                        "the spread load is only {} long, on a beam of {}",
                        along(style, to - from),
                        along(style, length)
                    ),
                )
                .mend(format!(
                    "give a force instead: {{ force = \"{}\", at = \"{}\" }}",
                    force_in_words(style, force),
                    along(style, from)
                ));
        }
    }
}

/// Whether what is off the beam stands before its beginning, which is known without its length.
fn begins_before(fault: &Fault) -> bool {
    match fault {
        Fault::SupportOffBeam { station, .. }
        | Fault::HingeOffBeam { station, .. }
        | Fault::LoadOffBeam { station, .. } => *station < 0.0,
        _ => false,
    }
}

fn place_of(spans: &[Range<usize>], index: usize, otherwise: &Range<usize>) -> Range<usize> {
    spans.get(index).unwrap_or(otherwise).clone()
}

fn tell_fault(fault: &Fault, read: &BeamRead, places: &Places, style: &Style, report: &mut Report) {
    let at = |station: f64| along(style, station);
    let support_place = |index: usize| place_of(&places.supports, index, &places.supports_list);
    let hinge_place = |index: usize| place_of(&places.hinges, index, &places.length);
    let load_place = |index: usize, end: Option<Side>| {
        let [from, to] =
            places.loads.get(index).cloned().unwrap_or([places.length.clone(), places.length.clone()]);
        if end == Some(Side::Right) { to } else { from }
    };
    let length = read.length.unwrap_or(0.0);
    let off = |what: String, station: f64, inside: &str| {
        let (where_it_is, longer) = if station < 0.0 {
            ("begins at 0".to_owned(), String::new())
        } else {
            (
                format!("ends at {}", at(length)),
                format!(", or lengthen the beam: length = \"{}\"", at(station)),
            )
        };
        (
            format!("{what} at {} lies off the beam, which {where_it_is}", at(station)),
            format!(
                "give a position {inside} 0 {} {}{longer}",
                if inside == "from" { "to" } else { "and" },
                at(length)
            ),
        )
    };
    let too_large = "this number is too large to compute with".to_owned();
    let (span, headline, mend) = match fault {
        Fault::LengthNotPositive { length } => (
            places.length.clone(),
            format!("the length must be greater than zero; it is {}", at(*length)),
            "give a positive length, such as \"4 m\"".to_owned(),
        ),
        Fault::SupportOffBeam { support, station, .. } => {
            let (headline, mend) = off("the support".to_owned(), *station, "from");
            (support_place(*support), headline, mend)
        }
        Fault::HingeOffBeam { hinge, station, .. } => {
            let (headline, mend) = off("the hinge".to_owned(), *station, "between");
            (hinge_place(*hinge), headline, mend)
        }
        Fault::LoadOffBeam { load, end, station, .. } => {
            let what = match end {
                None => "the load",
                Some(Side::Left) => "the beginning of the spread load",
                Some(Side::Right) => "the end of the spread load",
            };
            let (headline, mend) = off(what.to_owned(), *station, "from");
            (load_place(*load, *end), headline, mend)
        }
        Fault::HingeAtEnd { hinge, station } => (
            hinge_place(*hinge),
            format!("the hinge at {} lies at the end of the beam and joins nothing", at(*station)),
            "take it out, or put it inside the beam".to_owned(),
        ),
        Fault::SupportsTogether { first, second, station } => {
            let _ = first;
            (
                support_place(*second),
                format!("there are two supports at {}: their shares are not determined", at(*station)),
                "keep one".to_owned(),
            )
        }
        Fault::HingesTogether { second, station, .. } => {
            (hinge_place(*second), format!("there are two hinges at {}", at(*station)), "keep one".to_owned())
        }
        Fault::RotationHeldAtHinge { support, station, .. } => (
            support_place(*support),
            format!(
                "this support keeps the beam from turning, but there is a hinge at {}: which piece is meant is not said",
                at(*station)
            ),
            "make it a pin, or move the hinge a little to one side".to_owned(),
        ),
        Fault::CoupleAtHinge { load, station, .. } => (
            load_place(*load, None),
            format!("the couple acts exactly at the hinge at {}: on which piece is not said", at(*station)),
            "move it a little to the left or to the right of the hinge".to_owned(),
        ),
        Fault::SpreadOfNoLength { load, station } => (
            load_place(*load, Some(Side::Right)),
            format!("the spread load starts and ends at {}", at(*station)),
            "for a load at a point give a force: { force = \"5 kN\", at = ... }; or give two different ends"
                .to_owned(),
        ),
        Fault::SpreadBackwards { load, from, to } => (
            load_place(*load, Some(Side::Right)),
            format!("the spread load ends at {}, before it begins at {}", at(*to), at(*from)),
            format!("exchange the two: from = \"{}\", to = \"{}\"", at(*to), at(*from)),
        ),
        Fault::StiffnessNotPositive { support, .. } => (
            support_place(*support),
            "the stiffness must be greater than zero".to_owned(),
            "give a stiffness such as \"500 kN/m\"".to_owned(),
        ),
        Fault::RigidityNotPositive { .. } | Fault::ShearFlexibility { .. } | Fault::OutOfRange => (
            places.length.clone(),
            "the numbers of this beam are too large or too small to compute with".to_owned(),
            "check the units".to_owned(),
        ),
        Fault::NotFinite { given, .. } => {
            let span = match given {
                Given::Length | Given::FlexuralRigidity => places.length.clone(),
                Given::SupportStation(index)
                | Given::SupportMovement(index, _)
                | Given::SupportStiffness(index, _) => support_place(*index),
                Given::HingeStation(index) => hinge_place(*index),
                Given::LoadStation(index, end) | Given::LoadSize(index, end) => load_place(*index, *end),
            };
            (span, too_large, "check the units".to_owned())
        }
        Fault::Mechanism(_) => return,
    };
    report.add(span, headline).mend(mend);
}

fn tell_motion(
    motion: &Motion,
    read: &BeamRead,
    beam: &Beam,
    places: &Places,
    style: &Style,
    report: &mut Report,
) {
    let at = |station: f64| along(style, station);
    match motion {
        Motion::Loose => {
            report
                .add(places.supports_list.clone(), "nothing holds the beam")
                .mend("give it supports: a pin and a roller, or a fixed end");
        }
        Motion::Slides => {
            report
                .add(places.supports_list.clone(), "nothing holds the beam up: it slides down as a whole")
                .mend("add a support that carries a vertical force: a pin, a roller or a fixed end");
        }
        Motion::TurnsAbout { support, station } => {
            let kind = match read.supports.get(*support).map(|(_, label)| label.kind) {
                Some(SupportKind::Roller) => "roller",
                Some(SupportKind::Spring) => "spring",
                Some(SupportKind::Pin) => "pin",
                _ => "support",
            };
            report
                .add(
                    place_of(&places.supports, *support, &places.supports_list),
                    format!("the beam is free to turn about the {kind} at {}", at(*station)),
                )
                .detail("nothing else keeps it from turning")
                .mend("add a second support, or make this one a fixed end");
        }
        Motion::Folds { folding, moving, pieces } => {
            let hinges: Vec<String> = folding.iter().map(|hinge| at(hinge.station)).collect();
            let place = folding
                .first()
                .map_or(places.length.clone(), |first| place_of(&places.hinges, first.hinge, &places.length));
            let (headline, mend) = match (folding.as_slice(), moving.as_slice()) {
                ([hinge], []) => {
                    let swinging =
                        pieces.iter().find(|piece| matches!(piece.motion, PieceMotion::TurnsAbout { .. }));
                    let which = swinging.map_or(String::new(), |piece| {
                        format!(" between {} and {}", at(piece.from), at(piece.to))
                    });
                    (
                        format!(
                            "the piece of the beam{which} swings freely about the hinge at {}",
                            at(hinge.station)
                        ),
                        "take the hinge out, or hold the piece with one more support".to_owned(),
                    )
                }
                ([hinge], _) if beam.hinges.len() == 1 => (
                    format!(
                        "the two pieces can fold at the hinge at {}, which moves down freely",
                        at(hinge.station)
                    ),
                    "take the hinge out, add one more support, or make one end fixed".to_owned(),
                ),
                ([hinge], _) => (
                    format!(
                        "the pieces on both sides of the hinge at {} fold there, and it moves down freely",
                        at(hinge.station)
                    ),
                    "take a hinge out, or add one more support".to_owned(),
                ),
                _ => (
                    format!("the pieces between the hinges at {} fold down freely", listed(&hinges, "and")),
                    format!(
                        "at most two hinges can stand in one span; take one of these {} out, or add a support between them",
                        hinges.len()
                    ),
                ),
            };
            report.add(place, headline).mend(mend);
        }
    }
}
