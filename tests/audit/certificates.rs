//! Which certificate is asked for what: by the place of a part, and by the circuits on it.

use crate::fixture::{find_terminal, station};
use crate::loads;
use glandrail::arrangement::*;
use glandrail::audit::Verdict;
use glandrail::catalogue::CircuitKind::{self, ExE, IntrinsicallySafe};
use glandrail::standards::iec_60079_0::EquipmentProtectionLevel::{Db, Gb, Gc};

/// What one rule says of the station after a change.
fn verdict(id: &str, change: impl FnOnce(&mut Arrangement)) -> Verdict {
    loads::found(id, station(), change).verdict
}

#[test]
fn a_contact_that_nothing_is_wired_to_is_what_it_is_made_for() {
    // The start button's second block, certified as intrinsically safe alone.
    let spare = |circuits: &[CircuitKind]| {
        verdict("suitability.protection", |a| {
            let block = &mut a.elements[1].contacts[1];
            block.circuits = circuits.to_vec();
            block.certificate.protection = vec!["ia".into()];
        })
    };
    assert_eq!(spare(&[IntrinsicallySafe]), Verdict::Holds);
    assert_eq!(spare(&[IntrinsicallySafe, ExE]), Verdict::Fails);
    assert_eq!(spare(&[ExE]), Verdict::Fails);
    assert_eq!(spare(&[]), Verdict::Fails);
}

#[test]
fn a_wired_contact_is_what_its_circuits_are() {
    // The emergency stop's block, made for intrinsically safe circuits alone and certified so.
    let wired = |change: fn(&mut Arrangement)| {
        verdict("suitability.protection", |a| {
            let block = &mut a.elements[0].contacts[0];
            block.circuits = vec![IntrinsicallySafe];
            block.certificate.protection = vec!["ia".into()];
            change(a);
        })
    };
    assert_eq!(wired(|_| ()), Verdict::Fails);
    assert_eq!(
        wired(|a| a.circuits[0].kind = IntrinsicallySafe),
        Verdict::Holds
    );
    // One conductor of an Ex e circuit is enough.
    let one_of_two = wired(|a| a.wires[1].circuit = "I1".into());
    assert_eq!(one_of_two, Verdict::Fails);
}

#[test]
fn what_is_inside_needs_no_level_for_dust_and_needs_one_for_gas() {
    let level = "suitability.epl";
    let inside = |epl| verdict(level, |a| find_terminal(a, "X1:1").certificate.epl = epl);
    assert_eq!(inside(vec![Gb]), Verdict::Holds);
    assert_eq!(inside(vec![Gc, Db]), Verdict::Fails);
    assert_eq!(inside(vec![]), Verdict::NotDetermined);
    let outside = |epl| verdict(level, |a| a.enclosure.certificate.epl = epl);
    assert_eq!(outside(vec![Gb]), Verdict::Fails);
    assert_eq!(outside(vec![Db]), Verdict::Fails);
    assert_eq!(outside(vec![Gb, Db]), Verdict::Holds);
}
