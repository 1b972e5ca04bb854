//! What a symbol stands for. A formula holds roles; the notation of a course gives each its letter.

/// The part that a quantity plays in the unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[allow(missing_docs, reason = "each name is the trade's own word; the notation tables give each in words")]
pub enum Role {
    // axes and places
    Along,
    Depth,
    Across,
    Station,
    SliceLength,
    Distance,
    // the beam
    Length,
    PointForce,
    Couple,
    SpreadLoad,
    LoadResultant,
    Reaction,
    ReactionCouple,
    SupportStiffness,
    Settlement,
    ShearForce,
    BendingMoment,
    ReleasedMoment,
    UnitMoment,
    Deflection,
    Slope,
    ElasticModulus,
    FlexuralRigidity,
    ModularRatio,
    Density,
    GravityAcceleration,
    // the section
    Breadth,
    Height,
    Thickness,
    Diameter,
    Area,
    CentroidHeight,
    CentroidAcross,
    SecondMoment,
    SecondMomentUpright,
    ProductMoment,
    PrincipalSecondMoment,
    PrincipalAxisAngle,
    RadiusOfGyration,
    SectionModulus,
    ExtremeDistance,
    // the cut
    CutDistance,
    CutHeight,
    AreaBeyond,
    CentroidBeyond,
    FirstMoment,
    FirstMomentUpright,
    WidthAtCut,
    // the stresses
    BendingStress,
    NeutralAxisAngle,
    ShearStress,
    ShearFlow,
    MeanShearStress,
    WallForce,
    WallLength,
    CellTwist,
    ShearCentre,
    Torque,
    TorsionConstant,
    StressResultant,
    ForceOnCut,
    // at a point
    PrincipalStress,
    CircleRadius,
    PrincipalAngle,
    PrincipalShear,
    EquivalentStress,
    // the joints
    FastenerForce,
    FastenerCapacity,
    Spacing,
    Rows,
    // what may be carried
    LoadFactor,
    Utilisation,
    WeldStrength,
    // what elasticity says
    PoissonRatio,
    ShearModulus,
    FormFactor,
    ShearCoefficient,
    // others
    Residual,
    Ratio,
    Count,
}

/// A role with what tells it from others of its role: `R` at support `A`, `A` of part `1`, `V` on the left face.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Symbol {
    /// The role, which the notation turns into a letter.
    pub role: Role,
    /// What stands below the letter: a name such as `A`, `1`, `max`; empty for none.
    pub index: String,
}

impl Symbol {
    /// The plain symbol of a role.
    pub fn plain(role: Role) -> Self {
        Self { role, index: String::new() }
    }

    /// The symbol of a role with an index.
    pub fn indexed(role: Role, index: impl Into<String>) -> Self {
        Self { role, index: index.into() }
    }
}
