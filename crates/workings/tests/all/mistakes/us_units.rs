//! Mistakes of a course in US customary units: plain numbers are those of its own units.

use super::cases::{in_style, values};
use crate::common::{Maker, assert_close, rectangle, tee};
use mechanics::section::HeightSide;
use workings::style::Style;
use workings::unit_system::UnitSystem;

const FT: f64 = 0.3048;
const IN: f64 = 0.0254;
const LB: f64 = 4.448_221_615_260_5;
const KIP: f64 = 1000.0 * LB;

fn style(units: UnitSystem) -> Style {
    Style { units, ..Style::default() }
}

/// 16 ft, 8 kip at 4 ft, 1 kip/ft from 8 ft to 16 ft: R_A = (8·12 + 8·4)/16 = 8 kip. T of 6 x 2 on 2 x 6 in, cut at the
/// junction: y_n = (12·7 + 12·3)/24 = 5 in, I = 4 + 36 + 12·4 + 12·4 = 136 in⁴, Q = 12·2 = 24 in³.
fn lesson() -> Maker {
    Maker::new(16.0 * FT, tee((6.0 * IN, 2.0 * IN), (2.0 * IN, 6.0 * IN)))
        .pin("A", 0.0)
        .pin("B", 16.0 * FT)
        .force("P", 4.0 * FT, 8.0 * KIP)
        .spread("w", 8.0 * FT, 16.0 * FT, KIP / FT)
        .slice(3.0 * FT, 2.0 * IN)
        .cut(6.0 * IN, HeightSide::Below, HeightSide::Above)
}

#[test]
fn plain_numbers_are_in_kips_and_inches() {
    let solved = in_style(lesson(), style(UnitSystem::KipFoot));
    let ksi = KIP / (IN * IN);
    for (id, replaces, asked, expected) in [
        // 1 kip instead of 8 kip; R_A = (8·12 + 1·4)/16 kip.
        ("intensity-as-force", "resultant of spread load w", "resultant of spread load w", KIP),
        ("intensity-as-force", "resultant of spread load w", "reaction at A", 6.25 * KIP),
        ("t-forgotten", "shear stress on the cut", "shear stress on the cut", 8.0 * 24.0 / 136.0 * ksi),
        (
            "bracket-slip",
            "shear stress on the cut",
            "shear stress on the cut",
            8.0 * 24.0 / 136.0 * 2.0 * ksi,
        ),
        // M = 8·36 kip in.
        ("m-for-v", "shear stress on the cut", "shear stress on the cut", 288.0 * 24.0 / (136.0 * 2.0) * ksi),
        (
            "distance-not-squared",
            "second moment",
            "second moment",
            (40.0 + 12.0 * 2.0 + 12.0 * 2.0) * IN.powi(4),
        ),
        ("no-width", "force on the cut", "force on the cut", 8.0 * 24.0 / (136.0 * 2.0) * 2.0 * KIP),
    ] {
        let found = values(&solved, id, replaces, asked);
        assert_eq!(found.len(), 1, "{id}");
        assert_close(id, found[0], expected);
    }
}

/// In pounds and feet the same slip gives another stress: M Q/(I t) in lb and in.
#[test]
fn plain_numbers_are_in_pounds_and_inches() {
    let solved = in_style(lesson(), style(UnitSystem::PoundFoot));
    let psi = LB / (IN * IN);
    let tau = "shear stress on the cut";
    assert_close("flow", values(&solved, "t-forgotten", tau, tau)[0], 8000.0 * 24.0 / 136.0 * psi);
    let w = "resultant of spread load w";
    assert_close("w", values(&solved, "intensity-as-force", w, w)[0], 1000.0 * LB);
}

/// A couple of 6 kip ft at 3 ft of 12 ft: its distance from the right support is 9 ft, so R_A = 6·9/12 kip.
#[test]
fn a_couple_times_its_distance_is_in_feet() {
    let beam = Maker::new(12.0 * FT, vec![("plank", rectangle(0.0, 0.0, 4.0 * IN, 8.0 * IN))])
        .pin("A", 0.0)
        .pin("B", 12.0 * FT)
        .couple("M", 3.0 * FT, 6.0 * KIP * FT);
    let solved = in_style(beam, style(UnitSystem::KipFoot));
    let a = "reaction at A";
    assert_close("R_A", values(&solved, "couple-times-distance", a, a)[0], 4.5 * KIP);
}
