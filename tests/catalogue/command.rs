//! The command, as a function of its arguments.

use clap::Parser;
use glandrail::cli::catalogue::{Answer, CatalogueArgs, CatalogueError, run};

#[derive(clap::Parser)]
struct Line {
    #[command(flatten)]
    args: CatalogueArgs,
}

fn answer(words: &[&str]) -> (Result<Answer, CatalogueError>, String) {
    let line =
        Line::try_parse_from(["catalogue"].iter().chain(words)).expect("a sound command line");
    let mut out = Vec::new();
    let answer = run(&line.args, &mut out);
    (answer, String::from_utf8(out).expect("text"))
}

fn found(words: &[&str]) -> String {
    let (answer, text) = answer(words);
    assert_eq!(answer.expect("no error"), Answer::Found);
    text
}

#[test]
fn the_demo_catalogue_is_checked_and_counted() {
    let text = found(&["check"]);
    assert!(text.contains("    60  enclosure\n"), "{text}");
    assert!(
        text.contains("not for use") && text.ends_with("The catalogue is sound.\n"),
        "{text}"
    );
}

#[test]
fn parts_are_listed_searched_and_shown() {
    let text = found(&["list", "rail"]);
    assert_eq!(
        text,
        "rail  DEMO-R-TH35-7.5  mounting rail TH35-7.5, galvanised steel\n\
         rail  DEMO-R-TH35-15   mounting rail TH35-15, galvanised steel\n"
    );
    let all = found(&["list"]);
    assert_eq!(
        all.lines().count(),
        glandrail::catalogue::Catalogue::demo().parts().count()
    );
    let text = found(&["search", "gland", "M20", "light"]);
    assert_eq!(text.lines().count(), 2, "{text}");
    let (nothing, text) = answer(&["search", "nonsense"]);
    assert_eq!(
        (nothing.expect("no error"), text.as_str()),
        (Answer::Nothing, "")
    );
}

/// What is shown can be put into a file and read as the same part.
#[test]
fn a_shown_part_reads_as_the_same() {
    let mut text = found(&["show", "DEMO-G-3020"]);
    text.push_str("[about]\ntitle = \"Copy\"\n");
    let (copy, findings) = crate::documentation::read(&text);
    assert_eq!(findings.render_plain(), "");
    let demo = glandrail::catalogue::Catalogue::demo();
    assert_eq!(
        Some(&copy.expect("sound").enclosure[0]),
        demo.enclosure_by_id("DEMO-G-3020")
    );
}

#[test]
fn an_unknown_id_names_the_nearest() {
    let (answer, text) = answer(&["show", "DEMO-G-3021"]);
    let message = answer.expect_err("unknown").to_string();
    assert_eq!(
        (message.as_str(), text.as_str()),
        (
            "there is no part `DEMO-G-3021`; did you mean `DEMO-G-3020`?",
            ""
        )
    );
}

#[test]
fn an_unsound_catalogue_is_an_error_with_findings() {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let path = folder.path().join("c.toml");
    std::fs::write(&path, "[about]\ntitle = 3\n").expect("written");
    let (answer, text) = answer(&["check", "--catalogue", path.to_str().expect("text")]);
    assert_eq!(text, "");
    let Err(CatalogueError::Findings(findings)) = answer else {
        panic!("findings expected")
    };
    assert_eq!(
        findings
            .iter()
            .map(|finding| finding.code)
            .collect::<Vec<_>>(),
        ["source-wrong-type"]
    );
}

#[test]
fn missing_files_of_an_import_are_all_named() {
    let (answer, _) = answer(&["import", "no.csv", "--map", "no.toml", "--kind", "gland"]);
    let Err(CatalogueError::Findings(findings)) = answer else {
        panic!("findings expected")
    };
    assert_eq!(findings.len(), 2);
}
