//! How the file may state the place at which something was dragged to rest, in words rather than as a number.
//!
//! Words keep to the place: a cut at a joint stays there where the planks get thicker, and a support at `"2*L"` stands at the
//! end of the beam on every paper, also where L is shorter.

use figure::grip::{Snap, Subject};
use lesson::Lesson;
use lesson::edit::Input;
use mechanics::section::Section;
use workings::reading::{self, Names};

/// Two places nearer than this, as a part of the larger, are one: both come from the same few decimals.
const SAME: f64 = 1e-9;

/// The words of a lesson for its places.
pub(crate) struct StopWords<'a> {
    lesson: &'a Lesson,
    section: &'a Section,
    along: Vec<PlaceAlong>,
}

/// A place along the beam that changes from paper to paper.
struct PlaceAlong {
    /// Where the file states it; empty where it only could.
    path: String,
    written: String,
    /// Its distance from the left end, m.
    value: f64,
}

impl<'a> StopWords<'a> {
    pub(crate) fn new(lesson: &'a Lesson, section: &'a Section, inputs: &[Input]) -> Self {
        Self { lesson, section, along: along(lesson, inputs) }
    }

    /// The words for a stop of what stands at a path, where there are any.
    pub(crate) fn of(&self, subject: Subject, path: &str, snap: &Snap) -> Option<String> {
        match subject {
            Subject::Cut => self.across(snap),
            Subject::Station
            | Subject::LoadPlace(_)
            | Subject::LoadFrom(_)
            | Subject::LoadTo(_)
            | Subject::SupportPlace(_) => {
                let mut others = self.along.iter().filter(|place| place.path != path);
                others.find(|place| is_same(place.value, snap.value)).map(|place| place.written.clone())
            }
            _ => None,
        }
    }

    /// A height of the section: the neutral axis, a joint, or the line on which a part stands.
    fn across(&self, snap: &Snap) -> Option<String> {
        let mut joints = self.lesson.problem.joints.iter();
        if snap.name == "neutral axis" || joints.any(|joint| joint.name == snap.name) {
            return Some(snap.name.clone());
        }
        let level = self.section.contacts().iter().filter(|contact| contact.is_level());
        let mut here = level.filter(|contact| is_same(contact.start.y, snap.value));
        let contact = here.next()?;
        let is_above = |&part: &usize| {
            self.section.part_properties(part).is_some_and(|part| part.centroid.y > snap.value)
        };
        let above = [contact.first, contact.second].into_iter().find(is_above)?;
        let names = &self.lesson.problem.part_names;
        let name = names.get(above)?;
        let alone = names.iter().filter(|other| *other == name).count() == 1;
        alone.then(|| format!("bottom of {name}"))
    }
}

/// The end of the beam and its middle, then what else stands along it.
fn along(lesson: &Lesson, inputs: &[Input]) -> Vec<PlaceAlong> {
    let moving = lesson.moving();
    if moving.is_empty() {
        return Vec::new();
    }
    let names: Names = lesson.values.iter().map(|named| (named.name.clone(), named.quantity)).collect();
    let mut places = Vec::new();
    for input in inputs.iter().filter(|input| is_place(&input.path)) {
        let Ok(parsed) = reading::parse(&input.written) else { continue };
        let Ok(quantity) = parsed.evaluate(&names) else { continue };
        if !parsed.names().iter().any(|(name, _)| moving.contains(*name)) {
            continue;
        }
        let written = input.written.trim();
        places.push(PlaceAlong {
            path: input.path.clone(),
            written: written.to_owned(),
            value: quantity.value,
        });
        if input.path == "beam.length" && names.contains_key(written) {
            let (written, value) = (format!("{written}/2"), quantity.value / 2.0);
            places.push(PlaceAlong { path: String::new(), written, value });
        }
    }
    places
}

/// Whether the value at a path is a place along the beam.
fn is_place(path: &str) -> bool {
    let Some(rest) = path.strip_prefix("beam.") else { return false };
    let key = rest.rsplit_once('.').map_or("", |(_, key)| key);
    rest == "length"
        || rest.starts_with("hinges[")
        || (rest.starts_with("supports[") && ["pin", "roller", "fixed", "guided", "spring"].contains(&key))
        || (rest.starts_with("loads[") && ["at", "from", "to"].contains(&key))
}

fn is_same(one: f64, other: f64) -> bool {
    (one - other).abs() <= SAME * one.abs().max(other.abs())
}
