//! The words of requirements. The only file that knows how a requirement is called; it decides nothing.

use super::aspect::Aspect;
use super::names::names_of;
use crate::letters::plural;
use crate::requirements::RequirementList;
use crate::sheets::number;
use crate::space::Face;
use itertools::Itertools;

/// What a requirement asks for.
pub fn requirement(list: &RequirementList, aspect: &Aspect) -> String {
    let area = &list.area;
    let wishes = &list.wishes;
    let shown = |value: Option<String>| value.unwrap_or_default();
    match aspect {
        Aspect::GasLevel => format!(
            "equipment protection level {}",
            shown(area.gas_epl.map(|v| v.to_string()))
        ),
        Aspect::DustLevel => format!(
            "equipment protection level {}",
            shown(area.dust_epl.map(|v| v.to_string()))
        ),
        Aspect::GasGroup => format!("gas group {}", shown(area.gas_group.map(|v| v.to_string()))),
        Aspect::DustGroup => format!(
            "dust group {}",
            shown(area.dust_group.map(|v| v.to_string()))
        ),
        Aspect::Class => format!(
            "temperature class {}",
            shown(area.temperature_class.map(|v| v.to_string()))
        ),
        Aspect::Surface => format!(
            "surface at most {} °C",
            shown(area.max_surface_c.map(|v| number(v, 1)))
        ),
        Aspect::Hottest => format!("ambient up to {} °C", signed(area.ambient_c[1])),
        Aspect::Coldest => format!("ambient down to {} °C", signed(area.ambient_c[0])),
        Aspect::Ip => format!("degree of protection {}", area.ip),
        Aspect::Material => format!(
            "enclosure made of {}",
            wishes.materials.iter().map(|m| m.words()).join(" or ")
        ),
        Aspect::Size => format!(
            "outer size at most {}",
            size(wishes.max_outer_mm.unwrap_or_default())
        ),
        Aspect::Orientation => {
            format!(
                "mounted {} only",
                wishes.orientations.iter().map(|o| o.words()).join(" or ")
            )
        }
        Aspect::EntryWalls => format!("entries only in {}", walls(&wishes.entry_walls)),
        Aspect::Include => format!("no enclosure but {}", or(&wishes.include)),
        Aspect::Exclude => format!("any enclosure but {}", or(&wishes.exclude)),
        Aspect::Hinge => format!("lid hinged at {} only", walls(&wishes.lid_hinge)),
        Aspect::Breather => "a breather and drain".to_string(),
        Aspect::SpareTerminals => format!(
            "{} % of spare terminals",
            number(list.spare.terminals_percent, 1)
        ),
        Aspect::SpareEntries => {
            let each = list
                .spare
                .entries
                .iter()
                .map(|(thread, count)| format!("{count} × {thread}"));
            format!(
                "spare {} {}",
                plural(
                    list.spare.entries.values().sum::<u32>() as usize,
                    "entry",
                    "entries"
                ),
                each.into_iter().join(", ")
            )
        }
        Aspect::HeatReserve => format!(
            "{} % of the rated power kept free",
            number(list.spare.heat_percent, 1)
        ),
        Aspect::ExternalEarth => "an external earth terminal".to_string(),
        Aspect::SpareEarth => {
            let count = list.earthing.spare_terminals as usize;
            format!(
                "{count} spare earth {}",
                plural(count, "terminal", "terminals")
            )
        }
        Aspect::Cables(members) => {
            let cable = &list.cables[members[0]];
            let alike = members
                .iter()
                .all(|index| list.cables[*index].cores_text == cable.cores_text);
            let built = if alike {
                format!(" ({})", cable.cores_text)
            } else {
                String::new()
            };
            format!("{}{built}", cables(list, members))
        }
        Aspect::Diameter(members) => {
            let cable = &list.cables[members[0]];
            let about = if cable.diameter_estimated {
                "about "
            } else {
                ""
            };
            let under = match cable.under_armour_mm {
                Some([least, most]) => {
                    let middle_mm = (least + most) / 2.0;
                    format!(", {} mm under the armour", number(middle_mm, 1))
                }
                None => String::new(),
            };
            format!(
                "{} of {about}{} mm diameter{under}",
                cables(list, members),
                number(cable.diameter_mm, 1)
            )
        }
        Aspect::CableWalls(members) => {
            let walls_of = walls(&list.cables[members[0]].walls);
            format!("{} in {walls_of} only", cables(list, members))
        }
        Aspect::GlandMaterial(members) => {
            let material = list.cables[members[0]].gland_material;
            format!(
                "glands made of {} for {}",
                shown(material.map(|m| m.words().to_string())),
                cables(list, members)
            )
        }
        Aspect::Gland(members) => {
            let gland = list.cables[members[0]].gland.clone();
            format!(
                "gland {} for {}",
                gland.unwrap_or_default(),
                cables(list, members)
            )
        }
        Aspect::GlandThread(members) => {
            let system = list.cables[members[0]].thread_system;
            format!(
                "glands with {} thread for {}",
                shown(system.map(|system| system.words().to_string())),
                cables(list, members)
            )
        }
        Aspect::Current(members) => {
            let circuit = &list.circuits[members[0]];
            let branch = if circuit.branch_current_a < circuit.current_a {
                format!(
                    " ({} A in each branch)",
                    number(circuit.branch_current_a, 2)
                )
            } else {
                String::new()
            };
            format!(
                "{} A{branch} in {}",
                number(circuit.current_a, 2),
                circuits(list, members)
            )
        }
        Aspect::Voltage(members) => {
            let voltage_v = list.circuits[members[0]].voltage_v;
            format!("{} V in {}", number(voltage_v, 1), circuits(list, members))
        }
        Aspect::Terminal(members) => {
            let part = list.circuits[members[0]].terminal_part.clone();
            format!(
                "terminal {} for {}",
                part.unwrap_or_default(),
                circuits(list, members)
            )
        }
        Aspect::Element(index) => {
            let element = &list.elements[*index];
            format!("{} {}", element.kind.words(), element.tag)
        }
        Aspect::ElementPart(index) => {
            let element = &list.elements[*index];
            format!(
                "part {} for {}",
                element.part.clone().unwrap_or_default(),
                element.tag
            )
        }
        Aspect::ElementColour(index) => {
            let element = &list.elements[*index];
            format!(
                "colour {} of {}",
                shown(element.colour.clone()),
                element.tag
            )
        }
        Aspect::Placing => "rows, order and neighbours of the operating elements".to_string(),
        Aspect::Separation => {
            "intrinsically safe and other circuits apart (IEC 60079-11)".to_string()
        }
    }
}

