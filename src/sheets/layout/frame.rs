//! What every sheet carries: border, title block, scale bar, projection symbol, cautions. Border and
//! title block follow ISO 5457 and ISO 7200 in their arrangement (from memory).

use super::Page;
use super::paper::{Paper, REVISION_MM, REVISIONS_MM};
use super::scale::Scale;
use crate::arrangement::{Arrangement, CAUTION};
use crate::sheets::drawing::{
    Align, Area, Colour, Geometry, Group, Label, Layer, Pen, Shape, Spot, TextStyle, advance_mm,
    shortened, wrap,
};
use crate::sheets::{failing, tenth};

/// Height of the caution lines at the foot of the title block.
const CAUTION_MM: f64 = 14.0;
/// Height of a row of fields.
const ROW_MM: f64 = 12.0;
const FIELD: TextStyle = TextStyle {
    height_mm: 2.5,
    bold: false,
    upwards: false,
    align: Align::Start,
};
const CAPTION: TextStyle = TextStyle {
    height_mm: 1.8,
    bold: false,
    upwards: false,
    align: Align::Start,
};

/// Draws border and title block of sheet `number` of `count`; `failing` is what is said of an arrangement that does
/// not hold.
pub(super) fn draw(
    arrangement: &Arrangement,
    paper: Paper,
    page: &Page,
    (number, count): (usize, usize),
    failing: Option<&str>,
) -> Group {
    let mut shapes = Vec::new();
    shapes.push(Shape::new(Layer::Frame, Geometry::Rectangle(paper.inner())));
    draw_centring_marks(paper, &mut shapes);
    let block = paper.block();
    shapes.push(
        Shape::new(Layer::Text, Geometry::Rectangle(block))
            .pen(Pen::solid(0.5))
            .fill(Colour::White),
    );
    draw_cautions(arrangement, failing, block, &mut shapes);
    if failing.is_some() {
        shapes.push(mark_in_margin(paper));
    }
    draw_revisions(arrangement, block, &mut shapes);
    draw_fields(arrangement, page, (number, count), block, &mut shapes);
    Group {
        name: "frame".into(),
        title: String::new(),
        view: None,
        shapes,
    }
}

/// Length of a centring mark outside the border.
const CENTRING_MM: f64 = 5.0;

/// Short lines in the middle of each side, to align copies.
fn draw_centring_marks(paper: Paper, shapes: &mut Vec<Shape>) {
    let inner = paper.inner();
    let middle = inner.centre();
    for (from, to) in [
        (
            Spot::new(middle.x_mm, inner.bottom_mm - CENTRING_MM),
            Spot::new(middle.x_mm, inner.bottom_mm),
        ),
        (
            Spot::new(middle.x_mm, inner.top_mm),
            Spot::new(middle.x_mm, inner.top_mm + CENTRING_MM),
        ),
        (
            Spot::new(inner.left_mm - CENTRING_MM, middle.y_mm),
            Spot::new(inner.left_mm, middle.y_mm),
        ),
        (
            Spot::new(inner.right_mm, middle.y_mm),
            Spot::new(inner.right_mm + CENTRING_MM, middle.y_mm),
        ),
    ] {
        shapes.push(Shape::new(Layer::Frame, Geometry::Line(from, to)));
    }
}

/// That the arrangement does not hold, large and upwards in the margin for filing; clear of the centring mark.
fn mark_in_margin(paper: Paper) -> Shape {
    let inner = paper.inner();
    let free_mm = inner.left_mm - CENTRING_MM;
    let middle = Spot::new(free_mm / 2.0, inner.centre().y_mm);
    let style = TextStyle::plain(7.0).bold().upwards();
    Shape::new(
        Layer::Text,
        Geometry::Text(Label::centred(middle, style, failing::MARK)),
    )
}

