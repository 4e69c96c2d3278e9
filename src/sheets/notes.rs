//! What the workshop is told beside the drawings and lists: for who drills, who fits and who wires. Says what the
//! arrangement holds, and where it holds nothing it says that.

use super::drawing::Table;
use super::heat::calculation::sentences;
use super::list::List;
use super::{datum, number, tenth};
use crate::arrangement::{
    Arrangement, EntryPurpose, NoticePlace, Orientation, PlacedEntry, WireEnd,
};
use crate::catalogue::{CircuitKind, ConductorBuild, ElementKind};
use crate::letters::capital;
use crate::space::Face;
use itertools::Itertools;

/// Whom a note is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Trade {
    Drilling,
    Fitting,
    Wiring,
}

impl Trade {
    fn words(self) -> &'static str {
        match self {
            Trade::Drilling => "drilling",
            Trade::Fitting => "fitting",
            Trade::Wiring => "wiring",
        }
    }
}

/// What the catalogue's torque of an entry means.
const BODY_TORQUE: &str = "The torque told of a gland, plug or breather is that of its body in the wall; that of the cap \
                           of a gland is not in the catalogue, its instructions say it.";

/// Nor whether what fastens and seals an entry comes with it.
const FASTENING: &str = "Locknuts and seals of glands, plugs and breathers: whether they come with the part is not in the \
                         catalogue. The room for locknuts is kept.";

/// The sections of flexible conductors in a catalogue are those with ferrules.
fn ferrules(arrangement: &Arrangement) -> Option<String> {
    let wires = arrangement.wires.iter();
    let flexible = wires.filter(|wire| wire.build == ConductorBuild::Flexible);
    let of = flexible
        .map(|wire| match (&wire.from, &wire.to) {
            (WireEnd::Core { cable, .. }, _) | (_, WireEnd::Core { cable, .. }) => {
                format!("of {cable}")
            }
            _ => "internal wires".to_string(),
        })
        .unique()
        .join(", ");
    (!of.is_empty()).then(|| {
        format!(
            "Flexible conductors ({of}) end in ferrules; these are not in the catalogue and not in the parts list."
        )
    })
}

/// Where the mounting plate lies; no catalogue gives its holes.
fn fixing(arrangement: &Arrangement) -> String {
    let plate = &arrangement.enclosure.plate;
    format!(
        "Mounting plate: {} × {} mm, its lower left corner at x {}, y {}; positions of rails count from the datum of the \
         box, not from the plate. How the rails are fixed on it, and where it has holes for them, is not in the \
         catalogue.",
        tenth(plate.width_mm),
        tenth(plate.height_mm),
        tenth(plate.x_mm),
        tenth(plate.y_mm)
    )
}

/// A note: what it is about, and a sentence.
pub(super) struct Note {
    trade: Trade,
    about: String,
    text: String,
}

impl Note {
    fn new(trade: Trade, about: impl Into<String>, text: impl Into<String>) -> Note {
        Note {
            trade,
            about: about.into(),
            text: text.into(),
        }
    }
}

/// The notes as a list.
pub(super) fn list(arrangement: &Arrangement) -> List {
    let rows = all(arrangement).into_iter();
    let rows = rows.map(|note| vec![note.trade.words().into(), note.about, note.text]);
    List::new("workshop notes", &["for", "about", "note"], rows.collect())
}

/// The notes for who drills some faces, as a table of a sheet.
pub(super) fn for_drilling(arrangement: &Arrangement, faces: &[Face]) -> Table {
    let mut lines: Vec<String> = faces
        .iter()
        .filter(|face| is_drilled(arrangement, **face))
        .map(|face| datum::sentence(arrangement, *face))
        .collect();
    if !lines.is_empty() {
        lines.extend(turned(arrangement));
        lines.push(material(arrangement));
        lines.push(tolerance(arrangement));
        // The diameters of cables concern the walls that they enter by.
        let is_wall = faces.iter().any(|face| face.wall_index().is_some());
        let told = told(arrangement, Trade::Drilling).into_iter();
        lines.extend(told.filter(|line| is_wall || !line.contains("diameter")));
    }
    let enclosure = &arrangement.enclosure;
    let has_one = enclosure.external_earth_mm2.is_some() || enclosure.material.is_metal();
    if has_one && faces.iter().any(|face| face.wall_index().is_some()) {
        lines.push(external_earth(arrangement));
    }
    sentences("drilling-notes", "To be known when drilling", lines)
}

