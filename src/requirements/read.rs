//! From the file to the checked list. Everything that is wrong is found in one run.

use super::file::{BoxTable, EarthingTable, JobTable, SpareTable, WeightTable};
use super::read_circuits::read_circuits;
use super::read_links::read_links;
use super::resolve::Resolver;
use super::{BoxWishes, Earthing, Measure, RequirementList, Spare, ThreadSystem, Weight};
use super::{read_area, read_cables, read_elements};
use crate::arrangement::{JobRecord, Orientation};
use crate::source::{Document, Finding, Findings, Located, Place, SourceFile};
use crate::space::Face;
use crate::workshop::Workshop;
use std::path::Path;
use std::sync::Arc;

/// The tables of a requirement list.
pub const TABLES: [&str; 10] = [
    "job", "area", "box", "spare", "earthing", "cable", "circuit", "element", "link", "weight",
];

impl RequirementList {
    /// Reads and checks a list.
    ///
    /// # Errors
    /// All findings: what is wrong with the file, or that it cannot be read.
    pub fn read(path: &Path, workshop: &Workshop) -> Result<Self, Findings> {
        let file =
            SourceFile::read(path).map_err(|error| Findings::from_iter([error.finding()]))?;
        Self::from_source(file, workshop)
    }

    /// Checks a list that has been read.
    ///
    /// # Errors
    /// All findings of the file.
    pub fn from_source(file: Arc<SourceFile>, workshop: &Workshop) -> Result<Self, Findings> {
        let mut findings = Findings::new();
        let Some(document) = Document::parse(file, &mut findings) else {
            return Err(findings);
        };
        document.only_keys(&TABLES, &mut findings);
        let job = document.required_table::<JobTable>("job", &mut findings);
        if let Some(job) = &job {
            check_job(job, &mut findings);
        }
        let area = read_area::read_area(&document, &mut findings);
        let wishes = read_wishes(&document, &mut findings);
        let spare = read_spare(&document, &mut findings);
        let earthing = read_earthing(&document, &mut findings);
        let cables = read_cables::read_cables(&document, &wishes, workshop, &mut findings);
        let elements = read_elements::read_elements(&document, &cables, &mut findings);
        let mut resolver = Resolver::new(&cables, &elements);
        let circuits = read_circuits(&document, &mut resolver, &mut findings);
        let links = read_links(&document, &circuits, &mut findings);
        let weights = read_weights(&document, &mut findings);
        if cables.is_empty() && elements.is_empty() && !findings.has_errors() {
            findings.push(
                document
                    .place()
                    .error(
                        "",
                        "list-empty",
                        "the list has neither cables nor operating elements",
                    )
                    .expected("at least one `[[cable]]` or `[[element]]`"),
            );
        }
        match (job, area) {
            (Some(job), Some(area)) if !findings.has_errors() => Ok(RequirementList {
                fixed: job.value.fixed,
                place: job.place,
                job: JobRecord {
                    tag: job.value.tag,
                    title: job.value.title,
                    revision: job.value.revision,
                    customer_reference: job.value.customer_reference,
                    notes: job.value.notes,
                },
                area,
                wishes,
                spare,
                earthing,
                cables: cables.items,
                elements: elements.items,
                circuits: circuits.items,
                links,
                weights,
            }),
            _ => Err(findings.into_iter().map(fixed_in_its_place).collect()),
        }
    }
}

/// `fixed` stands in `[job]` and names requirements; who writes it beside one is told so.
fn fixed_in_its_place(finding: Finding) -> Finding {
    let is_fixed = finding.message.ends_with("fixed`");
    if finding.code == "source-unknown-field" && is_fixed {
        return finding.hint(
            "what must not change is named in `[job]`, such as fixed = [\"area\", \"cable W1\"]",
        );
    }
    finding
}

fn check_job(job: &Located<JobTable>, findings: &mut Findings) {
    if job.value.tag.trim().is_empty() {
        findings.push(
            job.place
                .error("tag", "list-tag", "the box has no tag")
                .expected("a tag, such as `tag = \"JB-2107\"`"),
        );
    }
}

fn read_wishes(document: &Document, findings: &mut Findings) -> BoxWishes {
    let (table, place) = match document.table::<BoxTable>("box", findings) {
        Some(table) => (table.value, table.place),
        None => (BoxTable::default(), document.place()),
    };
    let entry_walls = table
        .entry_walls
        .map_or(vec![Face::Bottom, Face::Left, Face::Right], |walls| walls.0);
    check_walls(&entry_walls, "entry_walls", &place, findings);
    if let Some(size) = table.max_outer_mm
        && size.iter().any(|length| *length <= 0.0)
    {
        findings.push(
            place
                .error(
                    "max_outer_mm",
                    "list-range",
                    "`max_outer_mm` must be positive",
                )
                .expected("width, height and depth in mm, such as `[400, 300, 200]`"),
        );
    }
    let smallest = table
        .smallest
        .map_or(vec![Measure::Volume], |measures| measures.0);
    let orientations = table.orientation.map_or(
        vec![Orientation::Upright, Orientation::Turned],
        |orientations| orientations.0,
    );
    for (field, empty) in [
        ("smallest", smallest.is_empty()),
        ("orientation", orientations.is_empty()),
    ] {
        if empty {
            findings.push(
                place
                    .error(
                        field,
                        "list-empty-choice",
                        format!("`{field}` must not be an empty list"),
                    )
                    .hint("leave the field out to allow every choice"),
            );
        }
    }
    let lid_hinge = table.lid_hinge.map_or(Vec::new(), |walls| walls.0);
    if !lid_hinge.is_empty() {
        check_walls(&lid_hinge, "lid_hinge", &place, findings);
    }
    BoxWishes {
        materials: table.material.map_or(Vec::new(), |materials| materials.0),
        max_outer_mm: table.max_outer_mm,
        orientations,
        entry_walls,
        include: table.enclosures.include,
        exclude: table.enclosures.exclude,
        smallest,
        thread_system: table.thread.unwrap_or(ThreadSystem::Metric),
        lid_hinge,
        breather: table.breather,
        place,
    }
}

