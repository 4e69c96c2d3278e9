use std::collections::BTreeMap;

use serde::Deserialize;

use crate::source::{Document, Finding, Findings, SourceFile};

fn read<T: serde::de::DeserializeOwned>(text: &str) -> (Option<T>, Vec<Finding>) {
    let mut findings = Findings::new();
    let document = Document::parse(SourceFile::from_text("l.toml", text), &mut findings).unwrap();
    let value = document
        .table::<T>("t", &mut findings)
        .map(|located| located.value);
    (value, findings.into_iter().collect())
}

/// What was found, without the name of the file, each with the text it points at.
fn lines<T: serde::de::DeserializeOwned>(text: &str) -> Vec<String> {
    let (value, findings) = read::<T>(text);
    let only_unknown = findings.iter().all(|f| f.code == "source-unknown-field");
    assert_eq!(value.is_some(), only_unknown, "{findings:#?}");
    let line = |finding: &Finding| {
        let plain = finding.render_plain();
        format!(
            "<{}> {}",
            finding.text(),
            plain.split_once("]: ").unwrap().1
        )
    };
    findings.iter().map(line).collect()
}

#[derive(Debug, Deserialize)]
#[allow(dead_code)]
pub(super) struct Element {
    tag: String,
    pub(super) current_a: f64,
    #[serde(default)]
    count: u8,
    spare: Option<bool>,
    #[serde(default)]
    ambient_c: Option<[f64; 2]>,
    #[serde(default)]
    levels: Vec<Level>,
    #[serde(default)]
    wall: Wall,
    #[serde(default)]
    limits: BTreeMap<String, f64>,
}

#[derive(Debug, Deserialize)]
#[allow(dead_code)]
struct Level {
    power_w: f64,
    name: String,
}

#[derive(Debug, Default, Deserialize, PartialEq)]
#[serde(rename_all = "kebab-case")]
enum Wall {
    #[default]
    Left,
    Right,
    Offset {
        width_mm: f64,
    },
    Named(String),
}

#[test]
fn a_sound_table_is_read() {
    let (value, findings) = read::<Element>(
        "[t]\ntag = \"S1\"\ncurrent_a = 16\ncount = 0x10\nspare = true\nambient_c = [-20, 45.5]\n\
         levels = [{ power_w = 3, name = \"a\" }]\nwall = { offset = { width_mm = 5 } }\n\
         limits.a = 1\nlimits.\"b c\" = 2.5\n",
    );
    let value = value.unwrap();
    assert!(findings.is_empty());
    assert_eq!(
        (value.current_a, value.count, value.spare),
        (16.0, 16, Some(true))
    );
    assert_eq!(value.ambient_c, Some([-20.0, 45.5]));
    assert_eq!(value.wall, Wall::Offset { width_mm: 5.0 });
    assert_eq!(value.limits["b c"], 2.5);
}

#[test]
fn every_wrong_type_is_found_in_one_reading() {
    let found = lines::<Element>(
        "[t]\ntag = 7\ncurrent_a = \"16 A\"\ncount = 300\nspare = \"yes\"\nambient_c = [-20]\n\
         levels = [{ power_w = \"x\", name = \"a\" }, 3, { power_w = 1, name = true }]\n\
         wall = \"rihgt\"\nlimits = { a = 1, b = \"2\" }\n",
    );
    assert_eq!(
        found,
        [
            "<7> `tag` must be a text, found the number 7; expected a text in quotes, such as \"7\"",
            "<\"16 A\"> `current_a` must be a number, found the text \"16 A\"; \
             expected a number in A, such as 16; hint: write 16, without quotes and unit",
            "<300> `count` must be a whole number, found the number 300; \
             expected a whole number from 0 to 255",
            "<\"yes\"> `spare` must be true or false, found the text \"yes\"; \
             expected true or false, without quotes; hint: write true",
            "<[-20]> `ambient_c` must be a list of 2, found 1 in it; \
             expected a list of 2 in brackets, of numbers in °C",
            "<\"x\"> `levels[0].power_w` must be a number, found the text \"x\"; \
             expected a number in W, such as 10",
            "<3> `levels[1]` must be a table, found the number 3; \
             expected a table with `power_w`, `name`",
            "<true> `levels[2].name` must be a text, found true; \
             expected a text in quotes, such as \"true\"",
            "<\"rihgt\"> `rihgt` is not known as `wall`; \
             expected one of `left`, `right`, `offset`, `named`; hint: did you mean `right`?",
            "<\"2\"> `limits.b` must be a number, found the text \"2\"; \
             expected a number, such as 2; hint: write 2, without quotes and unit",
        ]
    );
}

