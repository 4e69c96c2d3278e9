//! A workbook as Office Open XML (ECMA-376, from memory): a worksheet for each list, typed cells, a bold
//! frozen head that is repeated on each printed page. Written here because a library for it
//! makes a clean build noticeably longer. The same lists give the same bytes: no clock, nothing compressed.

mod zip;

use super::svg::escaped as escape;
use crate::sheets::list::List;
use itertools::Itertools;
use std::fmt::Write as _;

/// What goes into a file.
pub(in crate::sheets) struct Workbook<'a> {
    /// Title of the document.
    pub title: &'a str,
    /// Printed over each page.
    pub header: &'a str,
    /// Printed under each page, a line each, two at most.
    pub footer: &'a [&'a str],
    /// Worksheets in order; their names are unique, at most 31 letters, without `[]:*?/\`.
    pub sheets: &'a [&'a List],
}

/// Narrowest and widest column, in characters.
const WIDTHS: (usize, usize) = (8, 60);
/// Most letters of a cell.
const LONGEST_CELL: usize = 32_767;
/// Most digits after the point for which there is a style; further ones are kept but not shown.
const MOST_DECIMALS: usize = 4;
/// Styles: plain text, the head, then numbers with 0 to [`MOST_DECIMALS`] digits after the point.
const HEAD: usize = 1;
const NUMBERS: usize = 2;

const DECLARATION: &str = "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?>\n";
const MAIN: &str = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const RELATIONS: &str = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE: &str = "http://schemas.openxmlformats.org/package/2006";

/// The file.
pub(in crate::sheets) fn write(workbook: &Workbook<'_>) -> Vec<u8> {
    let mut parts = vec![
        ("[Content_Types].xml".to_string(), content_types(workbook)),
        ("_rels/.rels".into(), package_relations()),
        ("docProps/core.xml".into(), properties(workbook)),
        ("xl/workbook.xml".into(), book(workbook)),
        (
            "xl/_rels/workbook.xml.rels".into(),
            book_relations(workbook),
        ),
        ("xl/styles.xml".into(), styles()),
    ];
    parts.extend(workbook.sheets.iter().enumerate().map(|(index, list)| {
        let name = format!("xl/worksheets/sheet{}.xml", index + 1);
        (name, worksheet(workbook, list))
    }));
    let files: Vec<(String, Vec<u8>)> = parts
        .into_iter()
        .map(|(name, text)| (name, (DECLARATION.to_string() + &text).into_bytes()))
        .collect();
    zip::pack(&files)
}

fn content_types(workbook: &Workbook<'_>) -> String {
    const KIND: &str = "application/vnd.openxmlformats-officedocument.spreadsheetml";
    const RELATION: &str = "application/vnd.openxmlformats-package";
    let mut out = format!(
        "<Types xmlns=\"{PACKAGE}/content-types\">\
         <Default Extension=\"rels\" ContentType=\"{RELATION}.relationships+xml\"/>\
         <Default Extension=\"xml\" ContentType=\"application/xml\"/>\
         <Override PartName=\"/docProps/core.xml\" ContentType=\"{RELATION}.core-properties+xml\"/>\
         <Override PartName=\"/xl/workbook.xml\" ContentType=\"{KIND}.sheet.main+xml\"/>\
         <Override PartName=\"/xl/styles.xml\" ContentType=\"{KIND}.styles+xml\"/>"
    );
    for index in 1..=workbook.sheets.len() {
        let _ = write!(
            out,
            "<Override PartName=\"/xl/worksheets/sheet{index}.xml\" ContentType=\"{KIND}.worksheet+xml\"/>"
        );
    }
    out + "</Types>"
}

fn package_relations() -> String {
    format!(
        "<Relationships xmlns=\"{PACKAGE}/relationships\">\
         <Relationship Id=\"rId1\" Type=\"{RELATIONS}/officeDocument\" Target=\"xl/workbook.xml\"/>\
         <Relationship Id=\"rId2\" Type=\"{PACKAGE}/relationships/metadata/core-properties\" \
         Target=\"docProps/core.xml\"/></Relationships>"
    )
}

/// Title and cautions of the document; no date.
fn properties(workbook: &Workbook<'_>) -> String {
    format!(
        "<cp:coreProperties xmlns:cp=\"{PACKAGE}/metadata/core-properties\" \
         xmlns:dc=\"http://purl.org/dc/elements/1.1/\"><dc:title>{}</dc:title>\
         <dc:description>{}</dc:description></cp:coreProperties>",
        escape(workbook.title),
        escape(&workbook.footer.join(" "))
    )
}

