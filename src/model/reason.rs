//! Why a candidate cannot serve: typed facts with their figures. Their wording is in `reason_words.rs`.

use crate::arrangement::Orientation;
use crate::space::Face;
use crate::standards::threads::Thread;
use serde::Serialize;

/// A candidate that was discarded, with the reason.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Excluded {
    /// Enclosure.
    pub enclosure: String,
    /// Orientation.
    pub orientation: Orientation,
    /// Reason.
    pub reason: Reason,
}

/// Why a candidate was discarded. Lengths in mm, power in W.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Reason {
    /// The list does not want this enclosure.
    NotWanted(String),
    /// The enclosure must not, or cannot, be mounted so.
    NotSo(String),
    /// It is larger than the list allows.
    TooLarge {
        /// Outer width, height and depth as mounted.
        outer_mm: [f64; 3],
        /// What the list allows.
        allowed_mm: [f64; 3],
    },
    /// Its certificate does not allow the area, or does not say.
    Certificate(String),
    /// No row of rated power for class and ambient.
    NoRating {
        /// What is asked for, such as `T6 at +50 °C`.
        needed: String,
        /// The rows there are.
        has: String,
    },
    /// Too much heat.
    Heat {
        /// Power that would be dissipated.
        power_w: f64,
        /// Power permitted, less what is kept free.
        permitted_w: f64,
        /// The row of rated power that counts, such as `T6 up to +55 °C`.
        rating: String,
        /// Share of its rated power that the list keeps free, percent.
        reserve_percent: f64,
    },
    /// More terminals than the certificate allows.
    TerminalCount {
        /// Needed.
        needed: u32,
        /// Allowed.
        allowed: u32,
    },
    /// An entry may only be in walls that this enclosure does not let drill.
    NoWall {
        /// Walls that the entry may be in.
        walls: Vec<Face>,
    },
    /// Its walls do not take the largest thread.
    Thread {
        /// Needed.
        needed: Thread,
        /// Walls that may be used.
        walls: Vec<Face>,
    },
    /// An entry part does not fit the wall's thickness.
    WallThickness {
        /// Part.
        part: String,
        /// What it takes.
        takes_mm: [f64; 2],
        /// What the wall has.
        wall_mm: f64,
    },
    /// The entries do not find room in the walls.
    Entries {
        /// Walls that were tried.
        walls: Vec<Face>,
        /// Area that the entries need with their gaps, mm².
        needed_mm2: f64,
        /// Area there is, counted the same way, mm².
        available_mm2: f64,
        /// Whether the areas alone prove it; otherwise rows were tried exhaustively.
        by_area: bool,
    },
    /// One entry by itself finds no room on any wall that it may use.
    EntrySize {
        /// Walls that were tried.
        walls: Vec<Face>,
        /// Its envelope.
        envelope_mm: f64,
        /// Width and height of the roomiest area.
        room_mm: [f64; 2],
    },
    /// The rails are too short or too few.
    Rails {
        /// Length of terminals and accessories.
        needed_mm: f64,
        /// Length of one rail that may be used.
        rail_mm: f64,
        /// Most rails that fit above each other.
        most_rails: u32,
    },
    /// The rows of terminals with their wiring spaces are too high.
    Height {
        /// Needed between bottom and top.
        needed_mm: f64,
        /// There is.
        available_mm: f64,
    },
    /// Bare parts of an element would be too near to the metal lid.
    BareParts {
        /// Element.
        part: String,
        /// Inset of its bare parts.
        has_mm: f64,
        /// Clearance with the workshop tolerance.
        needed_mm: f64,
    },
    /// The terminals are too high for the depth.
    Depth {
        /// What it is that needs the depth.
        what: String,
        /// Needed from the back wall.
        needed_mm: f64,
        /// There is.
        available_mm: f64,
    },
    /// The lid is too small for the elements.
    Lid {
        /// Width and height of the least rows found, or of the largest element.
        needed_mm: [f64; 2],
        /// Width and height of the usable rectangle.
        available_mm: [f64; 2],
    },
    /// Elements and terminals do not go one above the other, nor one behind the other.
    ElementsAndTerminals {
        /// Height that rails and elements need, one above the other.
        needed_mm: f64,
        /// There is.
        available_mm: f64,
        /// Depth that they need, one behind the other.
        depth_needed_mm: f64,
        /// There is.
        depth_mm: f64,
    },
    /// Each part would fit alone, but the wall entries needed leave too little room for the rest.
    Together(Box<Reason>),
    /// Neither found nor disproved within the time limit.
    Undecided(String),
    /// Entries were asked for without rows only, and find no room.
    Freely(Freely),
    /// Refused with entries in rows, and not placed without rows either.
    InRows {
        /// The reason against rows.
        rows: Box<Reason>,
        /// What is known about placing without rows.
        freely: Freely,
    },
}

