//! A small catalogue: a few parts of the demo catalogue and enclosures made for the case.

use super::random::Random;
use glandrail::catalogue::{Catalogue, Enclosure};
use serde::Deserialize;

const TERMINALS: [&str; 10] = [
    "DEMO-T-2",
    "DEMO-T-4",
    "DEMO-T-10",
    "DEMO-T-16",
    "DEMO-T-35",
    "DEMO-T-L-2",
    "DEMO-T-I-2",
    "DEMO-T-E-2",
    "DEMO-T-E-10",
    "DEMO-T-E-16",
];

#[derive(Deserialize)]
struct Enclosures {
    enclosure: Vec<Enclosure>,
}

/// The catalogue of a case.
pub fn catalogue(random: &mut Random) -> Catalogue {
    let mut catalogue = glandrail::catalogue::Catalogue::demo().clone();
    catalogue.about.title = "Second opinion: invented, not for use".to_string();
    let kept = |id: &String| TERMINALS.contains(&id.as_str());
    catalogue.terminal.retain(|part| kept(&part.id));
    for part in &mut catalogue.accessory {
        part.fits.retain(&kept);
    }
    catalogue.accessory.retain(|part| {
        !part.fits.is_empty() || !["end_plate", "jumper"].contains(&kind_name(part).as_str())
    });
    // A partition that rises over the terminals, or one that does not.
    let partition = *random.one(&["DEMO-A-PART", "DEMO-A-PART", "DEMO-A-PART-H"]);
    catalogue
        .accessory
        .retain(|part| kind_name(part) != "partition" || part.id == partition);
    let count = random.between(6, 12);
    let scale = random.between(0, 100);
    let text: String = (1..=count)
        .map(|number| enclosure(random, number, scale))
        .collect();
    catalogue.enclosure = toml::from_str::<Enclosures>(&text)
        .expect("a generated enclosure has all fields")
        .enclosure;
    catalogue
}

fn kind_name(part: &glandrail::catalogue::Accessory) -> String {
    match part.kind {
        glandrail::catalogue::AccessoryKind::EndPlate => "end_plate",
        glandrail::catalogue::AccessoryKind::Jumper => "jumper",
        glandrail::catalogue::AccessoryKind::Partition => "partition",
        _ => "other",
    }
    .to_string()
}

/// One enclosure as TOML. `scale` moves the sizes of a whole catalogue.
fn enclosure(random: &mut Random, number: u64, scale: u64) -> String {
    let thickness_mm = *random.one(&[2.0, 3.0, 4.0, 4.0, 5.0, 9.0]);
    let side = |random: &mut Random| random.length(100 + scale / 2, 240 + 2 * scale, 5);
    // A narrow box now and then, for several short rails.
    let width = if random.percent(25) {
        random.length(80, 130, 5)
    } else {
        side(random)
    };
    let height = side(random);
    let depth = random.length(90, 200, 5);
    let inner = [width, height, depth].map(|outer| outer - 2.0 * thickness_mm);
    let [inner_width, inner_height, inner_depth] = inner;
    // A plate that leaves much room at the walls now and then.
    let margin = if random.percent(12) && width > 150.0 {
        random.length(20, 44, 4)
    } else {
        random.length(2, 16, 2)
    };
    let standoff = random.length(4, 20, 4);
    let plate = format!(
        "{{ x_mm = {margin}, y_mm = {margin}, width_mm = {}, height_mm = {}, standoff_mm = {standoff} }}",
        inner_width - 2.0 * margin,
        inner_height - 2.0 * margin
    );
    let lid_margin = random.length(4, 24, 4);
    let lid = if random.percent(90) {
        let hinge = if random.percent(50) {
            format!(", hinge = \"{}\"", random.one(&["left", "right", "top"]))
        } else {
            String::new()
        };
        format!(
            "{{ x_mm = {lid_margin}, y_mm = {lid_margin}, width_mm = {}, height_mm = {}{hinge} }}",
            inner_width - 2.0 * lid_margin,
            inner_height - 2.0 * lid_margin
        )
    } else {
        format!("{{ x_mm = {lid_margin}, y_mm = {lid_margin}, width_mm = 0, height_mm = 0 }}")
    };
    let walls: String = [
        ("bottom", inner_width),
        ("right", inner_height),
        ("top", inner_width),
        ("left", inner_height),
    ]
    .into_iter()
    .map(|(wall, length)| {
        if random.percent(85) {
            wall_text(random, wall, length, inner_depth)
        } else {
            String::new()
        }
    })
    .collect();

    let epl = *random.one(&[
        "[\"Gb\", \"Db\"]",
        "[\"Gb\"]",
        "[\"Gb\"]",
        "[\"Gb\"]",
        "[\"Gc\"]",
    ]);
    let gas_group = *random.one(&["IIC", "IIC", "IIC", "IIB"]);
    let service = *random.one(&["[-50, 65]", "[-50, 65]", "[-50, 65]", "[-20, 40]"]);
    let rows = power_rows(random, if service == "[-20, 40]" { 40 } else { 65 });
    let ip = *random.one(&["IP66", "IP66", "IP66", "IP54"]);
    let material = *random.one(&["grp", "stainless"]);
    let most = if random.percent(15) {
        format!("most_terminals = {}\n", random.between(3, 9))
    } else {
        "most_terminals = \"not limited\"\n".to_string()
    };
    let earth = if random.percent(60) {
        "external_earth_mm2 = 16\ninternal_earth_mm2 = 120\n"
    } else {
        "internal_earth_mm2 = 120\n"
    };
    let rails = *random.one(&[
        "[\"horizontal\"]",
        "[\"horizontal\", \"vertical\"]",
        "[\"horizontal\", \"vertical\"]",
    ]);
    format!(
        "[[enclosure]]\nid = \"DEMO-SECOND-{number}\"\nmaterial = \"{material}\"\n\
         outer_mm = [{width}, {height}, {depth}]\n\
         inner_mm = [{inner_width}, {inner_height}, {inner_depth}]\n\
         wall_thickness_mm = {thickness_mm}\nturnable = {}\nrail_directions = {rails}\n\
         plate = {plate}\nlid = {lid}\n{walls}\
         certificate = {{ number = \"DEMO-C-2\", protection = [\"eb\"], epl = {epl}, gas_group = \"{gas_group}\", dust_group = \"IIIC\", service_c = {service}, ip = \"{ip}\" }}\n\
         rated_voltage_v = {}\nrated_current_a = {}\nimpact_j = 7\n{most}{earth}rated_power = [{rows}]\n\
         mass_kg = {}\nprice = {}\n",
        random.percent(60),
        random.one(&[550, 750, 750]),
        random.one(&[63, 250, 250]),
        random.between(5, 60) as f64 / 10.0,
        random.between(20, 200),
    )
}