/// That the arrangement does not hold, the caution and the catalogue's warning; what is too long for the block is cut with dots, the
/// full sentence stands in the arrangement.
fn draw_cautions(
    arrangement: &Arrangement,
    failing: Option<&str>,
    block: Area,
    shapes: &mut Vec<Shape>,
) {
    let width_mm = block.width_mm() - 3.0;
    let mut lines: Vec<String> = failing.into_iter().map(str::to_string).collect();
    lines.extend(wrap(CAUTION, &CAPTION.bold(), width_mm));
    if let Some(warning) = &arrangement.catalogue_warning {
        lines.extend(wrap(warning, &CAPTION.bold(), width_mm));
    }
    let room = (CAUTION_MM / 3.2) as usize;
    if lines.len() > room {
        lines.truncate(room);
        if let Some(last) = lines.last_mut() {
            *last = shortened(&format!("{last} …"), &CAPTION.bold(), width_mm);
        }
    }
    for (index, line) in lines.iter().enumerate() {
        let y_mm = block.bottom_mm + CAUTION_MM - 3.2 * (index as f64 + 1.0) + 0.2;
        let at = Spot::new(block.left_mm + 1.5, y_mm);
        shapes.push(text(at, CAPTION.bold(), line));
    }
    let top_mm = block.bottom_mm + CAUTION_MM;
    shapes.push(rule(
        Spot::new(block.left_mm, top_mm),
        Spot::new(block.right_mm, top_mm),
        0.35,
    ));
}

/// The value of a field whose upper left corner is given: what is too long for one line in two smaller ones, and
/// cut only where those do not hold it.
fn field_value(corner: Spot, style: TextStyle, value: &str, width_mm: f64) -> Vec<Shape> {
    if advance_mm(value, &style) <= width_mm {
        return vec![text(corner.moved(0.0, -8.6), style, value)];
    }
    let small = TextStyle {
        height_mm: CAPTION.height_mm,
        ..style
    };
    let lines = wrap(value, &small, width_mm);
    let (first, rest) = lines
        .split_first()
        .map_or(("", &[][..]), |(first, rest)| (first.as_str(), rest));
    let second = shortened(&rest.join(" "), &small, width_mm);
    vec![
        text(corner.moved(0.0, -6.4), small, first),
        text(corner.moved(0.0, -9.4), small, &second),
    ]
}

/// Columns of the revision table with their widths.
const REVISION_COLUMNS: [(&str, f64); 5] = [
    ("Rev.", 14.0),
    ("Change", 96.0),
    ("Date", 24.0),
    ("Drawn", 23.0),
    ("Checked", 23.0),
];

/// The revision table: the heading below, as it grows upwards; over it the revision of the list, whose
/// change, date and names are written by hand, and an empty line for the next.
fn draw_revisions(arrangement: &Arrangement, block: Area, shapes: &mut Vec<Shape>) {
    let bottom_mm = block.top_mm - REVISIONS_MM;
    let mut left_mm = block.left_mm;
    for (index, (heading, width_mm)) in REVISION_COLUMNS.into_iter().enumerate() {
        let at = |row: f64| Spot::new(left_mm + 1.2, bottom_mm + row * REVISION_MM + 1.3);
        shapes.push(text(at(0.0), CAPTION, heading));
        if index == 0 {
            let revision = shortened(&arrangement.job.revision, &CAPTION.bold(), width_mm - 2.4);
            if !revision.is_empty() {
                shapes.push(text(at(1.0), CAPTION.bold(), &revision));
            }
        }
        left_mm += width_mm;
        if left_mm < block.right_mm - 0.1 {
            let ends = (
                Spot::new(left_mm, bottom_mm),
                Spot::new(left_mm, block.top_mm),
            );
            shapes.push(rule(ends.0, ends.1, 0.18));
        }
    }
    for row in 0..3 {
        let y_mm = bottom_mm + f64::from(row) * REVISION_MM;
        let width_mm = if row == 0 { 0.35 } else { 0.18 };
        let ends = (
            Spot::new(block.left_mm, y_mm),
            Spot::new(block.right_mm, y_mm),
        );
        shapes.push(rule(ends.0, ends.1, width_mm));
    }
}

