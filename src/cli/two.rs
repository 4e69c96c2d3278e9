//! `glandrail propose --boxes 2`: the answer in one box or in two. Holds no calculation.

use super::answer::print_found;
use super::input::Inputs;
use super::paper::PaperName;
use super::proof::{print_groups, wrapped};
use super::propose::{Format, ProposeArgs, json, no_part};
use super::{ExitStatus, Failure, folder, sheets};
use crate::arrangement::{CAUTION, EnclosureRecord};
use crate::explain::names_of;
use crate::model::SearchOptions;
use crate::propose::{Proposal, ProposeError};
use crate::requirements::{Measure, RequirementList};
use crate::sheets as sets;
use crate::sheets::number;
use crate::split::{BoxOfTwo, ConnectingCable, NotDivided, TwoAnswer, TwoBoxes, propose_up_to_two};
use itertools::Itertools;
use serde_json::{Value, json};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Runs the command.
pub(super) fn run(
    args: &ProposeArgs,
    inputs: &Inputs,
    options: SearchOptions,
    out: &mut dyn Write,
    talk: &mut dyn Write,
) -> Result<ExitStatus, Failure> {
    let list = &inputs.list;
    let answer = match propose_up_to_two(list, &inputs.catalogue, &inputs.workshop, options) {
        Err(ProposeError::NoPart(findings)) => {
            folder::tell_of_earlier(args.out.as_deref(), talk)?;
            return no_part(args.format, inputs, options, &findings, out, talk);
        }
        answer => answer?,
    };
    match answer {
        TwoAnswer::One(proposal) => {
            if let Some(folder) = &args.out {
                sheets::write(&proposal.arrangement, args.paper, folder, talk)?;
            }
            match args.format {
                Format::Text => {
                    let words = "One box is enough; nothing is divided.";
                    writeln!(out, "{words}\n")?;
                    print_found(&proposal, args.proof, out)?;
                }
                Format::Json => {
                    let value = json!({
                        "found": true,
                        "boxes": [box_value(None, &proposal)],
                        "connecting_cables": [],
                        "caution": CAUTION,
                    });
                    writeln!(out, "{}", json(&value)?)?;
                }
            }
            Ok(ExitStatus::Holds)
        }
        TwoAnswer::Two(two) => {
            if let Some(folder) = &args.out {
                write(&two, args.paper, folder, talk)?;
            }
            match args.format {
                Format::Text => print_two(list, &two, args.proof, out)?,
                Format::Json => writeln!(out, "{}", json(&two_value(&two))?)?,
            }
            Ok(ExitStatus::Holds)
        }
        TwoAnswer::NotFound(why) => {
            folder::tell_of_earlier(args.out.as_deref(), talk)?;
            match args.format {
                Format::Text => print_not_divided(list, &why, out)?,
                Format::Json => {
                    let value = json!({
                        "found": false,
                        "one_disproved": why.one_disproved,
                        "excluded": why.excluded,
                        "alone": why.alone,
                        "divisions_tried": why.tried,
                        "nearest_division": why.nearest,
                        "caution": CAUTION,
                    });
                    writeln!(out, "{}", json(&value)?)?;
                }
            }
            Ok(ExitStatus::DoesNotHold)
        }
    }
}

/// Writes both sets and both lists into a folder, all files or none, and says which.
fn write(
    two: &TwoBoxes,
    paper: PaperName,
    folder: &Path,
    talk: &mut dyn Write,
) -> Result<(), Failure> {
    let mut files: Vec<(PathBuf, Vec<u8>)> = Vec::new();
    for (of, number) in two.boxes.iter().zip(1..) {
        let list = PathBuf::from(format!("box-{number}.toml"));
        files.push((list, of.text.clone().into_bytes()));
        for (name, content) in sets::set(&of.proposal.arrangement, paper.into())? {
            let path = Path::new(&format!("box-{number}")).join(name);
            files.push((path, content));
        }
    }
    let count = files.len() - 2;
    let jobs = two.boxes.each_ref().map(|of| &of.proposal.arrangement.job);
    let (name, content) = sets::contents(["box-1.toml", "box-2.toml"].into_iter().zip(jobs));
    files.push((name.into(), content));
    let words =
        format!("box-1.toml, box-2.toml, contents.csv, and {count} files in box-1 and box-2");
    folder::replace(folder, files, &words, talk)
}

