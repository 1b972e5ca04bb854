//! The symbols of every role in every profile, and what the role is called.
//!
//! Where two texts stand with a bar between them, the first is the symbol alone and the second the one that takes an
//! index: a wall's thickness is `t_w` where `t` is the width at the cut, but the thickness of part 1 is `t_1`.
//!
//! Sources of the letters: for `upward`, open US lecture text (A′, ȳ′, Q, t); for `upward-b` and `area-arm`, the
//! formulas as printed in examination questions of those traditions; for `code-axes`, EN 1993-1-1 clauses 1.7 and
//! 6.2.6; for `downward`, a German glossary (V S/(I t)); ISO 3898. The letters of lesser roles, and `bow-marks`
//! beyond V, M, S, I and b, are from memory and common practice, no source.

use super::Profile;
use super::symbol_text::{self, Letter};
use crate::role::Role;
use std::sync::OnceLock;

/// One role: what it is called, and its symbol in each profile.
pub(super) struct Row {
    pub role: Role,
    pub words: &'static str,
    /// In the order of [`Profile::ALL`].
    symbols: [&'static str; 6],
}

const fn row(role: Role, words: &'static str, symbols: [&'static str; 6]) -> Row {
    Row { role, words, symbols }
}

/// The same letter in every profile.
const fn all(role: Role, words: &'static str, symbol: &'static str) -> Row {
    row(role, words, [symbol; 6])
}

/// The symbol of a role in a profile, read: alone, and as it takes an index.
pub(super) fn letters(profile: Profile, role: Role) -> &'static [Vec<Letter>; 2] {
    static READ: OnceLock<Vec<[Vec<Letter>; 2]>> = OnceLock::new();
    let read = READ.get_or_init(|| {
        let of = |row: &Row, profile: Profile| {
            let text = row.symbols[profile as usize];
            let (alone, indexed) = text.split_once('|').unwrap_or((text, text));
            // A test reads every symbol of the table.
            [alone, indexed].map(|text| symbol_text::read(text).unwrap_or_default())
        };
        Profile::ALL.iter().flat_map(|profile| ROWS.iter().map(|row| of(row, *profile))).collect()
    });
    &read[profile as usize * ROWS.len() + role as usize]
}

/// The row of a role.
pub(super) fn of(role: Role) -> &'static Row {
    &ROWS[role as usize]
}

