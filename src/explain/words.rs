//! The words of requirements and of what is asked for instead. The only file that knows how a
//! requirement is called; it decides nothing.

use super::apply::Ease;
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
            format!(
                "{} of {about}{} mm diameter",
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
        Aspect::Placing => "rows, order and neighbours of the operating elements".to_string(),
        Aspect::Separation => {
            "intrinsically safe and other circuits apart (IEC 60079-11)".to_string()
        }
    }
}

/// What is asked for instead, and how much less that is.
pub fn change(list: &RequirementList, aspect: &Aspect, ease: &Ease) -> String {
    let asked = requirement(list, aspect);
    match (aspect, ease) {
        (_, Ease::Level(level)) => format!(
            "equipment protection level {level} instead of {}",
            last_word(&asked)
        ),
        (_, Ease::GasGroup(group)) => format!("gas group {group} instead of {}", last_word(&asked)),
        (_, Ease::DustGroup(group)) => {
            format!("dust group {group} instead of {}", last_word(&asked))
        }
        (_, Ease::Class(class)) => {
            format!("temperature class {class} instead of {}", last_word(&asked))
        }
        (_, Ease::Ip(ip)) => format!("degree of protection {ip} instead of {}", list.area.ip),
        (Aspect::Surface, Ease::Temperature(surface_c)) => {
            let has = list.area.max_surface_c.unwrap_or_default();
            format!(
                "surface at most {} °C instead of {} °C",
                number(*surface_c, 1),
                number(has, 1)
            )
        }
        (Aspect::Hottest, Ease::Temperature(hottest_c)) => {
            let has = list.area.ambient_c[1];
            format!(
                "ambient up to {} °C instead of {} °C ({} K less)",
                signed(*hottest_c),
                signed(has),
                number(has - hottest_c, 1)
            )
        }
        (Aspect::Coldest, Ease::Temperature(coldest_c)) => {
            let has = list.area.ambient_c[0];
            format!(
                "ambient down to {} °C instead of {} °C ({} K more)",
                signed(*coldest_c),
                signed(has),
                number(coldest_c - has, 1)
            )
        }
        (_, Ease::Material(material)) => {
            format!("an enclosure made of {} allowed too", material.words())
        }
        (_, Ease::Size(new)) => {
            let has = list.wishes.max_outer_mm.unwrap_or_default();
            let more = ["width", "height", "depth"]
                .into_iter()
                .enumerate()
                .filter(|(axis, _)| new[*axis] > has[*axis])
                .map(|(axis, name)| format!("{} mm more {name}", number(new[axis] - has[axis], 0)))
                .join(", ");
            format!("outer size up to {} ({more})", size(*new))
        }
        (_, Ease::Walls(further)) => format!("entries also in {}", walls(further)),
        (Aspect::Include, Ease::Enclosure(id)) => format!("enclosure {id} allowed too"),
        (_, Ease::Enclosure(id)) => format!("enclosure {id} allowed after all"),
        (Aspect::SpareTerminals, Ease::Percent(percent)) => format!(
            "{} % of spare terminals instead of {} %",
            number(*percent, 1),
            number(list.spare.terminals_percent, 1)
        ),
        (_, Ease::Percent(percent)) => format!(
            "{} % of the rated power kept free instead of {} %",
            number(*percent, 1),
            number(list.spare.heat_percent, 1)
        ),
        (Aspect::SpareEntries, Ease::Fewer(count)) => {
            let all = list.spare.entries.values().sum::<u32>() as usize;
            let left = fewer(all, *count, ["spare entry", "spare entries"]);
            if *count < all {
                format!("{left} (the largest are given up first)")
            } else {
                left
            }
        }
        (Aspect::SpareEarth, Ease::Fewer(count)) => {
            let all = list.earthing.spare_terminals as usize;
            fewer(
                all,
                *count,
                ["spare earth terminal", "spare earth terminals"],
            )
        }
        (Aspect::Cables(members), Ease::Fewer(count)) => {
            let gone = &members[members.len() - count..];
            format!(
                "without {}{}",
                cables(list, gone),
                of_all(*count, members.len())
            )
        }
        (Aspect::CableWalls(members), Ease::AnyWall(count)) => {
            let free = &members[members.len() - count..];
            format!(
                "{}{} also in {}",
                cables(list, free),
                of_all(*count, members.len()),
                walls(&list.wishes.entry_walls)
            )
        }
        (Aspect::Current(members), Ease::CurrentShare(share)) => {
            let circuit = &list.circuits[members[0]];
            let (has, in_branch) = (circuit.current_a, circuit.branch_current_a);
            let less = |current_a: f64| (current_a * share * 100.0 + 1e-6).floor() / 100.0;
            let branches = if in_branch < has {
                let [new, old] = [less(in_branch), in_branch].map(|current| number(current, 2));
                format!("; in each branch {new} A instead of {old} A")
            } else {
                String::new()
            };
            format!(
                "{} A instead of {} A in {} ({} A less{branches})",
                number(less(has), 2),
                number(has, 2),
                circuits(list, members),
                number(has - less(has), 2)
            )
        }
        (
            Aspect::Diameter(members),
            Ease::Diameter {
                diameter_mm,
                cables: count,
            },
        ) => {
            let has = list.cables[members[0]].diameter_mm;
            let thinner = &members[members.len() - count..];
            format!(
                "diameter of {}{} at most {} mm instead of {} mm ({} mm less)",
                cables(list, thinner),
                of_all(*count, members.len()),
                number(*diameter_mm, 1),
                number(has, 1),
                number(has - diameter_mm, 1)
            )
        }
        (Aspect::Voltage(members), Ease::Voltage(voltage_v)) => format!(
            "{} V instead of {} V in {}",
            number(*voltage_v, 1),
            number(list.circuits[members[0]].voltage_v, 1),
            circuits(list, members)
        ),
        (Aspect::Orientation, _) => "any orientation".to_string(),
        (Aspect::Hinge, _) => "lid hinged at any wall, or screwed".to_string(),
        (Aspect::Placing, _) => "operating elements in any rows and order".to_string(),
        (Aspect::GlandMaterial(members), _) => {
            format!("glands of any material for {}", cables(list, members))
        }
        (Aspect::Gland(members), _) => format!("any gland for {}", cables(list, members)),
        (Aspect::Terminal(members), _) => format!("any terminal for {}", circuits(list, members)),
        (Aspect::ElementPart(index), _) => format!("any part for {}", list.elements[*index].tag),
        _ => format!("without {asked}"),
    }
}