fn two_value(two: &TwoBoxes) -> Value {
    let boxes: Vec<Value> = two
        .boxes
        .iter()
        .map(|of| box_value(Some(of), &of.proposal))
        .collect();
    json!({
        "found": true,
        "one_disproved": two.one_disproved,
        "boxes": boxes,
        "connecting_cables": two.connecting,
        "division_proven": two.together_at_least.is_some_and(|least| two.together <= least * (1.0 + 1e-9)),
        "together": two.together,
        "together_at_least": two.together_at_least,
        "divisions_tried": two.tried,
        "cautions": two.cautions,
        "caution": CAUTION,
    })
}

fn box_value(of: Option<&BoxOfTwo>, proposal: &Proposal) -> Value {
    let mut value = json!({
        "arrangement": proposal.arrangement,
        "proven": proposal.proven,
        "excluded": proposal.excluded,
    });
    if let Some(of) = of {
        value["list"] = json!(of.text);
        value["cables"] = json!(of.cables);
        value["elements"] = json!(of.elements);
        value["circuits"] = json!(of.circuits);
    }
    value
}

fn title(list: &RequirementList) -> String {
    let title = [list.job.tag.as_str(), list.job.title.as_str()].join("  ");
    title.trim().to_string()
}

fn print_two(
    list: &RequirementList,
    two: &TwoBoxes,
    proof: bool,
    out: &mut dyn Write,
) -> io::Result<()> {
    writeln!(out, "{}\n", title(list))?;
    let one = if two.one_disproved {
        "Two boxes: no single enclosure of the catalogue takes the list; each candidate is excluded."
    } else {
        "Two boxes: no single enclosure was found that takes the list; some candidates were not decided, \
         within the time limit or without rows of entries."
    };
    wrapped(out, one, 0)?;
    for of in &two.boxes {
        let arrangement = &of.proposal.arrangement;
        let enclosure = &arrangement.enclosure;
        writeln!(out)?;
        writeln!(
            out,
            "{}  {} {}, {} l",
            of.list.job.tag,
            enclosure.id,
            enclosure.orientation.words(),
            number(litres(enclosure), 1)
        )?;
        for (what, tags) in [
            ("cables", &of.cables),
            ("elements", &of.elements),
            ("circuits here alone", &of.circuits),
        ] {
            if !tags.is_empty() {
                let names = names_of(tags.iter().map(String::as_str));
                wrapped(out, &format!("{what}: {names}"), 2)?;
            }
        }
    }
    writeln!(out)?;
    print_connecting(two, out)?;
    let [first, second] = two.boxes.each_ref();
    let sum: f64 = [first, second]
        .map(|of| litres(&of.proposal.arrangement.enclosure))
        .iter()
        .sum();
    let by = list.wishes.smallest.iter().map(in_words).join(", ");
    wrapped(
        out,
        &format!(
            "Together {} l. The division is the best of {} that a bounded search looked at (least {by} of both \
             boxes together, then fewest connecting cores). {} What is proved about each box, for its own list, \
             stands below.",
            number(sum, 1),
            two.tried,
            bound_in_words(list, two)
        ),
        0,
    )?;
    for caution in &two.cautions {
        wrapped(out, &format!("! {caution}"), 0)?;
    }
    for (of, at) in two.boxes.iter().zip(1..) {
        writeln!(out, "\n{}", "─".repeat(60))?;
        writeln!(out, "Box {at} of 2\n")?;
        print_found(&of.proposal, proof, out)?;
    }
    Ok(())
}

/// How far the division is from what is proved about any other.
fn bound_in_words(list: &RequirementList, two: &TwoBoxes) -> String {
    let by = list.wishes.smallest.first().copied();
    let by = by.unwrap_or(Measure::Volume);
    let shown = |value: f64| match by {
        Measure::Volume => format!("{} l", number(value / 1e6, 1)),
        Measure::Footprint => format!("{} cm²", number(value / 100.0, 0)),
        Measure::Mass => format!("{} kg", number(value, 2)),
        Measure::Price => format!("a price of {value:.2}"),
    };
    match two.together_at_least {
        Some(least) if two.together <= least * (1.0 + 1e-9) => format!(
            "Proved: no two enclosures of the catalogue that could take the list have less {} together.",
            in_words(&by)
        ),
        Some(least) => format!(
            "It is not proved that no other division is smaller; proved is that two enclosures of less than {} \
             together cannot take the list.",
            shown(least)
        ),
        None => "It is not proved that no other division is smaller.".to_string(),
    }
}

fn in_words(by: &Measure) -> &'static str {
    match by {
        Measure::Volume => "volume",
        Measure::Footprint => "footprint",
        Measure::Mass => "mass",
        Measure::Price => "price",
    }
}

