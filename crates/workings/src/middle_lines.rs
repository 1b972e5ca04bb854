//! What is said where the walls of a section are not taken as lines.

use crate::build::with_article;
use crate::dimension::Dimension;
use crate::quantity::Quantity;
use crate::role::Role;
use crate::solved::Solved;
use mechanics::section::HeightSide;
use mechanics::thin_wall::NoMiddleLines;

/// A shear centre that stands off the centroid by less than this part of the section's size stands on its upright line.
const NO_DISTANCE: f64 = 1e-9;

impl Solved {
    /// Why the shear flow along the walls is not worked out, in whole sentences; nothing where it is, or where the section is one
    /// solid piece, in which nobody would look for walls.
    pub fn why_no_walls(&self) -> Option<String> {
        let why = match self.problem().thin_walls() {
            Ok(_) | Err(NoMiddleLines::Solid) => return None,
            Err(NoMiddleLines::Materials) => {
                "Walls are taken as lines only where all parts are of one material.".to_owned()
            }
            Err(NoMiddleLines::Thick { part, length, thickness, is_radius }) => {
                let shown = |value: f64| {
                    self.style().given_text(Quantity::new(value, Dimension::LENGTH), Role::Thickness)
                };
                let (length, thickness) = (shown(length), shown(thickness));
                let of = with_article(&part);
                if is_radius {
                    format!(
                        "A wall is taken as a line where its radius is at least five times its thickness: {of} has a radius of \
                         {length} at a thickness of {thickness}."
                    )
                } else {
                    format!(
                        "A wall is taken as a line where it is at least five times as long as thick: {of} is {length} long and \
                         {thickness} thick."
                    )
                }
            }
            Err(NoMiddleLines::NoStrip { part }) => format!(
                "Walls are taken as lines where each part is a strip of one thickness, straight or round: {} is not one. Written as \
                 several parts, one for each wall, it could be taken so.",
                with_article(&part)
            ),
            Err(NoMiddleLines::Unpaired) => {
                "Walls are taken as lines where the straight sides of the outline run in pairs, with thin material of one thickness \
                 between them: here they do not, or not everywhere."
                    .to_owned()
            }
            Err(NoMiddleLines::Apart) => {
                "Walls are taken as lines where their ends stand on one another or meet: here they do not."
                    .to_owned()
            }
        };
        Some(format!(
            "{why} So the shear flow along the walls, the shear centre and the torsion constant are not worked out here."
        ))
    }

    /// Where the line of the shear force must stand, in a sentence that follows another one.
    pub(crate) fn shear_centre_in_words(&self) -> String {
        let properties = self.section().properties();
        let Ok(walls) = self.problem().thin_walls() else {
            return match self.is_mirrored() {
                true => String::new(),
                false => " Where that stands in this section is not worked out by hand here.".to_owned(),
            };
        };
        let off = walls.shear_centre().x - walls.centroid().x;
        if off.abs() <= NO_DISTANCE * properties.breadth().max(properties.height()) {
            return String::new();
        }
        let distance = self.style().text(Quantity::new(off.abs(), Dimension::LENGTH), Role::CutDistance);
        let side = if off > 0.0 { "right" } else { "left" };
        format!(" Here it stands {distance} to the {side} of the centroid, by middle lines.")
    }

    /// Whether the upright line through the centroid halves the section into one half and its mirror image: between any two heights
    /// at which sides begin or end, it is looked at on three levels, for sides are straight or arcs.
    fn is_mirrored(&self) -> bool {
        let section = self.section();
        let (middle, near) = (section.properties().centroid.x, NO_DISTANCE * section.properties().breadth());
        let levels: Vec<f64> = section.levels().collect();
        levels.windows(2).all(|pair| {
            [0.25, 0.5, 0.75].iter().all(|part| {
                let height = pair[0] + part * (pair[1] - pair[0]);
                let chords = section.chords(height, HeightSide::Above);
                let mut ends: Vec<f64> = chords.iter().flat_map(|chord| [chord.from, chord.to]).collect();
                ends.sort_by(f64::total_cmp);
                ends.iter()
                    .zip(ends.iter().rev())
                    .all(|(one, other)| (one + other - 2.0 * middle).abs() <= near)
            })
        })
    }
}
