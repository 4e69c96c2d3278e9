//! The notices that an arrangement carries: the texts on the outside, and what the workshop is told.
//! Knows nothing of labels inside the box.

use super::warnings::Notice;
use crate::arrangement::{Arrangement, NoticePlace, NoticeRecord};
use crate::heat::bundles::{BundleGroup, BundleWeight};
use crate::standards::iec_60079_7::BUNDLE_LIMIT;

/// The notices for an arrangement, as they are recorded in it.
pub fn notices(arrangement: &Arrangement) -> Vec<NoticeRecord> {
    let heat = crate::heat::assess(arrangement);
    let marking = super::marking_with(arrangement, &heat);
    let mut found: Vec<NoticeRecord> = marking.warnings.iter().map(outside).collect();
    found.extend(bundles(&heat.bundles));
    found
}

fn outside(notice: &Notice) -> NoticeRecord {
    NoticeRecord {
        code: notice.code.to_string(),
        place: NoticePlace::Outside,
        text: notice.text.clone(),
        cable_c: notice.cable_c,
        settled_by_test: notice.settled_by_test,
        groups: Vec::new(),
    }
}

/// The instruction on bundles, where their limit has weight for any group.
fn bundles(groups: &[BundleGroup]) -> Option<NoticeRecord> {
    let heavy: Vec<String> = groups
        .iter()
        .filter(|group| group.weight == BundleWeight::Weight)
        .map(|group| group.group.clone())
        .collect();
    if heavy.is_empty() {
        return None;
    }
    Some(NoticeRecord {
        code: "bundles".to_string(),
        place: NoticePlace::Workshop,
        text: format!(
            "bundle at most {BUNDLE_LIMIT} conductors of these groups: {}",
            heavy.join(", ")
        ),
        cable_c: None,
        settled_by_test: false,
        groups: heavy,
    })
}
