//! Beam, section, stress and slice: pure computation of a prismatic beam under transverse load.
//!
//! # Axes, signs and units, said once
//!
//! ```text
//!        w (down +)                       y up, from the lowest fibre of the outline's own
//!     ↓ ↓ ↓ ↓ ↓ ↓ ↓                       coordinates; bending is about the level axis
//!   ┌──────────────────┐                  through the centroid
//!   │                  │→ x               x along the beam, from its left end
//!   └──────────────────┘
//!     ↑ reaction (up +)                   couples counter-clockwise +
//! ```
//!
//! - Everything is SI: m, N, N m, N/m, Pa, m², m³, m⁴, kg/m³, rad.
//! - Applied loads are positive **down**, couples positive **counter-clockwise**; reactions are what the
//!   support does to the beam, positive **up** and **counter-clockwise**.
//! - Shear force `V` is positive when the left piece pushes up on the right one, so that `V = dM/dx` and
//!   `dV/dx = -w`; bending moment `M` is positive when it sags (tension below).
//! - Deflection is positive up, slope counter-clockwise, so a sag is negative.
//! - Normal stress is positive in tension: `sigma = -M (y - y_centroid) / I`.
//! - `left`/`right` are the two sides of a jump along the beam, `below`/`above` in a section.
//!
//! This crate never sees a file, a unit name, a symbol or a colour.

pub mod balance;
pub mod beam;
pub mod elastic;
mod gauss;
pub mod least_depth;
pub mod real;
pub mod section;
pub mod slice;
pub mod stress;
pub mod thin_wall;
