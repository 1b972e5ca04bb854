//! The one look of all drawings: what each colour and line style stands for.
//!
//! A thing has one colour **and** one line style or hatch everywhere, so that a drawing reads without colour.

/// What a mark stands for, and so its colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Ink {
    /// Outlines, text, loads.
    Line,
    /// Dimensions, axes, remarks.
    Quiet,
    /// Grid lines and the hatch of the ground.
    Faint,
    /// The paper; also what is cut out of a filled shape.
    Paper,
    /// Tint of the beam's and the section's material.
    Material,
    /// Tension: a solid line.
    Tension,
    /// Tint of a tension block.
    TensionTint,
    /// Compression: a dashed line.
    Compression,
    /// Tint of a compression block.
    CompressionTint,
    /// Tint of the part beyond the cut.
    Beyond,
    /// Its diagonal hatch and its outline.
    BeyondHatch,
    /// The cut (heavy dash-dot) and the force on it (solid, half-arrows).
    Cut,
    /// Reactions: heavier than loads.
    Reaction,
    /// Tint of the shear force diagram.
    ShearTint,
    /// Outline and hatch of the shear force diagram.
    Shear,
    /// Tint of the bending moment diagram.
    MomentTint,
    /// Outline and hatch of the bending moment diagram.
    Moment,
    /// Tint of the slice.
    SliceTint,
    /// The material in light, in the pictorial view.
    MaterialLight,
    /// The material in shade, in the pictorial view.
    MaterialShade,
    /// The part beyond the cut in light, in the pictorial view.
    BeyondLight,
    /// The part beyond the cut in shade, in the pictorial view.
    BeyondShade,
    /// Tint of the face that the cut lays bare.
    CutTint,
    /// Bands of a field, from small values to large ones.
    Field1,
    /// The second.
    Field2,
    /// The third.
    Field3,
    /// The fourth.
    Field4,
    /// The fifth.
    Field5,
    /// The sixth.
    Field6,
    /// The seventh.
    Field7,
    /// The eighth.
    Field8,
}

impl Ink {
    /// Every ink.
    pub const ALL: [Ink; 31] = [
        Ink::Line,
        Ink::Quiet,
        Ink::Faint,
        Ink::Paper,
        Ink::Material,
        Ink::Tension,
        Ink::TensionTint,
        Ink::Compression,
        Ink::CompressionTint,
        Ink::Beyond,
        Ink::BeyondHatch,
        Ink::Cut,
        Ink::Reaction,
        Ink::ShearTint,
        Ink::Shear,
        Ink::MomentTint,
        Ink::Moment,
        Ink::SliceTint,
        Ink::MaterialLight,
        Ink::MaterialShade,
        Ink::BeyondLight,
        Ink::BeyondShade,
        Ink::CutTint,
        Ink::Field1,
        Ink::Field2,
        Ink::Field3,
        Ink::Field4,
        Ink::Field5,
        Ink::Field6,
        Ink::Field7,
        Ink::Field8,
    ];

    /// The bands of a field, rising: each darker than the one before, so that they read in grey.
    pub const FIELD: [Ink; 8] = [
        Ink::Field1,
        Ink::Field2,
        Ink::Field3,
        Ink::Field4,
        Ink::Field5,
        Ink::Field6,
        Ink::Field7,
        Ink::Field8,
    ];

    /// The colour as `#rrggbb`.
    pub const fn hex(self) -> &'static str {
        match self {
            Ink::Line => "#1b2330",
            Ink::Quiet => "#5b6675",
            Ink::Faint => "#c9d0d8",
            Ink::Paper => "#ffffff",
            Ink::Material => "#eef1f4",
            Ink::Tension => "#0b5fa5",
            Ink::TensionTint => "#dbe9f5",
            Ink::Compression => "#b3401f",
            Ink::CompressionTint => "#f7e1d9",
            Ink::Beyond => "#f6d58a",
            Ink::BeyondHatch => "#8a5a00",
            Ink::Cut => "#7a1f6b",
            Ink::Reaction => "#1c6b45",
            Ink::ShearTint => "#d6e4f2",
            Ink::Shear => "#2f5f8f",
            Ink::MomentTint => "#f3e3d3",
            Ink::Moment => "#8a5226",
            Ink::SliceTint => "#e6e0ec",
            Ink::MaterialLight => "#f8fafb",
            Ink::MaterialShade => "#d9dfe6",
            Ink::BeyondLight => "#fbe8bb",
            Ink::BeyondShade => "#e8c16c",
            Ink::CutTint => "#ecd3e7",
            Ink::Field1 => "#f6fafd",
            Ink::Field2 => "#e4eef7",
            Ink::Field3 => "#d1e2f1",
            Ink::Field4 => "#bcd5ea",
            Ink::Field5 => "#a5c6e2",
            Ink::Field6 => "#8db6d9",
            Ink::Field7 => "#74a4cd",
            Ink::Field8 => "#5b91c0",
        }
    }

    /// Whether text and lines may be drawn in it; the others are tints, to be filled with.
    pub const fn draws_lines(self) -> bool {
        !matches!(
            self,
            Ink::Faint
                | Ink::Paper
                | Ink::Material
                | Ink::TensionTint
                | Ink::CompressionTint
                | Ink::Beyond
                | Ink::ShearTint
                | Ink::MomentTint
                | Ink::SliceTint
                | Ink::MaterialLight
                | Ink::MaterialShade
                | Ink::BeyondLight
                | Ink::BeyondShade
                | Ink::CutTint
                | Ink::Field1
                | Ink::Field2
                | Ink::Field3
                | Ink::Field4
                | Ink::Field5
                | Ink::Field6
                | Ink::Field7
                | Ink::Field8
        )
    }
}