/// The notes for who fits and wires, as a table of a sheet.
pub(super) fn for_fitting(arrangement: &Arrangement) -> Table {
    let lines = all(arrangement)
        .into_iter()
        .filter(|note| note.trade != Trade::Drilling)
        .map(|note| note.text);
    sentences(
        "fitting-notes",
        "To be known when fitting and wiring",
        lines.collect(),
    )
}

fn all(arrangement: &Arrangement) -> Vec<Note> {
    let mut notes = Vec::new();
    let faces = Face::WALLS.into_iter().chain([Face::Lid]);
    for face in faces.filter(|face| is_drilled(arrangement, *face)) {
        let about = format!("datum, {}", face.name());
        let sentence = datum::sentence(arrangement, face);
        notes.push(Note::new(Trade::Drilling, about, sentence));
    }
    notes.extend(turned(arrangement).map(|text| Note::new(Trade::Drilling, "turned", text)));
    if !notes.is_empty() {
        let material = material(arrangement);
        notes.push(Note::new(Trade::Drilling, "material", material));
        let tolerance = tolerance(arrangement);
        notes.push(Note::new(Trade::Drilling, "tolerance of holes", tolerance));
    }
    let told_of = |trade| {
        let lines = told(arrangement, trade).into_iter();
        lines.map(move |line| Note::new(trade, "remark", line))
    };
    notes.extend(told_of(Trade::Drilling));
    let of_list = arrangement.job.notes.trim();
    if !of_list.is_empty() {
        notes.push(Note::new(Trade::Fitting, "notes of the list", of_list));
    }
    let earth = external_earth(arrangement);
    notes.push(Note::new(Trade::Fitting, "external earth", earth));
    let earth = internal_earth(arrangement);
    notes.push(Note::new(Trade::Fitting, "internal earth", earth));
    if !arrangement.rails.is_empty() {
        let fixing = fixing(arrangement);
        notes.push(Note::new(Trade::Fitting, "fixing of rails", fixing));
    }
    notes.push(Note::new(Trade::Fitting, "bonding", bonding(arrangement)));
    if !arrangement.entries.is_empty() {
        notes.push(Note::new(Trade::Fitting, "torque of entries", BODY_TORQUE));
    }
    if !arrangement.entries.is_empty() {
        notes.push(Note::new(Trade::Fitting, "fastening of entries", FASTENING));
    }
    notes.extend(closed(arrangement).map(|text| Note::new(Trade::Fitting, "closed entries", text)));
    let earthed = earthing(arrangement).into_iter();
    notes.extend(earthed.map(|text| Note::new(Trade::Fitting, "earthing of glands", text)));
    let cut = cut_jumpers(arrangement).into_iter();
    notes.extend(cut.map(|text| Note::new(Trade::Fitting, "jumpers", text)));
    let notices = arrangement.notices.iter();
    for notice in notices.filter(|notice| notice.place == NoticePlace::Workshop) {
        let text = format!("{}.", capital(&notice.text));
        notes.push(Note::new(Trade::Wiring, "instruction", text));
    }
    notes.extend(ferrules(arrangement).map(|text| Note::new(Trade::Wiring, "ferrules", text)));
    notes
        .extend(routes_apart(arrangement).map(|text| Note::new(Trade::Wiring, "separation", text)));
    notes.extend(switching(arrangement).map(|text| Note::new(Trade::Wiring, "selectors", text)));
    notes.extend(told_of(Trade::Wiring));
    notes
}

/// Which wall is which, where the box is mounted turned.
fn turned(arrangement: &Arrangement) -> Option<String> {
    if arrangement.enclosure.orientation != Orientation::Turned {
        return None;
    }
    let walls = Face::WALLS.map(|wall| {
        let (lies, was) = (wall.turned_clockwise().name(), wall.name());
        format!("its {was} wall is the {lies} one here")
    });
    Some(format!(
        "The enclosure is turned a quarter clockwise from how the catalogue shows it, seen from the front: {}.",
        walls.join(", ")
    ))
}

