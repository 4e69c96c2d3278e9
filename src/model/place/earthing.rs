//! What the reader is told of earth: how screens end, and whether anything leads from the earth terminals to earth.

use crate::arrangement::EnclosureRecord;
use crate::catalogue::TerminalFunction;
use crate::demand::Demand;
use crate::requirements::{CoreName, RequirementList};

/// The remarks of the demand, with those on earth.
pub(super) fn remarks(
    list: &RequirementList,
    demand: &Demand<'_>,
    mounted: &EnclosureRecord,
) -> Vec<String> {
    let mut remarks = demand.remarks.clone();
    let mut terminals = demand.terminals.iter();
    if !terminals.any(|terminal| terminal.part.function == TerminalFunction::Earth) {
        return remarks;
    }
    if list.cables.iter().any(|cable| cable.screened) {
        remarks.push(
            "the screens of the cables end at the earth terminals of this box: whether they are earthed here, at the \
             other end or at both is for the plant to decide"
                .to_string(),
        );
    }
    let mut cores = list.cables.iter().flat_map(|cable| &cable.cores);
    let has_protective_conductor = cores.any(|core| core.name == CoreName::Earth);
    let of_enclosure = [mounted.external_earth_mm2, mounted.internal_earth_mm2];
    if !has_protective_conductor && of_enclosure.iter().all(Option::is_none) {
        remarks.push(
            "nothing leads from the earth terminals to earth: no cable of the list has a protective conductor, and the \
             catalogue names no earth terminal of the enclosure"
                .to_string(),
        );
    }
    remarks
}
