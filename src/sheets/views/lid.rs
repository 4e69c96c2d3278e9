//! The lid from outside: holes from the datum, footprints, actuators with their colours, labels.

use super::parts::{FaceOutline, SMALL};
use super::positions::{self, Place};
use crate::arrangement::{Arrangement, PlacedElement};
use crate::catalogue::ElementKind;
use crate::sheets::drawing::{
    Align, Area, Canvas, Colour, Geometry, Ground, Label, Layer, Pen, Shape, Spot, TextStyle,
    advance_mm, centre_mark, datum, wrap,
};
use crate::sheets::subject;
use crate::sheets::{tables, tenth};
use crate::space::Face;

/// Two legends on one line that are closer would be read as one.
const ASIDE_MM: f64 = 2.0;
/// Distance between lines of a label.
const LINE_MM: f64 = 2.9;
/// The smallest scale at which legends stand on the lid.
const LEGENDS_FROM: f64 = 0.4;
/// How much wider than its hole an actuator is drawn: the collar of a usual 22 mm element (common
/// practice). Only the footprint is binding.
const COLLAR_MM: f64 = 7.0;

/// Draws the lid.
pub(super) fn draw(arrangement: &Arrangement, canvas: &mut Canvas) {
    let outline = FaceOutline::of(arrangement, Face::Lid);
    outline.draw(canvas, Layer::Hidden);
    outline.keep_clear(canvas);
    for element in &arrangement.elements {
        draw_element(element, Layer::Holes, canvas);
    }
    for element in &arrangement.elements {
        let foot = &element.footprint;
        canvas.reserve(canvas.area(foot.u_mm, foot.v_mm, foot.right_mm(), foot.top_mm()));
    }
    // At a small scale some legends have room and others not: then all are left to the view of the elements.
    if canvas.ratio() >= LEGENDS_FROM - 1e-9 {
        let inner = canvas.area(0.0, 0.0, outline.inner.0, outline.inner.1);
        for element in &arrangement.elements {
            write_label(arrangement, element, inner, canvas);
        }
    }
    draw_hinge(arrangement, &outline, canvas);
    draw_usable(arrangement, canvas);
    datum(canvas, "x", "y");
    let places: Vec<Place> = arrangement
        .elements
        .iter()
        .map(|element| {
            let foot = &element.footprint;
            let outline = Area::new(foot.u_mm, foot.v_mm, foot.right_mm(), foot.top_mm());
            Place {
                centre: (element.x_mm, element.y_mm),
                outline,
            }
        })
        .collect();
    let outer = outline.outer_area(canvas);
    positions::write(canvas, outer, &places);
    outline.dimension(canvas);
}

/// Footprint, actuator, hole on a layer, centre lines, tag.
pub(super) fn draw_element(element: &PlacedElement, of_hole: Layer, canvas: &mut Canvas) {
    let foot = &element.footprint;
    let area = canvas.area(foot.u_mm, foot.v_mm, foot.right_mm(), foot.top_mm());
    let background = element
        .background
        .as_deref()
        .and_then(Colour::by_name)
        .unwrap_or(Colour::White);
    let footprint = Shape::new(Layer::Outline, Geometry::Rectangle(area)).pen(Pen::solid(0.25));
    canvas.add(
        footprint
            .fill(background)
            .of(subject::element(&element.tag)),
    );
    let centre = canvas.spot(element.x_mm, element.y_mm);
    let ratio = canvas.ratio();
    let [width, height] = element.hole_mm;
    let half = (width / 2.0 * ratio, height / 2.0 * ratio);
    let is_round = (width - height).abs() < 1e-6;
    let hole = if is_round {
        Geometry::Circle {
            centre,
            radius_mm: half.0,
        }
    } else {
        Geometry::Rectangle(Area::between(centre, centre).joined(&Area::between(
            centre.moved(-half.0, -half.1),
            centre.moved(half.0, half.1),
        )))
    };
    if is_round {
        let room_mm =
            (foot.width_mm.min(foot.height_mm) / 2.0 * ratio).min(half.0 + COLLAR_MM / 2.0 * ratio);
        let collar = Geometry::Circle {
            centre,
            radius_mm: room_mm.max(half.0),
        };
        let colour = Colour::by_name(&element.colour).unwrap_or(Colour::White);
        canvas.add(
            Shape::new(Layer::Outline, collar)
                .pen(Pen::solid(0.18))
                .fill(colour)
                .of(subject::element(&element.tag)),
        );
    }
    canvas.add(
        Shape::new(of_hole, hole)
            .fill(Colour::White)
            .of(subject::element(&element.tag)),
    );
    centre_mark(canvas, centre, half, 1.0);
    let tag = Label::centred(centre.moved(0.0, 2.2), SMALL.bold(), element.tag.clone());
    let above = area.top_mm - centre.y_mm + 1.7;
    let outside = [above, -(centre.y_mm - area.bottom_mm + 1.7)]
        .map(|dy| Label::centred(centre.moved(0.0, dy), SMALL.bold(), &*element.tag));
    let key = subject::element(&element.tag);
    let fits = tag.length_mm() < half.0 * 1.6 && half.1 > 3.6;
    let in_the_middle = Label::centred(centre, SMALL.bold(), element.tag.clone());
    if fits {
        canvas.write_first([tag].into_iter().chain(outside), Some(&key));
    } else if in_the_middle.length_mm() < half.0 * 1.6 && half.1 > 1.6 {
        // In a small hole the tag takes the place of the cross.
        canvas.write_on(in_the_middle, Colour::White, Some(&key));
    } else {
        canvas.write_over(outside.to_vec(), &key);
    }
    let size = Label::centred(
        centre.moved(0.0, -2.2),
        SMALL,
        tables::hole_words(element.hole_mm),
    );
    // With all of its corners in the hole, whose edge would cross it otherwise.
    let corner_mm = (size.length_mm() / 2.0).hypot(2.2 + SMALL.height_mm / 2.0);
    if corner_mm < half.0.min(half.1) - 0.2 {
        canvas.write_first([size], Some(&subject::element(&element.tag)));
    }
}

