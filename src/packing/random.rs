//! Random numbers from a fixed seed: the additive generator with a mixing step known as SplitMix64
//! (public domain). Knows nothing of what they are for.

/// A generator.
pub(super) struct Random(u64);

impl Random {
    /// The same numbers each time.
    pub fn new() -> Random {
        Random(0x5EED_00C1_2C1E_5000)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    /// From 0 inclusive to 1 exclusive.
    pub fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// Between two bounds; the lower one where they are the wrong way round.
    pub fn between(&mut self, least: f64, most: f64) -> f64 {
        least + self.share() * (most - least).max(0.0)
    }

    /// Below a number that is not zero.
    pub fn below(&mut self, number: usize) -> usize {
        ((self.share() * number as f64) as usize).min(number.saturating_sub(1))
    }
}
