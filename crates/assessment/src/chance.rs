//! Numbers by chance that are the same in every run: what is looked at by sampling must not change from run to run.

/// SplitMix64 (Steele, Lea & Flood 2014; constants from memory).
#[derive(Clone, Debug)]
pub(crate) struct Chance(u64);

impl Chance {
    /// The usual sequence.
    pub(crate) fn new() -> Self {
        Self(0x9e37_79b9_7f4a_7c15)
    }

    /// One sequence of many, each unlike the others.
    pub(crate) fn numbered(number: u64) -> Self {
        Self(Self(number).bits())
    }

    /// 64 bits.
    pub(crate) fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A whole number below `count`; 0 where there is none.
    pub(crate) fn below(&mut self, count: usize) -> usize {
        // A few parts in 2^64 more of one choice than of another do not matter here.
        (self.bits() % count.max(1) as u64) as usize
    }

    /// A number from 0 up to 1, 1 left out.
    pub(crate) fn share(&mut self) -> f64 {
        // The 53 bits that a float holds.
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }
}
