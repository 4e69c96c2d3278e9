//! A rules file: single values over the defaults. Reports all that is wrong in one run; knows which
//! published minima the rules must not fall below.

use super::{ConductorRules, DistanceRules, ElementRules, EntryRules, RailRules, Workshop};
use crate::arrangement::WiringSpaceStep;
use crate::source::{Document, Finding, Findings, Located, Place, SourceFile};
use crate::standards::iec_60079_11::OTHER_CIRCUITS_MM;
use crate::standards::iec_60228::{HIGHEST_TEMPERATURE_C, LOWEST_TEMPERATURE_C};
use crate::standards::iec_60715::RailProfile;
use crate::standards::nec_312_6;
use std::path::Path;
use std::sync::Arc;

/// The codes of the findings about rules files, each with what it says. Stable.
pub const CODES: &[(&str, &str)] = &[
    (
        "workshop-below-published",
        "a value is below a published minimum",
    ),
    ("workshop-profile", "the rail profile is not known"),
    (
        "workshop-range",
        "a value is negative, or outside what is possible",
    ),
    (
        "workshop-wiring-space",
        "the wiring space does not rise with the section, or a step is given twice",
    ),
];

/// The tables of a rules file.
const TABLES: [&str; 6] = [
    "entries",
    "rails",
    "elements",
    "conductors",
    "distances",
    "wiring_space",
];
/// Largest distance that a rule may ask for, mm.
const MOST_MM: f64 = 1_000.0;
/// Largest conductor section, mm².
const MOST_SECTION_MM2: f64 = 630.0;
/// Largest tolerance and reserve, percent. From 50 on nothing would be left of a clamping range.
const MOST_PERCENT: f64 = 49.0;
/// Largest mass limit, kg.
const MOST_KG: f64 = 1_000.0;

impl Workshop {
    /// Reads a rules file. What it does not name keeps its default; a step of the wiring space
    /// replaces the default step of the same section, or is added.
    ///
    /// # Errors
    /// Everything that is wrong with the file, with line and column.
    pub fn read(path: &Path) -> Result<Workshop, Findings> {
        Self::from_file(SourceFile::read(path)?)
    }

    /// As [`Workshop::read`], from a file that is already in memory.
    ///
    /// # Errors
    /// Everything that is wrong with the file, with line and column.
    ///
    /// ```
    /// use glandrail::source::SourceFile;
    /// use glandrail::workshop::Workshop;
    /// let file = SourceFile::from_text("rules.toml", "[entries]\ngap_mm = 8\n");
    /// let rules = Workshop::from_file(file).expect("sound");
    /// assert_eq!(rules.entries.gap_mm, 8.0);
    /// assert_eq!(rules.entries.row_gap_mm, Workshop::default().entries.row_gap_mm);
    /// ```
    pub fn from_file(file: Arc<SourceFile>) -> Result<Workshop, Findings> {
        let mut findings = Findings::new();
        let mut rules = Workshop::default();
        if let Some(document) = Document::parse(file, &mut findings) {
            document.only_keys(&TABLES, &mut findings);
            take(&document, &mut rules, &mut findings);
        }
        if findings.has_errors() {
            Err(findings)
        } else {
            Ok(rules)
        }
    }
}