/// The text of the label, over its actuator: inside the footprint, else just over it, else just under it. Where none
/// has room at this scale it is left to the enlarged view and the table; false then. The legend of a selector names its
/// positions from left to right and is not broken into lines.
pub(super) fn write_label(
    arrangement: &Arrangement,
    element: &PlacedElement,
    inner: Area,
    canvas: &mut Canvas,
) -> bool {
    if element.label.is_empty() {
        return true;
    }
    let foot = &element.footprint;
    let area = canvas.area(foot.u_mm, foot.v_mm, foot.right_mm(), foot.top_mm());
    let centre = canvas.spot(element.x_mm, element.y_mm);
    let reach = (element.hole_mm[1] + if has_collar(element) { COLLAR_MM } else { 0.0 }) / 2.0
        * canvas.ratio();
    let within_mm = area.width_mm() - 0.8;
    let one_line = vec![element.label.clone()];
    let broken = if element.kind == ElementKind::Selector {
        one_line.clone()
    } else {
        // Words are never broken: where the longest is wider than the footprint, the label goes outside.
        let words = element.label.split_whitespace();
        let longest_mm = words
            .map(|word| advance_mm(word, &SMALL))
            .fold(0.0, f64::max);
        wrap(&element.label, &SMALL, within_mm.max(longest_mm + 1e-6))
    };
    let tall = |lines: &[String]| lines.len() as f64 * LINE_MM;
    let block = |lines: &[String], middle_mm: f64| -> Vec<Label> {
        lines
            .iter()
            .enumerate()
            .map(|(index, line)| {
                let y_mm = middle_mm + tall(lines) / 2.0 - (index as f64 + 0.5) * LINE_MM;
                Label::centred(Spot::new(area.centre().x_mm, y_mm), SMALL, line.clone())
            })
            .collect()
    };
    let (low_mm, high_mm) = (centre.y_mm + reach, area.top_mm);
    let fits = |lines: &&Vec<String>| {
        high_mm - low_mm >= tall(lines)
            && lines
                .iter()
                .all(|line| advance_mm(line, &SMALL) <= within_mm)
    };
    let within: Vec<Vec<Label>> = [&one_line, &broken]
        .into_iter()
        .filter(fits)
        .map(|lines| block(lines, (low_mm + high_mm) / 2.0))
        .collect();
    let others: Vec<Area> = arrangement
        .elements
        .iter()
        .filter(|other| other.tag != element.tag)
        .map(|other| {
            let foot = &other.footprint;
            canvas.area(foot.u_mm, foot.v_mm, foot.right_mm(), foot.top_mm())
        })
        .collect();
    // Neither on another element, whose label it would seem to be, nor across the edges of the lid.
    let is_apart = |lines: &Vec<Label>| {
        lines.iter().all(|line| {
            let area = line.area();
            inner.contains(&area) && !others.iter().any(|other| other.meets(&area))
        })
    };
    // Just over the footprint, else a line higher, else just under it, and never so near to a neighbour's legend that
    // both read as one.
    let over = |lines: &[String], higher_mm: f64| {
        block(lines, area.top_mm + tall(lines) / 2.0 + 0.6 + higher_mm)
    };
    let under = |lines: &[String]| block(lines, area.bottom_mm - tall(lines) / 2.0 - 0.6);
    let forms = [&broken, &one_line];
    let outside: Vec<Vec<Label>> = forms
        .map(|lines| over(lines, 0.0))
        .into_iter()
        .chain(forms.map(|lines| over(lines, LINE_MM)))
        .chain(forms.map(|lines| under(lines)))
        .filter(is_apart)
        .filter(|lines| {
            let mut areas = lines.iter().map(|line| line.area());
            areas.all(|area| !canvas.has_text_in(&area.widened(ASIDE_MM)))
        })
        .collect();
    let key = subject::element(&element.tag);
    canvas.write_block(&within, Ground::Drawn, &key)
        || canvas.write_block(&outside, Ground::Free, &key)
        || canvas.write_block(&outside, Ground::Drawn, &key)
}

