//! Sheets that are read rather than measured: parts and cables, heat calculation, record.

use super::{Page, Paper, filled, flow};
use crate::arrangement::Arrangement;
use crate::audit::AuditReport;
use crate::heat::HeatAssessment;
use crate::marking;
use crate::sheets::drawing::{Area, Group, Table, bounds};
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

/// The record: on wide paper what comes before the rules in two columns, then the rules over the whole width of as many
/// sheets as they take.
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
    let title = "Record of the audit";
    let written = |tables: &[Table], first: Area| {
        flow::written("record", title, tables, 1, 1, |index| match index {
            0 => first,
            _ => column,
        })
    };
    let split = paper
        .beside_block()
        .is_some()
        .then(|| head(&tables, column));
    let Some((groups, under, rest)) = split.flatten() else {
        return written(&tables, column);
    };
    let mut pages = written(&rest, under);
    if let Some(page) = pages.first_mut() {
        page.groups.splice(0..0, groups);
    }
    pages
}

/// The rules are begun on the first sheet where this height is left for them.
const RULES_MM: f64 = 40.0;

/// What comes before the rules in two columns side by side: what is not certain at the right, all else at the left.
/// With the area that is left under both for the rules; `None` where the columns have no room for them.
fn head(tables: &[Table], column: Area) -> Option<(Vec<Group>, Area, Vec<Table>)> {
    let (rules, short) = tables.split_last()?;
    let (at_right, at_left): (Vec<Table>, Vec<Table>) = short
        .iter()
        .cloned()
        .partition(|table| table.name == record::UNCERTAIN);
    let (left, right) = halves(column, column.bottom_mm);
    let mut groups = flow::fill(&at_left, left)?;
    groups.extend(flow::fill(&at_right, right)?);
    let lowest = groups
        .iter()
        .filter_map(|group| bounds(&group.shapes))
        .map(|area| area.bottom_mm)
        .fold(column.top_mm, f64::min);
    let under = Area {
        top_mm: lowest - GAP_MM,
        ..column
    };
    (under.height_mm() >= RULES_MM).then(|| (groups, under, vec![rules.clone()]))
}

/// What a sheet has for reading, and the height above which the title block is not in the way.
fn region(paper: Paper) -> (Area, f64) {
    (paper.inner().grown(-4.0), paper.block().top_mm + 3.0)
}
