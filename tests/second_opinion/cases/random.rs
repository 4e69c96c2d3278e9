//! A small generator of pseudo-random numbers (xorshift, 64 bits), the same on every machine.

/// The generator.
pub struct Random(u64);

impl Random {
    /// A generator for a seed.
    pub fn new(seed: u64) -> Self {
        // Neighbouring seeds are spread, and the state must not be 0.
        Random(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1)
    }

    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0 >> 11
    }

    /// A whole number from `least` to `most`.
    pub fn between(&mut self, least: u64, most: u64) -> u64 {
        least + self.next() % (most - least + 1)
    }

    /// A length from `least` to `most` in steps, mm.
    pub fn length(&mut self, least: u64, most: u64, step: u64) -> f64 {
        (least + step * self.between(0, (most - least) / step)) as f64
    }

    /// True in so many of a hundred cases.
    pub fn percent(&mut self, share: u64) -> bool {
        self.between(1, 100) <= share
    }

    /// One of several.
    pub fn one<'a, T>(&mut self, of: &'a [T]) -> &'a T {
        &of[self.between(0, of.len() as u64 - 1) as usize]
    }
}
