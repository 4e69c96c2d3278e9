//! Layers, line widths, line types and the few colours.

/// The line widths in use, millimetres: the series of ISO 128-2 (from memory), each about √2 times
/// the one before.
pub const LINE_WIDTHS_MM: [f64; 5] = [0.18, 0.25, 0.35, 0.5, 0.7];

/// What a line stands for; a writer with layers puts each on a layer of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Layer {
    /// Visible edges.
    Outline,
    /// Edges behind something else.
    Hidden,
    /// Centre lines and limits of areas.
    Centre,
    /// Holes to be made.
    Holes,
    /// Dimensions with their extension lines, leaders and datum marks.
    Dimensions,
    /// Text and tables.
    Text,
    /// Border and title block.
    Frame,
}

impl Layer {
    /// All layers.
    pub const ALL: [Layer; 7] = [
        Layer::Outline,
        Layer::Hidden,
        Layer::Centre,
        Layer::Holes,
        Layer::Dimensions,
        Layer::Text,
        Layer::Frame,
    ];

    /// The name used in files.
    pub fn name(self) -> &'static str {
        match self {
            Layer::Outline => "outline",
            Layer::Hidden => "hidden",
            Layer::Centre => "centre",
            Layer::Holes => "holes",
            Layer::Dimensions => "dimensions",
            Layer::Text => "text",
            Layer::Frame => "frame",
        }
    }

    /// The pen that its lines are usually drawn with.
    pub fn pen(self) -> Pen {
        match self {
            Layer::Outline => Pen::solid(0.35),
            Layer::Hidden => Pen {
                width_mm: 0.25,
                dash: Dash::Dashed,
            },
            Layer::Centre => Pen {
                width_mm: 0.18,
                dash: Dash::DashDotted,
            },
            Layer::Holes => Pen::solid(0.5),
            Layer::Dimensions | Layer::Text => Pen::solid(0.18),
            Layer::Frame => Pen::solid(0.7),
        }
    }
}

/// A line type after ISO 128-2.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Dash {
    /// Continuous.
    Solid,
    /// Dashed.
    Dashed,
    /// Long-dashed dotted.
    DashDotted,
}

/// Width and type of a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pen {
    /// One of [`LINE_WIDTHS_MM`].
    pub width_mm: f64,
    /// Line type.
    pub dash: Dash,
}

impl Pen {
    /// A continuous line.
    pub fn solid(width_mm: f64) -> Self {
        Self {
            width_mm,
            dash: Dash::Solid,
        }
    }

    /// Lengths of dashes and gaps in turn, millimetres; nothing for a continuous line.
    pub fn dashes_mm(&self) -> &'static [f64] {
        match self.dash {
            Dash::Solid => &[],
            Dash::Dashed => &[2.0, 1.0],
            Dash::DashDotted => &[5.0, 0.8, 0.5, 0.8],
        }
    }
}

/// A filling. Only where the trade or a standard gives the colour a meaning, save for paper and ink.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Colour {
    /// Ink.
    Black,
    /// Paper.
    White,
    /// Grey: parts without meaning by colour.
    Grey,
    /// Light blue: intrinsically safe (IEC 60079-11).
    LightBlue,
    /// Green of the protective conductor (IEC 60445), and of elements (IEC 60073).
    Green,
    /// Yellow of the protective conductor, and of elements.
    Yellow,
    /// Red of elements.
    Red,
    /// Blue of elements.
    Blue,
}

impl Colour {
    /// Red, green and blue, 0 to 255.
    pub fn rgb(self) -> [u8; 3] {
        match self {
            Colour::Black => [0x00, 0x00, 0x00],
            Colour::White => [0xff, 0xff, 0xff],
            Colour::Grey => [0xd9, 0xd9, 0xd9],
            Colour::LightBlue => [0xb9, 0xde, 0xf5],
            Colour::Green => [0x4c, 0xae, 0x50],
            Colour::Yellow => [0xff, 0xe0, 0x33],
            Colour::Red => [0xe0, 0x3a, 0x2e],
            Colour::Blue => [0x3b, 0x74, 0xc8],
        }
    }

    /// The colour of an element by its name in a catalogue; `None` for a name without a meaning here,
    /// which is then drawn as paper.
    pub fn by_name(name: &str) -> Option<Colour> {
        match name.trim().to_ascii_lowercase().as_str() {
            "black" => Some(Colour::Black),
            "white" | "clear" => Some(Colour::White),
            "grey" | "gray" => Some(Colour::Grey),
            "light blue" | "light-blue" => Some(Colour::LightBlue),
            "green" => Some(Colour::Green),
            "yellow" => Some(Colour::Yellow),
            "red" => Some(Colour::Red),
            "blue" => Some(Colour::Blue),
            _ => None,
        }
    }
}
