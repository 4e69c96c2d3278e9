//! The `glandrail` command.
use glandrail::*;
fn main() {
    let path = std::env::args().nth(1).unwrap();
    let w = workshop::Workshop::default();
    let t = std::time::Instant::now();
    let list = match requirements::RequirementList::read(path.as_ref(), &w) {
        Ok(l) => l,
        Err(f) => {
            eprint!("{}", f.render_plain());
            std::process::exit(2)
        }
    };
    match propose::propose(&list, catalogue::Catalogue::demo(), &w, Default::default()) {
        Ok(propose::Answer::Found(p)) => {
            println!(
                "FOUND {} {:?} proven {} of {} excluded {}",
                p.arrangement.enclosure.id,
                p.arrangement.enclosure.orientation,
                p.proven,
                p.candidates,
                p.excluded.len()
            );
            for e in &p.excluded {
                println!("  {} {:?}: {}", e.enclosure, e.orientation, e.reason);
            }
            std::fs::write(
                "/tmp/a.json",
                serde_json::to_string_pretty(&p.arrangement).unwrap(),
            )
            .unwrap();
        }
        Ok(propose::Answer::Impossible { excluded, .. }) => {
            for e in &excluded {
                println!("  {} {:?}: {}", e.enclosure, e.orientation, e.reason);
            }
        }
        Err(propose::ProposeError::Input(f)) => eprint!("{}", f.render_plain()),
        Err(e) => println!("{e}"),
    }
    println!("{:?}", t.elapsed());
}
