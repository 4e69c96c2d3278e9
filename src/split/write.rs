//! One box of a division as a requirement list in TOML: a text like any other list, to keep and edit.
//! Fields that say no more than their default are left out.

use super::divide::{ConnectingCable, Division, Half, HalfCircuit, HalfEnd};
use super::toml_text::{number, numbers, one_or_many, string, strings, tags_line, word};
use crate::catalogue::{CircuitKind, ConductorBuild, TerminalFunction};
use crate::requirements::{
    Cable, Core, CoreName, ElementRequirement, End, RequirementList, estimate_diameter_mm,
};
use crate::workshop::Workshop;
use itertools::Itertools;
use std::fmt::Write;

/// The list of one box, 0 or 1.
pub(super) fn list_text(
    list: &RequirementList,
    workshop: &Workshop,
    division: &Division,
    at: usize,
) -> String {
    let half = &division.halves[at];
    let mut text = format!(
        "# Box {} of 2 that take what {} asks for; the other is {}.\n",
        at + 1,
        list.job.tag.replace(['\n', '\r'], " "),
        box_tag(list, 1 - at).replace(['\n', '\r'], " ")
    );
    text.push_str(
        "# Derived by glandrail; a list like any other, to be changed where you know better.\n",
    );
    job(&mut text, list, division, at);
    area(&mut text, list);
    wishes(&mut text, list);
    for group in &half
        .cables
        .iter()
        .map(|index| &list.cables[*index])
        .chunk_by(|cable| cable_body(list, workshop, cable))
    {
        let (body, cables) = group;
        let tags: Vec<&str> = cables.map(|cable| cable.tag.as_str()).collect();
        let _ = write!(text, "\n[[cable]]\n{}{body}", tags_line(&tags));
    }
    for cable in &division.connecting {
        let other = box_tag(list, 1 - at);
        connecting(&mut text, cable, &other);
    }
    for index in &half.elements {
        element(&mut text, list, half, &list.elements[*index]);
    }
    for circuit in &half.circuits {
        circuit_table(&mut text, list, &division.connecting, circuit);
    }
    for link in &half.links {
        let poles: Vec<String> = link
            .iter()
            .filter_map(|(circuit, pole)| {
                let held = half.circuits.iter().find(|of| of.circuit == *circuit)?;
                let number = held.poles.iter().position(|of| of.pole == *pole)?;
                let tag = &list.circuits[*circuit].tag;
                Some(format!("{tag}/{}", number + 1))
            })
            .collect();
        let _ = writeln!(text, "\n[[link]]\npoles = {}", strings(&poles));
    }
    text
}

/// The tag of one of the two boxes.
pub(super) fn box_tag(list: &RequirementList, at: usize) -> String {
    format!("{}/{}", list.job.tag, at + 1)
}

/// The notes of the list, and of each connecting cable that nobody asked for it.
fn notes(list: &RequirementList, division: &Division, at: usize) -> String {
    let other = box_tag(list, 1 - at);
    let cables = division.connecting.iter().map(|cable| {
        format!(
            "{} is a connecting cable to {other}, proposed with the division and not in the list of {}: have its cores, \
             section and diameter settled.",
            cable.tag, list.job.tag
        )
    });
    let own = Some(list.job.notes.clone()).filter(|notes| !notes.is_empty());
    own.into_iter().chain(cables).join(" ")
}

fn job(text: &mut String, list: &RequirementList, division: &Division, at: usize) {
    let (of, half) = (&list.job, &division.halves[at]);
    let _ = writeln!(text, "\n[job]\ntag = {}", string(&box_tag(list, at)));
    let title = match of.title.as_str() {
        "" => format!("Box {} of 2", at + 1),
        title => format!("{title}, box {} of 2", at + 1),
    };
    let _ = writeln!(text, "title = {}", string(&title));
    for (field, value) in [
        ("revision", &of.revision),
        ("customer_reference", &of.customer_reference),
        ("notes", &notes(list, division, at)),
    ] {
        if !value.is_empty() {
            let _ = writeln!(text, "{field} = {}", string(value));
        }
    }
    // What is fixed about a cable, element or circuit goes along with it.
    let fixed: Vec<&String> = list
        .fixed
        .iter()
        .filter(|name| match name.split_once(' ') {
            Some(("cable", tag)) => half.cables.iter().any(|at| list.cables[*at].tag == tag),
            Some(("element", tag)) => half.elements.iter().any(|at| list.elements[*at].tag == tag),
            Some(("circuit", tag)) => half
                .circuits
                .iter()
                .any(|of| list.circuits[of.circuit].tag == tag),
            _ => true,
        })
        .collect();
    if !fixed.is_empty() {
        let _ = writeln!(text, "fixed = {}", strings(&fixed));
    }
}

