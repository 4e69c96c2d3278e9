//! Whole jobs of growing size, from the text of the list to the audited arrangement: `cargo bench`.
//!
//! With `GLANDRAIL_JOBS=DIR` the lists and catalogues are written into that folder instead, for
//! `measure.py`. docs/performance.md has the figures and says how they were taken.

mod generate;

use criterion::{BenchmarkId, Criterion, criterion_group};
use generate::{Kind, LARGE, MEDIUM, SMALL, Size, catalogue, list};
use glandrail::catalogue::Catalogue;
use glandrail::model::SearchOptions;
use glandrail::propose::{Answer, propose};
use glandrail::requirements::RequirementList;
use glandrail::source::SourceFile;
use glandrail::workshop::Workshop;
use std::path::Path;

const SEED: u64 = 1;
const KINDS: [Kind; 3] = [Kind::Usual, Kind::Tight, Kind::Impossible];

/// The whole job; what comes out must be what the kind says.
fn run(text: &str, catalogue: &Catalogue, threads: usize, kind: Kind) {
    let workshop = Workshop::default();
    let source = SourceFile::from_text("list.toml", text);
    let list = RequirementList::from_source(source, &workshop).expect("a good list");
    let options = SearchOptions {
        threads,
        ..SearchOptions::default()
    };
    let answer = propose(&list, catalogue, &workshop, options).expect("an answer");
    let found = matches!(answer, Answer::Found(_));
    assert_eq!(found, kind != Kind::Impossible);
}

fn sizes(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("jobs");
    for size in [SMALL, MEDIUM, LARGE] {
        let catalogue = catalogue(size.enclosures, SEED);
        for kind in KINDS {
            let text = list(size, kind, SEED);
            for threads in [1, 2] {
                let name = format!("{} {}", size.name, kind.name());
                let name = BenchmarkId::new(name, format!("{threads} threads"));
                group.bench_function(name, |bencher| {
                    bencher.iter(|| run(&text, &catalogue, threads, kind));
                });
            }
        }
    }
    group.finish();
}

/// One figure grows, the rest stays as in the medium job.
fn growth(criterion: &mut Criterion) {
    for (what, sizes) in growing() {
        let mut group = criterion.benchmark_group(what);
        for (value, size) in sizes {
            let catalogue = catalogue(size.enclosures, SEED);
            let text = list(size, Kind::Usual, SEED);
            group.bench_function(BenchmarkId::from_parameter(value), |bencher| {
                bencher.iter(|| run(&text, &catalogue, 1, Kind::Usual));
            });
        }
        group.finish();
    }
}

/// The medium job with one figure changed, by what is changed.
fn growing() -> Vec<(&'static str, Vec<(usize, Size)>)> {
    let sized = |values: &[usize], change: fn(&mut Size, usize)| {
        let sizes = values.iter().map(|value| {
            let mut size = MEDIUM;
            change(&mut size, *value);
            (*value, size)
        });
        sizes.collect()
    };
    vec![
        (
            "enclosures",
            sized(&[1, 50, 500, 5000], |size, value| size.enclosures = value),
        ),
        (
            "terminals",
            // A trunk of more than sixty cores is thicker than any gland takes.
            sized(&[40, 80, 160, 320], |size, value| {
                size.terminals = value;
                size.trunks = value / 40;
            }),
        ),
        (
            "glands",
            sized(&[6, 16, 32, 48], |size, value| size.branches = value - 2),
        ),
    ]
}

/// Writes every job as `NAME.toml` with its catalogue `NAME.catalogue.toml`.
fn write(folder: &Path) {
    std::fs::create_dir_all(folder).expect("the folder can be made");
    let put = |name: String, size: Size, kind: Kind, seed: u64| {
        let text = list(size, kind, seed);
        std::fs::write(folder.join(format!("{name}.toml")), text).expect("the list is written");
        let catalogue = toml::to_string(&catalogue(size.enclosures, seed)).expect("it is TOML");
        let file = folder.join(format!("{name}.catalogue.toml"));
        std::fs::write(file, catalogue).expect("the catalogue is written");
    };
    for size in [SMALL, MEDIUM, LARGE] {
        for kind in KINDS {
            for seed in 1..=3 {
                let name = format!("{}-{}-{seed}", size.name, kind.name());
                put(name, size, kind, seed);
            }
        }
    }
    for (what, sizes) in growing() {
        for (value, size) in sizes {
            put(format!("growth-{what}-{value}"), size, Kind::Usual, SEED);
        }
    }
}

criterion_group! {
    name = jobs;
    config = Criterion::default().sample_size(10);
    targets = sizes, growth
}

fn main() {
    if let Some(folder) = std::env::var_os("GLANDRAIL_JOBS") {
        write(Path::new(&folder));
        return;
    }
    jobs();
    Criterion::default().configure_from_args().final_summary();
}
