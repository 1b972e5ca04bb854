//! A small catalogue of rolled profiles, with the properties printed for them.
//!
//! Only profiles whose printed area and second moment follow from their printed dimensions are kept, so that a reader who
//! recomputes one gets what the table says. The tables are given from memory.

mod rows;

use super::Fault;
use super::shapes::{Shape, rolled_channel, rolled_channel_sloping, rolled_i};
use rows::Row;

/// The kind of a profile and with it the table that it stands in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Family {
    /// I sections, EN 10365.
    Ipe,
    /// Wide-flange sections HE A and HE B, EN 10365.
    He,
    /// Channels with parallel flanges, EN 10365.
    Upe,
    /// Channels with sloping flanges, EN 10365.
    Upn,
    /// Wide-flange shapes of the AISC Steel Construction Manual.
    W,
}

impl Family {
    /// The publication that the dimensions and properties are from.
    pub fn source(self) -> &'static str {
        match self {
            Family::Ipe | Family::He | Family::Upe | Family::Upn => "EN 10365",
            Family::W => "AISC Steel Construction Manual",
        }
    }
}

/// A value as it is printed, with the unit of its last digit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Printed {
    /// The value, SI.
    pub value: f64,
    /// One unit of its last printed digit, SI.
    pub last_digit: f64,
}

/// A rolled profile; dimensions in m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Profile {
    /// Its name as printed: `IPE 300`.
    pub name: &'static str,
    /// Its table.
    pub family: Family,
    /// Height.
    pub height: f64,
    /// Breadth of the flanges.
    pub breadth: f64,
    /// Thickness of the web.
    pub web_thickness: f64,
    /// Thickness of the flanges; of sloping ones at half the breadth.
    pub flange_thickness: f64,
    /// Radius between web and flange.
    pub root_radius: f64,
    /// Area as printed, m².
    pub area: Printed,
    /// Second moment of area about the strong axis as printed, m⁴.
    pub second_moment: Printed,
}

/// UPN: the inner faces of the flanges rise by 8 %.
const UPN_SLOPE: f64 = 0.08;

impl Profile {
    fn of(family: Family, row: &Row) -> Self {
        // mm, cm² and cm⁴, or inches.
        let (length, area, second_moment) = match family {
            Family::W => (0.0254, 0.0254 * 0.0254, 0.0254 * 0.0254 * 0.0254 * 0.0254),
            _ => (1e-3, 1e-4, 1e-8),
        };
        let printed =
            |(value, digit): (f64, f64), unit: f64| Printed { value: value * unit, last_digit: digit * unit };
        Self {
            name: row.name,
            family,
            height: row.height * length,
            breadth: row.breadth * length,
            web_thickness: row.web * length,
            flange_thickness: row.flange * length,
            root_radius: row.root * length,
            area: printed(row.area, area),
            second_moment: printed(row.second_moment, second_moment),
        }
    }

    /// Its outline, with root and toe radii.
    ///
    /// # Errors
    /// None for a profile of the catalogue; for one whose dimensions were changed, as the shape's own constructor.
    pub fn shape(&self) -> Result<Shape, Vec<Fault>> {
        let (h, b, w, t, r) =
            (self.height, self.breadth, self.web_thickness, self.flange_thickness, self.root_radius);
        match self.family {
            Family::Ipe | Family::He | Family::W => rolled_i(h, b, w, t, r),
            Family::Upe => rolled_channel(h, b, w, t, r),
            Family::Upn => rolled_channel_sloping(h, b, w, (t, 0.5 * b), UPN_SLOPE, r, 0.5 * t),
        }
    }
}

/// All profiles, table by table.
pub fn profiles() -> impl Iterator<Item = Profile> {
    let table = |family: Family, rows: &'static [Row]| rows.iter().map(move |row| Profile::of(family, row));
    table(Family::Ipe, &rows::IPE)
        .chain(table(Family::He, &rows::HE))
        .chain(table(Family::Upe, &rows::UPE))
        .chain(table(Family::Upn, &rows::UPN))
        .chain(table(Family::W, &rows::W))
}

/// The profile of a name, whatever its case and spaces: `ipe300` is `IPE 300`.
pub fn profile(name: &str) -> Option<Profile> {
    let plain = |name: &str| -> String {
        name.chars().filter(|letter| !letter.is_whitespace()).flat_map(char::to_uppercase).collect()
    };
    let wanted = plain(name);
    profiles().find(|profile| plain(profile.name) == wanted)
}
