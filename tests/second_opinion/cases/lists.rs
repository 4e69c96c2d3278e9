//! Requirement lists as TOML: junctions, feeders, mixed boxes, control stations.

use super::random::Random;

/// The four kinds of list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Family {
    Junction,
    Feeder,
    Mixed,
    Station,
}

impl Family {
    pub const ALL: [Family; 4] = [
        Family::Junction,
        Family::Feeder,
        Family::Mixed,
        Family::Station,
    ];
}

/// A list in the making. Entries and clusters are counted so that everything can be tried.
struct Draft {
    text: String,
    entries: u64,
}

impl Draft {
    fn cable(&mut self, random: &mut Random, tag: &str, cores: &str, more: &str, walls: &[&str]) {
        let diameter_mm = random.between(60, 190) as f64 / 10.0;
        let tied = if walls.len() > 1 && random.percent(15) {
            format!("wall = \"{}\"\n", random.one(walls))
        } else if walls.len() > 1 && random.percent(15) {
            format!("prefer_wall = \"{}\"\n", random.one(walls))
        } else {
            String::new()
        };
        self.entries += 1;
        self.text += &format!(
            "[[cable]]\ntag = \"{tag}\"\ncores = \"{cores}\"\ndiameter_mm = {diameter_mm}\n{more}{tied}\n"
        );
    }

    fn circuit(&mut self, tag: &str, figures: &str, ends: &str) {
        self.text += &format!("[[circuit]]\ntag = \"{tag}\"\n{figures}\n{ends}\n\n");
    }
}

/// A list of a family.
pub fn list(random: &mut Random, family: Family) -> String {
    let mut draft = Draft {
        text: String::new(),
        entries: 0,
    };
    let choices = [
        vec!["bottom"],
        vec!["bottom", "left", "right"],
        vec!["bottom", "left", "right"],
        vec!["bottom", "top"],
        vec!["left", "right"],
        vec!["bottom", "right", "top", "left"],
    ];
    let walls = random.one(&choices).as_slice();
    head(random, &mut draft, walls);
    match family {
        Family::Junction => junction(random, &mut draft, walls),
        Family::Feeder => feeder(random, &mut draft, walls),
        Family::Mixed => mixed(random, &mut draft, walls),
        Family::Station => station(random, &mut draft, walls),
    }
    // Tables of the end, now that it is known how many entries there are.
    let plugs = random
        .between(0, 2)
        .min(6_u64.saturating_sub(draft.entries));
    if plugs > 0 && random.percent(40) {
        let thread = random.one(&["M16", "M20", "M25"]);
        draft.text += &format!("[spare.entries]\n{thread} = {plugs}\n");
    }
    draft.text
}

fn head(random: &mut Random, draft: &mut Draft, walls: &[&str]) {
    let class = *random.one(&["T6", "T6", "T4"]);
    let ambient_c = *random.one(&[40, 40, 40, 50, 55]);
    let ip = *random.one(&["IP54", "IP54", "IP66"]);
    let group = *random.one(&["IIB", "IIB", "IIC"]);
    let smallest = *random.one(&[
        "[\"volume\"]",
        "[\"volume\"]",
        "[\"price\"]",
        "[\"footprint\", \"price\"]",
    ]);
    let mut wishes = String::new();
    if random.percent(12) {
        wishes += &format!("material = \"{}\"\n", random.one(&["grp", "stainless"]));
    }
    if random.percent(10) {
        let most = random.length(200, 400, 20);
        wishes += &format!("max_outer_mm = [{most}, {most}, 200]\n");
    }
    if random.percent(12) {
        wishes += &format!(
            "orientation = {}\n",
            random.one(&["\"upright\"", "[\"turned\", \"upright\"]", "\"turned\""])
        );
    }
    if random.percent(5) {
        wishes += "lid_hinge = [\"left\", \"top\"]\n";
    }
    if random.percent(6) {
        wishes += "enclosures = { exclude = [\"DEMO-SECOND-2\"] }\n";
    }
    if random.percent(10) && walls.contains(&"bottom") {
        wishes += "breather = true\n";
        draft.entries += 1;
    }
    let walls = walls
        .iter()
        .map(|wall| format!("\"{wall}\""))
        .collect::<Vec<_>>()
        .join(", ");
    let heat_percent = *random.one(&[0, 0, 0, 20]);
    let terminals_percent = *random.one(&[0, 0, 0, 10, 25]);
    let external = random.percent(15);
    let earths = *random.one(&[0, 0, 0, 0, 0, 1]);
    draft.text += &format!(
        "[job]\ntag = \"JB-2\"\n\n[area]\nzone = 1\ngas_group = \"{group}\"\ntemperature_class = \"{class}\"\n\
         ambient_c = [-20, {ambient_c}]\nip = \"{ip}\"\n\n[box]\nentry_walls = [{walls}]\nsmallest = {smallest}\n{wishes}\n\
         [spare]\nterminals_percent = {terminals_percent}\nheat_percent = {heat_percent}\n\n\
         [earthing]\nexternal = {external}\nspare_terminals = {earths}\n\n"
    );
}

