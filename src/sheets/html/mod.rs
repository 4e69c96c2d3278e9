//! A job as one page of HTML that needs nothing else: summary, drawings whose parts answer to pointer and
//! keyboard, tables that sort and filter, heat, record, marking. Knows how they are shown, not how they
//! are made.
//!
//! Without JavaScript everything is there to read and print; the script only ties together, sorts and
//! filters. Text of the user is escaped everywhere, and the page may not load anything from elsewhere.

mod links;
mod lists;
mod markup;
mod measured;
mod record;

use super::drawing::Sheet;
use super::views::ViewName;
use super::{fixed, layout, tenth, writers};
use crate::arrangement::{Arrangement, CAUTION, EntryPurpose};
use crate::audit::{AuditReport, audit};
use crate::letters::capital;
use markup::{Table, escaped, sentences, terms};
use std::fmt::Write as _;

/// How the page looks.
const STYLE: &str = include_str!("page.css");
/// How the page answers.
const SCRIPT: &str = include_str!("page.js");
/// Width on a screen of one millimetre of a drawing's paper, in pixels: small text is then read easily.
const SCREEN_PX: f64 = 4.8;

/// Paper of a drawing that takes the page's whole width.
const WHOLE_MM: (f64, f64) = (277.0, 240.0);
/// Paper of a drawing beside which another one stands.
const HALF_MM: (f64, f64) = (132.0, 132.0);

/// The drawings of the page, in this order.
const DRAWINGS: [ViewName; 9] = [
    ViewName::Inside,
    ViewName::Section,
    ViewName::Lid,
    ViewName::Bottom,
    ViewName::Right,
    ViewName::Top,
    ViewName::Left,
    ViewName::Pictorial,
    ViewName::Open,
];

/// The sections of the page: `id` and heading.
const SECTIONS: [(&str, &str); 6] = [
    ("summary", "Summary"),
    ("drawings", "Drawings"),
    ("lists", "Lists and schedules"),
    ("heat", "Heat"),
    ("record", "Compliance record"),
    ("marking", "Marking, proposed"),
];

/// The page of a job as a standalone HTML file. The same arrangement gives the same bytes.
///
/// # Errors
/// Where the data of the page cannot be written as JSON.
pub fn page(arrangement: &Arrangement) -> Result<String, serde_json::Error> {
    let report = audit(arrangement, None);
    let assessment = crate::heat::assess(arrangement);
    let proposal = crate::marking::marking_with(arrangement, &assessment);
    // No `<` in the data: nothing in it can end the element or begin another.
    let data = serde_json::to_string(&measured::with_rules(
        arrangement,
        &report,
        links::links(arrangement),
    ))?
    .replace('<', "\\u003c");
    let cautions = cautions(arrangement, &report);
    let fails = report.failing().next().is_some();
    let mut out = head(arrangement, &cautions, fails);
    let contents = [
        summary(arrangement, &report),
        drawings(arrangement, fails),
        // What a box is made by is not given of one that does not hold.
        if fails {
            format!("<p>{NO_LISTS}</p>\n")
        } else {
            tables(arrangement)
        },
        record::heat(arrangement, &assessment, &report),
        record::rules(&report),
        record::marking(&proposal),
    ];
    for ((id, heading), content) in SECTIONS.into_iter().zip(contents) {
        let _ = write!(
            out,
            "<section id=\"{id}\" class=\"chapter\" aria-labelledby=\"{id}-title\">\n\
             <h2 id=\"{id}-title\">{heading}</h2>\n{content}</section>\n"
        );
    }
    let _ = write!(
        out,
        "</main>\n<aside id=\"panel\" aria-live=\"polite\" aria-label=\"Chosen part\" hidden></aside>\n\
         <footer><p>{}</p></footer>\n\
         <script type=\"application/json\" id=\"job-data\">{data}</script>\n\
         <script>\n{SCRIPT}</script>\n</body>\n</html>\n",
        escaped(&cautions.join(" "))
    );
    Ok(out)
}

/// Instead of lists and schedules.
const NO_LISTS: &str = "This arrangement does not hold: lists and schedules, by which it would be made, are not given.";