fn book(workbook: &Workbook<'_>) -> String {
    let mut sheets = String::new();
    let mut names = String::new();
    for (index, list) in workbook.sheets.iter().enumerate() {
        let (name, number) = (escape(list.name), index + 1);
        let _ = write!(
            sheets,
            "<sheet name=\"{name}\" sheetId=\"{number}\" r:id=\"rId{number}\"/>"
        );
        let (column, row) = (letters(list.columns.len()), list.rows.len() + 1);
        let _ = write!(
            names,
            "<definedName name=\"_xlnm.Print_Area\" localSheetId=\"{index}\">'{name}'!$A$1:${column}${row}\
             </definedName><definedName name=\"_xlnm.Print_Titles\" localSheetId=\"{index}\">\
             '{name}'!$1:$1</definedName>"
        );
    }
    format!(
        "<workbook xmlns=\"{MAIN}\" xmlns:r=\"{RELATIONS}\"><sheets>{sheets}</sheets>\
         <definedNames>{names}</definedNames></workbook>"
    )
}

fn book_relations(workbook: &Workbook<'_>) -> String {
    let mut out = format!("<Relationships xmlns=\"{PACKAGE}/relationships\">");
    let count = workbook.sheets.len();
    for index in 1..=count {
        let _ = write!(
            out,
            "<Relationship Id=\"rId{index}\" Type=\"{RELATIONS}/worksheet\" \
             Target=\"worksheets/sheet{index}.xml\"/>"
        );
    }
    let _ = write!(
        out,
        "<Relationship Id=\"rId{}\" Type=\"{RELATIONS}/styles\" Target=\"styles.xml\"/></Relationships>",
        count + 1
    );
    out
}

fn styles() -> String {
    let mut formats = String::new();
    let mut cells = String::new();
    for decimals in 0..=MOST_DECIMALS {
        let id = 164 + decimals;
        let code = if decimals == 0 {
            "0".to_string()
        } else {
            format!("0.{}", "0".repeat(decimals))
        };
        let _ = write!(formats, "<numFmt numFmtId=\"{id}\" formatCode=\"{code}\"/>");
        let _ = write!(
            cells,
            "<xf numFmtId=\"{id}\" fontId=\"0\" fillId=\"0\" borderId=\"0\" xfId=\"0\" \
             applyNumberFormat=\"1\"/>"
        );
    }
    let count = MOST_DECIMALS + 1;
    format!(
        "<styleSheet xmlns=\"{MAIN}\"><numFmts count=\"{count}\">{formats}</numFmts>\
         <fonts count=\"2\"><font><sz val=\"10\"/><name val=\"Arial\"/></font>\
         <font><b/><sz val=\"10\"/><name val=\"Arial\"/></font></fonts>\
         <fills count=\"2\"><fill><patternFill patternType=\"none\"/></fill>\
         <fill><patternFill patternType=\"gray125\"/></fill></fills>\
         <borders count=\"2\"><border><left/><right/><top/><bottom/><diagonal/></border>\
         <border><left/><right/><top/><bottom style=\"thin\"/><diagonal/></border></borders>\
         <cellStyleXfs count=\"1\"><xf numFmtId=\"0\" fontId=\"0\" fillId=\"0\" borderId=\"0\"/></cellStyleXfs>\
         <cellXfs count=\"{}\"><xf numFmtId=\"0\" fontId=\"0\" fillId=\"0\" borderId=\"0\" xfId=\"0\"/>\
         <xf numFmtId=\"0\" fontId=\"1\" fillId=\"0\" borderId=\"1\" xfId=\"0\" applyFont=\"1\" \
         applyBorder=\"1\"/>{cells}</cellXfs>\
         <cellStyles count=\"1\"><cellStyle name=\"Normal\" xfId=\"0\" builtinId=\"0\"/></cellStyles></styleSheet>",
        count + NUMBERS
    )
}