/// Rows of rated power up to the highest service temperature, °C.
fn power_rows(random: &mut Random, hottest_c: u32) -> String {
    let power_w = random.between(10, 90) as f64 / 10.0;
    let mut rows = String::new();
    for (class, ambient_c, share) in [
        ("T6", 40, 1.0),
        ("T6", 55, 0.6),
        ("T4", 40, 2.2),
        ("T4", 60, 1.5),
    ] {
        if ambient_c <= hottest_c && random.percent(85) {
            let power_w = (power_w * share * 10.0_f64).round() / 10.0;
            rows += &format!(
                "{{ class = \"{class}\", ambient_c = {ambient_c}, power_w = {power_w} }}, "
            );
        }
    }
    rows
}

fn wall_text(random: &mut Random, wall: &str, length: f64, depth: f64) -> String {
    let margin = random.length(4, 20, 4);
    let back = random.length(4, 14, 2);
    let mut widest = length - 2.0 * margin;
    let areas = if random.percent(25) && length > 190.0 {
        // Two areas side by side with a web between them.
        let web = random.length(2, 30, 4);
        let left = ((length - 2.0 * margin - web) * 0.4).round();
        let right = length - 2.0 * margin - web - left;
        let height = depth - 2.0 * back;
        widest = left.max(right);
        format!(
            "[[{margin}, {back}, {left}, {height}], [{}, {back}, {right}, {height}]]",
            margin + left + web
        )
    } else {
        format!(
            "[[{margin}, {back}, {}, {}]]",
            length - 2.0 * margin,
            depth - 2.0 * back
        )
    };
    let threads = ["M16", "M20", "M25", "M32", "M40"];
    let diameters = [16.0, 20.0, 25.0, 32.0, 40.0];
    let fitting = diameters.iter().filter(|mm| **mm + 0.5 < widest).count();
    let largest = (random.between(1, 4) as usize).min(fitting - 1);
    let certified = if random.percent(30) {
        let mut numbers = Vec::new();
        for thread in &threads[..=largest] {
            if random.percent(85) {
                numbers.push(format!("{thread} = {}", random.between(1, 4)));
            }
        }
        format!(", most_entries = {{ {} }}", numbers.join(", "))
    } else {
        ", most_entries = \"not limited\"".to_string()
    };
    let largest = threads[largest];
    format!("walls.{wall} = {{ areas_mm = {areas}, largest_thread = \"{largest}\"{certified} }}\n")
}