/// What stands on every printed page: below which box it is of and that it is a design aid; above, and over every
/// drawing, that it does not hold.
fn marks(arrangement: &Arrangement, fails: bool) -> String {
    let job = &arrangement.job;
    let of = super::contents::box_words(&job.tag, &job.revision);
    let below = css_string(&format!("{of}. {CAUTION}"));
    let mut out =
        format!("@page {{ @bottom-left {{ content: {below}; font: 7pt sans-serif; }} }}\n");
    if fails {
        let mark = css_string(super::failing::MARK);
        let _ = writeln!(
            out,
            "@page {{ @top-center {{ content: {mark}; font: bold 10pt sans-serif; }} }}\n\
             .drawings.fails figcaption::before {{ content: {mark}; font-weight: bold; flex-basis: 100%; }}"
        );
    }
    out
}

/// A text as a string of a style sheet: what could end it, or the element that holds it, is written as its number.
fn css_string(text: &str) -> String {
    let mut out = String::from("\"");
    for letter in text.chars() {
        if letter.is_alphanumeric() || " .,:;/()–-_+".contains(letter) {
            out.push(letter);
        } else {
            let _ = write!(out, "\\{:x} ", u32::from(letter));
        }
    }
    out.push('"');
    out
}

/// Everything up to the first section.
fn head(arrangement: &Arrangement, cautions: &[String], fails: bool) -> String {
    let job = &arrangement.job;
    let marks = marks(arrangement, fails);
    let title = [job.tag.as_str(), job.title.as_str()].join(" ");
    let links: String = SECTIONS
        .iter()
        .map(|(id, heading)| format!("<li><a href=\"#{id}\">{heading}</a></li>"))
        .collect();
    let warnings: String = cautions
        .iter()
        .map(|caution| format!("<p>{}</p>", escaped(caution)))
        .collect();
    let subtitle = if job.title.is_empty() {
        String::new()
    } else {
        format!(" <span>{}</span>", escaped(&job.title))
    };
    format!(
        "<!DOCTYPE html>\n<html lang=\"en-GB\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src \
         'unsafe-inline'; script-src 'unsafe-inline'\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <title>{}</title>\n<style>\n{STYLE}{marks}</style>\n</head>\n<body>\n\
         <a class=\"skip\" href=\"#main\">Skip to the summary</a>\n\
         <header>\n<h1><strong>{}</strong>{subtitle}</h1>\n\
         <div class=\"caution\" role=\"note\" aria-label=\"Cautions\">{warnings}</div>\n\
         <nav aria-label=\"Contents\"><ul>{links}</ul></nav>\n</header>\n<main id=\"main\">\n",
        escaped(title.trim()),
        escaped(&job.tag)
    )
}

/// That the arrangement does not hold, the catalogue's warning, then that of the program; each ends as a sentence.
fn cautions(arrangement: &Arrangement, report: &AuditReport) -> Vec<String> {
    let failing = super::failing::in_words(report).into_iter();
    let catalogue = arrangement.catalogue_warning.iter();
    let catalogue = catalogue.map(|warning| capital(warning));
    failing
        .chain(catalogue)
        .map(|caution| format!("{}.", caution.trim_end_matches('.')))
        .chain([CAUTION.to_string()])
        .collect()
}

