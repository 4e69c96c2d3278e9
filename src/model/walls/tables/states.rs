//! The numbers of entries that are still meant, and the way between them and indices.

/// Numbers of entries by class.
pub(super) type Counts = Vec<u32>;

/// The states of a problem and the way between numbers and indices.
pub(super) struct States {
    most: Counts,
    pub all: Vec<Counts>,
    /// The counts of each state side by side in one number, with a free bit above each.
    packed: Vec<u64>,
    /// The free bits. [`super::MOST_STATES`] keeps counts and free bits within the number.
    guards: u64,
}
impl States {
    pub fn new(most: Counts) -> Self {
        let mut all = vec![vec![0; most.len()]];
        for (class, most) in most.iter().enumerate() {
            all = all
                .iter()
                .flat_map(|known| {
                    (0..=*most).map(move |count| {
                        let mut counts = known.clone();
                        counts[class] = count;
                        counts
                    })
                })
                .collect();
        }
        let bits = |most: u32| u32::BITS - most.leading_zeros() + 1;
        let packed = |counts: &Counts| {
            let lanes = counts.iter().zip(&most);
            lanes.fold(0, |packed, (count, most)| {
                packed << bits(*most) | u64::from(*count)
            })
        };
        let guards = most.iter().fold(0, |guards, most| {
            guards << bits(*most) | 1 << (bits(*most) - 1)
        });
        Self {
            packed: all.iter().map(packed).collect(),
            guards,
            most,
            all,
        }
    }

    /// Whether the one state has at least as many of every class as the other.
    pub fn holds(&self, one: usize, other: usize) -> bool {
        // A count that is too small borrows the free bit above it.
        let rest = (self.packed[one] | self.guards) - self.packed[other];
        rest & self.guards == self.guards
    }

    /// The one state less the other, of no class fewer than none.
    pub fn less(&self, one: usize, other: usize) -> usize {
        let pairs = self.all[one].iter().zip(&self.all[other]);
        let rest: Counts = pairs
            .map(|(one, other)| one.saturating_sub(*other))
            .collect();
        self.index(&rest)
    }

    pub fn index(&self, counts: &[u32]) -> usize {
        counts
            .iter()
            .zip(&self.most)
            .fold(0, |index, (count, most)| {
                index * (*most as usize + 1) + *count as usize
            })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn states_are_compared_class_by_class() {
        let states = States::new(vec![3, 1, 7, 2]);
        for (one, counts) in states.all.iter().enumerate() {
            for (other, others) in states.all.iter().enumerate() {
                let holds = counts.iter().zip(others).all(|(one, other)| one >= other);
                assert_eq!(states.holds(one, other), holds, "{counts:?} {others:?}");
            }
        }
    }
}
