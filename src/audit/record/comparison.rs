//! The comparison of one part of an arrangement with that of the catalogue, field by field in their written form. Knows
//! nothing of which fields there are.

use crate::audit::case::{Cases, SLACK, figures_within};
use serde::Serialize;
use serde_json::Value;

/// The comparison of one part.
pub(super) struct Comparison<'c> {
    pub cases: &'c mut Cases,
    name: String,
    part: String,
}

impl Comparison<'_> {
    /// Each pair of names: that of the field in the arrangement, and that in the catalogue.
    pub fn fields(
        &mut self,
        record: &impl Serialize,
        part: &impl Serialize,
        fields: &[(&str, &str)],
    ) {
        self.fields_written(record, &written(part), fields);
    }

    /// As [`Comparison::fields`], of a part that has been written once for all that are like it.
    pub fn fields_written(
        &mut self,
        record: &impl Serialize,
        part: &Value,
        fields: &[(&str, &str)],
    ) {
        let record = written(record);
        for (of_record, of_part) in fields {
            self.values(of_record, &record[*of_record], &part[*of_part]);
        }
    }

    /// One field of both sides.
    pub fn values(&mut self, field: &str, record: &Value, part: &Value) {
        self.cases
            .is_so(equal(record, part), &[&self.name, &self.part], || {
                format!(
                    "{field} of {} is {record}, the catalogue says {part} for {}",
                    self.name, self.part
                )
            });
    }

    /// A length that the record may have rounded up, never down.
    pub fn not_below(&mut self, what: &str, record_mm: f64, part_mm: f64) {
        let holds = record_mm >= part_mm - SLACK;
        self.cases.is_so(holds, &[&self.name, &self.part], || {
            let (record, part) = figures_within(record_mm, part_mm, SLACK);
            format!(
                "{what} of {} is {record} mm, the catalogue says {part} mm for {}",
                self.name, self.part
            )
        });
    }
}

/// A value as a file would hold it.
pub(super) fn written(value: &impl Serialize) -> Value {
    serde_json::to_value(value).unwrap_or(Value::Null)
}

/// Whether two written values are equal; numbers by value, so that `3` and `3.0` are.
fn equal(a: &Value, b: &Value) -> bool {
    match (a, b) {
        (Value::Number(a), Value::Number(b)) => match (a.as_f64(), b.as_f64()) {
            (Some(a), Some(b)) => (a - b).abs() <= 1e-9 * a.abs().max(b.abs()).max(1.0),
            _ => false,
        },
        (Value::Array(a), Value::Array(b)) => {
            a.len() == b.len() && a.iter().zip(b).all(|(a, b)| equal(a, b))
        }
        (Value::Object(a), Value::Object(b)) => {
            a.len() == b.len()
                && a.iter()
                    .all(|(key, a)| b.get(key).is_some_and(|b| equal(a, b)))
        }
        _ => a == b,
    }
}

/// The comparison of a part, if the catalogue has it; otherwise the finding that it has not.
pub(super) fn begin<'c, 'p, P>(
    cases: &'c mut Cases,
    name: &str,
    id: &str,
    parts: &'p [P],
    id_of: impl Fn(&P) -> &str,
) -> Option<(Comparison<'c>, &'p P)> {
    let Some(part) = parts.iter().find(|part| id_of(part) == id) else {
        cases.is_so(false, &[name, id], || {
            format!("{name} is `{id}`, which the catalogue does not have")
        });
        return None;
    };
    Some((
        Comparison {
            cases,
            name: name.to_string(),
            part: id.to_string(),
        },
        part,
    ))
}

#[cfg(test)]
mod tests {
    use super::equal;
    use serde_json::json;

    #[test]
    fn numbers_are_equal_by_value() {
        assert!(equal(&json!([3, 0.1]), &json!([3.0, 0.1])));
        assert!(!equal(&json!({"a": 1}), &json!({"a": 1, "b": 2})));
        assert!(!equal(&json!(1.0), &json!(1.0001)));
    }
}