#[test]
fn every_missing_field_is_found_and_wrong_ones_are_not_missing() {
    let found = lines::<Element>(
        "[t]\ncurrent_a = []\nlevels = [{}, { power_w = false }]\nwall = { offset = {} }\n",
    );
    assert_eq!(
        found,
        [
            "<[t]> `tag` is missing; expected a text in quotes",
            "<[]> `current_a` must be a number, found an empty list; \
             expected a number in A, such as 16",
            "<{}> `levels[0].name` is missing; expected a text in quotes",
            "<{}> `levels[0].power_w` is missing; expected a number in W, such as 10",
            "<{ power_w = false }> `levels[1].name` is missing; expected a text in quotes",
            "<false> `levels[1].power_w` must be a number, found false; \
             expected a number in W, such as 10",
            "<{}> `wall.offset.width_mm` is missing; expected a number in mm, such as 25",
        ]
    );
}

#[test]
fn unknown_fields_are_found_at_every_depth_and_the_value_is_still_given() {
    let (value, _) = read::<Element>("[t]\ntag = \"S\"\ncurrent_a = 1\ncolour = 1\n");
    assert_eq!(value.map(|v| v.tag).as_deref(), Some("S"));
    let found = lines::<Element>(
        "[t]\ntag = \"S\"\ncurrent_a = 1\ncolour = 1\nlevls = []\n\
         levels = [{ power_w = 1, name = \"a\", nmae = 2 }]\n\
         [t.wall.offset]\nwidth_mm = 1\nheight_mm = 1\n",
    );
    assert_eq!(
        found,
        [
            "<colour> unknown field `colour`; hint: known here: `tag`, `current_a`, `count`, \
             `spare`, `ambient_c`, `levels`, `wall`, `limits`",
            "<levls> unknown field `levls`; hint: did you mean `levels`?",
            "<nmae> unknown field `levels[0].nmae`; hint: did you mean `name`?",
            "<height_mm> unknown field `wall.offset.height_mm`; hint: known here: `width_mm`",
        ]
    );
}

#[test]
fn a_misspelt_field_is_not_missing_as_well() {
    let found = lines_of_unsound("[t]\ntga = \"S\"\ncurrent_ma = 20\n");
    assert_eq!(
        found,
        [
            "<tga> unknown field `tga`; hint: did you mean `tag`?",
            "<current_ma> `current_ma` has the wrong unit; expected `current_a`, in A; \
             hint: give the value in A and write `current_a`",
        ]
    );
    let found = lines_of_unsound("[t]\ntag = \"S\"\ncurrent = 20\n");
    assert_eq!(
        found,
        [
            "<current> `current` lacks its unit; expected `current_a`, in A; \
          hint: give the value in A and write `current_a`"
        ]
    );
}

/// As [`lines`], where unknown fields stand for missing ones and no value can be given.
fn lines_of_unsound(text: &str) -> Vec<String> {
    let (value, findings) = read::<Element>(text);
    assert!(value.is_none());
    let line = |finding: &Finding| {
        let plain = finding.render_plain();
        format!(
            "<{}> {}",
            finding.text(),
            plain.split_once("]: ").unwrap().1
        )
    };
    findings.iter().map(line).collect()
}

