//! What the tests ask the library, without any of its conclusions from one set to another.

use glandrail::catalogue::Catalogue;
use glandrail::demand;
use glandrail::explain::{Change, Ease, Requirement, apply, requirements};
use glandrail::model::{self, Outcome, Placement, SearchOptions};
use glandrail::requirements::RequirementList;
use glandrail::source::SourceFile;
use glandrail::workshop::Workshop;

/// Reads a list that must be sound.
pub fn read(text: &str) -> RequirementList {
    RequirementList::from_source(
        SourceFile::from_text("list.toml", text),
        &Workshop::default(),
    )
    .unwrap_or_else(|findings| panic!("{}\n{text}", findings.render_plain()))
}

/// Whether the catalogue takes a list.
pub fn can_be_made(list: &RequirementList, catalogue: &Catalogue, workshop: &Workshop) -> bool {
    // As conflicts are judged.
    can_be_made_so(list, catalogue, workshop, Placement::Rows)
}

/// As [`can_be_made`], with entries placed as is given.
pub fn can_be_made_so(
    list: &RequirementList,
    catalogue: &Catalogue,
    workshop: &Workshop,
    placement: Placement,
) -> bool {
    let Ok(demand) = demand::build(list, catalogue, workshop) else {
        return false;
    };
    let options = SearchOptions {
        decision_limit_s: 5.0,
        placement,
        ..SearchOptions::default()
    };
    let outcome =
        model::search(list, &demand, catalogue, workshop, options).expect("resistances are known");
    matches!(outcome, Outcome::Found(_))
}

/// Whether the catalogue takes only those requirements of a list that `keep` says.
pub fn only(
    list: &RequirementList,
    catalogue: &Catalogue,
    all: &[Requirement],
    keep: impl Fn(usize) -> bool,
) -> bool {
    let changes: Vec<Change> = all
        .iter()
        .enumerate()
        .filter(|(index, _)| !keep(*index))
        .map(|(_, requirement)| Change {
            aspect: requirement.aspect.clone(),
            ease: Ease::GivenUp,
        })
        .collect();
    let (list, workshop) = apply(list, &Workshop::default(), &changes);
    can_be_made(&list, catalogue, &workshop)
}

/// The numbers of requirements by their ids.
pub fn numbers<'n>(list: &RequirementList, ids: impl Iterator<Item = &'n str>) -> Vec<usize> {
    let all = requirements(list);
    ids.map(|id| {
        all.iter()
            .position(|requirement| requirement.id == id)
            .unwrap_or_else(|| panic!("no requirement `{id}`"))
    })
    .collect()
}

/// A sequence that is the same every time.
pub struct Draw(u64);

impl Draw {
    pub fn new(seed: u64) -> Self {
        let mut draw = Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1);
        draw.below(2);
        draw
    }

    /// A number below `count`.
    pub fn below(&mut self, count: u64) -> u64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % count
    }

    /// One of the choices.
    pub fn of<'c>(&mut self, choices: &[&'c str]) -> &'c str {
        choices[self.below(choices.len() as u64) as usize]
    }

    /// True in so many of a hundred cases.
    pub fn percent(&mut self, share: u64) -> bool {
        self.below(100) < share
    }
}

/// A small list drawn by a seed; many, not all, cannot be made.
pub fn drawn(seed: u64) -> String {
    let mut draw = Draw::new(seed);
    let mut text = format!("[job]\ntag = \"G-{seed}\"\n\n[area]\n");
    text += &format!("zone = {}\n", draw.of(&["1", "1", "1", "2", "0"]));
    text += &format!("gas_group = \"{}\"\n", draw.of(&["IIA", "IIB", "IIC"]));
    text += &format!(
        "temperature_class = \"{}\"\n",
        draw.of(&["T6", "T6", "T5", "T4"])
    );
    text += &format!(
        "ambient_c = [{}, {}]\n",
        draw.of(&["-20", "-40", "-60"]),
        draw.of(&["40", "50", "55", "60"])
    );
    text += &format!(
        "ip = \"{}\"\n\n[box]\n",
        draw.of(&["IP54", "IP66", "IP66", "IP68"])
    );
    if draw.percent(50) {
        text += &format!(
            "material = \"{}\"\n",
            draw.of(&["grp", "stainless", "steel"])
        );
    }
    if draw.percent(80) {
        let side = 90 + 10 * draw.below(16);
        text += &format!(
            "max_outer_mm = [{side}, {side}, {}]\n",
            draw.of(&["80", "100", "130", "200"])
        );
    }
    if draw.percent(50) {
        text += &format!(
            "entry_walls = {}\n",
            draw.of(&["[\"bottom\"]", "[\"bottom\", \"top\"]", "[\"left\"]"])
        );
    }
    if draw.percent(20) {
        text += "orientation = \"upright\"\n";
    }
    if draw.percent(15) {
        text += "breather = true\n";
    }
    text += "\n[spare]\n";
    if draw.percent(40) {
        text += &format!("terminals_percent = {}\n", draw.of(&["10", "30", "100"]));
    }
    if draw.percent(40) {
        text += &format!("heat_percent = {}\n", draw.of(&["10", "50"]));
    }
    if draw.percent(30) {
        text += &format!(
            "entries = {{ {} = {} }}\n",
            draw.of(&["M20", "M25"]),
            1 + draw.below(3)
        );
    }
    if draw.percent(20) {
        text += "\n[earthing]\nexternal = true\n";
    }
    let (cores, section_current) = match draw.below(4) {
        0 => ("3 G 1.5 mm2", ["6", "10", "16"]),
        1 => ("4 x 2.5 mm2", ["10", "20", "24"]),
        2 => ("3 x 10 mm2", ["20", "40", "57"]),
        _ => ("7 x 1.5 mm2", ["1", "5", "12"]),
    };
    let count = 1 + draw.below(3);
    let diameter = draw.of(&["9.5", "14", "21", "34", "80"]);
    let tie = if draw.percent(20) {
        "wall = \"bottom\"\n"
    } else {
        ""
    };
    let tie = if text.contains("entry_walls = [\"left\"]") {
        ""
    } else {
        tie
    };
    text += &format!(
        "\n[[cable]]\ntags = \"A1..A{count}\"\ncores = \"{cores}\"\ndiameter_mm = {diameter}\n{tie}"
    );
    text += &format!("\n[[cable]]\ntags = \"B1..B{count}\"\ncores = \"{cores}\"\n");
    let voltage = draw.of(&["230", "400", "690", "1100"]);
    let current = section_current[draw.below(3) as usize];
    text += &format!(
        "\n[[circuit]]\ntags = \"S1..S{count}\"\npoles = 2\nvoltage_v = {voltage}\ncurrent_a = {current}\nfrom = \"A1..A{count}\"\nto = \"B1..B{count}\"\n"
    );
    text
}