/// One trunk, up to three branches; circuits of two poles, sometimes with a common return.
fn junction(random: &mut Random, draft: &mut Draft, walls: &[&str]) {
    let branches = random.between(1, 3);
    let section = *random.one(&["1.5", "1.5", "2.5", "4"]);
    let earth = if random.percent(25) { "G" } else { "x" };
    let more = if random.percent(20) {
        "screened = true\n"
    } else {
        ""
    };
    let cores = 2 * branches + u64::from(earth == "G");
    draft.cable(
        random,
        "W0",
        &format!("{cores} {earth} {section} mm2"),
        more,
        walls,
    );
    for branch in 1..=branches {
        draft.cable(
            random,
            &format!("W{branch}"),
            &format!("2 x {section} mm2"),
            "",
            walls,
        );
    }
    let current_a = *random.one(&[1.0, 2.0, 6.0, 10.0, 14.0]);
    let terminal = if random.percent(15) && section != "4" {
        "terminal = \"double_level\""
    } else {
        ""
    };
    for branch in 1..=branches {
        let group = if branch == 2 && random.percent(30) {
            "group = \"signal\"\n"
        } else {
            ""
        };
        draft.circuit(
            &format!("C{branch}"),
            &format!("{group}poles = 2\nvoltage_v = 230\ncurrent_a = {current_a}\n{terminal}"),
            &format!("from = \"W0\"\nto = \"W{branch}\""),
        );
    }
    let separate = draft.text.contains("signal") || !terminal.is_empty();
    if branches >= 2 && !separate && current_a <= 6.0 && random.percent(40) {
        draft.text += &format!("[[link]]\npoles = [\"C1..C{branches}/2\"]\n\n");
    }
}

/// One feeder of thick cores that branches to two loads, with protective conductors.
fn feeder(random: &mut Random, draft: &mut Draft, walls: &[&str]) {
    let (section, out, current_a) = *random.one(&[
        ("4", "2.5", 16.0),
        ("10", "4", 25.0),
        ("16", "10", 40.0),
        ("25", "10", 50.0),
    ]);
    let earth = random.percent(60);
    let cores = |poles: u64| {
        if earth {
            format!("{} G", poles + 1)
        } else {
            format!("{poles} x")
        }
    };
    let poles = random.between(2, 3);
    draft.cable(
        random,
        "W0",
        &format!("{} {section} mm2", cores(poles)),
        "",
        walls,
    );
    let loads = random.between(1, 2);
    for load in 1..=loads {
        draft.cable(
            random,
            &format!("W{load}"),
            &format!("{} {out} mm2", cores(poles)),
            "",
            walls,
        );
    }
    let connections: Vec<String> = (1..=poles)
        .map(|pole| {
            let to: Vec<String> = (1..=loads)
                .map(|load| format!("\"W{load}/{pole}\""))
                .collect();
            format!("{{ from = \"W0/{pole}\", to = [{}] }}", to.join(", "))
        })
        .collect();
    let current_a = if random.percent(50) {
        current_a
    } else {
        current_a / 2.0
    };
    draft.circuit(
        "P1",
        &format!(
            "group = \"power\"\nvoltage_v = {}\ncurrent_a = {current_a}\nbranch_current_a = {}",
            random.one(&[400, 690]),
            current_a / loads as f64
        ),
        &format!("connections = [{}]", connections.join(", ")),
    );
    if random.percent(40) {
        draft.cable(random, "W8", "2 x 1.5 mm2", "", walls);
        draft.cable(random, "W9", "2 x 1.5 mm2", "", walls);
        draft.circuit(
            "S1",
            "group = \"control\"\npoles = 1\nvoltage_v = 24\ncurrent_a = 1",
            "from = \"W8\"\nto = \"W9\"",
        );
    }
}

/// Ex e and intrinsically safe circuits in one box.
fn mixed(random: &mut Random, draft: &mut Draft, walls: &[&str]) {
    let safe_branches = random.between(1, 2);
    let section = *random.one(&["1.5", "2.5", "4", "10"]);
    let pe = if random.percent(30) { "3 G" } else { "2 x" };
    draft.cable(random, "W0", &format!("{pe} {section} mm2"), "", walls);
    draft.cable(random, "W1", &format!("2 x {section} mm2"), "", walls);
    let screened = random.percent(50);
    let more = if screened {
        "intrinsically_safe = true\nscreened = true\n"
    } else {
        "intrinsically_safe = true\n"
    };
    draft.cable(
        random,
        "W2",
        &format!("{} x 1.5 mm2", 2 * safe_branches),
        more,
        walls,
    );
    for branch in 1..=safe_branches {
        draft.cable(
            random,
            &format!("W{}", 2 + branch),
            "2 x 1 mm2",
            "intrinsically_safe = true\n",
            walls,
        );
    }
    let group = random.one(&["control", "power"]);
    draft.circuit(
        "V1",
        &format!(
            "group = \"{group}\"\npoles = 2\nvoltage_v = 230\ncurrent_a = {}",
            random.one(&[1, 4, 9])
        ),
        "from = \"W0\"\nto = \"W1\"",
    );
    for branch in 1..=safe_branches {
        draft.circuit(
            &format!("L{branch}"),
            "group = \"intrinsically_safe\"\npoles = 2\nvoltage_v = 28\ncurrent_a = 0.1",
            &format!("from = \"W2\"\nto = \"W{}\"", 2 + branch),
        );
    }
}

