//! The set of files that a job ends with. Knows the names of files, not how they are written to disk.

use super::belonging::with_belonging;
use super::contents::contents;
use super::failing::opening;
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

/// The files of a job: the arrangement itself, views, sheets on the paper, lists, the summary, and the list of all these
/// files. The same arrangement gives the same bytes.
///
/// # Errors
/// Where the arrangement holds a number that JSON cannot hold, or the embedded font cannot be read.
pub fn set(arrangement: &Arrangement, paper: Paper) -> Result<Vec<SetFile>, SetError> {
    Ok(with_contents(arrangement, files(arrangement, paper)?))
}

/// The files of a job without those that a machine or a shop works from without reading the sheets: such ones are not
/// to be had of what does not hold.
///
/// # Errors
/// As [`set`].
pub fn set_to_read(arrangement: &Arrangement, paper: Paper) -> Result<Vec<SetFile>, SetError> {
    let mut files = files(arrangement, paper)?;
    let is_for_making = |name: &str| {
        [".dxf", ".csv", ".xlsx"]
            .iter()
            .any(|end| name.ends_with(end))
    };
    files.retain(|(name, _)| !is_for_making(name));
    Ok(with_contents(arrangement, files))
}

/// The files with the list of them.
fn with_contents(arrangement: &Arrangement, mut files: Vec<SetFile>) -> Vec<SetFile> {
    let names = files.iter().map(|(name, _)| name.as_str());
    let list = contents(names.map(|name| (name, &arrangement.job)));
    files.push(list);
    files
}

fn files(arrangement: &Arrangement, paper: Paper) -> Result<Vec<SetFile>, SetError> {
    let failing = super::failing(arrangement);
    let json = serde_json::to_string_pretty(arrangement)? + "\n";
    let mut files: Vec<SetFile> = vec![("arrangement.json".into(), json.into_bytes())];
    for view in ViewName::ALL {
        let drawing = super::layout::bare(arrangement, view, failing.is_some());
        files.push((
            format!("view-{}.svg", view.name()),
            writers::svg::write(&drawing).into_bytes(),
        ));
        // A picture is no use to a machine.
        if !view.is_picture() {
            files.extend(drawing.groups.into_iter().map(|group| {
                let name = format!("view-{}.dxf", view.name());
                let group = with_belonging(arrangement, group);
                (name, writers::dxf::write(&group).into_bytes())
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
            .map(|(name, list)| (name.to_string(), list.csv_of(&arrangement.job).into_bytes())),
    );
    let workbook = super::schedules::workbook(arrangement, &lists);
    files.push(("schedules.xlsx".into(), workbook));
    let opening = opening(failing.as_deref());
    let summary = opening.clone() + &super::summary(arrangement);
    files.push(("summary.txt".into(), summary.into_bytes()));
    files.extend(heat_and_marking(arrangement, &opening)?);
    files.push(("job.html".into(), super::page(arrangement)?.into_bytes()));
    Ok(files)
}

/// The estimated heat and the proposed marking, each to read, with these first lines, and as data.
fn heat_and_marking(arrangement: &Arrangement, opening: &str) -> Result<Vec<SetFile>, SetError> {
    let heat = crate::heat::assess(arrangement);
    let marking = crate::marking::marking_with(arrangement, &heat);
    let heat_page = opening.to_string()
        + super::heat_estimated(&heat).trim_start()
        + &super::heat_tables(&heat)
        + &super::cautions(arrangement);
    let marking_page = opening.to_string() + &super::marking_page(arrangement, &marking);
    let heat_data = serde_json::to_string_pretty(&heat)? + "\n";
    let marking_data = serde_json::to_string_pretty(&marking)? + "\n";
    Ok(vec![
        ("heat.txt".into(), heat_page.into_bytes()),
        ("heat.json".into(), heat_data.into_bytes()),
        ("marking.txt".into(), marking_page.into_bytes()),
        ("marking.json".into(), marking_data.into_bytes()),
    ])
}
