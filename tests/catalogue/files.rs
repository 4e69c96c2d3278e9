//! Catalogues as files and folders: empty ones, several files, paths that are not there.

use crate::broken::MORE;
use crate::documentation::{PAGE, read};
use crate::page;
use glandrail::catalogue::Catalogue;

#[test]
fn an_empty_catalogue_is_said_to_be_empty() {
    let (catalogue, findings) = read("");
    assert!(catalogue.is_none());
    let lines = findings.render_plain();
    assert!(
        lines.contains("error[catalogue-empty]: the catalogue is empty"),
        "{lines}"
    );
    assert!(
        lines.contains("error[catalogue-about]: the catalogue has no head"),
        "{lines}"
    );

    let (_, findings) = read(
        "[about]\ntitle = \"A\"\n[[rail]]\nid = \"R\"\nprofile = \"TH35-7.5\"\nwidth_mm = 35\n\
                              height_mm = 7.5\nstock_length_mm = 2000\nmass_kg_per_m = 0.3\nprice_per_m = 4\n",
    );
    let lines = findings.render_plain();
    assert!(
        lines.contains("error[catalogue-empty]: the catalogue has no enclosure"),
        "{lines}"
    );
    assert_eq!(findings.len(), 1);
}

#[test]
fn a_folder_is_read_in_the_order_of_its_names() {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let write =
        |name: &str, text: &str| std::fs::write(folder.path().join(name), text).expect("written");
    let codes = || {
        let (_, findings) = Catalogue::read_with_findings(folder.path());
        findings
            .iter()
            .map(|finding| finding.code)
            .collect::<Vec<_>>()
    };
    assert_eq!(codes(), ["catalogue-empty"]);
    write("notes.txt", "not TOML");
    write(".hidden.toml", "not = [TOML");
    write("b.toml", MORE);
    write("a.toml", &page::examples(PAGE));
    let catalogue = Catalogue::read(folder.path()).expect("sound together");
    let ids: Vec<&str> = catalogue
        .terminal
        .iter()
        .map(|part| part.id.as_str())
        .collect();
    assert_eq!(ids, ["PAGE-TERMINAL", "PAGE-BLUE"]);

    // The same head and the same id in two files.
    write("c.toml", &format!("[about]\ntitle = \"B\"\n{MORE}"));
    let (_, findings) = Catalogue::read_with_findings(folder.path());
    let found: Vec<_> = findings
        .iter()
        .map(|finding| (finding.code, finding.line_column()))
        .collect();
    assert_eq!(found[0], ("catalogue-about", Some((1, 1))));
    let repeated = found
        .iter()
        .filter(|(code, _)| *code == "catalogue-duplicate-id")
        .count();
    assert_eq!((repeated, found.len()), (3, 4));
    assert!(
        findings
            .iter()
            .all(|finding| finding.file.name.ends_with("c.toml"))
    );

    // A file that is not TOML hides what it may hold; nothing is said to be missing.
    write("a.toml", "[about\n");
    write("c.toml", "");
    let (_, findings) = Catalogue::read_with_findings(folder.path());
    assert_eq!(
        findings
            .iter()
            .map(|finding| finding.code)
            .collect::<Vec<_>>(),
        ["source-syntax"]
    );
}

#[test]
fn a_path_that_is_not_there_is_a_finding() {
    let findings =
        Catalogue::read(std::path::Path::new("no/such/catalogue.toml")).expect_err("missing");
    assert_eq!(
        findings
            .iter()
            .map(|finding| finding.code)
            .collect::<Vec<_>>(),
        ["source-file"]
    );
}
