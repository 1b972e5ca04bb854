//! The middle lines of a section given by its parts.

use super::joined::joined;
use super::no_middle_lines::NoMiddleLines;
use super::strip::Strip;
use super::{ThinWalls, of_outline};
use crate::section::Part;

impl ThinWalls {
    /// The walls of a section of strips (I, T, channel, angle, Z, hat, box, trays and boxes with sloping webs, split tubes, and
    /// whatever rectangles, parallelograms and sectors of rings make), of a rolled profile, of a rectangular tube or of a round
    /// one, and of one outline whose straight sides run in pairs; in the coordinates of the outlines. A wall is called after the
    /// part to which it belongs, and one of an outline by its place.
    ///
    /// Strips meet in the middle: one that stands on the flank of another reaches to that one's middle line, and where they
    /// make a corner, the other ends there too. Root fillets and bends are left out, and a flange that tapers has its mean thickness.
    ///
    /// # Errors
    /// [`NoMiddleLines`] says why there are no such walls: a strip shorter than five of its thicknesses, a tube thicker than a
    /// fifth of its radius, a part that is no strip, an outline whose sides make no pairs, parts that do not touch, two materials, or one solid piece.
    pub fn of_parts(parts: &[Part], names: &[impl AsRef<str>]) -> Result<Self, NoMiddleLines> {
        let ratio = parts.first().ok_or(NoMiddleLines::Solid)?.modular_ratio;
        if parts.iter().any(|part| part.modular_ratio != ratio) {
            return Err(NoMiddleLines::Materials);
        }
        let name = |k: usize| names.get(k).map_or("wall", AsRef::as_ref).to_owned();
        if let [part] = parts {
            return of_outline::walls(part, name(0));
        }
        let strip = |(k, part): (usize, &Part)| Strip::of_part(name(k), part);
        joined(&parts.iter().enumerate().map(strip).collect::<Result<Vec<_>, _>>()?)
    }
}
