//! Random numbers that are the same in every run.

/// Source: Steele, Lea, Flood, Fast splittable pseudorandom number generators, 2014 (SplitMix64, from memory).
pub struct Chance(pub u64);

impl Chance {
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// From 0 to 1.
    pub fn share(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub fn below(&mut self, count: usize) -> usize {
        (self.bits() % count.max(1) as u64) as usize
    }

    pub fn one_of<'a, T>(&mut self, all: &'a [T]) -> &'a T {
        &all[self.below(all.len())]
    }
}
