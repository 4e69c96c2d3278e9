//! A second opinion on "smallest": a plain search that tries everything, against the model.

mod cases;
mod opinion;

use cases::Case;
use glandrail::model::SearchOptions;
use glandrail::propose::{Answer, propose};
use glandrail::workshop::Workshop;
use std::collections::BTreeMap;

#[test]
fn explore() {
    let from: u64 = std::env::var("FROM").map_or(1, |text| text.parse().unwrap());
    let to: u64 = std::env::var("TO").map_or(200, |text| text.parse().unwrap());
    let workshop = Workshop::default();
    let mut tally: BTreeMap<String, u32> = BTreeMap::new();
    for seed in from..=to {
        let case = Case::new(seed);
        let list = case.list();
        let Ok(demand) = glandrail::demand::build(&list, &case.catalogue, &workshop) else {
            *tally.entry(format!("unserved {:?}", case.family)).or_default() += 1;
            if std::env::var("SHOW").is_ok() {
                println!("{seed}: {}", glandrail::demand::build(&list, &case.catalogue, &workshop).unwrap_err().summary());
            }
            continue;
        };
        let clusters: usize = demand.strips.iter().map(|strip| strip.clusters.len()).sum();
        if clusters > 7 || demand.entries.len() > 6 || demand.elements.len() > 4 {
            *tally.entry(format!("too large {:?}", case.family)).or_default() += 1;
            continue;
        }
        let start = std::time::Instant::now();
        let mine = opinion::decide(&list, &case.catalogue, &workshop);
        let t1 = start.elapsed();
        let theirs = propose(&list, &case.catalogue, &workshop, SearchOptions::default());
        let t2 = start.elapsed() - t1;
        if t1.as_millis() > 500 || t2.as_millis() > 500 { println!("{seed}: slow {t1:?} {t2:?}"); }
        let (chosen, excluded, proven) = match &theirs {
            Ok(Answer::Found(found)) => (
                Some((found.arrangement.enclosure.id.clone(), found.arrangement.enclosure.orientation)),
                found.excluded.clone(),
                found.proven,
            ),
            Ok(Answer::Impossible { excluded, proven }) => (None, excluded.clone(), *proven),
            Err(error) => {
                let demand2 = glandrail::demand::build(&list, &case.catalogue, &workshop).unwrap();
                if let glandrail::model::Outcome::Found(f) = glandrail::model::search(&list, &demand2, &case.catalogue, &workshop, SearchOptions::default()).unwrap() {
                    let a = mine.chosen.as_ref().map(|(n, _)| n.clone());
                    let b = Some((f.mounted.id.clone(), f.mounted.orientation));
                    if a != b { println!("{seed} mine {a:?} theirs {b:?} (with fault)"); 
                    if std::env::var("SHOW").is_ok() { 
                for e in case.catalogue.enclosure.iter().filter(|e| e.id == f.mounted.id || Some(&e.id) == a.as_ref().map(|c| &c.0)) { println!("{}", toml::to_string(e).unwrap()); }
                for e in &f.excluded { println!("theirs {e:?}"); }
                for e in &demand.entries { println!("entry {:?} {} env {} reach {} {:?} ws {}", e.purpose, e.thread, e.envelope_mm, e.reach_in_mm, e.walls, e.wiring_space_mm); }
                for s in &demand.strips { for c in &s.clusters { println!("{} {:?}", s.name, c.terminals.iter().map(|t| demand.terminals[*t].part.id.as_str()).collect::<Vec<_>>()); } }
                println!("decided {:#?}", f.decided);
                    }
*tally.entry("DISAGREE".into()).or_default() += 1;}
                }
                println!("{seed} {:?}: FAULT {error}", case.family);
                if std::env::var("SHOW").is_ok() { println!("{}", case.text);}
                *tally.entry("fault".into()).or_default() += 1;
                continue;
            }
        };
        if !proven { println!("{seed} not proven"); }
        let class = match &mine.chosen {
            None => "impossible".to_string(),
            Some((_, taken)) => format!("{} r{} m{} b{} w{}", if mine.excluded.iter().any(|(_, s)| s.is_none()) {"hard"} else {"easy"}, taken.rails, taken.mixed_rail as u8, taken.band as u8, taken.further_walls as u8),
        };
        *tally.entry(format!("{:?} {class}", case.family)).or_default() += 1;
        let my_chosen = mine.chosen.as_ref().map(|(name, _)| name.clone());
        let a: std::collections::BTreeSet<_> = mine.excluded.iter().map(|(name, _)| name.clone()).collect();
        let b: std::collections::BTreeSet<_> = excluded.iter().map(|e| (e.enclosure.clone(), e.orientation)).collect();
        if my_chosen == chosen && a != b { println!("{seed} {:?} mine excluded {a:?} theirs {b:?}", case.family); }
        for (e, (name, screen)) in excluded.iter().zip(&mine.excluded) {
            let r = format!("{:?}", e.reason); let r = r.split([' ','(','{']).next().unwrap().to_string();
            *tally.entry(format!("reason {screen:?} / {r}{}", if *name == (e.enclosure.clone(), e.orientation) {""} else {" ORDER"})).or_default() += 1;
        }
        if my_chosen != chosen {
            println!("{seed} {:?}: mine {my_chosen:?} theirs {chosen:?}", case.family);
            *tally.entry("DISAGREE".into()).or_default() += 1;
            if std::env::var("SHOW").is_ok() {
                println!("{}", case.text);
                let id = chosen.clone().or(my_chosen.clone()).unwrap().0;
                for e in case.catalogue.enclosure.iter().filter(|e| e.id == id || Some(&e.id) == my_chosen.as_ref().map(|c| &c.0)) {
                    println!("{}", toml::to_string(e).unwrap());
                }
                println!("mine excluded {:?}", mine.excluded);
                for e in &excluded { println!("theirs {e:?}"); }
                for e in &demand.entries { println!("entry {:?} {} env {} reach {} {:?} ws {}", e.purpose, e.thread, e.envelope_mm, e.reach_in_mm, e.walls, e.wiring_space_mm); }
                for s in &demand.strips { for c in &s.clusters { println!("{} {:?}", s.name, c.terminals.iter().map(|t| demand.terminals[*t].part.id.as_str()).collect::<Vec<_>>()); } }
                for e in &demand.elements { println!("{} {:?} {} {:?}", e.part.id, e.kind, e.depth_mm, e.bend_mm); }
            }
            for ex in &excluded {
                if my_chosen.as_ref().is_some_and(|(id, o)| *id == ex.enclosure && *o == ex.orientation) {
                    println!("    {:?} mine: {:?}", ex.reason, mine.chosen);
                }
            }
        }
    }
    for (class, count) in tally {
        println!("{count:4} {class}");
    }
}

