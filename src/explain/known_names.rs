//! Whether the names that a list uses in `fixed` and in weights mean anything in it.

use super::aspect::Requirement;
use super::gather::requirements;
use super::names::names;
use super::otherwise::is_name;
use crate::requirements::RequirementList;
use crate::source::{Findings, nearest};

/// Names in `fixed` and in weights that mean nothing in this list.
pub(super) fn check_names(list: &RequirementList) -> Findings {
    let all = requirements(list);
    let mut findings = Findings::new();
    let fixed = list.fixed.iter().enumerate();
    let fixed = fixed.map(|(index, name)| {
        let field = format!("fixed[{index}]");
        (&list.place, field, "list-fixed-unknown", name)
    });
    let weighed = list.weights.iter().flat_map(|weight| {
        let names = weight.of.iter().enumerate();
        names.map(|(index, name)| {
            let one = format!("of[{index}]");
            let field = if weight.place.has(&one) {
                one
            } else {
                "of".to_string()
            };
            (&weight.place, field, "list-weight-unknown", name)
        })
    });
    for (place, field, code, name) in fixed.chain(weighed) {
        if is_name(name) || all.iter().any(|requirement| names(list, requirement, name)) {
            continue;
        }
        let mut finding = place
            .error(
                &field,
                code,
                format!("`{name}` names no requirement of this list"),
            )
            .expected("a table, field, cable, circuit or element, such as `area` or `cable W1`");
        if let Some(near) = meant(name, &all) {
            finding = finding.hint(format!("did you mean `{near}`?"));
        }
        findings.push(finding);
    }
    findings
}

/// The name that was most likely meant: one of which this is a part, else one that is spelt nearly so.
fn meant(name: &str, all: &[Requirement]) -> Option<String> {
    // `area.ambient_c (highest)` is one end of what is called `area.ambient_c`.
    let ids = || {
        let ids = all.iter().map(|requirement| requirement.id.as_str());
        ids.map(|id| id.split_once(" (").map_or(id, |(id, _)| id))
    };
    let fields = ids().filter_map(|id| id.rsplit(['.', ' ']).next());
    let part = ids().find(|id| name.len() > 2 && id.contains(name));
    // Tables, kinds and fields of a kind, as `names` understands them.
    let wholes = ids().filter_map(|id| id.split(['.', ' ']).next());
    let of_kind = all.iter().filter_map(|requirement| {
        let (kind, rest) = requirement.id.split_once(' ')?;
        let (_, field) = rest.rsplit_once(' ')?;
        Some(format!("{kind} {field}"))
    });
    let of_kind: Vec<String> = of_kind.collect();
    let near = part.map(str::to_string);
    let all = || {
        ids()
            .chain(wholes.clone())
            .chain(of_kind.iter().map(String::as_str))
    };
    let near = near.or_else(|| nearest(name, all()));
    near.or_else(|| {
        let field = nearest(name, fields)?;
        ids().find(|id| id.ends_with(&field)).map(str::to_string)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::SourceFile;
    use crate::workshop::Workshop;

    #[test]
    fn a_part_of_a_name_or_a_slip_is_understood() {
        let text = "[job]\ntag = \"JB-1\"\n[area]\nzone = 1\ngas_group = \"IIB\"\ntemperature_class = \"T6\"\n\
                    ambient_c = [-20, 50]\n[box]\nmax_outer_mm = [300, 300, 200]\n[[cable]]\ntag = \"W1\"\n\
                    cores = \"2 x 1.5 mm2\"\n";
        let file = SourceFile::from_text("list.toml", text);
        let list = RequirementList::from_source(file, &Workshop::default()).expect("sound");
        let all = requirements(&list);
        let meant = |name: &str| meant(name, &all).unwrap_or_default();
        assert_eq!(meant("ambient"), "area.ambient_c");
        assert_eq!(meant("max_outer_mm"), "box.max_outer_mm");
        assert_eq!(meant("temperatur_class"), "area.temperature_class");
        assert_eq!(meant("areas"), "area");
        assert_eq!(meant("colour of the sky"), "");
    }
}