/// In the order of the roles, which is checked when this is compiled.
#[rustfmt::skip]
pub(super) static ROWS: [Row; Role::Count as usize + 1] = [
    //                                                                         upward   upward-b area-arm code-axes downward bow-marks
    row(Role::Along, "distance along the beam",                               ["x",      "x",      "x",      "x",      "x",      "x"]),
    row(Role::Depth, "distance from the neutral axis",                        ["y",      "y",      "y",      "z",      "z",      "z"]),
    row(Role::Across, "distance across the section",                          ["z",      "z",      "z",      "y",      "y",      "y"]),
    all(Role::Station, "station", "x"),
    all(Role::SliceLength, "length of the slice", "Δx"),
    all(Role::Distance, "distance", "a"),
    all(Role::Length, "length", "L"),
    row(Role::PointForce, "point force",                                      ["P",      "P",      "P",      "F",      "F",      "F"]),
    all(Role::Couple, "couple", "C"),
    row(Role::SpreadLoad, "spread load",                                      ["w",      "q",      "w",      "q",      "q",      "q"]),
    row(Role::LoadResultant, "resultant of the spread load",                  ["W",      "W",      "W",      "R_q",    "R_q",    "R_q"]),
    all(Role::Reaction, "reaction", "R"),
    all(Role::ReactionCouple, "couple at the support", "C_R"),
    all(Role::SupportStiffness, "stiffness of the support", "k"),
    all(Role::Settlement, "settlement", "δ"),
    row(Role::ShearForce, "shear force",                                      ["V",      "V",      "F",      "V_z",    "V",      "V"]),
    row(Role::BendingMoment, "bending moment",                                ["M",      "M",      "M",      "M_y",    "M",      "M"]),
    row(Role::ReleasedMoment, "bending moment of the released beam",          ["M",      "M",      "M",      "M_y",    "M",      "M"]),
    all(Role::UnitMoment, "bending moment under a unit", "M̄"),
    row(Role::Deflection, "deflection",                                       ["v",      "v",      "v",      "w",      "w",      "w"]),
    row(Role::Slope, "slope",                                                 ["θ",      "θ",      "θ",      "φ",      "φ",      "φ"]),
    all(Role::ElasticModulus, "modulus of elasticity", "E"),
    row(Role::FlexuralRigidity, "flexural rigidity",                          ["E I",    "E I",    "E I",    "E I_y",  "E I_y",  "E I_zz"]),
    all(Role::ModularRatio, "modular ratio", "n"),
    all(Role::Density, "density", "ρ"),
    all(Role::GravityAcceleration, "acceleration of gravity", "g"),
    row(Role::Breadth, "breadth",                                             ["b",      "B|b",    "B|b",    "b",      "B|b",    "B|b"]),
    all(Role::Height, "height", "h"),
    row(Role::Thickness, "thickness",                                         ["t_w|t",  "t",      "t",      "t_w|t",  "t",      "t"]),
    all(Role::Diameter, "diameter", "d"),
    row(Role::Area, "area",                                                   ["A",      "A",      "A_tot|A", "A",     "A",      "A"]),
    row(Role::CentroidHeight, "height of the centroid",                       ["ȳ",      "ȳ",      "ȳ_c",    "e",      "e",      "e"]),
    row(Role::CentroidAcross, "position of the centroid across the section",  ["z̄",      "z̄",      "z̄",      "ȳ",      "ȳ",      "ȳ"]),
    row(Role::SecondMoment, "second moment of area",                          ["I",      "I",      "I",      "I_y",    "I_y",    "I_zz"]),
    row(Role::SecondMomentUpright, "second moment of area about the upright axis",
                                                                              ["I_y",    "I_y",    "I_y",    "I_z",    "I_z",    "I_yy"]),
    all(Role::ProductMoment, "product moment of area", "I_yz"),
    all(Role::PrincipalSecondMoment, "principal second moment of area", "I"),
    all(Role::PrincipalAxisAngle, "direction of the principal axis of the section", "α"),
    row(Role::RadiusOfGyration, "radius of gyration",                         ["r",      "r",      "r",      "i",      "i",      "i"]),
    row(Role::SectionModulus, "section modulus",                              ["S",      "S",      "Z",      "W_y",    "W",      "W"]),
    all(Role::ExtremeDistance, "distance of the extreme fibre", "c"),
    row(Role::CutDistance, "distance of the cut from the neutral axis",       ["y′",     "y′",     "y′",     "z′",     "z′",     "z′"]),
    all(Role::CutHeight, "height of the cut", "h_cut"),
    row(Role::AreaBeyond, "area beyond the cut",                              ["A′",     "A′",     "A|A′",   "A′",     "A*",     "A′"]),
    row(Role::CentroidBeyond, "distance of the centroid of the part beyond the cut",
                                                                              ["ȳ′",     "ȳ′",     "ȳ|ȳ′",   "z̄′",     "z̄*",     "z̄′"]),
    row(Role::FirstMoment, "first moment",                                    ["Q",      "Q",      "A ȳ|A′ ȳ′", "S_y", "S",      "S_z"]),
    row(Role::FirstMomentUpright, "first moment about the upright axis",      ["Q_y",    "Q_y",    "Q_y",    "S_z",    "S_z",    "S_y"]),
    row(Role::WidthAtCut, "width at the cut",                                 ["t|t_cut", "b|b_cut", "b|b_cut", "t|t_cut", "b|b_cut", "b|b_cut"]),
    row(Role::BendingStress, "bending stress",                                ["σ",      "σ",      "σ",      "σ_x",    "σ",      "σ"]),
    all(Role::NeutralAxisAngle, "inclination of the neutral axis", "β"),
    all(Role::ShearStress, "shear stress", "τ"),
    row(Role::ShearFlow, "shear flow",                                        ["q",      "f",      "q",      "v",      "T",      "s"]),
    row(Role::MeanShearStress, "mean shear stress",                           ["τ_avg",  "τ_avg",  "τ_mean", "τ_m",    "τ_m",    "τ_m"]),
        all(Role::WallForce, "shear force in a wall", "F_w"),
    all(Role::WallLength, "length of the middle line of a wall", "b_m"),
    all(Role::CellTwist, "sum of flow over thickness round a cell", "δ"),
    row(Role::ShearCentre, "distance of the shear centre",                    ["e",      "e",      "e",      "e_M",    "y_M",    "e_M"]),
    all(Role::Torque, "torque", "M_T"),
    row(Role::TorsionConstant, "torsion constant",                            ["J",      "J",      "J",      "I_T",    "I_T",    "I_T"]),
    all(Role::StressResultant, "resultant of the bending stress", "N"),
    row(Role::ForceOnCut, "force on the cut",                                 ["F",      "F",      "H",      "H",      "H",      "H"]),
    all(Role::PrincipalStress, "principal stress", "σ"),
    all(Role::CircleRadius, "radius of Mohr's circle", "R"),
    all(Role::PrincipalAngle, "direction of the largest principal stress", "θ_p"),
    all(Role::PrincipalShear, "largest shear stress in the plane", "τ"),
    all(Role::EquivalentStress, "equivalent stress", "σ_e"),
    row(Role::FastenerForce, "force on one fastener",                         ["F_f",    "F_f",    "H_f",    "H_f",    "H_f",    "H_f"]),
    row(Role::FastenerCapacity, "force that one fastener may carry",          ["F_allow", "F_allow", "H_allow", "F_Rd", "H_adm", "H_adm"]),
    row(Role::Spacing, "spacing",                                             ["s",      "s",      "s",      "s",      "s",      "p"]),
    all(Role::Rows, "number of rows", "n"),
    all(Role::LoadFactor, "load factor", "λ"),
    all(Role::Utilisation, "utilisation", "η"),
    all(Role::WeldStrength, "force that a weld may carry for each length", "f_w"),
    all(Role::PoissonRatio, "Poisson's ratio", "ν"),
    all(Role::ShearModulus, "shear modulus", "G"),
    all(Role::FormFactor, "form factor of shear", "f_s"),
    all(Role::ShearCoefficient, "shear coefficient", "k_s"),
    all(Role::Residual, "residual", "ε"),
    all(Role::Ratio, "ratio", "κ"),
    all(Role::Count, "number", "m"),
];

const _: () = {
    let mut place = 0;
    while place < ROWS.len() {
        assert!(ROWS[place].role as usize == place, "the rows follow the order of the roles");
        place += 1;
    }
};

/// Roles that share a letter on purpose: the axis, and a place along it; the stresses on an upright plane and those on the
/// planes where they are largest; a second moment of area and a principal one; a reaction, which has the name of its support, and
/// the radius of Mohr's circle, which has none; a modular ratio, which has the letter of its material, and a number of rows, which
/// has the number of its joint; a bending moment and that of the released beam, which has a 0 for its loads behind its place; a
/// settlement, which has the name of its support, and the sums round cells, which have the numbers of two.
pub(super) fn share_a_letter(one: Role, other: Role) -> bool {
    let pair = (one.min(other), one.max(other));
    [
        (Role::Along, Role::Station),
        (Role::BendingStress, Role::PrincipalStress),
        (Role::ShearStress, Role::PrincipalShear),
        (Role::SecondMoment, Role::PrincipalSecondMoment),
        (Role::Reaction, Role::CircleRadius),
        (Role::ModularRatio, Role::Rows),
        (Role::BendingMoment, Role::ReleasedMoment),
        (Role::Settlement, Role::CellTwist),
    ]
    .contains(&pair)
}