#[test]
fn numbers_that_are_none_are_refused() {
    let found =
        lines::<Element>("[t]\ntag = \"S\"\ncurrent_a = nan\nlimits = { a = inf, b = 1e999 }");
    assert_eq!(
        found,
        [
            "<nan> `current_a` must be a finite number, found nan; expected a number in A, such as 16",
            "<inf> `limits.a` must be a finite number, found inf; expected a number",
            "<1e999> `limits.b` must be a finite number, found 1e999; expected a number",
        ]
    );
}

#[test]
fn another_unit_in_the_text_is_never_read_as_the_fields_own() {
    let found = lines::<Element>("[t]\ntag = \"S\"\ncurrent_a = \"2 kA\"\ncount = 3.0\n");
    assert_eq!(
        found,
        [
            "<\"2 kA\"> `current_a` must be a number, found the text \"2 kA\"; \
             expected a number in A, such as 16",
            "<3.0> `count` must be a whole number, found the number 3.0; \
             expected a whole number from 0 to 255, such as 3",
        ]
    );
}

#[test]
fn words_of_the_wrong_form_are_found() {
    let found = |wall: &str| {
        lines::<Element>(&format!("[t]\ntag = \"S\"\ncurrent_a = 1\nwall = {wall}\n")).join("|")
    };
    assert_eq!(
        found("7"),
        "<7> `wall` must be one of `left`, `right`, `offset`, `named`, found the number 7; \
         expected one of `left`, `right`, `offset`, `named`"
    );
    assert_eq!(
        found("\"offset\""),
        "<\"offset\"> `wall` must be a table `{ offset = … }`, found the text \"offset\""
    );
    assert_eq!(
        found("{ left = 1 }"),
        "<1> `wall.left` must be the text \"left\" alone, found the number 1"
    );
    assert_eq!(
        found("{ named = 1 }"),
        "<1> `wall.named` must be a text, found the number 1; \
         expected a text in quotes, such as \"1\""
    );
    assert!(found("{ lef = 1 }").contains("`lef` is not known as `wall`"));
    assert!(found("{ left = 1, right = 2 }").contains("must be one of"));
}

