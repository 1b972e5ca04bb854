//! Which key of the lesson file makes a part of the section as wide or as high as it is.
//!
//! A flange is as wide as `section.width` says and its web as high as the whole section less the flanges. Which keys a
//! shape has and how they make its parts is the lesson crate's knowledge and stands nowhere else: it is found out by
//! trying. Each key is made a little larger, the lesson is read again, and what has grown hangs on that key. The sides of
//! every shape grow in proportion to their keys, so one trial says all.

use figure::grip::PartSide;
use lesson::Lesson;
use lesson::edit::{Input, Manuscript, NewValue};
use mechanics::section::{Figure, Part};
use workings::dimension::Dimension;
use workings::reading::{self, Names};

/// By how much a key is made larger, as a part of itself; a power of two, so that it is made so exactly.
const TRIAL: f64 = 1.0 / 1024.0;

/// A key and the side of a part that hangs on it: `side = base + slope * key`.
#[derive(Clone, Debug, PartialEq)]
pub struct SectionKey {
    part: usize,
    which: PartSide,
    /// Where the key stands.
    pub path: String,
    /// The side where the key would be nothing, m.
    pub base: f64,
    /// How much the side grows with the key; more than nothing.
    pub slope: f64,
}

/// The keys of all rectangular parts.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SectionKeys {
    keys: Vec<SectionKey>,
}

impl SectionKeys {
    /// Tries every length under `[section]` of a text that reads as this lesson.
    pub fn tried(text: &str, lesson: &Lesson, inputs: &[Input]) -> Self {
        let names: Names = lesson.values.iter().map(|named| (named.name.clone(), named.quantity)).collect();
        let sides = sides(&lesson.problem.parts);
        let mut keys: Vec<SectionKey> = Vec::new();
        for input in inputs.iter().filter(|input| is_of_a_part(&input.path)) {
            let Ok(now) = reading::read(&input.written, Dimension::LENGTH, "1 mm", &names) else { continue };
            let now = now.value;
            let larger = now * (1.0 + TRIAL);
            let mut manuscript = Manuscript::new(text);
            if manuscript.set(&input.path, NewValue::Text(&format!("{larger:e} m"))).is_err() {
                continue;
            }
            let Some(trial) = lesson::read_as_shown(manuscript.text(), "").reading.lesson else { continue };
            let grown = self::sides(&trial.problem.parts);
            if grown.len() != sides.len() {
                continue;
            }
            for (&(part, which, side), &(_, _, grown)) in sides.iter().zip(&grown) {
                let slope = (grown - side) / (larger - now);
                if slope > 1e-6 {
                    keys.push(SectionKey {
                        part,
                        which,
                        path: input.path.clone(),
                        base: side - slope * now,
                        slope,
                    });
                }
            }
        }
        Self { keys }
    }

    /// The key of one side of a part: of several the one on which it hangs most.
    pub fn of(&self, part: usize, which: PartSide) -> Option<&SectionKey> {
        let own = self.keys.iter().filter(|key| key.part == part && key.which == which);
        own.max_by(|a, b| a.slope.total_cmp(&b.slope))
    }
}

/// A length of the section that may make a part as large as it is.
fn is_of_a_part(path: &str) -> bool {
    path.starts_with("section.")
        && !["joints[", "holes[", "outline["].iter().any(|list| path.contains(list))
        && ![".left", ".right", ".bottom", ".top", ".E", ".density"].iter().any(|key| path.ends_with(key))
}

/// The sides of the rectangular parts, m.
fn sides(parts: &[Part]) -> Vec<(usize, PartSide, f64)> {
    let mut sides = Vec::new();
    for (number, part) in parts.iter().enumerate() {
        if let Figure::Rectangle { breadth, height } = part.figure {
            sides.push((number, PartSide::Width, breadth));
            sides.push((number, PartSide::Height, height));
        }
    }
    sides
}
