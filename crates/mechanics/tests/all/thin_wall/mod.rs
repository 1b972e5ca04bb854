//! Thin-walled sections by their middle lines.

mod closed;
mod outlines;
mod properties;
mod published;
mod refused;
mod shapes;

#[track_caller]
fn near(found: f64, wanted: f64) {
    near_on(found, wanted, wanted.abs());
}

/// To the last bits but four of a scale.
#[track_caller]
fn near_on(found: f64, wanted: f64, scale: f64) {
    assert!((found - wanted).abs() <= 1e-11 * scale, "found {found}, wanted {wanted}");
}
