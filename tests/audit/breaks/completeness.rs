//! Breaks of the rules of `completeness`: what must be there: cores, conductors, earth, spare, accessories and markings.

use super::{Broken, accessory, broken, shift_x};
use crate::fixture::{find_terminal, reheat, retotal, stainless, thread, unearthed};
use glandrail::arrangement::*;
use glandrail::catalogue::TerminalFunction;

fn remove_accessory(arrangement: &mut Arrangement, id: &str) {
    arrangement
        .accessories
        .retain(|accessory| accessory.id != id);
    retotal(arrangement);
}

/// The breaks of this group.
pub static BREAKS: &[Broken] = &[
    broken("completeness.cores", "a core left over", |a| {
        a.cables[0].core_count = 6;
        a.cables[0].cores = "6 x 1.5 mm2".into()
    }),
    broken("completeness.cores", "screen not connected", |a| {
        a.cables[0].screened = true
    }),
    broken(
        "completeness.wires",
        "clamp does not list its conductor",
        |a| {
            find_terminal(a, "X1:7").clamps[1].wires.clear();
        },
    ),
    broken(
        "completeness.wires",
        "clamp lists a conductor that ends elsewhere",
        |a| {
            find_terminal(a, "X1:8").clamps[1].wires.push("C99".into());
        },
    ),
    broken(
        "completeness.potentials",
        "conductor of another potential",
        |a| {
            a.wires[11].potential = "W2/1".into();
        },
    ),
    broken("completeness.circuits", "jumper left out", |a| {
        a.jumpers.clear();
        reheat(a);
        retotal(a);
    }),
    broken(
        "completeness.contact_points",
        "free points not reported",
        |a| a.remarks.clear(),
    ),
    broken(
        "completeness.spare_terminals",
        "no spare terminal left",
        |a| {
            let terminal = find_terminal(a, "X1:8");
            terminal.spare = false;
            terminal.marking = "8".into();
        },
    ),
    broken(
        "completeness.spare_terminals",
        "terminal with conductors recorded as spare",
        |a| find_terminal(a, "X1:1").spare = true,
    ),
    broken(
        "completeness.spare_entries",
        "two spare entries asked for",
        |a| {
            a.spare.entries.insert(thread("M20"), 2);
        },
    ),
    broken("completeness.earth", "earth on another terminal", |a| {
        let terminal = find_terminal(a, "X1:9");
        terminal.function = TerminalFunction::FeedThrough;
        terminal.marking = "9".into();
    }),
    Broken {
        rule: "completeness.internal_earth",
        what: "earth terminal of its own for 1 mm²",
        twin: unearthed,
        cut: |a| a.enclosure.internal_earth_mm2 = Some(1.0),
    },
    Broken {
        rule: "completeness.internal_earth",
        what: "not known to have one",
        twin: unearthed,
        cut: |a| a.enclosure.internal_earth_mm2 = None,
    },
    Broken {
        rule: "completeness.external_earth",
        what: "not known to have one",
        twin: stainless,
        cut: |a| a.enclosure.external_earth_mm2 = None,
    },
    Broken {
        rule: "completeness.external_earth",
        what: "external earth terminal for 2.5 mm²",
        twin: stainless,
        cut: |a| a.enclosure.external_earth_mm2 = Some(2.5),
    },
    broken(
        "completeness.warning_opening",
        "no warning against opening",
        |a| {
            a.notices.retain(|notice| notice.code != "do-not-open");
        },
    ),
    broken(
        "completeness.warning_opening",
        "told to the workshop alone",
        |a| {
            a.notices[0].place = NoticePlace::Workshop;
        },
    ),
    broken(
        "completeness.warning_charging",
        "no warning of charging",
        |a| {
            a.notices.retain(|notice| notice.code != "electrostatic");
        },
    ),
    broken(
        "completeness.notice_intrinsic",
        "a notice that says nothing",
        |a| {
            a.notices[1].text.clear();
        },
    ),
    broken("completeness.end_stops", "end stop left out", |a| {
        remove_accessory(a, "A5")
    }),
    broken("completeness.end_plates", "end plate left out", |a| {
        remove_accessory(a, "A4");
        shift_x(&mut accessory(a, "A5").body, -2.0);
    }),
    broken("completeness.partitions", "partition left out", |a| {
        remove_accessory(a, "A3")
    }),
    broken("completeness.numbering", "number given twice", |a| {
        a.terminals[7].number = 7
    }),
    broken("completeness.marking", "terminal without a marking", |a| {
        a.terminals[0].marking.clear()
    }),
    broken(
        "completeness.marking",
        "live terminal marked as earth",
        |a| find_terminal(a, "X1:1").marking = "PE".into(),
    ),
    broken("completeness.intrinsic_colour", "grey terminal", |a| {
        find_terminal(a, "X2:1").colour = "grey".into();
    }),
];