fn area(text: &mut String, list: &RequirementList) {
    let area = &list.area;
    let levels: Vec<String> = [area.gas_epl, area.dust_epl]
        .into_iter()
        .flatten()
        .map(|level| word(&level))
        .collect();
    let _ = writeln!(text, "\n[area]\nepl = {}", one_or_many(&levels));
    let mut line = |field: &str, value: Option<String>| {
        if let Some(value) = value {
            let _ = writeln!(text, "{field} = {value}");
        }
    };
    line("gas_group", area.gas_group.map(|of| string(&word(&of))));
    line("dust_group", area.dust_group.map(|of| string(&word(&of))));
    line(
        "temperature_class",
        area.temperature_class.map(|of| string(&word(&of))),
    );
    line("max_surface_c", area.max_surface_c.map(number));
    line("ambient_c", Some(numbers(&area.ambient_c)));
    line("ip", Some(string(&word(&area.ip))));
}

fn wishes(text: &mut String, list: &RequirementList) {
    let of = &list.wishes;
    text.push_str("\n[box]\n");
    let mut line = |field: &str, value: String| {
        let _ = writeln!(text, "{field} = {value}");
    };
    let words = |all: Vec<String>| one_or_many(&all);
    if !of.materials.is_empty() {
        line("material", words(of.materials.iter().map(word).collect()));
    }
    if let Some(size) = &of.max_outer_mm {
        line("max_outer_mm", numbers(size));
    }
    line(
        "orientation",
        words(of.orientations.iter().map(word).collect()),
    );
    line(
        "entry_walls",
        words(of.entry_walls.iter().map(word).collect()),
    );
    if !(of.include.is_empty() && of.exclude.is_empty()) {
        let choice = format!(
            "{{ include = {}, exclude = {} }}",
            strings(&of.include),
            strings(&of.exclude)
        );
        line("enclosures", choice);
    }
    line("smallest", words(of.smallest.iter().map(word).collect()));
    line("thread", string(&word(&of.thread_system)));
    if !of.lid_hinge.is_empty() {
        line("lid_hinge", words(of.lid_hinge.iter().map(word).collect()));
    }
    if of.breather {
        line("breather", "true".to_string());
    }
    let spare = &list.spare;
    let entries = spare
        .entries
        .iter()
        .map(|(thread, count)| format!("{} = {count}", string(&word(thread))))
        .join(", ");
    text.push_str("\n[spare]\n");
    let _ = writeln!(
        text,
        "terminals_percent = {}",
        number(spare.terminals_percent)
    );
    if !entries.is_empty() {
        let _ = writeln!(text, "entries = {{ {entries} }}");
    }
    if spare.heat_percent > 0.0 {
        let _ = writeln!(text, "heat_percent = {}", number(spare.heat_percent));
    }
    let earthing = &list.earthing;
    if earthing.external || earthing.spare_terminals > 0 {
        let _ = writeln!(
            text,
            "\n[earthing]\nexternal = {}\nspare_terminals = {}",
            earthing.external, earthing.spare_terminals
        );
    }
}