#[test]
fn probe() {
    let workshop = Workshop::default();
    let case = Case::new(4969);
    let list = case.list();
    println!("{}", case.text);
    for (h, w) in [(253.0, 118.0), (254.0, 118.0), (255.0, 118.0), (254.0, 108.0), (253.0, 108.0), (270.0,118.0), (300.0, 118.0), (304.0,118.0), (305.0,118.0), (306.0,118.0), (320.0,118.0), (356.0, 118.0), (400.0, 118.0)] {
        let mut c = case.catalogue.clone();
        c.enclosure.retain(|e| e.id == "DEMO-SECOND-10");
        let e = &mut c.enclosure[0];
        e.inner_mm[1] = h; e.outer_mm[1] = h + 6.0; e.inner_mm[0] = w; e.outer_mm[0] = w + 6.0; e.plate.height_mm = h - 28.0; e.plate.width_mm = w - 28.0;
        e.rated_power[0].power_w = 50.0;
        let mine = opinion::decide(&list, &c, &workshop);
        let demand = glandrail::demand::build(&list, &c, &workshop).unwrap();
        match glandrail::model::search(&list, &demand, &c, &workshop, SearchOptions::default()).unwrap() {
            glandrail::model::Outcome::Found(f) => println!("{h} {w} mine {:?} theirs {:?} {:?} {:?}", mine.chosen, f.decided.rails, f.decided.slots_mm, f.decided.bounds),
            glandrail::model::Outcome::Impossible { excluded, .. } => println!("{h} {w} mine {:?} {:?} theirs {:?}", mine.chosen, mine.excluded, excluded[0].reason),
        }
    }
}