/// Whether a collar is drawn round the hole.
fn has_collar(element: &PlacedElement) -> bool {
    !matches!(element.kind, ElementKind::Ammeter | ElementKind::Voltmeter)
}

/// The rectangle in which the lid may be drilled.
fn draw_usable(arrangement: &Arrangement, canvas: &mut Canvas) {
    let lid = &arrangement.enclosure.lid;
    if lid.area_mm2() <= 0.0 {
        let interior = &arrangement.enclosure.interior;
        let middle = canvas.spot(interior.width_mm / 2.0, interior.height_mm / 2.0);
        canvas.write_first(
            [Label::centred(
                middle,
                TextStyle::plain(2.5),
                "not to be drilled",
            )],
            None,
        );
        return;
    }
    let paper = canvas.area(lid.u_mm, lid.v_mm, lid.right_mm(), lid.top_mm());
    let words = format!(
        "drillable {} × {}",
        tenth(lid.width_mm),
        tenth(lid.height_mm)
    );
    let at = |x_mm: f64, y_mm: f64, align: Align| Label {
        at: Spot::new(x_mm, y_mm),
        style: SMALL.align(align),
        content: words.clone(),
    };
    canvas.write_first(
        [
            at(paper.left_mm + 1.0, paper.top_mm - 2.8, Align::Start),
            at(paper.right_mm - 1.0, paper.top_mm - 2.8, Align::End),
            at(paper.right_mm - 1.0, paper.bottom_mm + 1.0, Align::End),
            at(paper.left_mm + 1.0, paper.top_mm + 0.9, Align::Start),
        ],
        None,
    );
    canvas.interrupted_rectangle(Layer::Centre, paper, &"drillable".into());
}

/// The wall at which the lid is hinged.
fn draw_hinge(arrangement: &Arrangement, outline: &FaceOutline, canvas: &mut Canvas) {
    let Some(hinge) = arrangement.enclosure.hinge else {
        return;
    };
    let outer = outline.outer_area(canvas);
    let middle = outer.centre();
    let thick_mm = 1.4;
    let (bar, at, upwards) = match hinge {
        Face::Left => (
            Area::new(
                outer.left_mm,
                outer.bottom_mm,
                outer.left_mm + thick_mm,
                outer.top_mm,
            ),
            Spot::new(outer.left_mm + 3.4, middle.y_mm),
            true,
        ),
        Face::Right => (
            Area::new(
                outer.right_mm - thick_mm,
                outer.bottom_mm,
                outer.right_mm,
                outer.top_mm,
            ),
            Spot::new(outer.right_mm - 3.4, middle.y_mm),
            true,
        ),
        Face::Top => (
            Area::new(
                outer.left_mm,
                outer.top_mm - thick_mm,
                outer.right_mm,
                outer.top_mm,
            ),
            Spot::new(middle.x_mm, outer.top_mm - 3.4),
            false,
        ),
        _ => (
            Area::new(
                outer.left_mm,
                outer.bottom_mm,
                outer.right_mm,
                outer.bottom_mm + thick_mm,
            ),
            Spot::new(middle.x_mm, outer.bottom_mm + 3.4),
            false,
        ),
    };
    canvas.add(
        Shape::new(Layer::Outline, Geometry::Rectangle(bar))
            .pen(Pen::solid(0.18))
            .fill(Colour::Grey),
    );
    let style = if upwards { SMALL.upwards() } else { SMALL };
    // Where the wall is drawn thin, its inner edge lies under the word.
    canvas.write_on(Label::centred(at, style, "hinge"), Colour::White, None);
}
