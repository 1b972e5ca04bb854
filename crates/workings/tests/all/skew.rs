//! Bending askew in the workings: a Z by hand, textbooks, and other courses' axes.

use crate::common::{Maker, assert_close, assert_within, rectangle, reference};
use mechanics::real;
use mechanics::section::HeightSide;
use workings::notation::{DepthAxis, Notation, Profile};
use workings::solved::Solved;
use workings::style::Style;
use workings::working::Chapter;

fn value(solved: &Solved, name: &str) -> f64 {
    solved.workings().get(name).unwrap_or_else(|| panic!("no working {name:?}")).value.value
}

fn beam(parts: Vec<(&str, mechanics::section::Part)>, height: f64) -> Maker {
    Maker::new(4.0, parts)
        .pin("A", 0.0)
        .pin("B", 4.0)
        .linear("w", (0.0, 4.0), (600.0, 600.0))
        .slice(1.0, 0.05)
        .cut(height, HeightSide::Below, HeightSide::Above)
}

/// A Z 100 mm high with flanges of 80 mm, 12 mm throughout.
fn zed() -> Maker {
    let parts = vec![
        ("bottom flange", rectangle(0.0, 0.0, 0.08, 0.012)),
        ("web", rectangle(0.068, 0.012, 0.012, 0.076)),
        ("top flange", rectangle(0.068, 0.088, 0.08, 0.012)),
    ];
    beam(parts, 0.088)
}

/// Published: F. P. Beer and E. R. Johnston, *Mechanics of Materials*, the sample problem of this Z (from memory): 4.18e-6,
/// 3.25e-6, 2.87e-6 m⁴; principal moments 6.63e-6 and 0.810e-6 m⁴, axes turned by 40.4°. To half the last printed digit; the
/// smallest moment was found there from rounded ones.
#[test]
fn the_moments_of_a_zed_are_the_published_ones() {
    let solved = zed().solved();
    for (name, wanted, within) in [
        ("second moment", 4.18e-6, 0.005e-6),
        ("second moment of area about the upright axis", 3.25e-6, 0.005e-6),
        ("product moment of area", 2.87e-6, 0.005e-6),
        ("largest principal second moment", 6.63e-6, 0.005e-6),
        ("smallest principal second moment", 0.810e-6, 0.005e-6),
        ("angle of the principal axis", -40.4_f64.to_radians(), 0.05_f64.to_radians()),
    ] {
        let found = value(&solved, name);
        assert!((found - wanted).abs() <= within, "{name}: {found}");
    }
}

/// Published: T. H. G. Megson, *Aircraft Structures for Engineering Students*, example 16.2 (from memory): I_xx = 1.09e6,
/// I_yy = 1.31e6, I_xy = 0.34e6 mm⁴ and 96 N/mm² for 1500 N m. Upside down there is no difference but the sign.
#[test]
fn a_flange_aside_of_its_web_bears_the_published_stress() {
    let parts =
        vec![("web", rectangle(0.0, 0.0, 0.008, 0.080)), ("flange", rectangle(-0.036, 0.080, 0.120, 0.008))];
    let solved = beam(parts, 0.08).solved();
    let moment = value(&solved, "bending moment at the slice");
    for (name, wanted, within) in [
        ("second moment", 1.09e-6, 0.005e-6),
        ("second moment of area about the upright axis", 1.31e-6, 0.005e-6),
        ("product moment of area", 0.34e-6, 0.005e-6),
    ] {
        let found = value(&solved, name);
        assert!((found - wanted).abs() <= within, "{name}: {found}");
    }
    // From coefficients rounded to two figures there.
    let found = 1500.0 / moment * value(&solved, "largest skew tension at the slice");
    assert!((found - 96e6).abs() <= 0.6e6, "{found}");
}

/// Closed form: the corners by hand, F at the foot of the web and the tip of the upper flange, which is pulled.
#[test]
fn the_tip_of_the_compressed_flange_is_pulled() {
    let parts = vec![
        ("bottom flange", rectangle(0.0, 0.0, 0.05, 0.01)),
        ("web", rectangle(0.04, 0.01, 0.01, 0.08)),
        ("top flange", rectangle(0.04, 0.09, 0.05, 0.01)),
    ];
    let solved = beam(parts, 0.09).solved();
    assert_close("at F", value(&solved, "skew bending stress at F"), 0.9 * 35.25e6 / 0.7029);
    assert_close("at H", value(&solved, "skew bending stress at H"), 0.9 * 9.75e6 / 0.7029);
    assert_close(
        "share",
        value(&solved, "share that the simple formula finds"),
        50.0 / 2.46 / (35.25 / 0.7029),
    );
    assert_close("sinks", value(&solved, "times that it sinks more"), 2.46 * 0.615 / 0.7029);
    // V (I_y Q - I_yz Q_y) / ((I I_y - I_yz²) t) = 600 (615e3 · 22 500 - 900e3 · 10 000) / (0.7029e12 · 10)
    assert_close(
        "on the cut",
        value(&solved, "skew shear stress on the cut"),
        600.0 * 4.8375e9 / 7.029e12 * 1e6,
    );
}

