//! Nothing that a file can contain makes the audit panic: every single value of a right arrangement is
//! replaced by nonsense, and random handfuls of them together.

use crate::fixture::{stainless, station};
use glandrail::arrangement::Arrangement;
use glandrail::audit;
use proptest::prelude::*;
use toml::Value;

/// A way to a value: names of fields and places in lists.
pub type Way = Vec<Step>;

#[derive(Debug, Clone)]
pub enum Step {
    Field(String),
    Place(usize),
}

/// Every value of a document, branches included.
pub fn ways(value: &Value, way: &mut Way, found: &mut Vec<Way>) {
    if !way.is_empty() {
        found.push(way.clone());
    }
    match value {
        Value::Array(items) => {
            for (place, item) in items.iter().enumerate() {
                way.push(Step::Place(place));
                ways(item, way, found);
                way.pop();
            }
        }
        Value::Table(fields) => {
            for (name, item) in fields {
                way.push(Step::Field(name.clone()));
                ways(item, way, found);
                way.pop();
            }
        }
        _ => {}
    }
}

/// The value at the end of a way; `None` where an earlier change has cut it off.
pub fn at<'v>(value: &'v mut Value, way: &[Step]) -> Option<&'v mut Value> {
    let mut here = value;
    for step in way {
        here = match step {
            Step::Field(name) => here.as_table_mut()?.get_mut(name)?,
            Step::Place(place) => here.as_array_mut()?.get_mut(*place)?,
        };
    }
    Some(here)
}

/// How many kinds of nonsense each single value is replaced by; which ones, changes from value to value.
const KINDS: usize = 3;

/// Nonsense of the same type as a value.
fn nonsense(value: &Value) -> Vec<Value> {
    match value {
        Value::Float(number) => {
            let mut others: Vec<f64> = vec![
                f64::NAN,
                f64::INFINITY,
                f64::NEG_INFINITY,
                0.0,
                -1.0,
                1e300,
                -1e300,
                5e-324,
            ];
            others.push(-number);
            others.push(number + 1.0);
            others.into_iter().map(Value::Float).collect()
        }
        Value::Integer(_) => [0, 1, 7, i64::from(u32::MAX)].map(Value::Integer).to_vec(),
        Value::Boolean(is) => vec![Value::Boolean(!is)],
        Value::String(_) => [
            "",
            "ghost",
            "X1:1",
            "X1:2",
            "PE",
            "W1",
            "S0",
            "E1",
            "R1",
            "C1/L",
            "a/b/c",
            "T1",
            "M6",
            "left",
            "top",
            "right",
            "lid",
            "back",
            "upper",
            "double_level",
            "earth",
            "turned",
            "NPT 3",
            "ex_e",
            "intrinsically_safe",
            "partition",
            "end_stop",
            "emergency_stop",
            "lamp",
            "Ga",
            "steel",
            "AWG 14",
            "IP00",
            "solid",
            "ä\u{0}ß",
        ]
        .map(|text| Value::String(text.into()))
        .to_vec(),
        Value::Array(items) => {
            let mut others = vec![Value::Array(Vec::new())];
            others.push(Value::Array(items.iter().chain(items).cloned().collect()));
            others.push(Value::Array(items.iter().rev().cloned().collect()));
            others.push(Value::Array(items.iter().skip(1).cloned().collect()));
            others
        }
        Value::Table(_) => vec![Value::Table(toml::map::Map::new())],
        Value::Datetime(_) => Vec::new(),
    }
}

pub fn read(document: Value) -> Option<Arrangement> {
    document.try_into().ok()
}

pub fn document() -> Value {
    Value::try_from(station()).expect("an arrangement can be written")
}

#[test]
fn a_document_is_read_as_it_was_written() {
    assert_eq!(read(document()), Some(station()));
    let json = serde_json::to_string(&stainless()).expect("plain data");
    assert_eq!(
        serde_json::from_str::<Arrangement>(&json).expect("plain data"),
        stainless()
    );
}

#[test]
fn no_single_value_makes_the_audit_panic() {
    let document = document();
    let mut all = Vec::new();
    ways(&document, &mut Vec::new(), &mut all);
    assert!(all.len() > 2000, "{} values", all.len());
    let (mut audited, mut caught) = (0u32, 0u32);
    for (index, way) in all.iter().enumerate() {
        let mut changed = document.clone();
        let value = at(&mut changed, way).expect("a way");
        let before = value.clone();
        let others = nonsense(&before);
        for turn in 0..KINDS.min(others.len()) {
            let other = others[(index * KINDS + turn) % others.len()].clone();
            *at(&mut changed, way).expect("a way") = other.clone();
            let Some(arrangement) = read(changed.clone()) else {
                continue;
            };
            let report = audit::audit(&arrangement, None);
            audited += 1;
            caught += u32::from(!report.holds());
            // A number that is none is never accepted, wherever it stands.
            if matches!(other, Value::Float(number) if !number.is_finite()) {
                assert!(!report.holds(), "{way:?} = {other}");
            }
            assert!(serde_json::to_string(&report).is_ok());
        }
    }
    assert!(audited > 4_000, "{audited}");
    // Most of it is noticed; what is not are names, texts and figures with room to spare.
    assert!(caught * 3 > audited, "{caught} of {audited}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    /// Several values at once.
    #[test]
    fn no_handful_of_values_makes_the_audit_panic(
        picks in proptest::collection::vec((any::<prop::sample::Index>(), any::<prop::sample::Index>()), 1..40)
    ) {
        let mut changed = document();
        let mut all = Vec::new();
        ways(&changed, &mut Vec::new(), &mut all);
        for (which, what) in picks {
            let before = changed.clone();
            let way = which.get(&all);
            if let Some(value) = at(&mut changed, way) {
                let others = nonsense(value);
                if !others.is_empty() {
                    *value = what.get(&others).clone();
                }
            }
            // A change that can no longer be read is taken back.
            if read(changed.clone()).is_none() {
                changed = before;
            }
        }
        let arrangement = read(changed).expect("every change could be read");
        let report = audit::audit(&arrangement, None);
        prop_assert_eq!(report.rules.len() + 1, audit::rules().len());
    }
}
