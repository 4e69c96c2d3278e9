//! Lists and catalogues of a stated size, made from a seed. Everything in them is invented.
//!
//! A list: trunk cables whose cores are led on to branch cables and to push-buttons on the lid. A catalogue:
//! the demo catalogue with its enclosures replaced by as many of drawn sizes.

use glandrail::catalogue::{Catalogue, Enclosure, EntryWall, Lid, Material, Most, MountingPlate};
use glandrail::space::Face;
use glandrail::standards::threads::Thread;
use std::fmt::Write;

/// What makes a list hard.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Currents of a control circuit at T6: heat and room decide together.
    Usual,
    /// No heat to speak of, all cables on one wall: the wall decides, and it fills whole walls.
    Tight,
    /// More cables than the widest wall takes.
    Impossible,
}

impl Kind {
    pub fn name(self) -> &'static str {
        match self {
            Kind::Usual => "usual",
            Kind::Tight => "tight",
            Kind::Impossible => "impossible",
        }
    }
}

/// How large a job is.
#[derive(Clone, Copy)]
pub struct Size {
    pub name: &'static str,
    pub terminals: usize,
    pub trunks: usize,
    pub branches: usize,
    pub elements: usize,
    pub enclosures: usize,
}

pub const SMALL: Size = Size {
    name: "small",
    terminals: 12,
    trunks: 1,
    branches: 4,
    elements: 0,
    enclosures: 50,
};

pub const MEDIUM: Size = Size {
    name: "medium",
    terminals: 80,
    trunks: 2,
    branches: 14,
    elements: 8,
    enclosures: 150,
};

pub const LARGE: Size = Size {
    name: "large",
    terminals: 400,
    trunks: 8,
    branches: 40,
    elements: 24,
    enclosures: 500,
};

/// Numbers that look drawn by lot: the splitmix64 generator, the same for the same seed on every machine.
struct Lot(u64);

impl Lot {
    fn below(&mut self, end: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((mixed ^ (mixed >> 31)) % end as u64) as usize
    }

    /// From `least` to `most` in steps of 5 mm.
    fn length_mm(&mut self, least: usize, most: usize) -> f64 {
        (least + 5 * self.below((most - least) / 5 + 1)) as f64
    }
}

/// Branch cables that no wall takes: the largest one drawn has room for about two hundred.
const MORE_THAN_ANY_WALL: usize = 400;

/// The text of a list.
pub fn list(size: Size, kind: Kind, seed: u64) -> String {
    let mut lot = Lot(seed);
    let walls = match kind {
        Kind::Usual => "\"bottom\", \"left\", \"right\", \"top\"",
        Kind::Tight | Kind::Impossible => "\"bottom\"",
    };
    let current_a = |lot: &mut Lot| match kind {
        Kind::Usual => 0.1 + 0.1 * lot.below(10) as f64,
        Kind::Tight | Kind::Impossible => 0.01,
    };
    let (class, more) = match kind {
        Kind::Usual => ("T6", 1),
        Kind::Tight => ("T4", 1),
        Kind::Impossible => ("T4", MORE_THAN_ANY_WALL / size.branches),
    };
    let mut text = format!(
        "[job]\ntag = \"JB-BENCH\"\n[area]\nzone = 1\ngas_group = \"IIB\"\ntemperature_class = \"{class}\"\n\
         ambient_c = [-20, 40]\n[box]\nentry_walls = [{walls}]\n"
    );
    let (branches, trunks) = (size.branches * more, size.trunks * more);
    let poles = divided(size.terminals - 2 * size.elements, size.branches, &mut lot);
    let mut cores = vec![0; trunks];
    let mut put = |more: String| text.write_str(&more).expect("a string takes it");
    for branch in 0..branches {
        let poles = poles[branch % size.branches];
        let trunk = branch % trunks;
        cores[trunk] += poles;
        let current_a = current_a(&mut lot);
        put(format!(
            "[[cable]]\ntag = \"B{branch}\"\ncores = \"{poles} x 1.5 mm2\"\n\
             [[circuit]]\ntag = \"S{branch}\"\nfrom = \"T{trunk}\"\nto = \"B{branch}\"\npoles = {poles}\n\
             voltage_v = 24\ncurrent_a = {current_a:.2}\n"
        ));
    }
    for element in 0..size.elements {
        let trunk = element % trunks;
        cores[trunk] += 2;
        put(format!(
            "[[element]]\ntag = \"P{element}\"\nkind = \"push_button\"\ncontacts = [\"NO\"]\n\
             [[circuit]]\ntag = \"E{element}\"\nfrom = \"T{trunk}\"\nto = \"P{element}\"\npoles = 2\n\
             voltage_v = 24\ncurrent_a = 0.1\n"
        ));
    }
    for (trunk, cores) in cores.iter().enumerate() {
        put(format!(
            "[[cable]]\ntag = \"T{trunk}\"\ncores = \"{cores} x 1.5 mm2\"\ndiameter_mm = {}\n",
            12 + cores / 3
        ));
    }
    text
}