/// Width of a thin line, px.
pub const THIN: f64 = 0.75;
/// Width of a medium line, px.
pub const MEDIUM: f64 = 1.25;
/// Width of a heavy line, px.
pub const HEAVY: f64 = 2.0;

/// How a line is broken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Dash {
    /// Unbroken.
    Solid,
    /// Compression, and outlines of what is hidden or removed.
    Dashed,
    /// Axes, the neutral axis, the cut.
    DashDot,
    /// Leader lines and construction lines.
    Dotted,
}

impl Dash {
    /// The lengths of strokes and gaps, px; empty for an unbroken line.
    pub const fn lengths(self) -> &'static [f64] {
        match self {
            Dash::Solid => &[],
            Dash::Dashed => &[5.0, 3.0],
            Dash::DashDot => &[10.0, 3.0, 2.0, 3.0],
            Dash::Dotted => &[1.5, 2.5],
        }
    }
}

/// A line's ink, width and breaks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stroke {
    /// Its colour.
    pub ink: Ink,
    /// Its width, px.
    pub width: f64,
    /// How it is broken.
    pub dash: Dash,
}

impl Stroke {
    /// An unbroken line.
    pub const fn solid(ink: Ink, width: f64) -> Self {
        Self { ink, width, dash: Dash::Solid }
    }

    /// A dashed line.
    pub const fn dashed(ink: Ink, width: f64) -> Self {
        Self { ink, width, dash: Dash::Dashed }
    }

    /// A dash-dot line.
    pub const fn dash_dot(ink: Ink, width: f64) -> Self {
        Self { ink, width, dash: Dash::DashDot }
    }

    /// A dotted line.
    pub const fn dotted(ink: Ink, width: f64) -> Self {
        Self { ink, width, dash: Dash::Dotted }
    }

    /// Outline of a body.
    pub const OUTLINE: Stroke = Stroke::solid(Ink::Line, MEDIUM);
    /// A dimension line.
    pub const DIMENSION: Stroke = Stroke::solid(Ink::Quiet, THIN);
    /// The trace of the cut.
    pub const CUT: Stroke = Stroke::dash_dot(Ink::Cut, HEAVY);
    /// An axis.
    pub const AXIS: Stroke = Stroke::dash_dot(Ink::Quiet, THIN);
    /// A leader from a label to its place.
    pub const LEADER: Stroke = Stroke::solid(Ink::Quiet, 0.5);
}

/// How colours stand out, for the tests of both looks.
#[cfg(test)]
pub(crate) mod contrast {
    /// Relative luminance of an sRGB colour, `#rrggbb`. Source: WCAG 2.2, "relative luminance".
    pub(crate) fn luminance(hex: &str) -> f64 {
        let channel = |from: usize| {
            let value = f64::from(u8::from_str_radix(&hex[from..from + 2], 16).expect("hex")) / 255.0;
            if value <= 0.04045 { value / 12.92 } else { mechanics::real::pow((value + 0.055) / 1.055, 2.4) }
        };
        0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5)
    }

    /// Source: WCAG 2.2, "contrast ratio".
    pub(crate) fn ratio(a: &str, b: &str) -> f64 {
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }
}

#[cfg(test)]
mod tests {
    use super::contrast::{luminance, ratio};
    use super::*;

    fn contrast(a: Ink, b: Ink) -> f64 {
        ratio(a.hex(), b.hex())
    }

    /// The bands get darker one by one, so that they are told apart in grey too.
    #[test]
    fn the_bands_of_a_field_darken() {
        let light: Vec<f64> = Ink::FIELD.iter().map(|ink| luminance(ink.hex())).collect();
        assert!(light.windows(2).all(|pair| pair[1] < 0.95 * pair[0]), "{light:?}");
    }

    /// Source: WCAG 2.2, success criteria 1.4.3 (text, 4.5:1) and 1.4.11 (graphics, 3:1). All inks that draw
    /// may draw text, so all meet the former on paper; on a tint they meet the latter at least.
    #[test]
    fn every_ink_that_draws_stands_out() {
        for ink in Ink::ALL.into_iter().filter(|ink| ink.draws_lines()) {
            assert!(contrast(ink, Ink::Paper) >= 4.5, "{ink:?} {}", contrast(ink, Ink::Paper));
        }
        for (line, tint) in [
            (Ink::Tension, Ink::TensionTint),
            (Ink::Compression, Ink::CompressionTint),
            (Ink::BeyondHatch, Ink::Beyond),
            (Ink::Cut, Ink::Beyond),
            (Ink::Line, Ink::Beyond),
            (Ink::Line, Ink::Material),
            (Ink::Quiet, Ink::Material),
            (Ink::Shear, Ink::ShearTint),
            (Ink::Moment, Ink::MomentTint),
            (Ink::Cut, Ink::SliceTint),
            (Ink::Cut, Ink::CutTint),
            (Ink::Line, Ink::CutTint),
            (Ink::Line, Ink::BeyondShade),
            (Ink::Line, Ink::MaterialShade),
            (Ink::Line, Ink::Field8),
            (Ink::Cut, Ink::Field6),
        ] {
            assert!(contrast(line, tint) >= 3.0, "{line:?} on {tint:?} {}", contrast(line, tint));
        }
    }
}
