//! Every number of the file: finite, in order where it bounds a block, not negative where it measures.

mod walk;

use super::document::RECORD;
use crate::audit::case::{Cases, Rule};
use crate::audit::context::Context;
use crate::number::short;
use serde::Serialize;
use walk::{Fault, Walk};

/// The rule of this file.
pub(super) static RULES: &[Rule] = &[Rule {
    id: "record.numbers",
    title: "numbers that can be",
    requires: "every number is finite, every block has its corners in order, and nothing but coordinates and temperatures is negative",
    source: RECORD,
    unit: "",
    check: numbers,
}];

fn numbers(context: &Context<'_>, cases: &mut Cases) {
    let mut walk = Walk::new("arrangement");
    if let Err(fault) = context.arrangement.serialize(&mut walk) {
        return cases.is_so(false, &["file"], || {
            format!("the arrangement cannot be written out: {fault}")
        });
    }
    for (path, fault) in &walk.faults {
        cases.is_so(false, &[path], || match fault {
            Fault::NotFinite => format!("{path} is not a finite number"),
            Fault::Negative(number) => format!("{path} is {}", short(*number, 12)),
            Fault::CornersOutOfOrder(axis) => {
                format!("the corners of {path} are not in order along {axis}")
            }
        });
    }
    if walk.faults.is_empty() {
        cases.is_so(true, &["file"], || {
            "every number of the file is possible".to_string()
        });
    }
}
