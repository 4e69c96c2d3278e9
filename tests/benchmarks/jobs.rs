//! Whole jobs of growing size, from the text of the list to the audited arrangement: `cargo bench`.
//!
//! Lists and catalogues are generated: trunk cables, each core led on to a branch cable, push-buttons on
//! the lid; catalogues are the demo catalogue's enclosures repeated under further ids. Nothing is random.
//! docs/performance.md has the figures and says how they were taken.

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use glandrail::catalogue::Catalogue;
use glandrail::model::SearchOptions;
use glandrail::propose::{Answer, propose};
use glandrail::requirements::RequirementList;
use glandrail::source::SourceFile;
use glandrail::workshop::Workshop;
use std::fmt::Write;

/// How large a list is.
#[derive(Clone, Copy)]
struct Size {
    name: &'static str,
    trunks: usize,
    cores: usize,
    branches: usize,
    cores_of_branch: usize,
    elements: usize,
    enclosures: usize,
    /// Whether no enclosure can take it.
    impossible: bool,
}

const SMALL: Size = Size {
    name: "small",
    trunks: 1,
    cores: 12,
    branches: 4,
    cores_of_branch: 3,
    elements: 0,
    enclosures: 50,
    impossible: false,
};

const MEDIUM: Size = Size {
    name: "medium",
    trunks: 2,
    cores: 37,
    branches: 14,
    cores_of_branch: 5,
    elements: 2,
    enclosures: 150,
    impossible: false,
};

const LARGE: Size = Size {
    name: "large",
    trunks: 8,
    cores: 37,
    branches: 40,
    cores_of_branch: 7,
    elements: 8,
    enclosures: 500,
    impossible: false,
};

/// Too many entries for any enclosure.
const IMPOSSIBLE: Size = Size {
    name: "impossible",
    trunks: 24,
    branches: 160,
    impossible: true,
    ..LARGE
};

fn list(size: Size) -> String {
    let mut text = String::from(
        "[job]\ntag = \"JB-BENCH\"\n[area]\nzone = 1\ngas_group = \"IIB\"\ntemperature_class = \"T6\"\n\
         ambient_c = [-20, 40]\n[box]\nentry_walls = [\"bottom\", \"left\", \"right\", \"top\"]\n",
    );
    let mut put = |more: String| text.write_str(&more).expect("a string takes it");
    for trunk in 1..=size.trunks {
        let cores = size.cores;
        put(format!(
            "[[cable]]\ntag = \"T{trunk}\"\ncores = \"{cores} x 1.5 mm2\"\n"
        ));
    }
    let poles = size.cores_of_branch;
    for branch in 1..=size.branches {
        let trunk = branch % size.trunks + 1;
        put(format!(
            "[[cable]]\ntag = \"B{branch}\"\ncores = \"{poles} x 1.5 mm2\"\n\
             [[circuit]]\ntag = \"S{branch}\"\nfrom = \"T{trunk}\"\nto = \"B{branch}\"\npoles = {poles}\n\
             voltage_v = 24\ncurrent_a = 0.1\n"
        ));
    }
    for element in 1..=size.elements {
        let trunk = element % size.trunks + 1;
        put(format!(
            "[[element]]\ntag = \"P{element}\"\nkind = \"push_button\"\ncontacts = [\"NO\"]\n\
             [[circuit]]\ntag = \"E{element}\"\nfrom = \"T{trunk}\"\nto = \"P{element}\"\npoles = 2\n\
             voltage_v = 24\ncurrent_a = 0.1\n"
        ));
    }
    text
}

/// The demo catalogue with so many enclosures: the first of them, or all of them again and again.
fn catalogue(enclosures: usize) -> Catalogue {
    let mut catalogue = Catalogue::demo().clone();
    let known = catalogue.enclosure.clone();
    catalogue.enclosure = (0..enclosures)
        .map(|index| {
            // From the largest, so that short catalogues hold something that takes the job.
            let mut enclosure = known[known.len() - 1 - index % known.len()].clone();
            let round = index / known.len();
            if round > 0 {
                enclosure.id = format!("{}-{round}", enclosure.id);
            }
            enclosure
        })
        .collect();
    catalogue
}

/// The whole job; what comes out must be what the size says.
fn run(text: &str, catalogue: &Catalogue, threads: usize, impossible: bool) {
    let workshop = Workshop::default();
    let source = SourceFile::from_text("list.toml", text);
    let list = RequirementList::from_source(source, &workshop).expect("a good list");
    let options = SearchOptions {
        threads,
        ..SearchOptions::default()
    };
    let answer = propose(&list, catalogue, &workshop, options).expect("an answer");
    match answer {
        Answer::Found(found) => assert!(found.proven && !impossible),
        Answer::Impossible { proven, .. } => assert!(proven && impossible),
    }
}

fn sizes(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("jobs");
    for size in [SMALL, MEDIUM, LARGE, IMPOSSIBLE] {
        let (text, catalogue) = (list(size), catalogue(size.enclosures));
        for threads in [1, 2] {
            let name = BenchmarkId::new(size.name, format!("{threads} threads"));
            group.bench_function(name, |bencher| {
                bencher.iter(|| run(&text, &catalogue, threads, size.impossible));
            });
        }
    }
    group.finish();
}

fn growth_with_the_catalogue(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("enclosures");
    let text = list(MEDIUM);
    for enclosures in [60, 500, 5000] {
        let catalogue = catalogue(enclosures);
        group.bench_function(BenchmarkId::from_parameter(enclosures), |bencher| {
            bencher.iter(|| run(&text, &catalogue, 1, false));
        });
    }
    group.finish();
}

criterion_group! {
    name = jobs;
    config = Criterion::default().sample_size(20);
    targets = sizes, growth_with_the_catalogue
}
criterion_main!(jobs);
