//! What stands on each rail, from left to right, in the order in which a fitter snaps it on; then the jumpers.

use super::drawing::{Column, Table};
use super::list::List;
use super::number;
use crate::arrangement::{Arrangement, PlacedRail, PlacedTerminal};
use crate::catalogue::AccessoryKind;
use crate::space::Block;

/// Equal things side by side on a rail.
struct Step<'a> {
    from_mm: f64,
    to_mm: f64,
    what: &'static str,
    names: String,
    count: u32,
    part: &'a str,
}

/// The order on the rails as a list: positions along x from the datum of the box, in mm.
pub(super) fn list(arrangement: &Arrangement) -> List {
    let mut rows = Vec::new();
    for rail in &arrangement.rails {
        for step in steps(arrangement, rail)
            .into_iter()
            .chain(jumpers(arrangement, rail))
        {
            rows.push(vec![
                rail.id.clone(),
                number(step.from_mm, 2),
                number(step.to_mm, 2),
                step.what.into(),
                step.names,
                step.count.to_string(),
                step.part.into(),
            ]);
        }
    }
    List::new(
        "rail order",
        &[
            "rail",
            "#x_from_mm",
            "#x_to_mm",
            "what",
            "designation",
            "#quantity",
            "part",
        ],
        rows,
    )
}

/// The same as a table of a sheet.
pub(super) fn table(arrangement: &Arrangement) -> Table {
    Table {
        name: "rail-order".into(),
        title: "On the rails, from left to right (x in mm from the datum)".into(),
        columns: vec![
            Column::words("Rail"),
            Column::numbers("From x"),
            Column::numbers("To x"),
            Column::words("What"),
            Column::sentences("Designation"),
            Column::numbers("Quantity"),
            Column::words("Part"),
        ],
        rows: list(arrangement).rows,
    }
}

/// What stands on a rail, terminals of one part and strip gathered while nothing stands between them.
fn steps<'a>(arrangement: &'a Arrangement, rail: &PlacedRail) -> Vec<Step<'a>> {
    let accessories = arrangement.accessories.iter();
    let accessories = accessories.filter(|part| part.rail == rail.id).map(|part| {
        (
            &part.body,
            Standing::Accessory(part.kind, &part.id, &part.part),
        )
    });
    let terminals = arrangement.terminals.iter();
    let terminals = terminals
        .filter(|part| part.rail == rail.id)
        .map(|part| (&part.body, Standing::Terminal(part)));
    let mut standing: Vec<(&Block, Standing<'a>)> = accessories.chain(terminals).collect();
    standing.sort_by(|(a, _), (b, _)| a.min.x_mm.total_cmp(&b.min.x_mm));
    let mut steps: Vec<Step<'a>> = Vec::new();
    let mut run: Option<(&PlacedTerminal, u32)> = None;
    for (body, what) in standing {
        match what {
            Standing::Accessory(kind, id, part) => {
                run = None;
                steps.push(step(body, kind_words(kind), id, part));
            }
            Standing::Terminal(terminal) => {
                if let (Some((first, last)), Some(step)) = (run, steps.last_mut())
                    && first.strip == terminal.strip
                    && first.part == terminal.part
                    && last + 1 == terminal.number
                {
                    step.to_mm = body.max.x_mm;
                    step.count += 1;
                    step.names = format!("{} – {}", first.id, terminal.number);
                    run = Some((first, terminal.number));
                    continue;
                }
                run = Some((terminal, terminal.number));
                steps.push(step(body, "terminals", &terminal.id, &terminal.part));
            }
        }
    }
    steps
}

enum Standing<'a> {
    Accessory(AccessoryKind, &'a str, &'a str),
    Terminal(&'a PlacedTerminal),
}

fn step<'a>(body: &Block, what: &'static str, id: &str, part: &'a str) -> Step<'a> {
    Step {
        from_mm: body.min.x_mm,
        to_mm: body.max.x_mm,
        what,
        names: id.to_string(),
        count: 1,
        part,
    }
}

/// The jumpers on a rail, which are set when all terminals stand.
fn jumpers<'a>(arrangement: &'a Arrangement, rail: &PlacedRail) -> impl Iterator<Item = Step<'a>> {
    let linked = |ids: &'a [String]| {
        let on_rail = arrangement.terminals.iter();
        let bodies = on_rail.filter(|part| part.rail == rail.id && ids.contains(&part.id));
        bodies
            .map(|part| (part.body.min.x_mm, part.body.max.x_mm))
            .reduce(|(low, high), (from, to)| (low.min(from), high.max(to)))
    };
    arrangement.jumpers.iter().filter_map(move |jumper| {
        let (from_mm, to_mm) = linked(&jumper.terminals)?;
        Some(Step {
            from_mm,
            to_mm,
            what: "jumper",
            names: format!("{} over {}", jumper.id, jumper.terminals.join(", ")),
            count: 1,
            part: &jumper.part,
        })
    })
}

fn kind_words(kind: AccessoryKind) -> &'static str {
    match kind {
        AccessoryKind::EndStop => "end stop",
        AccessoryKind::EndPlate => "end plate",
        AccessoryKind::Partition => "partition",
        AccessoryKind::Jumper => "jumper",
        AccessoryKind::EarthPlate => "earth plate",
    }
}
