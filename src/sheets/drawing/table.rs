//! Tables, laid out to a width and cut to the height that a sheet has left.

use super::geometry::{Area, Spot};
use super::shape::{Geometry, Shape};
use super::style::{Layer, Pen};
use super::text::{Align, Label, TextStyle, advance_mm, wrap};

/// Capital height of cells and headings.
const CELL: TextStyle = TextStyle {
    height_mm: 1.8,
    bold: false,
    upwards: false,
    align: Align::Start,
};
/// Height of one line of text in a cell.
const LINE_MM: f64 = 3.1;
/// Height of a row beyond its lines.
const PADDING_MM: f64 = 1.3;
/// Between a cell's edge and its text.
const MARGIN_MM: f64 = 1.0;
/// Height of the title over the table.
const TITLE_MM: f64 = 6.0;
/// Narrowest column that text is wrapped into.
const NARROWEST_MM: f64 = 14.0;
/// A word longer than this may be broken.
const WIDEST_WORD_MM: f64 = 45.0;

/// What the title of a table says after its first piece.
const CONTINUED: &str = " (continued)";

/// A column.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Heading with the unit.
    pub heading: String,
    /// Alignment of its cells.
    pub align: Align,
    /// Whether long cells are broken into lines where the width is short.
    pub wraps: bool,
}

impl Column {
    /// A column of short words.
    pub fn words(heading: &str) -> Self {
        Self {
            heading: heading.into(),
            align: Align::Start,
            wraps: false,
        }
    }

    /// A column of numbers.
    pub fn numbers(heading: &str) -> Self {
        Self {
            heading: heading.into(),
            align: Align::End,
            wraps: false,
        }
    }

    /// A column of sentences.
    pub fn sentences(heading: &str) -> Self {
        Self {
            heading: heading.into(),
            align: Align::Start,
            wraps: true,
        }
    }
}

/// A table.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Short name.
    pub name: String,
    /// Words over the table.
    pub title: String,
    /// Columns.
    pub columns: Vec<Column>,
    /// Cells by row; each row has as many cells as there are columns. A line break in a cell begins a new line.
    pub rows: Vec<Vec<String>>,
}

/// A table with column widths and broken lines.
#[derive(Debug, Clone)]
pub struct LaidTable {
    title: String,
    columns: Vec<Column>,
    widths_mm: Vec<f64>,
    head: Vec<Vec<String>>,
    rows: Vec<Vec<Vec<String>>>,
}

impl Table {
    /// Width that the table takes without breaking any line.
    pub fn natural_width_mm(&self) -> f64 {
        self.natural_widths_mm().iter().sum()
    }

    /// Width of a column of paper in which the table may be continued: that without breaking any line, and
    /// room for the title of each piece.
    pub fn column_width_mm(&self) -> f64 {
        let title = format!("{}{CONTINUED}", self.title);
        self.natural_width_mm()
            .max(advance_mm(&title, &TextStyle::plain(2.5).bold()))
    }

    /// The least width at which no word of a column that does not wrap is broken, and the title fits.
    pub fn least_width_mm(&self) -> f64 {
        let least: f64 = self.least_widths_mm(&self.natural_widths_mm()).iter().sum();
        least.max(advance_mm(&self.title, &TextStyle::plain(2.5).bold()))
    }

    /// The least width of each column: the natural one where it does not wrap, else that of its longest word,
    /// so that no part number is broken.
    fn least_widths_mm(&self, natural: &[f64]) -> Vec<f64> {
        let words = |index: usize, column: &Column| {
            let cells = self.rows.iter().filter_map(|row| row.get(index));
            let widest = cells
                .flat_map(|cell| cell.split([' ', '\n']))
                .map(|word| advance_mm(word, &CELL))
                .fold(0.0, f64::max);
            let heading = column.heading.split(' ');
            heading
                .map(|word| advance_mm(word, &CELL.bold()))
                .fold(widest, f64::max)
                + 2.0 * MARGIN_MM
        };
        let columns = self.columns.iter().zip(natural).enumerate();
        columns
            .map(|(index, (column, natural_mm))| match column.wraps {
                true => {
                    let word_mm = words(index, column).min(WIDEST_WORD_MM);
                    natural_mm.min(word_mm.max(NARROWEST_MM))
                }
                false => *natural_mm,
            })
            .collect()
    }

    fn natural_widths_mm(&self) -> Vec<f64> {
        let longest = |index: usize, column: &Column| {
            let cells = self.rows.iter().filter_map(|row| row.get(index));
            let widest = cells
                .flat_map(|cell| cell.split('\n'))
                .map(|text| advance_mm(text, &CELL))
                .fold(0.0, f64::max);
            widest.max(advance_mm(&column.heading, &CELL.bold()))
        };
        self.columns
            .iter()
            .enumerate()
            .map(|(index, column)| longest(index, column) + 2.0 * MARGIN_MM)
            .collect()
    }

