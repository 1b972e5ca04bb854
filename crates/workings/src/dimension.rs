//! The dimension of a quantity: whole powers of mass, length and time. An angle has none.

/// Powers of mass, length and time.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Dimension {
    /// Power of mass.
    pub mass: i8,
    /// Power of length.
    pub length: i8,
    /// Power of time.
    pub time: i8,
}

impl Dimension {
    /// A plain number, or an angle.
    pub const NONE: Self = Self::of(0, 0, 0);
    /// m
    pub const LENGTH: Self = Self::of(0, 1, 0);
    /// m²
    pub const AREA: Self = Self::of(0, 2, 0);
    /// m³: a volume, a first moment of area, a section modulus.
    pub const LENGTH_3: Self = Self::of(0, 3, 0);
    /// m⁴: a second moment of area.
    pub const LENGTH_4: Self = Self::of(0, 4, 0);
    /// N
    pub const FORCE: Self = Self::of(1, 1, -2);
    /// N m
    pub const MOMENT: Self = Self::of(1, 2, -2);
    /// N/m: a spread load, a shear flow, the stiffness of a spring.
    pub const FORCE_PER_LENGTH: Self = Self::of(1, 0, -2);
    /// Pa
    pub const STRESS: Self = Self::of(1, -1, -2);
    /// N m²: a flexural rigidity.
    pub const RIGIDITY: Self = Self::of(1, 3, -2);
    /// kg/m³
    pub const DENSITY: Self = Self::of(1, -3, 0);
    /// m/s²
    pub const ACCELERATION: Self = Self::of(0, 1, -2);

    /// The dimension with these powers of mass, length and time.
    pub const fn of(mass: i8, length: i8, time: i8) -> Self {
        Self { mass, length, time }
    }
}
