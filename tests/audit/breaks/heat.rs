//! Breaks of the rules of `heat`: currents, sums of heat, and temperatures.

use super::{Broken, broken};
use crate::fixture::{arranged, bundled, hot, untested};

/// The breaks of this group.
pub static BREAKS: &[Broken] = &[
    broken("heat.length", "conductor counted with 300 mm", |a| {
        a.wires[0].heat_length_mm = 300.0
    }),
    broken("heat.currents", "full simultaneity", |a| {
        a.circuits[0].simultaneity = 1.0
    }),
    broken("heat.currents", "simultaneity above 1", |a| {
        a.circuits[2].simultaneity = 1.1
    }),
    broken("heat.sum", "a line too many", |a| {
        let mut line = a.heat.lines[10].clone();
        line.power_w = 0.01;
        a.heat.lines.push(line);
        a.heat.power_w += 0.01;
    }),
    broken("heat.sum", "sum at the limit too small", |a| {
        a.heat.power_at_limit_w *= 0.99
    }),
    broken("heat.sum", "limit of no class", |a| a.heat.limit_c = 20.0),
    broken("heat.sum", "section without a resistance", |a| {
        // What carries no current needs no resistance; this one carries 0.02 A.
        a.wires[14].section_mm2 = 1.2;
        // The power rule cannot be determined either: it is broken by the same datum. See below.
    }),
    broken("heat.lines", "one conductor too many in a line", |a| {
        a.heat.lines[0].count += 1
    }),
    broken("heat.lines", "a line left out", |a| {
        a.heat.lines.remove(0);
    }),
    broken("heat.row", "row that the certificate lacks", |a| {
        a.enclosure.rated_power.remove(0);
    }),
    broken("heat.row", "row for 39 °C", |a| {
        a.enclosure.rated_power[0].ambient_c = 39.0;
        a.heat.row_ambient_c = 39.0;
    }),
    broken("heat.reserve", "5 % kept free, 10 % asked for", |a| {
        a.heat.reserve_percent = 5.0;
        a.heat.permitted_power_w = 7.6;
    }),
    broken(
        "heat.reserve",
        "more recorded as permitted than 10 % leave",
        |a| a.heat.permitted_power_w = 7.3,
    ),
    broken("heat.power", "rated for 1.2 W", |a| {
        a.enclosure.rated_power[0].power_w = 1.2;
        a.heat.rated_power_w = 1.2;
        a.heat.permitted_power_w = 1.08;
    }),
    Broken {
        rule: "heat.defined_arrangement",
        what: "room for eight conductors of 1.5 mm²",
        twin: arranged,
        cut: |a| a.enclosure.defined_arrangement[0].most_conductors = 8,
    },
    Broken {
        rule: "heat.defined_arrangement",
        what: "no row for 1 mm²",
        twin: arranged,
        cut: |a| {
            a.enclosure.defined_arrangement.pop();
        },
    },
    Broken {
        rule: "heat.defined_arrangement",
        what: "rows of a lower ambient temperature",
        twin: arranged,
        cut: |a| {
            for row in &mut a.enclosure.defined_arrangement {
                row.ambient_c = 35.0;
            }
        },
    },
    Broken {
        rule: "heat.bundles",
        what: "nobody told of the bundles",
        twin: bundled,
        cut: |a| {
            a.notices.remove(0);
        },
    },
    Broken {
        rule: "heat.bundles",
        what: "told of another group",
        twin: bundled,
        cut: |a| a.notices[0].groups = vec!["power".into()],
    },
    Broken {
        rule: "heat.entry_temperature",
        what: "air above 70 °C, cables not marked",
        twin: hot,
        cut: |a| {
            a.terminals[0].rise_at_rated_k = Some(34.0);
            a.notices.remove(0);
        },
    },
    Broken {
        rule: "heat.branching_temperature",
        what: "cables marked for the entry alone",
        twin: hot,
        cut: |a| a.notices[0].cable_c = Some(80.0),
    },
    Broken {
        rule: "heat.branching_temperature",
        what: "rise unknown, no test announced",
        twin: untested,
        cut: |a| {
            a.notices.remove(0);
        },
    },
];