/// Elements in the lid. Some circuits go straight to the contacts, some are intrinsically safe.
fn station(random: &mut Random, draft: &mut Draft, walls: &[&str]) {
    let count = random.between(1, 4);
    let kinds = [
        "start",
        "stop",
        "lamp",
        "emergency",
        "ammeter",
        "selector",
        "potentiometer",
        "emergency",
    ];
    let mut left: Vec<&str> = kinds.to_vec();
    // The first so many poles go through terminals, the others directly.
    let most_terminals = 2 * random.between(0, 3);
    let safe_kinds = ["start", "stop", "selector"];
    let some_safe = random.percent(30);
    // Intrinsically safe elements alone, with Ex e terminals beside them.
    let all_safe = some_safe && random.percent(50);
    let count = if all_safe { count.min(2) } else { count };
    if all_safe {
        left.retain(|kind| safe_kinds.contains(kind));
    }
    let (mut cores, mut safe_cores, mut terminals) = (0, 0, 0);
    let (mut elements, mut circuits) = (String::new(), String::new());
    for number in 1..=count {
        let kind = left.remove(random.between(0, left.len() as u64 - 1) as usize);
        let fields = match kind {
            "start" => {
                "kind = \"push_button\"\nfunction = \"start\"\ncolour = \"green\"\ncontacts = [\"NO\"]"
            }
            "stop" => {
                "kind = \"push_button\"\nfunction = \"stop\"\ncolour = \"red\"\ncontacts = [\"NC\"]"
            }
            "lamp" => "kind = \"lamp\"\ncolour = \"green\"",
            "emergency" => "kind = \"emergency_stop\"\ncolour = \"red\"\ncontacts = [\"NC\"]",
            "ammeter" => "kind = \"ammeter\"",
            "selector" => "kind = \"selector\"\npositions = 3\ncontacts = [\"NO\", \"NO\"]",
            _ => "kind = \"potentiometer\"",
        };
        let before = number - 1;
        let placing = match random.between(1, 16) {
            1 if number > 1 => format!("above = \"E{before}\"\n"),
            2 if number > 1 => format!("beside = \"E{before}\"\n"),
            3 => format!("row = {}\n", random.between(1, 2)),
            _ => String::new(),
        };
        elements += &format!("[[element]]\ntag = \"E{number}\"\n{fields}\n{placing}\n");
        let direct = terminals + 2 > most_terminals;
        terminals += if direct { 0 } else { 2 };
        let safe = some_safe && safe_kinds.contains(&kind);
        let (cable, used) = if safe {
            ("W1", &mut safe_cores)
        } else {
            ("W0", &mut cores)
        };
        *used += 2;
        let (group, voltage_v, current_a) = match kind {
            _ if safe => ("intrinsically_safe", 24, "0.05"),
            "ammeter" | "potentiometer" => ("signal", 24, "0.02"),
            "lamp" => ("control", 230, "0.015"),
            _ => ("control", 230, "2"),
        };
        let load = if current_a == "2" {
            "load = \"AC-15\"\n"
        } else {
            ""
        };
        circuits += &format!(
            "[[circuit]]\ntag = \"C{number}\"\ngroup = \"{group}\"\npoles = 2\nvoltage_v = {voltage_v}\ncurrent_a = {current_a}\n{load}\
             direct = {direct}\nfrom = \"{cable}/{}..{used}\"\nto = \"E{number}\"\n\n",
            *used - 1
        );
    }
    if cores > 0 {
        let earth = random.percent(30);
        let text = if earth {
            format!("{} G 1.5 mm2", cores + 1)
        } else {
            format!("{cores} x 1.5 mm2")
        };
        draft.cable(random, "W0", &text, "", walls);
    }
    if safe_cores > 0 {
        let more = "intrinsically_safe = true\n";
        draft.cable(
            random,
            "W1",
            &format!("{safe_cores} x 1.5 mm2"),
            more,
            walls,
        );
    }
    if all_safe {
        draft.cable(random, "W8", "1 x 2.5 mm2", "", walls);
        draft.cable(random, "W9", "1 x 2.5 mm2", "", walls);
        circuits += "[[circuit]]\ntag = \"C9\"\ngroup = \"control\"\npoles = 1\nvoltage_v = 230\ncurrent_a = 2\nfrom = \"W8\"\nto = \"W9\"\n\n";
    }
    draft.text += &elements;
    draft.text += &circuits;
}
