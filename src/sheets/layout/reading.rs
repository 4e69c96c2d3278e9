//! Sheets that are read rather than measured: parts and cables, heat calculation, record.

use super::{Page, Paper, filled, flow};
use crate::arrangement::Arrangement;
use crate::audit::AuditReport;
use crate::heat::HeatAssessment;
use crate::marking;
use crate::sheets::drawing::{Area, Table};
use crate::sheets::heat::{calculation, chart};
use crate::sheets::{fitting, record};

/// Height of the chart with title and legend, beside the tables.
const CHART_BESIDE_MM: f64 = 96.0;
/// Above the tables, where it takes their room.
const CHART_ABOVE_MM: f64 = 66.0;
/// Between columns, and between the chart and what is under it.
const GAP_MM: f64 = 5.0;

/// Parts, cables, torques and labels, in two columns where the paper has room for them; after them tables
/// that other sheets have no room for.
pub(super) fn fitting(arrangement: &Arrangement, paper: Paper, further: Vec<Table>) -> Vec<Page> {
    let (whole, foot_mm) = region(paper);
    let is_wide = paper.beside_block().is_some();
    let mut tables = filled(fitting::tables(arrangement));
    tables.extend(further);
    let (left, right) = halves(whole, foot_mm);
    let clear = Area {
        bottom_mm: foot_mm,
        ..whole
    };
    let (title, per_page) = (
        "Parts, cables, torques, labels",
        if is_wide { 2 } else { 1 },
    );
    flow::written("parts", title, &tables, 1, per_page, |index| {
        match (is_wide, index % 2) {
            (false, _) => clear,
            (true, 0) => left,
            (true, _) => right,
        }
    })
}

/// Two columns of a sheet: the left one down to the border, the right one above the title block.
fn halves(whole: Area, foot_mm: f64) -> (Area, Area) {
    let width_mm = (whole.width_mm() - GAP_MM) / 2.0;
    let left = Area {
        right_mm: whole.left_mm + width_mm,
        ..whole
    };
    let right = Area {
        left_mm: whole.right_mm - width_mm,
        bottom_mm: foot_mm,
        ..whole
    };
    (left, right)
}

/// The heat calculation: a column of tables, beside it the chart and the rest. On upright paper, which
/// has no room for two columns, the chart comes first and the tables under it.
pub(super) fn heat(
    arrangement: &Arrangement,
    paper: Paper,
    heat: &HeatAssessment,
    report: &AuditReport,
) -> Vec<Page> {
    let (whole, foot_mm) = region(paper);
    let clear = Area {
        bottom_mm: foot_mm,
        ..whole
    };
    let is_wide = paper.beside_block().is_some();
    let (left, right) = if is_wide {
        halves(whole, foot_mm)
    } else {
        (clear, clear)
    };
    let chart_mm = if is_wide {
        CHART_BESIDE_MM
    } else {
        CHART_ABOVE_MM
    };
    let chart_area = Area {
        bottom_mm: right.top_mm - chart_mm,
        ..right
    };
    let under = Area {
        top_mm: chart_area.bottom_mm - GAP_MM,
        ..right
    };
    let tables = filled(calculation::tables(arrangement, heat, report));
    let (title, per_page) = ("Heat calculation", if is_wide { 2 } else { 1 });
    let mut pages = flow::written("heat", title, &tables, 1, per_page, |index| {
        match (is_wide, index) {
            (true, 0) => left,
            (true, 1) | (false, 0) => under,
            (true, index) if index % 2 == 0 => left,
            _ => right,
        }
    });
    if let Some(page) = pages.first_mut() {
        page.groups.push(chart::chart(arrangement, chart_area));
    }
    pages
}

/// The record, over the whole width of as many sheets as it takes.
pub(super) fn record(
    arrangement: &Arrangement,
    paper: Paper,
    heat: &HeatAssessment,
    report: &AuditReport,
) -> Vec<Page> {
    let marking = marking::marking_with(arrangement, heat);
    let tables = filled(record::tables(
        arrangement,
        report,
        &marking,
        paper.beside_block().is_some(),
    ));
    let (whole, foot_mm) = region(paper);
    let column = Area {
        bottom_mm: foot_mm,
        ..whole
    };
    flow::written("record", "Record of the audit", &tables, 1, 1, |_| column)
}

/// What a sheet has for reading, and the height above which the title block is not in the way.
fn region(paper: Paper) -> (Area, f64) {
    (paper.inner().grown(-4.0), paper.block().top_mm + 3.0)
}