/// Whether anything is drilled in a face.
fn is_drilled(arrangement: &Arrangement, face: Face) -> bool {
    match face {
        Face::Lid => !arrangement.elements.is_empty(),
        face => arrangement.entries.iter().any(|entry| entry.wall == face),
    }
}

/// Remarks and estimates of the arrangement that concern a trade: those that speak of drilling or of diameters, by
/// which the glands were chosen, concern who drills; the others who wires.
fn told(arrangement: &Arrangement, trade: Trade) -> Vec<String> {
    let is_for_drilling = |text: &str| text.contains("drill") || text.contains("diameter");
    let estimates = arrangement.estimates.iter();
    let estimates = estimates.map(|text| format!("estimated: {text}"));
    arrangement
        .remarks
        .iter()
        .cloned()
        .chain(estimates)
        .filter(|text| is_for_drilling(text) == (trade == Trade::Drilling))
        .map(|text| {
            let text = if text.contains("diameter") {
                text + "; measure it before drilling"
            } else {
                text
            };
            let text = capital(&text);
            if text.ends_with('.') {
                text
            } else {
                text + "."
            }
        })
        .collect()
}

/// What is drilled, and how: catalogues give the holes of entries and elements as clearance holes.
fn material(arrangement: &Arrangement) -> String {
    let enclosure = &arrangement.enclosure;
    let wall_mm = enclosure.wall_thickness_mm;
    let lid_mm = enclosure.outer_mm[2] - enclosure.interior.depth_mm - wall_mm;
    let lid = if arrangement.elements.is_empty() || lid_mm <= 0.0 {
        String::new()
    } else {
        format!(
            " Lid: {} mm, if the back is as thick as the walls.",
            tenth(lid_mm)
        )
    };
    format!(
        "Material: {}. Walls that carry entries: {} mm thick.{lid} All holes are clearance holes, not tapped.",
        enclosure.material.words(),
        number(wall_mm, 2)
    )
}

/// What is said of the tolerance of holes: the workshop rules have none of their own.
fn tolerance(arrangement: &Arrangement) -> String {
    format!(
        "Tolerance of holes: none is stated, and none is left between holes or to edges, which may stand as near as is \
         permitted. The {} mm (`tolerance_mm`) belong to electrical clearances and are no room for drilling.",
        number(arrangement.limits.tolerance_mm, 2)
    )
}

/// The same in a cell.
pub(super) fn tolerance_in_short(arrangement: &Arrangement) -> String {
    format!(
        "none stated; the {} mm (tolerance_mm) of electrical clearances are no room for drilling",
        number(arrangement.limits.tolerance_mm, 2)
    )
}

/// The external earth terminal: no catalogue gives its place, so no drawing shows it.
fn external_earth(arrangement: &Arrangement) -> String {
    let enclosure = &arrangement.enclosure;
    match enclosure.external_earth_mm2 {
        Some(section_mm2) => format!(
            "External earth terminal, up to {} mm²: at the place of the maker, which the catalogue does not give, so it is \
             not drawn; keep it clear.",
            number(section_mm2, 2)
        ),
        None if enclosure.material.is_metal() => {
            "External earth terminal: a metal box needs one, and the catalogue names none. It is not drawn."
                .to_string()
        }
        None => "External earth terminal: the catalogue names none, and none is drawn.".to_string(),
    }
}

/// The earth terminal that the enclosure has inside: no catalogue gives its place either.
fn internal_earth(arrangement: &Arrangement) -> String {
    match arrangement.enclosure.internal_earth_mm2 {
        Some(section_mm2) => format!(
            "Earth terminal of the enclosure inside, up to {} mm²: at the place of the maker, which the catalogue does \
             not give, so it is not drawn. The arrangement holds no conductor to it: whether the earth terminals on the \
             rails are joined to it is to be settled before wiring.",
            number(section_mm2, 2)
        ),
        None => {
            "Earth terminal of the enclosure inside: the catalogue names none, and none is drawn."
                .into()
        }
    }
}

