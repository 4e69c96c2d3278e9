//! Sheets that are read rather than measured: heat calculation and record.

use super::{Page, filled, flow, frame};
use crate::arrangement::Arrangement;
use crate::heat::HeatAssessment;
use crate::sheets::drawing::Area;
use crate::sheets::heat::{calculation, chart};
use crate::sheets::record;
use crate::{audit, marking};

/// Height of the chart with title and legend.
const CHART_MM: f64 = 96.0;
/// Between columns, and between the chart and what is under it.
const GAP_MM: f64 = 5.0;

/// The heat calculation: a column of tables, beside it the chart and the rest.
pub(super) fn heat(arrangement: &Arrangement, heat: &HeatAssessment) -> Vec<Page> {
    let (whole, foot_mm) = region();
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
    let chart_area = Area {
        bottom_mm: right.top_mm - CHART_MM,
        ..right
    };
    let under = Area {
        top_mm: chart_area.bottom_mm - GAP_MM,
        ..right
    };
    let tables = filled(calculation::tables(arrangement, heat));
    let mut pages = flow::written(
        "heat",
        "Heat calculation",
        &tables,
        1,
        2,
        |index| match index {
            0 => left,
            1 => under,
            index if index % 2 == 0 => left,
            _ => right,
        },
    );
    if let Some(page) = pages.first_mut() {
        page.groups.push(chart::chart(arrangement, chart_area));
    }
    pages
}

/// The record, over the whole width of as many sheets as it takes.
pub(super) fn record(arrangement: &Arrangement, heat: &HeatAssessment) -> Vec<Page> {
    let report = audit::audit(arrangement, None);
    let marking = marking::marking_with(arrangement, heat);
    let tables = filled(record::tables(arrangement, &report, &marking));
    let (whole, foot_mm) = region();
    let column = Area {
        bottom_mm: foot_mm,
        ..whole
    };
    flow::written("record", "Record of the audit", &tables, 1, 1, |_| column)
}

/// What a sheet has for reading, and the height above which the title block is not in the way.
fn region() -> (Area, f64) {
    let (inner, block) = (frame::inner(), frame::block());
    (inner.grown(-4.0), block.top_mm + 3.0)
}
