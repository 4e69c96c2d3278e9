//! What follows what on a rail, and what is written on it.

use crate::arrangement::PlacedTerminal;
use crate::audit::case::{Cases, Rule, SLACK};
use crate::audit::context::{Context, RowItem};
use crate::catalogue::{AccessoryKind, CircuitKind, TerminalFunction};
use crate::standards::iec_60079_11::COLOUR;
use crate::standards::{Source, Status};
use std::collections::BTreeSet;

const PRACTICE: Source = Source::new(
    "common practice",
    "",
    "terminal rows",
    Status::CommonPractice,
);

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "completeness.end_stops",
        title: "end stops",
        requires: "the row on every rail begins and ends with an end stop",
        source: PRACTICE,
        unit: "",
        check: end_stops,
    },
    Rule {
        id: "completeness.end_plates",
        title: "end plates",
        requires: "right of a terminal with an open side directly follows the same terminal or an end plate",
        source: PRACTICE,
        unit: "",
        check: end_plates,
    },
    Rule {
        id: "completeness.partitions",
        title: "partitions between strips",
        requires: "between terminals of two strips that follow each other on a rail stands a partition, or each row is closed by an end stop of its own",
        source: PRACTICE,
        unit: "",
        check: partitions,
    },
    Rule {
        id: "completeness.numbering",
        title: "numbering of the terminals",
        requires: "no number occurs twice in a strip, and the id of a terminal is its strip and number",
        source: PRACTICE,
        unit: "",
        check: numbering,
    },
    Rule {
        id: "completeness.marking",
        title: "marking of the terminals",
        requires: "every terminal that is not spare has a marking, and the terminals of a strip are for its kind of circuit",
        source: PRACTICE,
        unit: "",
        check: marking,
    },
    Rule {
        id: "completeness.intrinsic_colour",
        title: "colour of intrinsically safe terminals",
        requires: "an intrinsically safe terminal other than earth for which a colour is known is light blue",
        source: COLOUR,
        unit: "",
        check: intrinsic_colour,
    },
];

fn end_stops(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("there are no terminals");
    for (rail, row) in &context.rows {
        if !row.iter().any(|item| matches!(item, RowItem::Terminal(_))) {
            continue;
        }
        for (item, end) in [(row.first(), "left"), (row.last(), "right")] {
            let Some(item) = item else { continue };
            cases.is_so(item.is(AccessoryKind::EndStop), &[rail, item.id()], || {
                format!("the row on {rail} ends with {} at the {end}", item.id())
            });
        }
    }
}

fn end_plates(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("no terminal has an open side");
    for row in context.rows.values() {
        for (index, item) in row.iter().enumerate() {
            let RowItem::Terminal(terminal) = item else {
                continue;
            };
            if !terminal.open_side {
                continue;
            }
            let next = row
                .get(index + 1)
                .copied()
                .filter(|next| (next.body().min.x_mm - terminal.body.max.x_mm).abs() <= SLACK);
            let holds = next.is_some_and(|next| match next {
                RowItem::Terminal(other) => other.part == terminal.part,
                RowItem::Accessory(_) => next.is(AccessoryKind::EndPlate),
            });
            cases.is_so(holds, &[&terminal.id], || {
                let next = next.map_or("nothing", |next| next.id());
                format!(
                    "at the open side of {} ({}) directly follows {next}",
                    terminal.id, terminal.part
                )
            });
        }
    }
}

fn partitions(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("no rail carries two strips");
    for row in context.rows.values() {
        let mut last: Option<&PlacedTerminal> = None;
        let mut parted = false;
        let mut end_stops = 0;
        for item in row {
            match item {
                RowItem::Accessory(accessory) => {
                    end_stops += u32::from(accessory.kind == AccessoryKind::EndStop);
                    // Two end stops: the rows are closed, each by itself.
                    parted |= accessory.kind == AccessoryKind::Partition || end_stops == 2;
                }
                RowItem::Terminal(terminal) => {
                    if let Some(before) = last.filter(|before| before.strip != terminal.strip) {
                        cases.is_so(parted, &[&before.id, &terminal.id], || {
                            let state = if parted {
                                "a partition, or a pair of end stops,"
                            } else {
                                "no partition"
                            };
                            format!("{state} stands between {} and {}", before.id, terminal.id)
                        });
                    }
                    last = Some(terminal);
                    parted = false;
                    end_stops = 0;
                }
            }
        }
    }
}

fn numbering(context: &Context<'_>, cases: &mut Cases) {
    let mut seen = BTreeSet::new();
    for terminal in &context.arrangement.terminals {
        let first = seen.insert((terminal.strip.as_str(), terminal.number));
        let named = terminal.id == format!("{}:{}", terminal.strip, terminal.number);
        cases.is_so(first && named, &[&terminal.id], || {
            let again = if first { "" } else { ", which occurs twice" };
            format!(
                "{} is number {} of strip {}{again}",
                terminal.id, terminal.number, terminal.strip
            )
        });
    }
}

fn marking(context: &Context<'_>, cases: &mut Cases) {
    for terminal in &context.arrangement.terminals {
        if !terminal.spare {
            cases.is_so(!terminal.marking.trim().is_empty(), &[&terminal.id], || {
                format!("{} is marked `{}`", terminal.id, terminal.marking)
            });
        }
        let reads_earth = matches!(terminal.marking.trim(), "PE" | "pe" | "Pe");
        cases.is_so(
            !reads_earth || terminal.function == TerminalFunction::Earth,
            &[&terminal.id],
            || {
                format!(
                    "{} is marked `{}` and is no earth terminal",
                    terminal.id, terminal.marking
                )
            },
        );
        if let Some(strip) = context.strips.get(terminal.strip.as_str()) {
            cases.is_so(strip.kind == terminal.kind, &[&terminal.id], || {
                format!(
                    "{} is {}, strip {} {}",
                    terminal.id,
                    terminal.kind.words(),
                    strip.name,
                    strip.kind.words()
                )
            });
        }
    }
}

fn intrinsic_colour(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("there is no intrinsically safe terminal for which a colour is known");
    for terminal in &context.arrangement.terminals {
        let safe = terminal.kind == CircuitKind::IntrinsicallySafe;
        if !safe || terminal.function == TerminalFunction::Earth || terminal.colour.is_empty() {
            continue;
        }
        let blue = matches!(
            terminal.colour.to_ascii_lowercase().as_str(),
            "light blue" | "blue"
        );
        cases.is_so(blue, &[&terminal.id], || {
            format!(
                "the intrinsically safe {} is {}",
                terminal.id, terminal.colour
            )
        });
    }
}