/// A figure as it stands in the file: `1e300` rather than three hundred zeros.
pub(super) fn as_written(place: &Place, field: &str) -> String {
    place.file().text[place.field(field)].to_string()
}

/// Walls must be walls, named once.
pub(super) fn check_walls(walls: &[Face], field: &str, place: &Place, findings: &mut Findings) {
    for (index, wall) in walls.iter().enumerate() {
        // A path that leads nowhere stands for the value above: the wall that stands alone.
        let one = format!("{field}[{index}]");
        if wall.wall_index().is_none() {
            findings.push(
                place
                    .error(
                        &one,
                        "list-not-a-wall",
                        format!("`{wall}` is not one of the four walls"),
                    )
                    .expected("`bottom`, `right`, `top` or `left`"),
            );
        } else if walls[..index].contains(wall) {
            findings.push(
                place
                    .error(&one, "list-wall-twice", format!("`{wall}` is named twice"))
                    .expected("each wall once, in order of preference"),
            );
        }
    }
    if walls.is_empty() {
        findings.push(
            place
                .error(
                    field,
                    "list-empty-choice",
                    format!("`{field}` must not be an empty list"),
                )
                .expected("at least one of `bottom`, `right`, `top`, `left`"),
        );
    }
}

/// Factors within two powers of ten either way: what weighs more than that is `fixed`.
fn read_weights(document: &Document, findings: &mut Findings) -> Vec<Weight> {
    const FACTORS: std::ops::RangeInclusive<f64> = 0.01..=100.0;
    let mut weights = Vec::new();
    for Located { value, place } in document.tables::<WeightTable>("weight", findings) {
        if !FACTORS.contains(&value.times) {
            findings.push(
                place
                    .error(
                        "times",
                        "list-range",
                        format!("`times` is {}", as_written(&place, "times")),
                    )
                    .expected("a factor from 0.01 to 100")
                    .hint("name under `fixed` of `[job]` what must not change at all"),
            );
        }
        if value.of.0.is_empty() {
            findings.push(
                place
                    .error("of", "list-empty-choice", "`of` must not be an empty list")
                    .expected("a name such as `\"cable W1\"` or `\"circuit current_a\"`"),
            );
        }
        weights.push(Weight {
            of: value.of.0,
            times: value.times,
            place,
        });
    }
    weights
}

fn read_spare(document: &Document, findings: &mut Findings) -> Spare {
    let (table, place) = match document.table::<SpareTable>("spare", findings) {
        Some(table) => (table.value, table.place),
        None => (SpareTable::default(), document.place()),
    };
    for (field, value, most) in [
        ("terminals_percent", table.terminals_percent, 500.0),
        ("heat_percent", table.heat_percent, 99.0),
    ] {
        if !(0.0..=most).contains(&value) {
            findings.push(
                place
                    .error(
                        field,
                        "list-range",
                        format!("`{field}` is {}", as_written(&place, field)),
                    )
                    .expected(format!("a share from 0 to {most} percent")),
            );
        }
    }
    for (thread, count) in &table.entries {
        if *count > 200 {
            findings.push(
                place
                    .error(
                        &format!("entries.{thread}"),
                        "list-range",
                        format!("more than 200 spare entries of {thread}"),
                    )
                    .expected("a number of entries by thread, such as `{ M20 = 2 }`"),
            );
        }
    }
    Spare {
        terminals_percent: table.terminals_percent,
        entries: table
            .entries
            .into_iter()
            .filter(|(_, count)| *count > 0)
            .collect(),
        heat_percent: table.heat_percent,
        place,
    }
}

fn read_earthing(document: &Document, findings: &mut Findings) -> Earthing {
    let (table, place) = match document.table::<EarthingTable>("earthing", findings) {
        Some(table) => (table.value, table.place),
        None => (EarthingTable::default(), document.place()),
    };
    if table.spare_terminals > 200 {
        findings.push(
            place
                .error(
                    "spare_terminals",
                    "list-range",
                    "more than 200 spare earth terminals",
                )
                .expected("a number from 0 to 200"),
        );
    }
    Earthing {
        external: table.external,
        spare_terminals: table.spare_terminals.min(200),
        place,
    }
}