/// A total in so many parts of about the same size.
fn divided(total: usize, parts: usize, lot: &mut Lot) -> Vec<usize> {
    let mut all = vec![1; parts];
    for _ in parts..total {
        // Of two drawn parts the smaller one grows, so that no branch gets far more cores than another.
        let (one, other) = (lot.below(parts), lot.below(parts));
        let smaller = if all[one] <= all[other] { one } else { other };
        all[smaller] += 1;
    }
    all
}

/// The demo catalogue with so many enclosures of drawn sizes in place of its own.
pub fn catalogue(enclosures: usize, seed: u64) -> Catalogue {
    let mut lot = Lot(seed ^ 0xca7a_1096);
    let mut catalogue = Catalogue::demo().clone();
    let plastic =
        |known: &&Enclosure| known.material == Material::Grp && !known.rated_power.is_empty();
    let model = catalogue
        .enclosure
        .iter()
        .find(plastic)
        .expect("the demo catalogue has one")
        .clone();
    catalogue.enclosure = (0..enclosures)
        .map(|index| drawn(&model, index, &mut lot))
        .collect();
    catalogue
}

fn drawn(model: &Enclosure, index: usize, lot: &mut Lot) -> Enclosure {
    // Every tenth is large, so that short catalogues hold something that takes a large job.
    let [width, height] = match index % 10 {
        0 => [lot.length_mm(800, 1200), lot.length_mm(800, 1000)],
        _ => [lot.length_mm(120, 800), lot.length_mm(120, 600)],
    };
    let depth = lot.length_mm(120, 200);
    let surface_m2 = 2.0 * (width * height + width * depth + height * depth) / 1e6;
    let wall = |length_mm: f64| EntryWall {
        areas_mm: vec![[15.0, 10.0, length_mm - 40.0, depth - 32.0]],
        flange_plate: false,
        largest_thread: Thread::M63,
        most_entries: Some(Most::NotLimited),
        ..model.walls[&Face::Bottom].clone()
    };
    let mut enclosure = model.clone();
    enclosure.id = format!("DEMO-BENCH-{index:04}");
    enclosure.outer_mm = [width, height, depth];
    enclosure.inner_mm = [width - 10.0, height - 10.0, depth - 10.0];
    enclosure.plate = MountingPlate {
        x_mm: 8.0,
        y_mm: 8.0,
        width_mm: width - 26.0,
        height_mm: height - 26.0,
        ..model.plate
    };
    enclosure.lid = Lid {
        x_mm: 15.0,
        y_mm: 15.0,
        width_mm: width - 40.0,
        height_mm: height - 40.0,
        ..model.lid
    };
    enclosure.walls = [
        (Face::Bottom, wall(width)),
        (Face::Top, wall(width)),
        (Face::Left, wall(height)),
        (Face::Right, wall(height)),
    ]
    .into();
    for row in &mut enclosure.rated_power {
        // In proportion to the surface.
        row.power_w *= surface_m2 / surface_of_m2(model);
    }
    enclosure.most_terminals = Some(Most::NotLimited);
    enclosure.defined_arrangement = Vec::new();
    enclosure.mass_kg = (surface_m2 * 1000.0).round() / 100.0;
    enclosure.price = (surface_m2 * 20_000.0).round() / 100.0;
    enclosure
}

fn surface_of_m2(enclosure: &Enclosure) -> f64 {
    let [width, height, depth] = enclosure.outer_mm;
    2.0 * (width * height + width * depth + height * depth) / 1e6
}