fn take(document: &Document, rules: &mut Workshop, findings: &mut Findings) {
    if let Some(table) = document.table::<EntryRules>("entries", findings) {
        let check = &mut Check {
            place: &table.place,
            findings,
        };
        let value = &table.value;
        check.between("gap_mm", value.gap_mm, 0.0, MOST_MM);
        check.between("row_gap_mm", value.row_gap_mm, 0.0, MOST_MM);
        check.between("corner_mm", value.corner_mm, 0.0, MOST_MM);
        check.between(
            "clamping_reserve_percent",
            value.clamping_reserve_percent,
            0.0,
            MOST_PERCENT,
        );
        rules.entries = table.value;
    }
    if let Some(table) = document.table::<RailRules>("rails", findings) {
        let check = &mut Check {
            place: &table.place,
            findings,
        };
        check.profile(&table.value.profile);
        check.between("end_mm", table.value.end_mm, 0.0, MOST_MM);
        check.between(
            "lid_clearance_mm",
            table.value.lid_clearance_mm,
            0.0,
            MOST_MM,
        );
        rules.rails = table.value;
    }
    if let Some(table) = document.table::<ElementRules>("elements", findings) {
        let check = &mut Check {
            place: &table.place,
            findings,
        };
        let value = &table.value;
        check.between("gap_mm", value.gap_mm, 0.0, MOST_MM);
        check.between(
            "emergency_stop_free_mm",
            value.emergency_stop_free_mm,
            0.0,
            MOST_MM,
        );
        check.between("edge_mm", value.edge_mm, 0.0, MOST_MM);
        check.between("contact_bend_mm", value.contact_bend_mm, 0.0, MOST_MM);
        check.positive("wire_mm2", value.wire_mm2, MOST_SECTION_MM2);
        rules.elements = table.value;
    }
    if let Some(table) = document.table::<ConductorRules>("conductors", findings) {
        let check = &mut Check {
            place: &table.place,
            findings,
        };
        let value = &table.value;
        check.between(
            "given_tolerance_percent",
            value.given_tolerance_percent,
            0.0,
            MOST_PERCENT,
        );
        check.between(
            "estimated_tolerance_percent",
            value.estimated_tolerance_percent,
            0.0,
            MOST_PERCENT,
        );
        check.positive("drain_wire_mm2", value.drain_wire_mm2, MOST_SECTION_MM2);
        check.between(
            "reference_c",
            value.reference_c,
            LOWEST_TEMPERATURE_C,
            HIGHEST_TEMPERATURE_C,
        );
        rules.conductors = table.value;
    }
    if let Some(table) = document.table::<DistanceRules>("distances", findings) {
        let check = &mut Check {
            place: &table.place,
            findings,
        };
        let value = &table.value;
        if check.between(
            "intrinsic_separation_mm",
            value.intrinsic_separation_mm,
            0.0,
            MOST_MM,
        ) {
            check.at_least(
                "intrinsic_separation_mm",
                value.intrinsic_separation_mm,
                OTHER_CIRCUITS_MM,
                "between intrinsically safe and other terminals (IEC 60079-11)",
            );
        }
        check.between("tolerance_mm", value.tolerance_mm, 0.0, MOST_MM);
        check.positive("lifting_kg", value.lifting_kg, MOST_KG);
        rules.distances = table.value;
    }
    let steps = document.tables::<WiringSpaceStep>("wiring_space", findings);
    wiring_space(&steps, &mut rules.wiring_space, findings);
}

/// Puts the file's steps over the defaults and checks what comes of it.
fn wiring_space(
    steps: &[Located<WiringSpaceStep>],
    rules: &mut Vec<WiringSpaceStep>,
    findings: &mut Findings,
) {
    let before = findings.len();
    for (index, step) in steps.iter().enumerate() {
        let WiringSpaceStep {
            up_to_mm2,
            space_mm,
        } = step.value;
        let check = &mut Check {
            place: &step.place,
            findings,
        };
        let sound = check.positive("up_to_mm2", up_to_mm2, MOST_SECTION_MM2)
            & check.between("space_mm", space_mm, 0.0, MOST_MM);
        if !sound {
            continue;
        }
        if steps[..index]
            .iter()
            .any(|other| other.value.up_to_mm2 == up_to_mm2)
        {
            check.error(
                "up_to_mm2",
                "workshop-wiring-space",
                format!("the step up to {up_to_mm2} mm² is given twice"),
                "each section once",
                "keep one of them",
            );
        }
        published_wiring_space(check, up_to_mm2, space_mm);
        match rules.iter_mut().find(|rule| rule.up_to_mm2 == up_to_mm2) {
            Some(rule) => rule.space_mm = space_mm,
            None => rules.push(step.value),
        }
    }
    rules.sort_by(|a, b| a.up_to_mm2.total_cmp(&b.up_to_mm2));
    if findings.len() > before {
        return;
    }
    for pair in rules.windows(2) {
        let [smaller, larger] = [pair[0], pair[1]];
        if larger.space_mm >= smaller.space_mm {
            continue;
        }
        // The step that the file names is to blame; of two named ones the larger.
        let named = |rule: &WiringSpaceStep| {
            steps
                .iter()
                .find(|step| step.value.up_to_mm2 == rule.up_to_mm2)
        };
        if let Some(step) = named(&larger).or_else(|| named(&smaller)) {
            Check {
                place: &step.place,
                findings,
            }
            .error(
                "space_mm",
                "workshop-wiring-space",
                format!(
                    "{} mm up to {} mm² is followed by {} mm up to {} mm²",
                    smaller.space_mm, smaller.up_to_mm2, larger.space_mm, larger.up_to_mm2
                ),
                "a space that does not fall with the section",
                "name the neighbouring steps as well; those not named keep their default",
            );
        }
    }
}

