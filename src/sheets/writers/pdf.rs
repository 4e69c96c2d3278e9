//! Portable Document Format 1.7: one page a sheet, lines as lines and text as text that can be
//! searched and copied. The font is embedded, reduced to the letters in use.

use super::face::{BOLD, Face, REGULAR};
use crate::sheets::drawing::{Align, Colour, Geometry, Label, Layer, Shape, Sheet, Spot};
use pdf_writer::types::{CidFontType, FontFlags, LineCapStyle, PageMode, SystemInfo, UnicodeCmap};
use pdf_writer::{Content, Finish, Name, Pdf, Rect, Ref, Str, TextStr};

/// Points in a millimetre: a point is 1/72 inch.
const POINTS_PER_MM: f32 = 72.0 / 25.4;
/// Length of the handles of a Bézier curve that stands for a quarter circle, by its radius: the usual
/// approximation, off by less than 0.03 % of the radius.
const HANDLE: f64 = 0.552_284_749_8;
const IDENTITY: SystemInfo = SystemInfo {
    registry: Str(b"Adobe"),
    ordering: Str(b"Identity"),
    supplement: 0,
};

/// Object numbers of a font.
struct FontRefs {
    font: Ref,
    cid: Ref,
    descriptor: Ref,
    file: Ref,
    unicode: Ref,
}

/// Writes sheets as one document, a page each. `None` if the embedded font cannot be read, which a
/// test excludes.
pub fn write(sheets: &[Sheet], title: &str) -> Option<Vec<u8>> {
    let mut numbers = 1..;
    let mut next = || Ref::new(numbers.next().unwrap_or(i32::MAX));
    let (catalog, tree, info) = (next(), next(), next());
    let mut faces = [Face::new(REGULAR)?, Face::new(BOLD)?];
    let mut font_refs = || FontRefs {
        font: next(),
        cid: next(),
        descriptor: next(),
        file: next(),
        unicode: next(),
    };
    let fonts = [font_refs(), font_refs()];
    let pages: Vec<(Ref, Ref)> = sheets.iter().map(|_| (next(), next())).collect();
    let contents = next();
    let entries: Vec<Ref> = sheets.iter().map(|_| next()).collect();
    let mut pdf = Pdf::new();
    pdf.set_version(1, 7);
    pdf.catalog(catalog)
        .pages(tree)
        .outlines(contents)
        .page_mode(PageMode::UseOutlines)
        .lang(TextStr("en-GB"));
    write_contents(&mut pdf, sheets, &pages, contents, &entries)?;
    pdf.document_info(info)
        .title(TextStr(title))
        .producer(TextStr("glandrail"));
    pdf.pages(tree)
        .kids(pages.iter().map(|(page, _)| *page))
        .count(i32::try_from(pages.len()).ok()?);
    for (sheet, (page_ref, content_ref)) in sheets.iter().zip(&pages) {
        let mut page = pdf.page(*page_ref);
        let size = [sheet.width_mm, sheet.height_mm].map(|mm| mm as f32 * POINTS_PER_MM);
        page.parent(tree)
            .media_box(Rect::new(0.0, 0.0, size[0], size[1]))
            .contents(*content_ref);
        page.resources()
            .fonts()
            .pair(Name(b"F0"), fonts[0].font)
            .pair(Name(b"F1"), fonts[1].font);
        page.finish();
        pdf.stream(*content_ref, &page_content(sheet, &mut faces));
    }
    for (index, (face, refs)) in faces.iter().zip(&fonts).enumerate() {
        write_font(&mut pdf, face, index == 1, refs)?;
    }
    Some(pdf.finish())
}