/// How a list is made as long as nothing else is said.
pub fn usual_means(ease: &Ease) -> &'static str {
    match ease {
        Ease::TwoBoxes => "one box",
        Ease::Partition => "intrinsically safe and other terminals apart by distance",
        _ => "entries in rows",
    }
}

/// How it could be made otherwise.
pub fn other_means(ease: &Ease) -> &'static str {
    match ease {
        Ease::TwoBoxes => "two boxes instead of one",
        Ease::Partition => {
            "a partition between intrinsically safe and other terminals instead of distance alone"
        }
        _ => "entries placed freely instead of in rows",
    }
}

/// Sentences that differ only in the first name between backticks become one with all names. A voltage
/// or current of zero is one that was given up, and is left out.
pub fn alike(sentences: Vec<String>) -> Vec<String> {
    let mut told: Vec<(String, Vec<String>, String)> = Vec::new();
    for sentence in sentences {
        let sentence = sentence.replace("(0 V, ", "(").replace(", 0 A, ", ", ");
        let sentence = sentence.replace("(0 A, ", "(");
        let mut parts = sentence.splitn(3, '`');
        let (lead, name, rest) = match (parts.next(), parts.next(), parts.next()) {
            (Some(lead), Some(name), Some(rest)) => (lead, name, rest),
            _ => (sentence.as_str(), "", ""),
        };
        match told
            .iter_mut()
            .find(|(known, _, known_rest)| known == lead && known_rest == rest)
        {
            Some((_, names, _)) => names.push(name.to_string()),
            None => told.push((lead.to_string(), vec![name.to_string()], rest.to_string())),
        }
    }
    told.into_iter()
        .map(|(lead, names, rest)| {
            let names = shortened(names_of(names.iter().map(String::as_str)));
            if names.is_empty() {
                lead
            } else {
                format!("{lead}`{names}`{rest}")
            }
        })
        .collect()
}

fn last_word(text: &str) -> &str {
    text.rsplit(' ').next().unwrap_or(text)
}

fn or(ids: &[String]) -> String {
    match ids {
        [first @ .., last] if !first.is_empty() => format!("{} or {last}", first.join(", ")),
        _ => ids.join(", "),
    }
}

/// What is left of `all` with `count` fewer, instead of all.
fn fewer(all: usize, count: usize, [one, many]: [&str; 2]) -> String {
    match all - count {
        0 => format!("no {many} instead of {all}"),
        left => format!("{left} {} instead of {all}", plural(left, one, many)),
    }
}

fn of_all(count: usize, all: usize) -> String {
    if count == all {
        String::new()
    } else {
        format!(" ({count} of {all})")
    }
}

fn cables(list: &RequirementList, members: &[usize]) -> String {
    let names = names_of(members.iter().map(|index| list.cables[*index].tag.as_str()));
    format!(
        "{} {}",
        plural(members.len(), "cable", "cables"),
        shortened(names)
    )
}

fn circuits(list: &RequirementList, members: &[usize]) -> String {
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
fn shortened(names: String) -> String {
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

fn signed(value: f64) -> String {
    let text = number(value, 1);
    if value > 0.0 {
        format!("+{text}")
    } else {
        text
    }
}

fn size([width, height, depth]: [f64; 3]) -> String {
    format!(
        "{} × {} × {} mm",
        number(width, 1),
        number(height, 1),
        number(depth, 1)
    )
}

fn walls(walls: &[Face]) -> String {
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
