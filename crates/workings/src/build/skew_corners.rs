//! The corners at which the skew bending stress is told: those of the hull of what is of one material.

use crate::material::Material;
use mechanics::section::{Point, Section};
use mechanics::stress::SkewBending;

/// Letters of the corners: no letter of a usual support, and none that is read as another or as a number.
const LETTERS: [&str; 16] =
    ["E", "F", "G", "H", "J", "K", "N", "S", "T", "U", "W", "X", "Y", "Z", "EE", "FF"];

/// A corner of the section, or of what of it is of one material, that a straight line can touch from outside; or the point of an arc that
/// lies farthest out.
#[derive(Clone, Debug, PartialEq)]
pub struct Corner {
    /// Its letter: `E`, counter-clockwise from the lowest corner; of several materials of one after the other.
    pub letter: String,
    /// Where it lies, in the coordinates of the outlines, m.
    pub at: Point,
}

/// The corners at which the skew bending stress is told.
#[derive(Clone, Debug, PartialEq)]
pub struct SkewCorners {
    /// Each once, whichever materials meet there.
    pub corners: Vec<Corner>,
    /// The same for each material; one entry where the section is of one.
    pub materials: Vec<MaterialCorners>,
}

/// The corners of what of a section is of one material.
#[derive(Clone, Debug, PartialEq)]
pub struct MaterialCorners {
    /// ` in steel`; nothing where the section is of one material.
    pub within: String,
    /// What the indices of its symbols begin with: `s, `; nothing where the section is of one material.
    pub prefix: String,
    /// Its parts, by their place in the section.
    pub parts: Vec<usize>,
    /// Its modulus over that of reference.
    pub modular_ratio: f64,
    /// Its corners, by their places among all.
    pub corners: Vec<usize>,
    /// Those of them that lie farthest from the neutral axis: first the one that is stretched most, or pressed least, under a sagging
    /// moment.
    pub farthest: [usize; 2],
}

impl SkewCorners {
    /// Those of a section of these materials, of one where there are none; none where it cannot be told which lie farthest.
    pub fn of(section: &Section, materials: &[Material]) -> Option<Self> {
        let near = 1e-7 * section.properties().height().max(section.properties().breadth());
        let mut points: Vec<Point> = Vec::new();
        let mut place_of = |point: Point| {
            let same = |other: &Point| (other.x - point.x).abs() <= near && (other.y - point.y).abs() <= near;
            points.iter().position(same).unwrap_or_else(|| {
                points.push(point);
                points.len() - 1
            })
        };
        let unit = SkewBending::under(section, 1.0);
        let mut corners_in = |within: String, prefix: String, parts: Vec<usize>, modular_ratio: f64| {
            let mut corners: Vec<usize> = section.hull_of(&parts).into_iter().map(&mut place_of).collect();
            let farthest = unit.extremes_in(section, &parts)?.map(|(point, _)| place_of(point));
            for place in farthest {
                if !corners.contains(&place) {
                    corners.push(place);
                }
            }
            Some(MaterialCorners { within, prefix, parts, modular_ratio, corners, farthest })
        };
        let materials: Option<Vec<MaterialCorners>> = if materials.is_empty() {
            let all = (0..section.parts().len()).collect();
            corners_in(String::new(), String::new(), all, 1.0).map(|only| vec![only])
        } else {
            let each = |of: &Material| {
                let (within, prefix) = (format!(" in {}", of.name), format!("{}, ", of.letter));
                corners_in(within, prefix, of.parts.clone(), of.modular_ratio)
            };
            materials.iter().map(each).collect()
        };
        let materials = materials?;
        let corner = |(count, at): (usize, Point)| {
            let letter =
                LETTERS.get(count).map_or_else(|| format!("E{count}"), |letter| (*letter).to_owned());
            Corner { letter, at }
        };
        Some(Self { corners: points.into_iter().enumerate().map(corner).collect(), materials })
    }
}