/// A course's depth axis may point down: the product moment changes its sign, and no stress.
#[test]
fn no_stress_hangs_on_the_courses_axes() {
    let up = zed().solved();
    for profile in Profile::ALL {
        let style = Style { notation: Notation::of(profile), ..Style::default() };
        let solved = Solved::new(zed().problem, style).expect("a sound lesson");
        for (_, working) in up.workings().chapter(Chapter::Skew) {
            let names = ["stress", "inclination", "principal", "share"];
            if names.iter().any(|name| working.name.contains(name)) {
                assert_close(&working.name, value(&solved, &working.name), working.value.value);
            }
        }
        let product = value(&solved, "product moment of area");
        assert_close("product moment", product.abs(), value(&up, "product moment of area").abs());
    }
}

/// Closed form: turned by that angle, the axes have no product moment, and about the first the second moment is the largest.
/// High and wide, as drawn and mirrored, for each course.
#[test]
fn about_the_principal_axis_the_moment_is_the_largest() {
    for (breadth, height) in [(0.01, 0.1), (0.1, 0.03)] {
        for aside in [0.0, breadth - 0.05] {
            let parts = vec![
                ("foot", rectangle(aside, 0.0, 0.05, 0.01)),
                ("web", rectangle(0.0, 0.01, breadth, height)),
            ];
            for profile in Profile::ALL {
                let style = Style { notation: Notation::of(profile), ..Style::default() };
                let solved = Solved::new(beam(parts.clone(), 0.01).problem, style).expect("a sound lesson");
                let level = value(&solved, "second moment");
                let upright = value(&solved, "second moment of area about the upright axis");
                let up =
                    if solved.style().notation.habits.depth_axis == DepthAxis::Down { -1.0 } else { 1.0 };
                let product = up * value(&solved, "product moment of area");
                let twice = 2.0 * value(&solved, "angle of the principal axis");
                let about = 0.5 * (level + upright) + 0.5 * (level - upright) * real::cos(twice)
                    - product * real::sin(twice);
                assert_close("second moment", about, value(&solved, "largest principal second moment"));
                let left = 0.5 * (level - upright) * real::sin(twice) + product * real::cos(twice);
                assert!(left.abs() <= 1e-12 * level, "{left} is left of {product}");
            }
        }
    }
}

#[test]
fn with_an_axis_of_symmetry_there_is_no_such_chapter() {
    let solved = reference().solved();
    assert_eq!(solved.workings().chapter(Chapter::Skew).count(), 0);
    let further = solved.further_values();
    assert!(further.iter().any(|value| value.name == "product moment of area"));
}

/// Closed form, worked anew along the principal axes: of the load w straight down the part w cos α bends the beam about the axis of
/// the largest second moment, w sin α about the other, each by 5 w L⁴ / (384 E I) of its own; both movements added as arrows.
#[test]
fn a_beam_free_to_go_sideways_moves_along_both_principal_axes() {
    let (w, length) = (0.6e3, 4.0_f64);
    for mirrored in [1.0, -1.0] {
        let parts = vec![
            ("bottom flange", rectangle(if mirrored > 0.0 { -0.045 } else { -0.005 }, 0.0, 0.05, 0.01)),
            ("web", rectangle(-0.005, 0.01, 0.01, 0.08)),
            ("top flange", rectangle(if mirrored > 0.0 { -0.005 } else { -0.045 }, 0.09, 0.05, 0.01)),
        ];
        let of = |maker: Maker| maker.spread("w", 0.0, length, w).solved();
        let solved = of(Maker::new(length, parts.clone()).pin("A", 0.0).pin("B", length));
        // By hand, mm⁴: see the lesson of the purlin.
        let (level, upright, product) = (2.46e-6, 0.615e-6, mirrored * 0.9e-6);
        let (mean, half) = ((level + upright) / 2.0, (level - upright) / 2.0);
        let radius = real::hypot(half, product);
        let angle = 0.5 * real::atan2(-product, half);
        let sag = |load: f64, moment: f64| 5.0 * load * length.powi(4) / (384.0 * 200e9 * moment);
        let across = sag(-w * real::cos(angle), mean + radius);
        let along = sag(-w * real::sin(angle), mean - radius);
        let (right, up) = (
            -across * real::sin(angle) + along * real::cos(angle),
            across * real::cos(angle) + along * real::sin(angle),
        );
        let free = solved.free_sideways().expect("it bends askew");
        assert_within("station", free.station, length / 2.0, 1e-9);
        assert_within("up", free.up, up, 1e-9 * up.abs());
        assert_within("right", free.right, right, 1e-9 * up.abs());
        // On a support that has sunk it is not told.
        let sunk = of(Maker::new(length, parts).pin("A", 0.0).settled("B", length, 0.01));
        assert!(sunk.free_sideways().is_none());
    }
}
