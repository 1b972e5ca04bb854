//! Numbers of twice the precision, kept as an unevaluated sum of two.
//!
//! A steep load over 3 mm beside a flat one over 10 m has a growth so large that adding and later taking it
//! away again would leave its rounding on the flat one. Kept twofold, nothing visible is left.
//!
//! Source: T. J. Dekker, "A floating-point technique for extending the available precision", Numerische
//! Mathematik 18 (1971); the sum is Knuth's (The Art of Computer Programming, vol. 2, section 4.2.2). From memory.

/// The sum `high + low`, where `low` is what `high` could not hold.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Twofold {
    high: f64,
    low: f64,
}

impl Twofold {
    /// `a + b` without loss.
    pub(super) fn sum(a: f64, b: f64) -> Self {
        let high = a + b;
        let from_b = high - a;
        let low = (a - (high - from_b)) + (b - from_b);
        Self { high, low }
    }

    /// `a b` without loss.
    pub(super) fn product(a: f64, b: f64) -> Self {
        let high = a * b;
        let ((a1, a2), (b1, b2)) = (halves(a), halves(b));
        let low = ((a1 * b1 - high) + a1 * b2 + a2 * b1) + a2 * b2;
        Self { high, low }
    }

    /// The nearest plain number.
    pub(super) fn value(self) -> f64 {
        self.high
    }

    pub(super) fn plus(self, other: Self) -> Self {
        let sum = Self::sum(self.high, other.high);
        Self::renormalised(sum.high, sum.low + (self.low + other.low))
    }

    pub(super) fn minus(self, other: Self) -> Self {
        self.plus(Self { high: -other.high, low: -other.low })
    }

    pub(super) fn times(self, other: Self) -> Self {
        let product = Self::product(self.high, other.high);
        Self::renormalised(product.high, product.low + (self.high * other.low + self.low * other.high))
    }

    pub(super) fn over(self, divisor: Self) -> Self {
        let first = self.high / divisor.high;
        let rest = self.minus(divisor.times(first.into()));
        Self::renormalised(first, (rest.high + rest.low) / divisor.high)
    }

    /// `high` must be the larger of the two.
    fn renormalised(high: f64, low: f64) -> Self {
        let sum = high + low;
        Self { high: sum, low: low - (sum - high) }
    }
}

impl From<f64> for Twofold {
    fn from(value: f64) -> Self {
        Self { high: value, low: 0.0 }
    }
}

/// Splits a number into two of half as many digits, whose products are exact.
fn halves(a: f64) -> (f64, f64) {
    let shifted = 134_217_729.0 * a; // 2^27 + 1: half of the 53 digits
    let high = shifted - (shifted - a);
    (high, a - high)
}
