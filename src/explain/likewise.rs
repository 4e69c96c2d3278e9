//! Changes that cost the same: the one with the best enclosure is taken, the others that serve are told.

use super::apply::Ease;
use super::ground::{Ground, Part};

/// Most changes of the same cost that are tried.
const MOST_TRIED: usize = 60;

/// What would serve in place of one change of a way out, all others as they are.
#[derive(Debug, Clone, PartialEq)]
pub struct Likewise {
    /// The requirement, by number.
    pub index: usize,
    /// How far it is eased then.
    pub ease: Ease,
    /// The enclosure that then takes the list.
    pub enclosure: String,
}

/// Takes of each part's changes of the same cost the one with the enclosure that comes first in the objective,
/// and gives the others, solved with the parts as they are in the end.
pub(super) fn likewise(ground: Ground<'_>, parts: &mut [Part]) -> Vec<Likewise> {
    let as_found = parts.to_vec();
    for position in 0..parts.len() {
        let best = of_the_same_cost(ground, parts, position)
            .into_iter()
            .min_by_key(|(rank, _)| *rank);
        if let Some((_, best)) = best {
            parts[position].ease = best.ease;
        }
    }
    // With another change than the one found another part may be eased too far: then the one found stays.
    if *parts != *as_found && !each_is_least(ground, parts) {
        parts.clone_from_slice(&as_found);
    }
    let parts: &[Part] = parts;
    (0..parts.len())
        .flat_map(|position| {
            let mut found = of_the_same_cost(ground, parts, position);
            found.sort_by_key(|(rank, _)| *rank);
            let others = found.into_iter().map(|(_, likewise)| likewise);
            others.filter(move |of| of.ease != parts[position].ease)
        })
        .collect()
}

/// Steps of one part that cost as much as the one taken and serve with the others as they are, each with its place
/// in the objective. None where steps are amounts that rise: the first of those is the least, whatever it costs.
fn of_the_same_cost(ground: Ground<'_>, parts: &[Part], position: usize) -> Vec<(usize, Likewise)> {
    let index = parts[position].index;
    let ladder = ground.ladder(index);
    if ladder.ends.len() < ladder.steps.len() || ground.work.is_enough() {
        return Vec::new();
    }
    let taken = ladder
        .steps
        .iter()
        .find(|(ease, _)| *ease == parts[position].ease);
    let Some((_, cost)) = taken else {
        return Vec::new();
    };
    let same: Vec<&Ease> = ladder
        .steps
        .iter()
        .filter(|(_, other)| (other - cost).abs() < 1e-9)
        .map(|(ease, _)| ease)
        .take(MOST_TRIED)
        .collect();
    if same.len() < 2 {
        return Vec::new();
    }
    let tried = same.into_iter().filter_map(|ease| {
        let mut parts = parts.to_vec();
        parts[position].ease = ease.clone();
        let attempt = ground.attempt(&parts)?;
        let likewise = Likewise {
            index,
            ease: ease.clone(),
            enclosure: attempt.found.mounted.id.clone(),
        };
        Some((ground.rank(&attempt), likewise))
    });
    tried.collect()
}

/// Whether no cheaper step of any part serves with the others as they are.
fn each_is_least(ground: Ground<'_>, parts: &[Part]) -> bool {
    (0..parts.len()).all(|position| {
        let ladder = ground.ladder(parts[position].index);
        let taken = &parts[position].ease;
        let known = ladder.steps.iter().position(|(ease, _)| ease == taken);
        let Some(step) = known else {
            // Fewer cables than the ladder speaks of: nothing is known of it.
            return false;
        };
        let cost = ladder.steps[step].1;
        let cheaper = ladder.steps[..step].iter().rev();
        let cheaper = cheaper.filter(|(_, other)| *other < cost - 1e-9);
        // Where the ladder rises the next cheaper one stands for all.
        let most = if ladder.ends.len() == 1 {
            1
        } else {
            MOST_TRIED
        };
        !cheaper.take(most).any(|(ease, _)| {
            let mut parts = parts.to_vec();
            parts[position].ease = ease.clone();
            ground.serves(&parts, ground.full())
        })
    })
}
