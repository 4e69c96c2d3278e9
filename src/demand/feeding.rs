//! Circuits with one end only that no link joins to another: built as listed, and told to the reader, for as
//! a rule a line of the list is missing.

use crate::requirements::RequirementList;

/// Most circuits that are named in one sentence.
const MOST_NAMED: usize = 6;

/// A sentence on circuits that nothing feeds, and one on those that lead nowhere.
pub(super) fn remarks(list: &RequirementList) -> Vec<String> {
    let with = |is_open: &dyn Fn((usize, usize)) -> bool| -> Vec<&str> {
        let circuits = list.circuits.iter().enumerate();
        circuits
            .filter(|(index, circuit)| (0..circuit.poles.len()).any(|pole| is_open((*index, pole))))
            .map(|(_, circuit)| circuit.tag.as_str())
            .collect()
    };
    let pole = |(circuit, pole): (usize, usize)| &list.circuits[circuit].poles[pole];
    let joined = |of: (usize, usize), serves: &dyn Fn((usize, usize)) -> bool| {
        let mut links = list.links.iter();
        links.any(|link| link.contains(&of) && link.iter().any(|other| serves(*other)))
    };
    let has_from = |of: (usize, usize)| pole(of).from.is_some();
    let has_to = |of: (usize, usize)| !pole(of).to.is_empty();
    let unfed = with(&|of| !has_from(of) && !joined(of, &has_from));
    let idle = with(&|of| !has_to(of) && !joined(of, &has_to));
    let mut remarks = Vec::new();
    if !unfed.is_empty() {
        remarks.push(format!(
            "nothing feeds {}: no `from` in the list, and no `[[link]]` to a circuit that has one",
            named(&unfed)
        ));
    }
    if !idle.is_empty() {
        remarks.push(format!(
            "nothing is fed by {}: no `to` in the list, and no `[[link]]` to a circuit that has one",
            named(&idle)
        ));
    }
    remarks
}

fn named(tags: &[&str]) -> String {
    let noun = if tags.len() == 1 {
        "circuit"
    } else {
        "circuits"
    };
    let shown = tags[..tags.len().min(MOST_NAMED)].join(", ");
    match tags.len().saturating_sub(MOST_NAMED) {
        0 => format!("{noun} {shown}"),
        more => format!("{noun} {shown} and {more} more"),
    }
}

#[cfg(test)]
mod tests {
    use super::remarks;
    use crate::requirements::RequirementList;
    use crate::source::SourceFile;
    use crate::workshop::Workshop;

    fn of(circuits: &str) -> Vec<String> {
        let text = format!(
            "[job]\ntag = \"JB-1\"\n[area]\nzone = 1\ngas_group = \"IIB\"\ntemperature_class = \"T6\"\n\
             [[cable]]\ntags = \"W1..W3\"\ncores = \"2 x 2.5 mm2\"\ndiameter_mm = 10\n{circuits}"
        );
        let file = SourceFile::from_text("list.toml", text);
        let list = RequirementList::from_source(file, &Workshop::default());
        remarks(&list.unwrap_or_else(|findings| panic!("{}", findings.render_plain())))
    }

    const IN: &str =
        "[[circuit]]\ntag = \"IN\"\npoles = 2\nvoltage_v = 230\ncurrent_a = 10\nfrom = \"W1\"\n";
    const OUT: &str = "[[circuit]]\ntags = \"OUT1..OUT2\"\npoles = 2\nvoltage_v = 230\ncurrent_a = 5\nto = \"W2..W3\"\n";

    #[test]
    fn circuits_with_one_end_are_told_until_a_link_joins_them() {
        let told = of(&[IN, OUT].concat());
        assert_eq!(told.len(), 2);
        assert!(
            told[0].starts_with("nothing feeds circuits OUT1, OUT2:"),
            "{told:?}"
        );
        assert!(
            told[1].starts_with("nothing is fed by circuit IN:"),
            "{told:?}"
        );
        let links = "[[link]]\npoles = [\"IN/1\", \"OUT1..OUT2/1\"]\n[[link]]\npoles = [\"IN/2\", \"OUT1..OUT2/2\"]\n";
        assert_eq!(of(&[IN, OUT, links].concat()), Vec::<String>::new());
        let through = IN.replace("from = \"W1\"", "from = \"W1\"\nto = \"W2\"");
        assert_eq!(of(&through), Vec::<String>::new());
    }
}