/// The published minimum for the largest conductor of the step, taken as the next American size.
fn published_wiring_space(check: &mut Check<'_>, up_to_mm2: f64, space_mm: f64) {
    let size = nec_312_6::size_covering(up_to_mm2);
    let minimum = size
        .ok()
        .and_then(|size| nec_312_6::bending_space_a_mm(size, 1).ok().flatten());
    if let Some(minimum) = minimum {
        let why = format!("for {up_to_mm2} mm² (NEC Table 312.6(A), one wire)");
        check.at_least("space_mm", space_mm, minimum, &why);
    }
}

/// Findings about one table.
struct Check<'a> {
    place: &'a Place,
    findings: &'a mut Findings,
}

impl Check<'_> {
    fn error(
        &mut self,
        field: &str,
        code: &'static str,
        message: impl Into<String>,
        expected: impl Into<String>,
        hint: impl Into<String>,
    ) {
        let finding: Finding = self.place.error(field, code, message);
        self.findings.push(finding.expected(expected).hint(hint));
    }

    fn range(&mut self, field: &str, value: f64, expected: String) {
        let hint = "check the figure and its unit, or leave it out for the default";
        self.error(
            field,
            "workshop-range",
            format!("`{field}` is {value}"),
            expected,
            hint,
        );
    }

    fn between(&mut self, field: &str, value: f64, least: f64, most: f64) -> bool {
        let holds = (least..=most).contains(&value);
        if !holds {
            self.range(field, value, format!("a value from {least} to {most}"));
        }
        holds
    }

    fn positive(&mut self, field: &str, value: f64, most: f64) -> bool {
        let holds = value > 0.0 && value <= most;
        if !holds {
            self.range(field, value, format!("a value above 0, at most {most}"));
        }
        holds
    }

    fn at_least(&mut self, field: &str, value: f64, minimum: f64, why: &str) {
        if value < minimum {
            self.error(
                field,
                "workshop-below-published",
                format!("`{field}` is {value}, below the published {minimum} mm {why}"),
                format!("{minimum} or more"),
                "a workshop rule may be stricter than the published minimum, never looser",
            );
        }
    }

    fn profile(&mut self, name: &str) {
        let known: Vec<String> = RailProfile::ALL
            .iter()
            .map(|profile| profile.word().replace(' ', ""))
            .collect();
        if !known.iter().any(|profile| profile == name) {
            self.error(
                "profile",
                "workshop-profile",
                format!("`{name}` is not a rail profile"),
                "a profile of IEC 60715 such as `TH35-7.5`",
                format!("known are {}", known.join(", ")),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Result<Workshop, Findings> {
        Workshop::from_file(SourceFile::from_text("rules.toml", text))
    }

    /// Line and code of each finding.
    fn found(text: &str) -> Vec<(usize, &'static str)> {
        let findings = read(text).expect_err("broken on purpose");
        for finding in &findings {
            assert!(
                finding.expected.is_some() || finding.hint.is_some(),
                "{}",
                finding.render_plain()
            );
        }
        findings
            .iter()
            .map(|finding| (finding.line_column().expect("has a place").0, finding.code))
            .collect()
    }

    #[test]
    fn an_empty_file_changes_nothing() {
        assert_eq!(read(""), Ok(Workshop::default()));
    }

    #[test]
    fn single_values_are_overridden() {
        let text = "[rails]\nprofile = \"TH35-15\"\n[[wiring_space]]\nup_to_mm2 = 2.5\nspace_mm = 34\n\
                    [[wiring_space]]\nup_to_mm2 = 300\nspace_mm = 300\n";
        let rules = read(text).expect("sound");
        assert_eq!(
            rules.rails,
            RailRules {
                profile: "TH35-15".into(),
                ..RailRules::default()
            }
        );
        assert_eq!(rules.wiring_space_mm(1.5), Some(34.0));
        assert_eq!(rules.wiring_space_mm(4.0), Some(35.0));
        assert_eq!(rules.wiring_space_mm(300.0), Some(300.0));
        assert_eq!(
            rules.wiring_space.len(),
            Workshop::default().wiring_space.len() + 1
        );
        assert_eq!(rules.entries, EntryRules::default());
    }

    #[test]
    fn unknown_names_are_found() {
        let text = "[entry]\ngap_mm = 1\n[rails]\nend = 5\n[distances]\ntolerence_mm = 1\n";
        assert_eq!(
            found(text),
            [
                (1, "source-unknown-table"),
                (4, "source-unknown-field"),
                (6, "source-unknown-field")
            ]
        );
    }

    #[test]
    fn negative_and_impossible_values_are_found_in_one_run() {
        let text = "[entries]\ngap_mm = -1\nclamping_reserve_percent = 50\n[elements]\nwire_mm2 = 0\n\
                    [conductors]\nreference_c = 500\n[rails]\nprofile = \"TH 35\"\nend_mm = \"five\"\n";
        assert_eq!(
            found(text),
            [
                (2, "workshop-range"),
                (3, "workshop-range"),
                (5, "workshop-range"),
                (7, "workshop-range"),
                (10, "source-wrong-type"),
            ]
        );
        assert_eq!(
            found("[rails]\nprofile = \"TH 35\"\n"),
            [(2, "workshop-profile")]
        );
    }

    #[test]
    fn nothing_falls_below_published_minima() {
        assert_eq!(
            found("[distances]\nintrinsic_separation_mm = 49\n"),
            [(2, "workshop-below-published")]
        );
        // 16 mm² is covered by 4 AWG, for which the table asks for 50.8 mm.
        let step = |space: &str| format!("[[wiring_space]]\nup_to_mm2 = 16\nspace_mm = {space}\n");
        assert_eq!(found(&step("50.7")), [(3, "workshop-below-published")]);
        assert_eq!(
            read(&step("50.8"))
                .expect("at the minimum")
                .wiring_space_mm(16.0),
            Some(50.8)
        );
    }

    #[test]
    fn wiring_space_rises_and_each_step_is_given_once() {
        let falling = "[[wiring_space]]\nup_to_mm2 = 2.5\nspace_mm = 36\n";
        assert_eq!(found(falling), [(3, "workshop-wiring-space")]);
        let twice = "[[wiring_space]]\nup_to_mm2 = 4\nspace_mm = 35\n[[wiring_space]]\nup_to_mm2 = 4\nspace_mm = 36\n";
        assert_eq!(found(twice), [(5, "workshop-wiring-space")]);
    }

    #[test]
    fn the_defaults_would_pass_as_a_file() {
        let text = toml::to_string(&Workshop::default()).expect("plain data");
        assert_eq!(read(&text), Ok(Workshop::default()));
    }

    #[test]
    fn a_missing_file_is_a_finding() {
        let findings = Workshop::read(Path::new("no-such-rules.toml")).expect_err("missing");
        assert_eq!(
            findings
                .iter()
                .map(|finding| finding.code)
                .collect::<Vec<_>>(),
            ["source-file"]
        );
    }
}