fn litres(enclosure: &EnclosureRecord) -> f64 {
    let [width_mm, height_mm, depth_mm] = enclosure.outer_mm;
    width_mm * height_mm * depth_mm / 1e6
}

fn print_connecting(two: &TwoBoxes, out: &mut dyn Write) -> io::Result<()> {
    if two.connecting.is_empty() {
        writeln!(out, "No connecting cable: no circuit lies in both boxes.")?;
        return writeln!(out);
    }
    writeln!(out, "Connecting cables")?;
    for cable in &two.connecting {
        let mut words = vec![cable.cores.clone()];
        words.extend(cable.screened.then(|| "screened".to_string()));
        words.extend(cable.armoured.then(|| "armoured".to_string()));
        words.push(format!("for {}", cable.group.name().replace('_', " ")));
        words.push(format!("{} used", cores_in_words(cable.used)));
        if cable.unused > 0 {
            words.push(format!("{} unused", cable.unused));
        }
        let diameter = two.boxes[0]
            .list
            .cables
            .iter()
            .find(|of| of.tag == cable.tag);
        if let Some(of) = diameter {
            words.push(format!(
                "about {} mm (estimated)",
                number(of.diameter_mm, 1)
            ));
        }
        wrapped(out, &format!("{}: {}", cable.tag, words.join(", ")), 2)?;
        wrapped(out, &carries(cable), 4)?;
    }
    writeln!(out)
}

fn cores_in_words(count: u32) -> String {
    match count {
        1 => "1 core".to_string(),
        _ => format!("{count} cores"),
    }
}

/// What the cores carry, circuit by circuit: `cores 1, 2: S7 poles 1, 2`.
fn carries(cable: &ConnectingCable) -> String {
    let mut parts: Vec<String> = Vec::new();
    let mut core = 1;
    for (circuit, poles) in &cable.carries.iter().chunk_by(|(circuit, _)| circuit) {
        let poles: Vec<usize> = poles.map(|(_, pole)| *pole).collect();
        let cores = (core..core + poles.len()).join(", ");
        core += poles.len();
        let (of, on) = match poles.len() {
            1 => ("core", "pole"),
            _ => ("cores", "poles"),
        };
        parts.push(format!(
            "{of} {cores}: {circuit} {on} {}",
            poles.iter().join(", ")
        ));
    }
    parts.join("; ")
}

fn print_not_divided(
    list: &RequirementList,
    why: &NotDivided,
    out: &mut dyn Write,
) -> io::Result<()> {
    writeln!(out, "{}", title(list))?;
    let one = if why.one_disproved {
        "No single enclosure takes the list, and no division over two boxes was found."
    } else {
        "No single enclosure was found (some candidates were not decided, within the time limit or without rows of entries), and no division \
         over two boxes."
    };
    wrapped(out, one, 0)?;
    if !why.alone.is_empty() {
        wrapped(
            out,
            "No number of boxes would do, for no enclosure takes these even alone, with what the list asks of each box:",
            0,
        )?;
        for (excluded, alike) in &why.alone.iter().chunk_by(|alone| &alone.excluded) {
            let names = names_of(alike.map(|alone| alone.what.as_str()));
            wrapped(out, &names, 2)?;
            print_groups(excluded, out)?;
        }
    } else if why.nearest.is_empty() {
        wrapped(
            out,
            "There is nothing to divide: all cables and elements must stay in one box.",
            0,
        )?;
    } else {
        wrapped(
            out,
            &format!(
                "{} divisions were looked at. That is a search and no proof: another division might hold.",
                why.tried
            ),
            0,
        )?;
        writeln!(out, "\nThe nearest of the divisions looked at")?;
        for (half, at) in why.nearest.iter().zip(1..) {
            let names = names_of(half.holds.iter().map(String::as_str));
            wrapped(out, &format!("box {at}: {names}"), 2)?;
            match (&half.no_part, half.taken) {
                (Some(reason), _) => wrapped(out, &format!("no part serves it: {reason}"), 4)?,
                (None, true) => writeln!(out, "    an enclosure takes it")?,
                (None, false) => print_groups(&half.excluded, out)?,
            }
        }
    }
    writeln!(out, "\nAgainst the whole list in one box")?;
    print_groups(&why.excluded, out)?;
    writeln!(out, "`glandrail explain` tells what would help.")?;
    writeln!(out, "\n{CAUTION}")
}