#[derive(Debug, Deserialize)]
#[serde(try_from = "f64")]
struct Share(#[allow(dead_code)] f64);

impl TryFrom<f64> for Share {
    type Error = String;

    fn try_from(value: f64) -> Result<Self, String> {
        // Zero is refused too: so is the stand-in for a number.
        let fits = value > 0.0 && value <= 100.0;
        fits.then_some(Self(value))
            .ok_or(format!("must be above 0 and at most 100, found {value}"))
    }
}

#[derive(Debug, Deserialize)]
#[allow(dead_code)]
struct Checked {
    spare_percent: Share,
    list: Vec<Share>,
    last: u32,
}

#[test]
fn checks_of_a_type_are_reported_at_the_value_and_others_go_on() {
    let found =
        lines::<Checked>("[t]\nspare_percent = 200\nlist = [1, -1, \"x\", 300]\nlast = -1\n");
    assert_eq!(
        found,
        [
            "<200> `spare_percent`: must be above 0 and at most 100, found 200",
            "<-1> `list[1]`: must be above 0 and at most 100, found -1",
            "<\"x\"> `list[2]` must be a number, found the text \"x\"; expected a number",
            "<300> `list[3]`: must be above 0 and at most 100, found 300",
            "<-1> `last` must be a whole number, found the number -1; \
             expected a whole number, zero or more",
        ]
    );
}

#[derive(Debug, Deserialize)]
#[serde(untagged)]
#[allow(dead_code)]
enum OneOrMore {
    One(f64),
    More(Vec<f64>),
}

#[derive(Debug, Deserialize)]
#[allow(dead_code)]
struct Free {
    values: OneOrMore,
    #[serde(flatten)]
    rest: Common,
}

#[derive(Debug, Deserialize)]
#[allow(dead_code)]
struct Common {
    tag: String,
}

#[test]
fn what_serde_holds_back_is_still_refused() {
    let (value, findings) = read::<Free>("[t]\nvalues = [1, 2]\ntag = \"S\"\n");
    assert!(value.is_some() && findings.is_empty(), "{findings:?}");
    let found = lines::<Free>("[t]\nvalues = \"x\"\ntag = \"S\"\n");
    assert_eq!(found.len(), 1, "{found:?}");
    let found = lines::<Free>("[t]\nvalues = 1\ntag = 7\n");
    assert_eq!(found.len(), 1, "{found:?}");
    let found = lines::<Free>("[t]\nvalues = 1\n");
    assert_eq!(found, ["<[t]> `tag` is missing"]);
}

#[derive(Debug, Deserialize)]
#[allow(dead_code)]
enum Chain {
    Link(Box<Chain>),
    End,
}

#[derive(Debug, Deserialize)]
#[allow(dead_code)]
struct Endless {
    chain: Chain,
}

#[test]
fn a_type_that_holds_itself_has_no_endless_stand_in() {
    assert_eq!(
        lines::<Endless>("[t]\n"),
        ["<[t]> `chain` is missing; expected one of `Link`, `End`"]
    );
    let found = lines::<Endless>("[t]\nchain = { Link = { Link = \"Edn\" } }\n");
    assert!(
        found[0].starts_with("<\"Edn\"> `Edn` is not known as `chain.Link.Link`"),
        "{found:?}"
    );
}

#[test]
fn very_many_errors_in_one_table_end_in_time() {
    let text = format!(
        "[t]\ntag = \"S\"\ncurrent_a = 1\nlevels = [{}]\n",
        "{ }, ".repeat(3000)
    );
    let (value, findings) = read::<Element>(&text);
    assert!(value.is_none());
    let last = findings
        .iter()
        .filter(|f| f.message.starts_with("more than 1000 errors"))
        .count();
    assert_eq!(last, 1);
    assert_eq!(findings.len(), 1001);
}

#[test]
fn dates_are_texts_and_long_texts_are_cut() {
    let (value, _) = read::<Element>("[t]\ntag = 2026-03-01\ncurrent_a = 1\n");
    assert_eq!(value.map(|v| v.tag).as_deref(), Some("2026-03-01"));
    let found = lines::<Element>(&format!(
        "[t]\ntag = \"S\"\ncurrent_a = \"{}\"",
        "µ".repeat(99)
    ));
    assert!(
        found[0].contains(&format!("the text \"{}…\"", "µ".repeat(40))),
        "{found:?}"
    );
}

#[derive(Debug, Deserialize)]
#[allow(dead_code)]
struct Renamed {
    #[serde(rename = "type", alias = "kind")]
    form: String,
    #[serde(default)]
    inner: Option<Box<Renamed>>,
}

#[test]
fn renamed_fields_go_by_the_name_in_the_file() {
    assert!(lines::<Renamed>("[t]\ntype = \"a\"\ninner.kind = \"b\"\n").is_empty());
    assert_eq!(
        lines::<Renamed>("[t]\ntype = 1\n[t.inner]\n"),
        [
            "<1> `type` must be a text, found the number 1; \
             expected a text in quotes, such as \"1\"",
            "<[t.inner]> `inner.type` is missing; expected a text in quotes",
        ]
    );
    assert_eq!(
        lines::<Renamed>("[t]\ntype = \"a\"\nkind = \"b\"\n"),
        ["<[t]> `t`: duplicate field `type`"]
    );
    assert_eq!(
        lines::<Renamed>("[t]\nkind = 1\n"),
        ["<1> `kind` must be a text, found the number 1; \
          expected a text in quotes, such as \"1\""]
    );
}
