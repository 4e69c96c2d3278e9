//! How far a part falls short of what is asked of it: which part comes nearest is told by these.

/// The conditions that a part does not meet.
#[derive(Debug, Default)]
pub(super) struct Misfit {
    /// In words, one for each condition not met.
    reasons: Vec<String>,
    /// How many conditions are not met; one that cannot be judged counts as not met.
    pub(super) conditions: u32,
    /// By what factor the figures fall short, all multiplied.
    shortfall: f64,
}

impl Misfit {
    /// A condition not met. `shortfall` is what is needed over what there is, 1 where no figures compare.
    pub(super) fn add(&mut self, reason: String, shortfall: f64) {
        if self.conditions == 0 {
            self.shortfall = 1.0;
        }
        self.conditions += 1;
        self.shortfall *= shortfall;
        self.reasons.push(reason);
    }

    /// As [`Misfit::add`], unless the same was said already.
    pub(super) fn add_once(&mut self, reason: String, shortfall: f64) {
        if !self.reasons.contains(&reason) {
            self.add(reason, shortfall);
        }
    }

    /// By what factor the figures fall short, all multiplied; 1 where none do.
    pub(super) fn shortfall(&self) -> f64 {
        self.shortfall.max(1.0)
    }

    /// Whether this part comes nearer: fewer conditions not met, then the smaller shortfall.
    fn is_less_than(&self, other: &Misfit) -> bool {
        self.conditions
            .cmp(&other.conditions)
            .then(self.shortfall.total_cmp(&other.shortfall))
            .is_lt()
    }

    /// All conditions not met, as they follow the name of the part.
    pub(super) fn words(&self) -> String {
        self.reasons.join(", and ")
    }
}

/// The part that comes nearest of those that were looked at; of equally near ones the first.
pub(super) struct Nearest<'p> {
    known: Option<(Misfit, &'p str)>,
}

impl<'p> Nearest<'p> {
    /// Of no part yet.
    pub(super) fn of_none() -> Self {
        Self { known: None }
    }

    /// Notes a part and what it lacks.
    pub(super) fn note(&mut self, id: &'p str, misfit: Misfit) {
        let nearer = self
            .known
            .as_ref()
            .is_none_or(|(known, _)| misfit.is_less_than(known));
        if nearer {
            self.known = Some((misfit, id));
        }
    }

    /// The part and what it lacks in words; `named` where the list asks for this one and no other.
    pub(super) fn words(&self, named: bool) -> Option<String> {
        let (misfit, id) = self.known.as_ref()?;
        let lead = if named { "" } else { "the nearest one, " };
        let comma = if named { "" } else { "," };
        Some(format!("{lead}`{id}`{comma} {}", misfit.words()))
    }

    /// What the nearest part lacks, and its id.
    pub(super) fn into_known(self) -> Option<(Misfit, &'p str)> {
        self.known
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fewer_conditions_come_before_smaller_shortfalls() {
        let mut nearest = Nearest::of_none();
        assert_eq!(nearest.words(false), None);
        let mut two = Misfit::default();
        two.add("is red".to_string(), 1.0);
        two.add("is thin".to_string(), 1.1);
        nearest.note("A", two);
        let mut far = Misfit::default();
        far.add("is rated 5 A where 50 A is needed".to_string(), 10.0);
        nearest.note("B", far);
        let mut near = Misfit::default();
        near.add("is rated 40 A where 50 A is needed".to_string(), 1.25);
        nearest.note("C", near);
        let words = nearest.words(false).expect("three parts");
        assert_eq!(
            words,
            "the nearest one, `C`, is rated 40 A where 50 A is needed"
        );
        let named = nearest.words(true).expect("three parts");
        assert_eq!(named, "`C` is rated 40 A where 50 A is needed");
    }
}