/// All of a cable but its tag.
fn cable_body(list: &RequirementList, workshop: &Workshop, cable: &Cable) -> String {
    let mut text = format!("cores = {}\n", string(&cable.cores_text));
    let mut line = |field: &str, value: String| {
        let _ = writeln!(text, "{field} = {value}");
    };
    if cable.build != ConductorBuild::Stranded {
        line("conductor", string(&word(&cable.build)));
    }
    let cores: Vec<Core> = cable
        .cores
        .iter()
        .filter(|core| core.name != CoreName::Screen)
        .cloned()
        .collect();
    let (estimate_mm, _) = estimate_diameter_mm(&cores, cable.screened, cable.armoured);
    let estimated = cable.diameter_estimated && cable.diameter_mm == estimate_mm;
    if !estimated {
        line("diameter_mm", number(cable.diameter_mm));
    }
    let rules = &workshop.conductors;
    let usual_percent = if estimated {
        rules.estimated_tolerance_percent
    } else {
        rules.given_tolerance_percent
    };
    let tolerance_mm = cable.diameter_range_mm[1] - cable.diameter_mm;
    if (tolerance_mm - cable.diameter_mm * usual_percent / 100.0).abs() > 1e-6 {
        line("tolerance_mm", number(tolerance_mm));
    }
    if cable.armoured {
        line("armoured", "true".to_string());
        if let Some([least_mm, most_mm]) = cable.under_armour_mm
            && !cable.diameter_estimated
        {
            line("under_armour_mm", number((least_mm + most_mm) / 2.0));
        }
    }
    if cable.screened {
        line("screened", "true".to_string());
    }
    if cable.kind == CircuitKind::IntrinsicallySafe {
        line("intrinsically_safe", "true".to_string());
    }
    if cable.walls != list.wishes.entry_walls {
        let walls: Vec<String> = cable.walls.iter().map(word).collect();
        line("wall", one_or_many(&walls));
    }
    if let Some(gland) = &cable.gland {
        line("gland", string(gland));
    }
    if let Some(material) = &cable.gland_material {
        line("gland_material", string(&word(material)));
    }
    if let Some(system) = cable.thread_system
        && system != list.wishes.thread_system
    {
        line("thread", string(&word(&system)));
    }
    text
}

fn connecting(text: &mut String, cable: &ConnectingCable, other: &str) {
    let _ = writeln!(
        text,
        "\n[[cable]]                         # to {}; its diameter is estimated\ntag = {}\ncores = {}",
        other.replace(['\n', '\r'], " "),
        string(&cable.tag),
        string(&cable.cores)
    );
    if cable.build != ConductorBuild::Stranded {
        let _ = writeln!(text, "conductor = {}", string(&word(&cable.build)));
    }
    for (field, given) in [
        ("armoured", cable.armoured),
        ("screened", cable.screened),
        (
            "intrinsically_safe",
            cable.group == crate::requirements::CircuitGroup::IntrinsicallySafe,
        ),
    ] {
        if given {
            let _ = writeln!(text, "{field} = true");
        }
    }
}

fn element(text: &mut String, list: &RequirementList, half: &Half, of: &ElementRequirement) {
    let _ = writeln!(
        text,
        "\n[[element]]\ntag = {}\nkind = {}",
        string(&of.tag),
        string(&word(&of.kind))
    );
    let mut line = |field: &str, value: Option<String>| {
        if let Some(value) = value {
            let _ = writeln!(text, "{field} = {value}");
        }
    };
    let given = |value: &String| (!value.is_empty()).then(|| string(value));
    line("function", given(&of.function));
    line("label", given(&of.label));
    line("colour", of.colour.as_ref().map(|colour| string(colour)));
    line("positions", of.positions.map(|count| count.to_string()));
    let contacts: Vec<String> = of.contacts.iter().map(|of| word(&of.kind)).collect();
    line(
        "contacts",
        (!contacts.is_empty()).then(|| strings(&contacts)),
    );
    line("part", of.part.as_ref().map(|part| string(part)));
    line("row", of.placing.row.map(|row| row.to_string()));
    line("order", of.placing.order.map(|order| order.to_string()));
    // A wish about an element of the other box has no meaning here.
    let here = |index: Option<usize>| {
        index
            .filter(|index| half.elements.contains(index))
            .map(|index| string(&list.elements[index].tag))
    };
    line("above", here(of.placing.above));
    line("beside", here(of.placing.beside));
}