    /// Chooses column widths for a table of at most `width_mm` and breaks the lines of the cells.
    ///
    /// Columns keep their natural width where there is room; else the wrapping ones share what the
    /// others leave, and if that is too little all columns shrink alike.
    pub fn lay_out(&self, width_mm: f64) -> LaidTable {
        let natural = self.natural_widths_mm();
        let total: f64 = natural.iter().sum();
        let share = |wraps: bool| -> f64 {
            self.columns
                .iter()
                .zip(&natural)
                .filter(|(column, _)| column.wraps == wraps)
                .map(|(_, width)| width)
                .sum()
        };
        let (fixed, flexible) = (share(false), share(true));
        let least = self.least_widths_mm(&natural);
        let columns = self.columns.iter().zip(&least);
        let narrowest: f64 = columns
            .filter(|(column, _)| column.wraps)
            .map(|(_, mm)| mm)
            .sum();
        let widths_mm: Vec<f64> = if total <= width_mm {
            natural
        } else if flexible > 0.0 && width_mm - fixed >= narrowest - 1e-9 {
            shrink(&self.columns, &natural, &least, width_mm - fixed)
        } else {
            natural
                .iter()
                .map(|width| width * width_mm / total)
                .collect()
        };
        let broken = |cell: &str, index: usize, style: &TextStyle| {
            let width_mm = widths_mm[index] - 2.0 * MARGIN_MM + 1e-6;
            let paragraphs = cell.split('\n');
            paragraphs
                .flat_map(|text| wrap(text, style, width_mm))
                .collect()
        };
        let head = self
            .columns
            .iter()
            .enumerate()
            .map(|(i, c)| broken(&c.heading, i, &CELL.bold()))
            .collect();
        let rows = self
            .rows
            .iter()
            .map(|row| {
                let cells = row.iter().take(self.columns.len()).enumerate();
                cells
                    .map(|(index, cell)| broken(cell, index, &CELL))
                    .collect()
            })
            .collect();
        LaidTable {
            title: self.title.clone(),
            columns: self.columns.clone(),
            widths_mm,
            head,
            rows,
        }
    }
}

/// Shares `room_mm` among the wrapping columns: each gets its least width and an equal share of what is left
/// beyond those, but never more than its natural width; the narrowest first.
fn shrink(columns: &[Column], natural: &[f64], least: &[f64], room_mm: f64) -> Vec<f64> {
    let mut widths = natural.to_vec();
    let mut wrapping: Vec<usize> = (0..columns.len())
        .filter(|index| columns[*index].wraps)
        .collect();
    wrapping.sort_by(|a, b| natural[*a].total_cmp(&natural[*b]));
    // What all have at least is theirs already; the rest is shared.
    let mut left_mm = room_mm - wrapping.iter().map(|index| least[*index]).sum::<f64>();
    for (done, index) in wrapping.iter().enumerate() {
        let share = left_mm.max(0.0) / (wrapping.len() - done) as f64;
        widths[*index] = natural[*index].min(least[*index] + share);
        left_mm -= widths[*index] - least[*index];
    }
    widths
}

/// Height of a row with so many lines.
fn row_height_mm(row: &[Vec<String>]) -> f64 {
    let lines = row.iter().map(Vec::len).max().unwrap_or(1).max(1);
    lines as f64 * LINE_MM + PADDING_MM
}

impl LaidTable {
    /// Number of rows.
    pub fn row_count(&self) -> usize {
        self.rows.len()
    }

    /// The head, unless no column has a heading.
    fn head(&self) -> Option<&Vec<Vec<String>>> {
        let has_words = self.columns.iter().any(|column| !column.heading.is_empty());
        has_words.then_some(&self.head)
    }

    fn head_height_mm(&self) -> f64 {
        self.head().map_or(0.0, |head| row_height_mm(head))
    }

    /// Width over all columns.
    pub fn width_mm(&self) -> f64 {
        self.widths_mm.iter().sum()
    }

    /// Height of title, head and the rows from `first` on.
    pub fn height_mm(&self, first: usize) -> f64 {
        TITLE_MM
            + self.head_height_mm()
            + self
                .rows
                .iter()
                .skip(first)
                .map(|row| row_height_mm(row))
                .sum::<f64>()
    }

    /// How many rows from `first` on fit into a height, under title and head.
    pub fn rows_within(&self, first: usize, height_mm: f64) -> usize {
        let mut left_mm = height_mm - TITLE_MM - self.head_height_mm() + 1e-6;
        self.rows
            .iter()
            .skip(first)
            .take_while(|row| {
                left_mm -= row_height_mm(row);
                left_mm >= 0.0
            })
            .count()
    }