/// Lid, plate and rails on the way to earth: what is known of it.
fn bonding(arrangement: &Arrangement) -> String {
    let parts = if arrangement.enclosure.material.is_metal() {
        "lid, mounting plate and rails"
    } else {
        "a mounting plate of metal and of the rails"
    };
    format!(
        "Bonding of {parts} to earth: not in the catalogue, and the arrangement holds no conductor for it; the \
         instructions of the enclosure say it."
    )
}

/// Intrinsically safe conductors beside others: parts are placed apart, conductors are laid by hand.
pub(super) fn routes_apart(arrangement: &Arrangement) -> Option<String> {
    let has = |kind: CircuitKind| crate::marking::has(arrangement, kind);
    let both = has(CircuitKind::IntrinsicallySafe) && has(CircuitKind::ExE);
    both.then(|| {
        "Lay the conductors of the intrinsically safe circuits apart from all others and fix them so that they stay so \
         (IEC 60079-14, from memory): terminals and bare parts were measured, the ways of the conductors were not."
            .into()
    })
}

/// Selectors: no catalogue says which contact is closed where.
fn switching(arrangement: &Arrangement) -> Option<String> {
    let selectors = arrangement.elements.iter();
    let tags = selectors
        .filter(|element| element.kind == ElementKind::Selector)
        .map(|element| element.tag.as_str())
        .join(", ");
    (!tags.is_empty()).then(|| {
        format!(
            "{tags}: which contact is closed in which position of the selector is not in the catalogue; have it \
             settled before wiring."
        )
    })
}

/// Entries that no cable uses, with what closes them.
fn closed(arrangement: &Arrangement) -> Option<String> {
    let words = |entry: &PlacedEntry| match entry.purpose {
        EntryPurpose::Cable(_) => None,
        EntryPurpose::Spare => Some(format!("{} (spare) with {}", entry.id, entry.part.id)),
        EntryPurpose::Breather => Some(format!("{} (breather) with {}", entry.id, entry.part.id)),
    };
    let closed = arrangement.entries.iter().filter_map(words).join(", ");
    (!closed.is_empty()).then(|| format!("No hole stays open: {closed}."))
}

/// How armour and metal glands in plastic walls come to earth. The arrangement holds no conductor from an earth plate
/// to a terminal, and that is said of each.
pub(super) fn earthing(arrangement: &Arrangement) -> Vec<String> {
    let mut lines = Vec::new();
    for entry in &arrangement.entries {
        let cable = arrangement
            .cables
            .iter()
            .find(|cable| matches!(&entry.purpose, EntryPurpose::Cable(tag) if *tag == cable.tag));
        let armoured = cable.filter(|cable| cable.armoured);
        if armoured.is_none() && entry.earth_plate.is_none() {
            continue;
        }
        let what = match armoured {
            Some(cable) => format!("{}, armour of {}: ", entry.id, cable.tag),
            None => format!("{}: ", entry.id),
        };
        let gland_is_metal = entry.part.material.is_metal();
        let wall_is_metal = arrangement.enclosure.material.is_metal();
        let way = match &entry.earth_plate {
            Some(plate) => format!(
                "earthed by {} on {}. To which conductor or earth terminal it leads is not determined: the \
                 arrangement holds none",
                plate.id, entry.part.id
            ),
            None if gland_is_metal && wall_is_metal => format!(
                "{} of metal in a wall of metal. No conductor to an earth terminal is \
                 determined; whether one is needed, the instructions of the gland say",
                entry.part.id
            ),
            None => format!(
                "{} has no earth plate. No way to earth is determined",
                entry.part.id
            ),
        };
        lines.push(format!("{what}{way}."));
    }
    lines
}

/// Jumpers that are longer than what they link.
fn cut_jumpers(arrangement: &Arrangement) -> Vec<String> {
    let jumpers = arrangement.jumpers.iter();
    jumpers
        .filter(|jumper| jumper.poles as usize > jumper.terminals.len())
        .map(|jumper| {
            format!(
                "{}: {} of {} poles is cut to {}, over {}.",
                jumper.id,
                jumper.part,
                jumper.poles,
                jumper.terminals.len(),
                jumper.terminals.join(", ")
            )
        })
        .collect()
}