/// The table of contents that a reader shows beside the pages: an entry for each sheet, with its number.
fn write_contents(
    pdf: &mut Pdf,
    sheets: &[Sheet],
    pages: &[(Ref, Ref)],
    contents: Ref,
    entries: &[Ref],
) -> Option<()> {
    let mut outline = pdf.outline(contents);
    if let (Some(first), Some(last)) = (entries.first(), entries.last()) {
        outline.first(*first).last(*last);
    }
    outline.count(i32::try_from(entries.len()).ok()?);
    outline.finish();
    for (index, (sheet, (page, _))) in sheets.iter().zip(pages).enumerate() {
        let words = format!("{}  {}", index + 1, sheet.heading);
        let mut entry = pdf.outline_item(*entries.get(index)?);
        entry.title(TextStr(&words)).parent(contents);
        if let Some(before) = index.checked_sub(1).and_then(|before| entries.get(before)) {
            entry.prev(*before);
        }
        if let Some(after) = entries.get(index + 1) {
            entry.next(*after);
        }
        entry.dest().page(*page).fit();
    }
    Some(())
}

/// The drawing of a page, in millimetres.
fn page_content(sheet: &Sheet, faces: &mut [Face; 2]) -> Vec<u8> {
    let mut content = Content::new();
    content.transform([POINTS_PER_MM, 0.0, 0.0, POINTS_PER_MM, 0.0, 0.0]);
    for shape in sheet.groups.iter().flat_map(|group| &group.shapes) {
        match &shape.geometry {
            Geometry::Text(label) => write_text(&mut content, label, faces),
            _ => write_shape(&mut content, shape),
        }
    }
    content.finish().to_vec()
}

fn write_shape(content: &mut Content, shape: &Shape) {
    if shape.pen.is_none() && shape.fill.is_none() {
        return;
    }
    if let Some(pen) = &shape.pen {
        content.set_stroke_gray(0.0);
        content.set_line_width(pen.width_mm as f32);
        content.set_dash_pattern(pen.dashes_mm().iter().map(|dash| *dash as f32), 0.0);
        content.set_line_cap(if shape.layer == Layer::Frame {
            LineCapStyle::ProjectingSquareCap
        } else {
            LineCapStyle::ButtCap
        });
    }
    if let Some(fill) = shape.fill {
        let [red, green, blue] = rgb(fill);
        content.set_fill_rgb(red, green, blue);
    }
    let is_closed = trace(content, &shape.geometry);
    if is_closed {
        content.close_path();
    }
    match (shape.fill.is_some(), shape.pen.is_some()) {
        (true, true) => content.fill_nonzero_and_stroke(),
        (true, false) => content.fill_nonzero(),
        _ => content.stroke(),
    };
}

/// Traces the line of a shape; returns whether it is closed.
fn trace(content: &mut Content, geometry: &Geometry) -> bool {
    match geometry {
        Geometry::Line(a, b) => {
            move_to(content, *a);
            line_to(content, *b);
            false
        }
        Geometry::Polyline { spots, closed } => {
            for (index, spot) in spots.iter().enumerate() {
                if index == 0 {
                    move_to(content, *spot);
                } else {
                    line_to(content, *spot);
                }
            }
            *closed
        }
        Geometry::Rectangle(area) => {
            content.rect(
                area.left_mm as f32,
                area.bottom_mm as f32,
                area.width_mm() as f32,
                area.height_mm() as f32,
            );
            false
        }
        Geometry::Circle { centre, radius_mm } => {
            trace_arc(content, *centre, *radius_mm, 0.0, 360.0);
            true
        }
        Geometry::Arc {
            centre,
            radius_mm,
            from_deg,
            to_deg,
        } => {
            let turn = (to_deg - from_deg).rem_euclid(360.0);
            trace_arc(content, *centre, *radius_mm, *from_deg, turn);
            false
        }
        Geometry::Text(_) => false,
    }
}

/// An arc as curves of at most a quarter circle each.
fn trace_arc(content: &mut Content, centre: Spot, radius_mm: f64, from_deg: f64, turn_deg: f64) {
    let pieces = (turn_deg / 90.0).ceil().max(1.0);
    let step = (turn_deg / pieces).to_radians();
    // The handle for a smaller piece follows from its angle; for a quarter it is the usual constant.
    let handle = if (step - std::f64::consts::FRAC_PI_2).abs() < 1e-9 {
        HANDLE
    } else {
        4.0 / 3.0 * (step / 4.0).tan()
    };
    let at = |angle: f64| centre.moved(radius_mm * angle.cos(), radius_mm * angle.sin());
    let along = |angle: f64, sign: f64| {
        let reach = sign * handle * radius_mm;
        at(angle).moved(-reach * angle.sin(), reach * angle.cos())
    };
    let begin = from_deg.to_radians();
    move_to(content, at(begin));
    for index in 0..pieces as u32 {
        let (from, to) = (
            begin + f64::from(index) * step,
            begin + f64::from(index + 1) * step,
        );
        let (a, b, end) = (along(from, 1.0), along(to, -1.0), at(to));
        content.cubic_to(
            a.x_mm as f32,
            a.y_mm as f32,
            b.x_mm as f32,
            b.y_mm as f32,
            end.x_mm as f32,
            end.y_mm as f32,
        );
    }
}