fn circuit_table(
    text: &mut String,
    list: &RequirementList,
    cables: &[ConnectingCable],
    half: &HalfCircuit,
) {
    let circuit = &list.circuits[half.circuit];
    let _ = writeln!(
        text,
        "\n[[circuit]]\ntag = {}\ngroup = {}\nvoltage_v = {}\ncurrent_a = {}",
        string(&circuit.tag),
        string(circuit.group.name()),
        number(circuit.voltage_v),
        number(half.current_a)
    );
    let mut line = |field: &str, value: String| {
        let _ = writeln!(text, "{field} = {value}");
    };
    let branches = half.poles.iter().any(|pole| pole.to.len() > 1);
    if branches && half.branch_current_a != half.current_a {
        line("branch_current_a", number(half.branch_current_a));
    }
    if circuit.simultaneity != 1.0 {
        line("simultaneity", number(circuit.simultaneity));
    }
    if let Some(load) = circuit.load {
        line("load", string(load.word()));
    }
    if circuit.direct {
        line("direct", "true".to_string());
    } else if circuit.terminal != TerminalFunction::FeedThrough {
        line("terminal", string(&word(&circuit.terminal)));
    }
    if let Some(part) = &circuit.terminal_part {
        line("terminal_part", string(part));
    }
    let marking_of = |pole: usize| circuit.poles[pole].marking.as_str();
    let froms: Vec<&HalfEnd> = half
        .poles
        .iter()
        .filter_map(|pole| pole.from.as_ref())
        .collect();
    let tos: Vec<&HalfEnd> = half.poles.iter().flat_map(|pole| &pole.to).collect();
    let poles = half.poles.len();
    let one_each = half.poles.iter().all(|pole| pole.to.len() <= 1);
    let short = |ends: &[&HalfEnd]| -> Option<Option<String>> {
        match ends.len() {
            0 => Some(None),
            count if count == poles => together(list, cables, ends).map(Some),
            _ => None,
        }
    };
    if let (true, Some(from), Some(to)) = (one_each, short(&froms), short(&tos)) {
        line("poles", poles.to_string());
        if let Some(from) = from {
            line("from", string(&from));
        }
        if let Some(to) = to {
            line("to", string(&to));
        }
        let markings: Vec<&str> = half
            .poles
            .iter()
            .map(|pole| marking_of(pole.pole))
            .collect();
        let usual = markings
            .iter()
            .zip(1..)
            .all(|(marking, number)| *marking == number.to_string());
        if !usual {
            line("marking", strings(&markings));
        }
        return;
    }
    text.push_str("connections = [\n");
    for pole in &half.poles {
        let mut fields = Vec::new();
        if let Some(from) = &pole.from {
            fields.push(format!("from = {}", string(&reference(list, cables, from))));
        }
        let to: Vec<String> = pole
            .to
            .iter()
            .map(|end| reference(list, cables, end))
            .collect();
        if !to.is_empty() {
            fields.push(format!("to = {}", one_or_many(&to)));
        }
        fields.push(format!("marking = {}", string(marking_of(pole.pole))));
        let _ = writeln!(text, "    {{ {} }},", fields.join(", "));
    }
    text.push_str("]\n");
}

/// What an end belongs to, and the name of its core or point.
fn names(list: &RequirementList, cables: &[ConnectingCable], end: &HalfEnd) -> (String, String) {
    match end {
        HalfEnd::Own(End::Core { cable, core }) => {
            (list.cables[*cable].tag.clone(), core.to_string())
        }
        HalfEnd::Own(End::Contact { element, point }) => {
            (list.elements[*element].tag.clone(), point.clone())
        }
        HalfEnd::Connecting(cable, core) => (cables[*cable].tag.clone(), core.to_string()),
    }
}

fn reference(list: &RequirementList, cables: &[ConnectingCable], end: &HalfEnd) -> String {
    let (tag, name) = names(list, cables, end);
    format!("{tag}/{name}")
}

/// Ends of one cable or element as one reference, such as `W1/3,4`.
fn together(
    list: &RequirementList,
    cables: &[ConnectingCable],
    ends: &[&HalfEnd],
) -> Option<String> {
    let named: Vec<(String, String)> = ends.iter().map(|end| names(list, cables, end)).collect();
    let (tag, _) = named.first()?;
    let alike = named.iter().all(|(other, _)| other == tag);
    alike.then(|| format!("{tag}/{}", named.iter().map(|(_, name)| name).join(",")))
}