fn worksheet(workbook: &Workbook<'_>, list: &List) -> String {
    let mut columns = String::new();
    for (index, column) in list.columns.iter().enumerate() {
        let cells = list.rows.iter().filter_map(|row| row.get(index));
        let widest = cells.map(|cell| cell.chars().count()).max().unwrap_or(0);
        let width = (widest.max(column.heading.chars().count()) + 2).clamp(WIDTHS.0, WIDTHS.1);
        let number = index + 1;
        let _ = write!(
            columns,
            "<col min=\"{number}\" max=\"{number}\" width=\"{width}\" customWidth=\"1\"/>"
        );
    }
    let mut rows = String::from("<row r=\"1\">");
    for (index, column) in list.columns.iter().enumerate() {
        let place = letters(index + 1) + "1";
        rows.push_str(&text_cell(&place, HEAD, column.heading));
    }
    rows.push_str("</row>");
    for (index, row) in list.rows.iter().enumerate() {
        let number = index + 2;
        let _ = write!(rows, "<row r=\"{number}\">");
        for (index, (cell, column)) in row.iter().zip(&list.columns).enumerate() {
            let place = format!("{}{number}", letters(index + 1));
            match decimals(cell) {
                _ if cell.is_empty() => {}
                Some(decimals) if column.is_number => {
                    let style = NUMBERS + decimals.min(MOST_DECIMALS);
                    let _ = write!(rows, "<c r=\"{place}\" s=\"{style}\"><v>{cell}</v></c>");
                }
                _ => rows.push_str(&text_cell(&place, 0, cell)),
            }
        }
        rows.push_str("</row>");
    }
    let lines = workbook.footer.iter().take(2);
    let footer = lines.map(|line| printed(line)).join("\n");
    let last = format!("{}{}", letters(list.columns.len()), list.rows.len() + 1);
    format!(
        "<worksheet xmlns=\"{MAIN}\"><sheetPr><pageSetUpPr fitToPage=\"1\"/></sheetPr>\
         <dimension ref=\"A1:{last}\"/><sheetViews><sheetView workbookViewId=\"0\">\
         <pane ySplit=\"1\" topLeftCell=\"A2\" activePane=\"bottomLeft\" state=\"frozen\"/></sheetView>\
         </sheetViews><cols>{columns}</cols><sheetData>{rows}</sheetData>\
         <pageMargins left=\"0.4\" right=\"0.4\" top=\"0.7\" bottom=\"0.7\" header=\"0.3\" footer=\"0.3\"/>\
         <pageSetup paperSize=\"9\" orientation=\"landscape\" fitToWidth=\"1\" fitToHeight=\"0\"/>\
         <headerFooter><oddHeader>&amp;L{}&amp;R&amp;A</oddHeader>\
         <oddFooter>&amp;L{}&amp;R&amp;P / &amp;N</oddFooter></headerFooter></worksheet>",
        printed(workbook.header),
        footer
    )
}

/// Most letters of a line printed over or under pages: the format permits 255 for all of them with their codes.
const LONGEST_PRINTED: usize = 115;

/// A text printed over or under pages, cut with dots where it is too long: `&` is doubled, as one alone begins a code.
fn printed(text: &str) -> String {
    let doubled = |letter: char| if letter == '&' { 2 } else { 1 };
    let cost = |text: &str| -> usize { text.chars().map(doubled).sum() };
    let mut short = text.trim().to_string();
    if cost(&short) > LONGEST_PRINTED {
        while cost(&short) > LONGEST_PRINTED - 2 {
            short.pop();
        }
        short = format!("{} …", short.trim_end());
    }
    escape(&short.replace('&', "&&"))
}

/// A cell of text, stored in the cell itself.
fn text_cell(place: &str, style: usize, text: &str) -> String {
    let short: String = text.chars().take(LONGEST_CELL).collect();
    format!(
        "<c r=\"{place}\" s=\"{style}\" t=\"inlineStr\"><is><t xml:space=\"preserve\">{}</t></is></c>",
        escape(&short)
    )
}

/// Digits after the point of a plain decimal number; `None` for anything else.
fn decimals(cell: &str) -> Option<usize> {
    let digits = cell.strip_prefix('-').unwrap_or(cell);
    let (whole, part) = digits.split_once('.').unwrap_or((digits, "0"));
    let is_digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    (is_digits(whole) && is_digits(part)).then(|| match digits.split_once('.') {
        Some((_, part)) => part.len(),
        None => 0,
    })
}

/// The letters of a column, the first of which is 1.
fn letters(mut number: usize) -> String {
    let mut name = Vec::new();
    while number > 0 {
        let digit = (number - 1) % 26;
        name.push(char::from(b'A' + u8::try_from(digit).unwrap_or(0)));
        number = (number - 1) / 26;
    }
    name.iter().rev().collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_are_lettered() {
        let names: Vec<String> = [1, 26, 27, 52, 703].into_iter().map(letters).collect();
        assert_eq!(names, ["A", "Z", "AA", "AZ", "AAA"]);
    }

    #[test]
    fn only_plain_decimals_are_numbers() {
        assert_eq!(decimals("12"), Some(0));
        assert_eq!(decimals("-0.25"), Some(2));
        for text in ["", "-", "1e5", "inf", "1.", ".5", "1.5 + 1.5", "=1", "+1"] {
            assert_eq!(decimals(text), None, "{text}");
        }
    }

    #[test]
    fn printed_lines_leave_room_for_their_codes() {
        assert_eq!(printed("JB-1 & 2"), "JB-1 &amp;&amp; 2");
        let long = printed(&"&".repeat(200));
        assert_eq!(long.matches("&amp;").count() + 2, LONGEST_PRINTED - 1);
        assert!(long.ends_with(" …"), "{long}");
    }
}