/// Caption, value and width of a field, millimetres.
type Field<'a> = (&'a str, &'a str, f64);

/// The fields in three rows.
fn draw_fields(
    arrangement: &Arrangement,
    page: &Page,
    (number, count): (usize, usize),
    block: Area,
    shapes: &mut Vec<Shape>,
) {
    let job = &arrangement.job;
    let enclosure = &arrangement.enclosure;
    let [width, height, depth] = enclosure.outer_mm;
    let box_words = format!(
        "{}, {} × {} × {} mm, {}",
        enclosure.id,
        tenth(width),
        tenth(height),
        tenth(depth),
        enclosure.orientation.words()
    );
    let scale = page
        .scale
        .map_or("–".to_string(), |scale| scale.name.to_string());
    let sheet = format!("{number} of {count}");
    let rows: [&[Field<'_>]; 3] = [
        &[("Tag", &job.tag, 50.0), ("Title", &job.title, 130.0)],
        &[
            ("Sheet title", &page.title, 80.0),
            ("Enclosure (outer size)", &box_words, 100.0),
        ],
        &[
            ("Customer reference", &job.customer_reference, 40.0),
            ("Revision", &job.revision, 18.0),
            ("Drawn / date", "", 26.0),
            ("Checked / date", "", 26.0),
            ("Scale", &scale, 14.0),
            ("Sheet", &sheet, 18.0),
        ],
    ];
    let mut top_mm = block.top_mm - REVISIONS_MM;
    let height_mm = ROW_MM;
    for fields in rows {
        let mut left_mm = block.left_mm;
        for (caption, value, width_mm) in fields.iter().copied() {
            shapes.push(text(
                Spot::new(left_mm + 1.2, top_mm - 3.2),
                CAPTION,
                caption,
            ));
            if !value.is_empty() {
                let style = if caption == "Tag" {
                    FIELD.bold()
                } else {
                    FIELD
                };
                let at = Spot::new(left_mm + 1.2, top_mm);
                shapes.extend(field_value(at, style, value, width_mm - 2.4));
            }
            left_mm += width_mm;
            if left_mm < block.right_mm - 0.1 {
                let line = (
                    Spot::new(left_mm, top_mm - height_mm),
                    Spot::new(left_mm, top_mm),
                );
                shapes.push(rule(line.0, line.1, 0.18));
            }
        }
        // The first-angle symbol takes the rest of the last row.
        if left_mm < block.right_mm - 20.0 {
            let middle = Spot::new((left_mm + block.right_mm) / 2.0, top_mm - height_mm / 2.0);
            draw_projection(middle, shapes);
        }
        top_mm -= height_mm;
        shapes.push(rule(
            Spot::new(block.left_mm, top_mm),
            Spot::new(block.right_mm, top_mm),
            0.18,
        ));
    }
}

/// The symbol of first-angle projection (ISO 5456-2, from memory): a truncated cone, its view from
/// the left drawn to the right of it.
fn draw_projection(middle: Spot, shapes: &mut Vec<Shape>) {
    let pen = Pen::solid(0.35);
    let cone = middle.moved(-6.0, 0.0);
    let spots = vec![
        cone.moved(-4.0, -1.5),
        cone.moved(-4.0, 1.5),
        cone.moved(4.0, 3.0),
        cone.moved(4.0, -3.0),
    ];
    shapes.push(
        Shape::new(
            Layer::Text,
            Geometry::Polyline {
                spots,
                closed: true,
            },
        )
        .pen(pen),
    );
    let round = middle.moved(6.5, 0.0);
    for radius_mm in [1.5, 3.0] {
        shapes.push(
            Shape::new(
                Layer::Text,
                Geometry::Circle {
                    centre: round,
                    radius_mm,
                },
            )
            .pen(pen),
        );
    }
    let axis = Layer::Centre.pen();
    let thin = Pen {
        width_mm: axis.width_mm,
        ..axis
    };
    for (from, to) in [
        (cone.moved(-5.0, 0.0), cone.moved(5.0, 0.0)),
        (round.moved(-4.0, 0.0), round.moved(4.0, 0.0)),
        (round.moved(0.0, -4.0), round.moved(0.0, 4.0)),
    ] {
        shapes.push(Shape::new(Layer::Text, Geometry::Line(from, to)).pen(thin));
    }
}

/// Over the title block: for views to scale a bar of round length, by which a copy of any size can be
/// measured, and what the dimensions mean; then remarks on the sheet.
pub(super) fn notes(paper: Paper, scale: Option<Scale>, remarks: &[String]) -> Vec<Shape> {
    let block = paper.block();
    let at = Spot::new(block.left_mm + 4.0, block.top_mm + 2.0);
    let mut shapes = scale.map_or(Vec::new(), |scale| scale_bar(at, scale));
    let up_mm = if shapes.is_empty() { 0.0 } else { 6.2 };
    let width_mm = block.width_mm() - 4.0;
    let lines = wrap(&remarks.join(" "), &CAPTION, width_mm);
    let (first, rest) = lines
        .split_first()
        .map_or(("", &[][..]), |(first, rest)| (first.as_str(), rest));
    // Two lines at most, the first over the second.
    let second = shortened(&rest.join(" "), &CAPTION, width_mm);
    let up_of_first_mm = if second.is_empty() { 1.2 } else { 3.2 };
    for (line, up_of_line_mm) in [(first, up_of_first_mm), (second.as_str(), 0.0)] {
        if !line.is_empty() {
            shapes.push(text(at.moved(0.0, up_mm + up_of_line_mm), CAPTION, line));
        }
    }
    shapes
}

/// The bar with the meaning of the dimensions beside it.
fn scale_bar(at: Spot, scale: Scale) -> Vec<Shape> {
    // About 40 mm of paper, in 1-2-5 steps.
    let wished = 42.0 / scale.ratio;
    let length_mm = [10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0]
        .into_iter()
        .rfind(|step| *step <= wished)
        .unwrap_or(10.0);
    let part = length_mm / 5.0 * scale.ratio;
    let mut shapes = Vec::new();
    for index in 0..5 {
        let left = at.x_mm + f64::from(index) * part;
        let cell = Area::new(left, at.y_mm, left + part, at.y_mm + 1.6);
        let colour = if index % 2 == 0 {
            Colour::Black
        } else {
            Colour::White
        };
        shapes.push(
            Shape::new(Layer::Text, Geometry::Rectangle(cell))
                .pen(Pen::solid(0.18))
                .fill(colour),
        );
    }
    let end_mm = length_mm * scale.ratio;
    for (x_mm, words) in [
        (0.0, "0".to_string()),
        (end_mm, format!("{} mm", tenth(length_mm))),
    ] {
        shapes.push(text(
            at.moved(x_mm, 2.4),
            CAPTION.align(Align::Middle),
            &words,
        ));
    }
    let meaning = format!(
        "Scale {}. Dimensions in mm; positions from the datum (circle) of each view.",
        scale.name
    );
    shapes.push(text(at.moved(end_mm + 7.0, -0.1), CAPTION, &meaning));
    shapes
}

fn text(at: Spot, style: TextStyle, content: &str) -> Shape {
    Shape::new(
        Layer::Text,
        Geometry::Text(Label {
            at,
            style,
            content: content.to_string(),
        }),
    )
}

fn rule(from: Spot, to: Spot, width_mm: f64) -> Shape {
    Shape::new(Layer::Text, Geometry::Line(from, to)).pen(Pen::solid(width_mm))
}
