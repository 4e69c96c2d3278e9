//! Sets of requirements, by their number. Knows nothing of what they are.

/// Most requirements that one set can hold.
pub const MOST: usize = 128;

/// A set of small numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Set(u128);

impl Set {
    /// The set without members.
    pub const EMPTY: Set = Set(0);

    /// The numbers below `count`, at most [`MOST`].
    pub fn first(count: usize) -> Set {
        if count >= MOST {
            Set(u128::MAX)
        } else {
            Set((1 << count) - 1)
        }
    }

    /// The set with one member.
    pub fn one(member: usize) -> Set {
        Set(1 << member)
    }

    /// This set and one more member.
    #[must_use]
    pub fn with(self, member: usize) -> Set {
        Set(self.0 | 1 << member)
    }

    /// This set less one member.
    #[must_use]
    pub fn without(self, member: usize) -> Set {
        Set(self.0 & !(1 << member))
    }

    /// What is in either.
    #[must_use]
    pub fn or(self, other: Set) -> Set {
        Set(self.0 | other.0)
    }

    /// What is in both.
    #[must_use]
    pub fn and(self, other: Set) -> Set {
        Set(self.0 & other.0)
    }

    /// What is in this one and not in the other.
    #[must_use]
    pub fn less(self, other: Set) -> Set {
        Set(self.0 & !other.0)
    }

    /// Whether every member is in the other.
    pub fn is_within(self, other: Set) -> bool {
        self.0 & !other.0 == 0
    }

    /// Whether the two share a member.
    pub fn meets(self, other: Set) -> bool {
        self.0 & other.0 != 0
    }

    /// Whether it holds a member.
    pub fn has(self, member: usize) -> bool {
        self.0 & (1 << member) != 0
    }

    /// Whether it holds nothing.
    pub fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// Number of members.
    pub fn len(self) -> usize {
        self.0.count_ones() as usize
    }

    /// The members, rising.
    pub fn members(self) -> impl DoubleEndedIterator<Item = usize> + Clone {
        (0..MOST).filter(move |member| self.has(*member))
    }
}

impl FromIterator<usize> for Set {
    fn from_iter<I: IntoIterator<Item = usize>>(members: I) -> Set {
        members.into_iter().fold(Set::EMPTY, Set::with)
    }
}
