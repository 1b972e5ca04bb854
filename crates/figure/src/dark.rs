//! The same look on a dark board: each ink in a colour that stands out from dark paper.
//!
//! Drawings carry the colours of white paper, and so does every file that is taken out of a page. A page with a dark board says
//! once, in its style sheet, which colour stands there for which.

use crate::palette::Ink;
use core::fmt::Write as _;

impl Ink {
    /// The colour on a dark board, as `#rrggbb`.
    pub const fn dark_hex(self) -> &'static str {
        match self {
            Ink::Line => "#e6e9ee",
            Ink::Quiet => "#a9b2bf",
            Ink::Faint => "#4a5462",
            Ink::Paper => "#14181f",
            Ink::Material => "#262d37",
            Ink::Tension => "#86bff2",
            Ink::TensionTint => "#16324d",
            Ink::Compression => "#f39b77",
            Ink::CompressionTint => "#4a2517",
            Ink::Beyond => "#574010",
            Ink::BeyondHatch => "#e5b755",
            Ink::Cut => "#e39ad4",
            Ink::Reaction => "#74cf9f",
            Ink::ShearTint => "#1c324a",
            Ink::Shear => "#92bbe4",
            Ink::MomentTint => "#3e2c1c",
            Ink::Moment => "#dfab7c",
            Ink::SliceTint => "#322b3e",
            Ink::MaterialLight => "#343d49",
            Ink::MaterialShade => "#1b2129",
            Ink::BeyondLight => "#6b5018",
            Ink::BeyondShade => "#41300c",
            Ink::CutTint => "#4b2744",
            Ink::Field1 => "#182029",
            Ink::Field2 => "#1c2a38",
            Ink::Field3 => "#203547",
            Ink::Field4 => "#254057",
            Ink::Field5 => "#2a4c68",
            Ink::Field6 => "#305979",
            Ink::Field7 => "#36668a",
            Ink::Field8 => "#3d739b",
        }
    }
}

/// The rules of a style sheet that give the drawings within `scope`, a selector, the colours of a dark board.
pub fn sheet(scope: &str) -> String {
    let mut out = String::with_capacity(5000);
    for ink in Ink::ALL {
        for property in ["fill", "stroke"] {
            let (light, dark) = (ink.hex(), ink.dark_hex());
            let _ = writeln!(out, "{scope} [{property}=\"{light}\"]{{{property}:{dark}}}");
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::{Ink, sheet};
    use crate::palette::contrast::{luminance, ratio};
    use std::collections::BTreeSet;

    fn contrast(line: Ink, ground: Ink) -> f64 {
        ratio(line.dark_hex(), ground.dark_hex())
    }

    /// Source: WCAG 2.2, success criteria 1.4.3 (text, 4.5:1) and 1.4.11 (graphics, 3:1), as on white paper; on every tint as
    /// well, for on dark paper there is room.
    #[test]
    fn every_ink_that_draws_stands_out() {
        let tints = Ink::ALL.into_iter().filter(|ink| !ink.draws_lines() && *ink != Ink::Faint);
        let tints: Vec<Ink> = tints.filter(|ink| !Ink::FIELD.contains(ink)).collect();
        for line in Ink::ALL.into_iter().filter(|ink| ink.draws_lines()) {
            assert!(contrast(line, Ink::Paper) >= 4.5, "{line:?} {}", contrast(line, Ink::Paper));
            for &tint in &tints {
                assert!(contrast(line, tint) >= 3.0, "{line:?} on {tint:?} {}", contrast(line, tint));
            }
        }
        assert!(contrast(Ink::Line, Ink::Field8) >= 3.0 && contrast(Ink::Cut, Ink::Field6) >= 3.0);
    }

    /// On dark paper a greater value is lighter.
    #[test]
    fn the_bands_of_a_field_lighten() {
        let light: Vec<f64> = Ink::FIELD.iter().map(|ink| luminance(ink.dark_hex())).collect();
        assert!(light.windows(2).all(|pair| pair[1] > 1.05 * pair[0]), "{light:?}");
    }

    /// A rule tells inks apart by their colours on paper alone.
    #[test]
    fn every_ink_has_one_rule_for_lines_and_one_for_areas() {
        let light: BTreeSet<&str> = Ink::ALL.iter().map(|ink| ink.hex()).collect();
        assert_eq!(light.len(), Ink::ALL.len());
        let rules = sheet("svg");
        assert_eq!(rules.lines().count(), 2 * Ink::ALL.len());
        assert!(rules.contains("svg [stroke=\"#1b2330\"]{stroke:#e6e9ee}"));
    }
}
