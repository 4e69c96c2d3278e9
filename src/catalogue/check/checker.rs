//! Findings about the fields of one part. Knows ranges; the trade only through the bounds it is given.

use crate::source::{Finding, Findings, Place};

/// Largest length of anything in or of a box, mm: a guard against centimetres and slips.
pub(super) const MOST_LENGTH_MM: f64 = 5_000.0;
/// Largest mass of one part, kg.
pub(super) const MOST_MASS_KG: f64 = 2_000.0;
/// Largest price of one part.
pub(super) const MOST_PRICE: f64 = 10_000_000.0;
/// Largest rated current, A.
pub(super) const MOST_CURRENT_A: f64 = 2_000.0;
/// Largest conductor section, mm².
pub(super) const MOST_SECTION_MM2: f64 = 630.0;
/// Largest resistance of a terminal, contact or jumper, mΩ.
pub(super) const MOST_RESISTANCE_MOHM: f64 = 10_000.0;
/// Largest power of anything inside a box, W.
pub(super) const MOST_POWER_W: f64 = 10_000.0;
/// Largest tightening torque, N·m.
pub(super) const MOST_TORQUE_NM: f64 = 1_000.0;
/// Longest stripping length of a conductor.
pub(super) const MOST_STRIP_MM: f64 = 100.0;
/// Highest and lowest temperature that a service range may name, °C.
pub(super) const SERVICE_C: [f64; 2] = [-100.0, 300.0];
/// What sums of tenths may be off in binary, mm.
pub(super) const SLACK_MM: f64 = 1e-6;

/// Collects findings about one part.
pub(super) struct Checker<'a> {
    place: &'a Place,
    findings: &'a mut Findings,
}

impl<'a> Checker<'a> {
    pub(super) fn new(place: &'a Place, findings: &'a mut Findings) -> Self {
        Self { place, findings }
    }

    /// An error about a field (a path within the part).
    pub(super) fn error(
        &mut self,
        field: &str,
        code: &'static str,
        message: impl Into<String>,
        expected: impl Into<String>,
        hint: impl Into<String>,
    ) {
        self.push(
            self.place
                .error(field, code, message)
                .expected(expected)
                .hint(hint),
        );
    }

    /// A warning about a field.
    pub(super) fn warning(
        &mut self,
        field: &str,
        code: &'static str,
        message: impl Into<String>,
        expected: impl Into<String>,
        hint: impl Into<String>,
    ) {
        self.push(
            self.place
                .warning(field, code, message)
                .expected(expected)
                .hint(hint),
        );
    }

    fn push(&mut self, finding: Finding) {
        self.findings.push(finding);
    }

    /// Above 0 and at most `most`.
    pub(super) fn positive(&mut self, field: &str, value: f64, most: f64) -> bool {
        let holds = value > 0.0 && value <= most;
        if !holds {
            self.out_of_range(field, value, format!("above 0, at most {most}"));
        }
        holds
    }

    /// As [`Checker::positive`], where the value may be missing.
    pub(super) fn positive_if(&mut self, field: &str, value: Option<f64>, most: f64) {
        if let Some(value) = value {
            self.positive(field, value, most);
        }
    }

    /// From `least` to `most`.
    pub(super) fn between(&mut self, field: &str, value: f64, least: f64, most: f64) -> bool {
        let holds = (least..=most).contains(&value);
        if !holds {
            self.out_of_range(field, value, format!("from {least} to {most}"));
        }
        holds
    }

    fn out_of_range(&mut self, field: &str, value: f64, expected: String) {
        let message = format!("`{field}` is {value}");
        let hint = "check the figure and its unit, which is the ending of the field's name";
        self.error(
            field,
            "catalogue-range",
            message,
            format!("a value {expected}"),
            hint,
        );
    }

    /// Each element of a list above 0 and at most `most`.
    pub(super) fn each_positive(&mut self, field: &str, values: &[f64], most: f64) -> bool {
        let mut holds = true;
        for (index, value) in values.iter().enumerate() {
            holds &= self.positive(&format!("{field}[{index}]"), *value, most);
        }
        holds
    }

    /// A range from least to greatest, both above 0.
    pub(super) fn range(&mut self, field: &str, range: [f64; 2], most: f64) -> bool {
        self.each_positive(field, &range, most) && self.rising(field, range)
    }

    /// A range that does not end before it begins.
    pub(super) fn rising(&mut self, field: &str, [least, greatest]: [f64; 2]) -> bool {
        let holds = least <= greatest;
        if !holds {
            let message = format!("`{field}` ends at {greatest}, before it begins at {least}");
            self.error(
                field,
                "catalogue-reversed",
                message,
                "the smaller value first",
                format!("write `[{greatest}, {least}]`"),
            );
        }
        holds
    }

    /// How conductors are clamped: a spring clamp is not tightened.
    pub(super) fn clamping(
        &mut self,
        spring_clamp: bool,
        torque_nm: Option<f64>,
        strip_mm: Option<f64>,
    ) {
        self.positive_if("torque_nm", torque_nm, MOST_TORQUE_NM);
        self.positive_if("strip_mm", strip_mm, MOST_STRIP_MM);
        if spring_clamp && torque_nm.is_some() {
            self.error(
                "torque_nm",
                "catalogue-torque",
                "a spring clamp has a tightening torque",
                "a torque only where the clamp is tightened",
                "leave out `torque_nm` or `spring_clamp`",
            );
        }
    }

    /// Mass and price, which every part has.
    pub(super) fn mass_and_price(&mut self, mass_kg: f64, price: f64) {
        self.between("mass_kg", mass_kg, 0.0, MOST_MASS_KG);
        self.between("price", price, 0.0, MOST_PRICE);
    }

    /// A field that this kind of part needs.
    pub(super) fn needs(&mut self, field: &str, is_there: bool, what: &str, example: &str) {
        if !is_there {
            let message = format!("{what} has no `{field}`");
            self.error(
                field,
                "catalogue-incomplete",
                message,
                format!("`{field}`"),
                format!("add `{example}`"),
            );
        }
    }

    /// Ids that a part names must be those of parts of the right kind. `is_right` knows the sound
    /// ones, `written` all that stand in the files.
    pub(super) fn fits(
        &mut self,
        fits: &[String],
        kind: &str,
        right: &std::collections::BTreeSet<&str>,
        written: &std::collections::BTreeSet<String>,
        unsound: impl Fn(&str) -> bool,
    ) {
        for (index, id) in fits.iter().enumerate() {
            if right.contains(id.as_str()) || (written.contains(id) && unsound(id)) {
                continue;
            }
            let field = format!("fits[{index}]");
            let (message, hint) = if written.contains(id) {
                (
                    format!("`{id}` is not {kind}"),
                    format!("name the id of {kind}"),
                )
            } else {
                let near = crate::source::nearest(id, right.iter().copied());
                let hint = near.map_or_else(
                    || format!("add the part `{id}`, or leave it out here"),
                    |near| format!("did you mean `{near}`?"),
                );
                (format!("there is no part `{id}`"), hint)
            };
            self.error(
                &field,
                "catalogue-fits",
                message,
                format!("the id of {kind} in this catalogue"),
                hint,
            );
        }
    }
}
