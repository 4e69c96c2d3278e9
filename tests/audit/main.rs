//! The audit on arrangements that are right, on ones broken by hand, and on ones that make no sense.

mod breaks;
mod broken;
mod catalogue;
mod certificates;
mod command;
mod documents;
mod edges;
mod figures;
mod fixture;
mod lengths;
mod loads;
mod materials;
mod nonsense;
mod places;
mod pushes;
mod shields;
mod sizes;
mod temperatures;
mod unknown;
mod verdicts;
mod walls;