pub(super) fn or(ids: &[String]) -> String {
    match ids {
        [first @ .., last] if !first.is_empty() => format!("{} or {last}", first.join(", ")),
        _ => ids.join(", "),
    }
}

pub(super) fn cables(list: &RequirementList, members: &[usize]) -> String {
    let names = names_of(members.iter().map(|index| list.cables[*index].tag.as_str()));
    format!(
        "{} {}",
        plural(members.len(), "cable", "cables"),
        shortened(names)
    )
}

pub(super) fn circuits(list: &RequirementList, members: &[usize]) -> String {
    let names = names_of(
        members
            .iter()
            .map(|index| list.circuits[*index].tag.as_str()),
    );
    format!(
        "{} {}",
        plural(members.len(), "circuit", "circuits"),
        shortened(names)
    )
}

/// A long list of names by its first ones.
pub(super) fn shortened(names: String) -> String {
    const MOST: usize = 6;
    let parts: Vec<&str> = names.split(", ").collect();
    if parts.len() <= MOST {
        return names;
    }
    format!(
        "{} and {} more",
        parts[..MOST - 1].join(", "),
        parts.len() - MOST + 1
    )
}

pub(super) fn signed(value: f64) -> String {
    let text = number(value, 1);
    if value > 0.0 {
        format!("+{text}")
    } else {
        text
    }
}

pub(super) fn size([width, height, depth]: [f64; 3]) -> String {
    format!(
        "{} × {} × {} mm",
        number(width, 1),
        number(height, 1),
        number(depth, 1)
    )
}

pub(super) fn walls(walls: &[Face]) -> String {
    match walls {
        [] => "no wall".to_string(),
        [one] => format!("the {} wall", one.name()),
        [first @ .., last] => {
            format!(
                "the {} and {} walls",
                first.iter().map(|wall| wall.name()).join(", "),
                last.name()
            )
        }
    }
}