/// What is known about placing the entries of an excluded candidate without rows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Freely {
    /// Proved impossible: by a bound, or because the rest finds no room beside the walls it would need.
    Disproved,
    /// Tried, nothing found, nothing proved.
    Open,
}

impl Reason {
    /// Whether the time limit ended a decision about rows, terminals or elements.
    pub fn is_undecided(&self) -> bool {
        match self {
            Reason::Undecided(_) => true,
            Reason::InRows { rows, .. } => rows.is_undecided(),
            _ => false,
        }
    }

    /// Whether placing without rows was tried and neither found nor disproved.
    pub fn is_open_freely(&self) -> bool {
        matches!(
            self,
            Reason::Freely(Freely::Open)
                | Reason::InRows {
                    freely: Freely::Open,
                    ..
                }
        )
    }

    /// The reason without what is said about placing freely.
    pub fn in_rows(&self) -> &Reason {
        match self {
            Reason::InRows { rows, .. } => rows,
            other => other,
        }
    }

    /// The group by which excluded candidates are summed up.
    pub fn group(&self) -> &'static str {
        match self {
            Reason::NotWanted(_) | Reason::NotSo(_) | Reason::TooLarge { .. } => {
                "not wanted by the list"
            }
            Reason::Certificate(_) => "certificate",
            Reason::NoRating { .. } => "no rated power for class and ambient",
            Reason::Heat { .. } => "heat",
            Reason::TerminalCount { .. } => "number of terminals",
            Reason::NoWall { .. } => "walls that may be drilled",
            Reason::Thread { .. } => "thread size",
            Reason::WallThickness { .. } => "wall thickness",
            Reason::Entries { .. } | Reason::EntrySize { .. } | Reason::Freely(_) => {
                "room for entries"
            }
            Reason::Rails { .. } | Reason::Height { .. } => "room for terminals",
            Reason::BareParts { .. } => "distance to the metal lid",
            Reason::Depth { .. } => "depth",
            Reason::Lid { .. } => "room on the lid",
            Reason::ElementsAndTerminals { .. } => "elements and terminals together",
            Reason::Together(_) => "entries and terminals together",
            Reason::Undecided(_) => "not decided",
            Reason::InRows { rows, .. } => rows.group(),
        }
    }

    /// As [`Reason::group`], telling apart what the list does not want: enclosure, size, mounting.
    pub fn kind(&self) -> &'static str {
        match self {
            Reason::NotSo(_) => "not in this orientation",
            Reason::TooLarge { .. } => "larger than the list allows",
            other => other.group(),
        }
    }

    /// How near the candidate came: what is needed over what there is. Greater is further away;
    /// infinite where there is no figure.
    pub fn distance(&self) -> f64 {
        let ratio = |needed: f64, has: f64| {
            if has > 0.0 {
                needed / has
            } else {
                f64::INFINITY
            }
        };
        match self {
            Reason::TooLarge {
                outer_mm,
                allowed_mm,
            } => outer_mm
                .iter()
                .zip(allowed_mm)
                .map(|(has, most)| ratio(*has, *most))
                .fold(0.0, f64::max),
            Reason::Heat {
                power_w,
                permitted_w,
                ..
            } => ratio(*power_w, *permitted_w),
            Reason::TerminalCount { needed, allowed } => {
                ratio(f64::from(*needed), f64::from(*allowed))
            }
            Reason::Entries {
                needed_mm2,
                available_mm2,
                ..
            } => ratio(*needed_mm2, *available_mm2),
            Reason::Rails {
                needed_mm,
                rail_mm,
                most_rails,
            } => ratio(*needed_mm, rail_mm * f64::from(*most_rails)),
            Reason::EntrySize {
                envelope_mm,
                room_mm,
                ..
            } => ratio(*envelope_mm, room_mm[0].min(room_mm[1])),
            Reason::Height {
                needed_mm,
                available_mm,
            }
            | Reason::Depth {
                needed_mm,
                available_mm,
                ..
            } => ratio(*needed_mm, *available_mm),
            Reason::Lid {
                needed_mm,
                available_mm,
            } => ratio(needed_mm[0], available_mm[0]).max(ratio(needed_mm[1], available_mm[1])),
            Reason::ElementsAndTerminals {
                needed_mm,
                available_mm,
                depth_needed_mm,
                depth_mm,
            } => ratio(*needed_mm, *available_mm).min(ratio(*depth_needed_mm, *depth_mm)),
            Reason::Together(inner) | Reason::InRows { rows: inner, .. } => inner.distance(),
            _ => f64::INFINITY,
        }
    }
}