fn move_to(content: &mut Content, spot: Spot) {
    content.move_to(spot.x_mm as f32, spot.y_mm as f32);
}

fn line_to(content: &mut Content, spot: Spot) {
    content.line_to(spot.x_mm as f32, spot.y_mm as f32);
}

fn write_text(content: &mut Content, label: &Label, faces: &mut [Face; 2]) {
    let back_mm = match label.style.align {
        Align::Start => 0.0,
        Align::Middle => label.length_mm() / 2.0,
        Align::End => label.length_mm(),
    };
    let index = usize::from(label.style.bold);
    let bytes = faces[index].encode(&label.content);
    let name = if label.style.bold {
        Name(b"F1")
    } else {
        Name(b"F0")
    };
    let matrix = if label.style.upwards {
        let at = label.at.moved(0.0, -back_mm);
        [0.0, 1.0, -1.0, 0.0, at.x_mm as f32, at.y_mm as f32]
    } else {
        let at = label.at.moved(-back_mm, 0.0);
        [1.0, 0.0, 0.0, 1.0, at.x_mm as f32, at.y_mm as f32]
    };
    content
        .set_fill_gray(0.0)
        .begin_text()
        .set_font(name, label.style.size_mm() as f32)
        .set_text_matrix(matrix)
        .show(Str(&bytes))
        .end_text();
}

/// A composite font whose codes are the glyph numbers of the reduced file.
fn write_font(pdf: &mut Pdf, face: &Face, is_bold: bool, refs: &FontRefs) -> Option<()> {
    // A reduced font carries six letters before its name.
    let name: &[u8] = if is_bold {
        b"GLANDB+LiberationSans-Bold"
    } else {
        b"GLANDR+LiberationSans"
    };
    pdf.type0_font(refs.font)
        .base_font(Name(name))
        .encoding_predefined(Name(b"Identity-H"))
        .descendant_font(refs.cid)
        .to_unicode(refs.unicode);
    let mut cid = pdf.cid_font(refs.cid);
    cid.subtype(CidFontType::Type2)
        .base_font(Name(name))
        .system_info(IDENTITY)
        .font_descriptor(refs.descriptor)
        .default_width(0.0)
        .cid_to_gid_map_predefined(Name(b"Identity"));
    let mut widths = cid.widths();
    for (number, (_, width)) in face.used() {
        widths.consecutive(*number, [*width]);
    }
    widths.finish();
    cid.finish();
    let measures = face.measures();
    let [left, bottom, right, top] = measures.bounds;
    pdf.font_descriptor(refs.descriptor)
        .name(Name(name))
        .flags(FontFlags::SYMBOLIC)
        .bbox(Rect::new(left, bottom, right, top))
        .italic_angle(0.0)
        .ascent(measures.ascent)
        .descent(measures.descent)
        .cap_height(measures.capitals)
        .stem_v(if is_bold { 140.0 } else { 88.0 })
        .font_file2(refs.file);
    let file = face.reduced()?;
    let mut stream = pdf.stream(refs.file, &file);
    stream.pair(Name(b"Length1"), i32::try_from(file.len()).ok()?);
    stream.finish();
    let mut map = UnicodeCmap::new(Name(b"Glandrail"), IDENTITY);
    for (number, (character, _)) in face.used() {
        map.pair(*number, *character);
    }
    pdf.cmap(refs.unicode, &map.finish());
    Some(())
}

fn rgb(colour: Colour) -> [f32; 3] {
    colour.rgb().map(|part| f32::from(part) / 255.0)
}
