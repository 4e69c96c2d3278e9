//! The set of files that a job ends with. Knows the names of files, not how they are written to disk.

use super::{Paper, ViewName, writers};
use crate::arrangement::Arrangement;
use thiserror::Error;

/// Why a set could not be made; always a fault of the program.
#[derive(Debug, Error)]
pub enum SetError {
    /// The arrangement could not be written as JSON.
    #[error("the arrangement cannot be written as JSON: {0}")]
    Json(#[from] serde_json::Error),
    /// The embedded font could not be read.
    #[error("the embedded font cannot be read")]
    Font,
}

/// A file of the set: its name and what is in it.
pub type SetFile = (String, Vec<u8>);

/// The files of a job: the arrangement itself, views, sheets on the paper, lists and the summary. The
/// same arrangement gives the same bytes.
///
/// # Errors
/// Where the arrangement holds a number that JSON cannot hold, or the embedded font cannot be read.
pub fn set(arrangement: &Arrangement, paper: Paper) -> Result<Vec<SetFile>, SetError> {
    let json = serde_json::to_string_pretty(arrangement)? + "\n";
    let mut files: Vec<SetFile> = vec![("arrangement.json".into(), json.into_bytes())];
    for view in ViewName::ALL {
        let drawing = super::layout::bare(arrangement, view);
        files.push((
            format!("view-{}.svg", view.name()),
            writers::svg::write(&drawing).into_bytes(),
        ));
        // A picture is no use to a machine.
        if !view.is_picture() {
            files.extend(drawing.groups.iter().map(|group| {
                let name = format!("view-{}.dxf", view.name());
                (name, writers::dxf::write(group).into_bytes())
            }));
        }
    }
    let sheets = super::drawings(arrangement, paper);
    for sheet in &sheets {
        files.push((
            format!("sheet-{}.svg", sheet.name),
            writers::svg::write(sheet).into_bytes(),
        ));
    }
    let title = format!("{} {}", arrangement.job.tag, arrangement.job.title);
    let document = writers::pdf::write(&sheets, title.trim()).ok_or(SetError::Font)?;
    files.push(("drawings.pdf".into(), document));
    let lists = super::all_lists(arrangement);
    files.extend(
        lists
            .iter()
            .map(|(name, list)| (name.to_string(), list.csv().into_bytes())),
    );
    let workbook = super::schedules::workbook(arrangement, &lists);
    files.push(("schedules.xlsx".into(), workbook));
    files.push((
        "summary.txt".into(),
        super::summary(arrangement).into_bytes(),
    ));
    files.extend(heat_and_marking(arrangement)?);
    files.push(("job.html".into(), super::page(arrangement)?.into_bytes()));
    Ok(files)
}

/// Whether a machine or a shop works from a file without reading the sheets: such ones are not to be had of what does
/// not hold.
pub fn is_for_making(name: &str) -> bool {
    [".dxf", ".csv", ".xlsx"]
        .iter()
        .any(|end| name.ends_with(end))
}

/// The estimated heat and the proposed marking, each to read and as data.
fn heat_and_marking(arrangement: &Arrangement) -> Result<Vec<SetFile>, SetError> {
    let heat = crate::heat::assess(arrangement);
    let marking = crate::marking::marking_with(arrangement, &heat);
    let heat_page = super::heat_estimated(&heat).trim_start().to_string()
        + &super::heat_tables(&heat)
        + &super::cautions(arrangement);
    let marking_page = super::marking_page(arrangement, &marking);
    let heat_data = serde_json::to_string_pretty(&heat)? + "\n";
    let marking_data = serde_json::to_string_pretty(&marking)? + "\n";
    Ok(vec![
        ("heat.txt".into(), heat_page.into_bytes()),
        ("heat.json".into(), heat_data.into_bytes()),
        ("marking.txt".into(), marking_page.into_bytes()),
        ("marking.json".into(), marking_data.into_bytes()),
    ])
}