/// What the reader wants first.
fn summary(arrangement: &Arrangement, report: &AuditReport) -> String {
    let (job, enclosure) = (&arrangement.job, &arrangement.enclosure);
    let [width, height, depth] = enclosure.outer_mm.map(tenth);
    let spare_terminals = arrangement.terminals.iter().filter(|t| t.spare).count();
    let is_spare = |purpose: &EntryPurpose| *purpose == EntryPurpose::Spare;
    let spare_entries = arrangement
        .entries
        .iter()
        .filter(|entry| is_spare(&entry.purpose))
        .count();
    let heat = &arrangement.heat;
    let area = &arrangement.area;
    let levels: Vec<String> = area.epl.iter().map(ToString::to_string).collect();
    let groups = [
        area.gas_group.map(|group| group.to_string()),
        area.dust_group.map(|group| group.to_string()),
        area.temperature_class.map(|class| class.to_string()),
        area.max_surface_c
            .map(|most| format!("{} °C", super::number(most, 1))),
    ];
    let groups: Vec<String> = levels
        .into_iter()
        .chain(groups.into_iter().flatten())
        .collect();
    let holds = if report.holds() { "holds" } else { "fails" };
    let mut out = format!(
        "<p class=\"verdict {holds}\">{}</p>\n",
        escaped(&record::verdict(report))
    );
    out.push_str(&terms(&[
        (
            "Enclosure",
            format!("{}, {}", enclosure.id, enclosure.description),
        ),
        (
            "Size",
            format!(
                "{width} × {height} × {depth} mm, {}",
                enclosure.orientation.words()
            ),
        ),
        ("Material", enclosure.material.words().to_string()),
        (
            "Area",
            format!(
                "{}, {} to {} °C, {}",
                groups.join(", "),
                super::number(area.ambient_c[0], 1),
                super::number(area.ambient_c[1], 1),
                area.ip
            ),
        ),
        (
            "Heat",
            format!(
                "{} W of {} W permitted",
                fixed(heat.power_w, 2),
                fixed(heat.permitted_power_w, 2)
            ),
        ),
        (
            "Terminals",
            format!(
                "{}, {spare_terminals} of them spare",
                arrangement.terminals.len()
            ),
        ),
        (
            "Entries",
            format!(
                "{}, {spare_entries} of them spare",
                arrangement.entries.len()
            ),
        ),
        ("Elements", arrangement.elements.len().to_string()),
        ("Mass", format!("{} kg", fixed(arrangement.mass_kg, 1))),
        (
            "Price",
            format!("{} {}", fixed(arrangement.price, 2), arrangement.currency),
        ),
        ("Revision", job.revision.clone()),
        ("Customer's reference", job.customer_reference.clone()),
        ("Notes", job.notes.clone()),
        ("Catalogue", arrangement.catalogue.clone()),
    ]));
    out.push_str(&record::key_margins(report).html());
    let begun = |lines: &[String]| lines.iter().map(|line| capital(line)).collect::<Vec<_>>();
    out.push_str(&sentences("Estimated", &begun(&arrangement.estimates)));
    out + &sentences("Remarks", &begun(&arrangement.remarks))
}

/// One drawing with its caption.
fn figure(out: &mut String, name: &str, class: &str, [words, about]: [&str; 2], drawing: &Sheet) {
    let _ = write!(
        out,
        "<figure id=\"view-{name}\" class=\"{class}\">\n<figcaption><h3>{words}</h3> <span>{about}</span></figcaption>\n\
         <div class=\"paper\" style=\"--wide:{wide}px\">\n{svg}</div>\n</figure>\n",
        name = escaped(name),
        words = escaped(words),
        wide = fixed(drawing.width_mm * SCREEN_PX, 0),
        svg = writers::svg::write_inline(drawing)
    );
}

/// The views, and after the inside every rail enlarged.
fn drawings(arrangement: &Arrangement, fails: bool) -> String {
    let mut out = String::from(if fails {
        "<div class=\"drawings fails\">\n"
    } else {
        "<div class=\"drawings\">\n"
    });
    for view in DRAWINGS {
        let is_large = match view {
            ViewName::Inside | ViewName::Section => true,
            ViewName::Lid => !arrangement.elements.is_empty(),
            _ => false,
        };
        let (paper, class) = if is_large {
            (WHOLE_MM, "whole")
        } else {
            (HALF_MM, "half")
        };
        let drawing = layout::bare_within(arrangement, view, paper);
        let scale = if view.is_picture() {
            "for orientation, not for measuring"
        } else {
            "dimensions in mm from the datum"
        };
        figure(
            &mut out,
            view.name(),
            class,
            [view.words(), scale],
            &drawing,
        );
        if view == ViewName::Lid && !arrangement.elements.is_empty() {
            let about = "legends over their actuators, not for drilling";
            let elements = layout::elements_within(arrangement, WHOLE_MM);
            let words = &elements.heading;
            figure(&mut out, &elements.name, "whole", [words, about], &elements);
        }
        if view == ViewName::Inside {
            for (words, rail) in layout::rails_within(arrangement, WHOLE_MM) {
                let about = "at each clamp: cable / core, or element / point";
                figure(&mut out, &rail.name, "whole", [&words, about], &rail);
            }
        }
    }
    out + "</div>\n"
}

/// Lists and schedules.
fn tables(arrangement: &Arrangement) -> String {
    [
        lists::terminals,
        lists::cables,
        lists::circuits,
        lists::contacts,
        lists::wires,
        lists::drilling,
        lists::notes,
        lists::labels,
        lists::parts,
        lists::spare,
    ]
    .iter()
    .map(|list: &fn(&Arrangement) -> Table| list(arrangement).html())
    .collect()
}