    /// Draws title, head and `count` rows from `first` on, with the upper left corner at a spot.
    /// Returns the shapes and the height taken.
    pub fn draw(&self, corner: Spot, first: usize, count: usize) -> (Vec<Shape>, f64) {
        let mut shapes = Vec::new();
        let mut title = self.title.clone();
        if first > 0 {
            title.push_str(CONTINUED);
        }
        let style = TextStyle::plain(2.5).bold();
        let title_at = corner.moved(0.0, -TITLE_MM + 2.2);
        shapes.push(text(Label {
            at: title_at,
            style,
            content: title,
        }));
        let mut top_mm = corner.y_mm - TITLE_MM;
        let table_top_mm = top_mm;
        let width_mm = self.width_mm();
        let chosen = self.rows.iter().skip(first).take(count);
        let head = self.head().map(|row| (row, true));
        for (row, is_head) in head.into_iter().chain(chosen.map(|row| (row, false))) {
            let style = if is_head { CELL.bold() } else { CELL };
            self.draw_row(&mut shapes, Spot::new(corner.x_mm, top_mm), row, style);
            top_mm -= row_height_mm(row);
            let pen = Pen::solid(if is_head { 0.35 } else { 0.18 });
            let line = Geometry::Line(
                Spot::new(corner.x_mm, top_mm),
                Spot::new(corner.x_mm + width_mm, top_mm),
            );
            shapes.push(Shape::new(Layer::Text, line).pen(pen));
        }
        let outline = Area::new(corner.x_mm, top_mm, corner.x_mm + width_mm, table_top_mm);
        shapes.push(Shape::new(Layer::Text, Geometry::Rectangle(outline)).pen(Pen::solid(0.35)));
        let mut x_mm = corner.x_mm;
        for width in self
            .widths_mm
            .iter()
            .take(self.widths_mm.len().saturating_sub(1))
        {
            x_mm += width;
            let line = Geometry::Line(Spot::new(x_mm, top_mm), Spot::new(x_mm, table_top_mm));
            shapes.push(Shape::new(Layer::Text, line).pen(Pen::solid(0.18)));
        }
        (shapes, corner.y_mm - top_mm)
    }

    fn draw_row(
        &self,
        shapes: &mut Vec<Shape>,
        corner: Spot,
        row: &[Vec<String>],
        style: TextStyle,
    ) {
        let mut left_mm = corner.x_mm;
        for ((cell, width_mm), column) in row.iter().zip(&self.widths_mm).zip(&self.columns) {
            let x_mm = match column.align {
                Align::Start => left_mm + MARGIN_MM,
                Align::Middle => left_mm + width_mm / 2.0,
                Align::End => left_mm + width_mm - MARGIN_MM,
            };
            for (index, line) in cell.iter().enumerate().filter(|(_, line)| !line.is_empty()) {
                let y_mm = corner.y_mm
                    - PADDING_MM / 2.0
                    - (index as f64 + 0.5) * LINE_MM
                    - style.height_mm / 2.0;
                let label = Label {
                    at: Spot::new(x_mm, y_mm),
                    style: style.align(column.align),
                    content: line.clone(),
                };
                shapes.push(text(label));
            }
            left_mm += width_mm;
        }
    }
}

fn text(label: Label) -> Shape {
    Shape::new(Layer::Text, Geometry::Text(label))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn table() -> Table {
        Table {
            name: "t".into(),
            title: "Some table".into(),
            columns: vec![
                Column::words("No."),
                Column::sentences("Description"),
                Column::numbers("u mm"),
            ],
            rows: (0..20)
                .map(|n| {
                    vec![
                        n.to_string(),
                        "a rather long description of a part".repeat(2),
                        "12.5".into(),
                    ]
                })
                .collect(),
        }
    }

    #[test]
    fn a_narrow_table_keeps_its_width() {
        let laid = table().lay_out(70.0);
        assert!(laid.width_mm() <= 70.0 + 1e-9);
        assert!(laid.height_mm(0) > table().lay_out(500.0).height_mm(0));
    }

    #[test]
    fn rows_are_cut_to_the_height() {
        let laid = table().lay_out(70.0);
        let count = laid.rows_within(0, 60.0);
        assert!(count > 0 && count < 20);
        let (shapes, height_mm) = laid.draw(Spot::new(0.0, 0.0), 0, count);
        assert!(height_mm <= 60.0);
        let bounds = crate::sheets::drawing::bounds(&shapes).expect("something is drawn");
        assert!(bounds.width_mm() <= 70.0 + 1e-6, "{bounds:?}");
    }
}
