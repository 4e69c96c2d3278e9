//! The heat margin over the volume of all candidates as a drawing: filled where a candidate fits,
//! hollow where it does not, the front joined and named.

use super::Row;
use crate::sheets::drawing::{
    Align, Area, Canvas, Colour, Geometry, Group, Label, Layer, Pen, Shape, Sheet, Spot, TextStyle,
};
use crate::sheets::number;

const WIDTH_MM: f64 = 240.0;
const HEIGHT_MM: f64 = 160.0;
/// The plot's edges on the paper.
const PLOT: Area = Area {
    left_mm: 24.0,
    bottom_mm: 22.0,
    right_mm: 228.0,
    top_mm: 138.0,
};

/// One axis: figures to paper, evenly or (`powers`) each tenfold over the same length.
struct Axis {
    ticks: Vec<f64>,
    powers: bool,
    from_mm: f64,
    to_mm: f64,
}

impl Axis {
    /// Round steps of 1, 2 or 5 that take all figures and zero.
    fn even(figures: impl Iterator<Item = f64>, from_mm: f64, to_mm: f64) -> Self {
        let (least, most) = figures.fold((0.0f64, 0.0f64), |(least, most), figure| {
            (least.min(figure), most.max(figure))
        });
        // Without figures some axis at all.
        let most = if most > least { most } else { least + 1.0 };
        let rough = ((most - least) / 7.0).max(1e-6);
        let power = 10f64.powf(rough.log10().floor());
        let step = [1.0, 2.0, 5.0, 10.0]
            .into_iter()
            .map(|factor| factor * power)
            .find(|step| *step >= rough)
            .unwrap_or(10.0 * power);
        let first = (least / step).floor();
        let last = (most / step).ceil().max(first + 1.0);
        let steps = (last - first) as usize;
        Self {
            ticks: (0..=steps)
                .map(|index| first * step + step * index as f64)
                .collect(),
            powers: false,
            from_mm,
            to_mm,
        }
    }

    /// 1, 2 and 5 of each power of ten from below the least figure to above the largest: sizes of boxes
    /// differ a hundredfold, and most of them are small. All figures are above zero.
    fn powers(figures: impl Iterator<Item = f64> + Clone, from_mm: f64, to_mm: f64) -> Self {
        let least = figures.clone().fold(f64::INFINITY, f64::min);
        let most = figures.fold(0.0f64, f64::max);
        let (least, most) = if least <= most {
            (least, most)
        } else {
            (1.0, 10.0)
        };
        let round: Vec<f64> = (-6..=6)
            .flat_map(|power| [1.0, 2.0, 5.0].map(|factor| factor * 10f64.powi(power)))
            .collect();
        let first = round
            .iter()
            .rposition(|figure| *figure < least)
            .unwrap_or(0);
        let last = round.iter().position(|figure| *figure > most);
        Self {
            ticks: round[first..=last.unwrap_or(round.len() - 1)].to_vec(),
            powers: true,
            from_mm,
            to_mm,
        }
    }

    fn place_mm(&self, figure: f64) -> f64 {
        let scaled = |figure: f64| if self.powers { figure.ln() } else { figure };
        let ends = (self.ticks.first(), self.ticks.last());
        let (least, most) = match ends {
            (Some(least), Some(most)) => (scaled(*least), scaled(*most)),
            _ => (0.0, 1.0),
        };
        let share = (scaled(figure) - least) / (most - least);
        self.from_mm + share * (self.to_mm - self.from_mm)
    }

    fn ticks(&self) -> impl Iterator<Item = f64> {
        self.ticks.iter().copied()
    }
}

/// Draws the chart. Candidates without a rated power for the area, or of which nothing was decided, are not drawn; the
/// caption counts them.
pub fn chart(title: &str, rows: &[Row]) -> Sheet {
    let points: Vec<(&Row, f64)> = rows
        .iter()
        .filter_map(|row| row.heat_w.map(|heat_w| (row, heat_w)))
        .collect();
    let across = Axis::powers(
        points.iter().map(|(row, _)| row.volume_l),
        PLOT.left_mm,
        PLOT.right_mm,
    );
    let up = Axis::even(
        points.iter().map(|(_, heat_w)| *heat_w),
        PLOT.bottom_mm,
        PLOT.top_mm,
    );
    let mut canvas = Canvas::new(1.0);
    axes(&mut canvas, &across, &up);
    let at = |(row, heat_w): &(&Row, f64)| {
        Spot::new(across.place_mm(row.volume_l), up.place_mm(*heat_w))
    };
    let mut front: Vec<&(&Row, f64)> = points.iter().filter(|(row, _)| row.front).collect();
    front.sort_by(|a, b| {
        a.0.volume_l
            .total_cmp(&b.0.volume_l)
            .then(a.1.total_cmp(&b.1))
    });
    if front.len() > 1 {
        let spots = front.iter().map(|point| at(point)).collect();
        let line = Geometry::Polyline {
            spots,
            closed: false,
        };
        canvas.add(Shape::new(Layer::Centre, line).pen(Pen::solid(0.25)));
    }
    // The hollow ones first, the front last: what matters more is never hidden.
    for (fits, on_front) in [(false, false), (true, false), (true, true)] {
        for point in points
            .iter()
            .filter(|(row, _)| row.fits == fits && row.front == on_front)
        {
            let radius_mm = if point.0.front { 1.5 } else { 1.1 };
            let circle = Geometry::Circle {
                centre: at(point),
                radius_mm,
            };
            let colour = match (fits, point.0.front) {
                (true, true) => Colour::Black,
                (true, false) => Colour::Grey,
                (false, _) => Colour::White,
            };
            let pen = Pen::solid(if fits { 0.25 } else { 0.18 });
            let subject = format!("{} {}", point.0.enclosure, point.0.orientation.words());
            canvas.add(
                Shape::new(Layer::Outline, circle)
                    .pen(pen)
                    .fill(colour)
                    .of(&subject),
            );
        }
    }
    name_front(&mut canvas, &front, &points, at);
    captions(&mut canvas, title, undrawn(rows, rows.len() - points.len()));
    Sheet {
        name: "comparison".to_string(),
        title: format!("{title}: heat margin over volume"),
        heading: "Heat margin over volume".to_string(),
        width_mm: WIDTH_MM,
        height_mm: HEIGHT_MM,
        groups: vec![Group {
            name: "chart".to_string(),
            title: "Heat margin over volume".to_string(),
            view: None,
            shapes: canvas.into_shapes(),
        }],
    }
}

fn axes(canvas: &mut Canvas, across: &Axis, up: &Axis) {
    let style = TextStyle::plain(2.5);
    for figure in across.ticks() {
        let x_mm = across.place_mm(figure);
        canvas.line(
            Layer::Dimensions,
            Spot::new(x_mm, PLOT.bottom_mm),
            Spot::new(x_mm, PLOT.bottom_mm - 1.5),
        );
        let below = Spot::new(x_mm, PLOT.bottom_mm - 5.5);
        canvas.write(below, style.align(Align::Middle), number(figure, 3));
    }
    for figure in up.ticks() {
        let y_mm = up.place_mm(figure);
        let layer = if figure.abs() < 1e-9 {
            Layer::Outline
        } else {
            Layer::Dimensions
        };
        canvas.line(
            layer,
            Spot::new(PLOT.left_mm - 1.5, y_mm),
            Spot::new(PLOT.left_mm, y_mm),
        );
        let beside = Spot::new(PLOT.left_mm - 2.5, y_mm - 1.25);
        canvas.write(beside, style.align(Align::End), number(figure, 3));
    }
    let zero_mm = up.place_mm(0.0);
    canvas.line(
        Layer::Hidden,
        Spot::new(PLOT.left_mm, zero_mm),
        Spot::new(PLOT.right_mm, zero_mm),
    );
    canvas.add(Shape::new(Layer::Outline, Geometry::Rectangle(PLOT)));
    let middle = (PLOT.left_mm + PLOT.right_mm) / 2.0;
    let style = TextStyle::plain(3.0);
    canvas.write(
        Spot::new(middle, PLOT.bottom_mm - 12.0),
        style.align(Align::Middle),
        "outer volume, l (each tenfold over the same length)",
    );
    let middle = (PLOT.bottom_mm + PLOT.top_mm) / 2.0;
    canvas.write(
        Spot::new(8.0, middle),
        style.upwards().align(Align::Middle),
        "heat margin (permitted less dissipated), W",
    );
}

/// Names the front where there is room, farther away with a thin line to its point. A name that would lie on
/// another, on a point or on the line that joins the front is left out.
fn name_front(
    canvas: &mut Canvas,
    front: &[&(&Row, f64)],
    points: &[(&Row, f64)],
    at: impl Fn(&(&Row, f64)) -> Spot,
) {
    const POINT_MM: f64 = 1.2;
    let mut taken: Vec<Area> = points
        .iter()
        .map(|point| Area::between(at(point), at(point)).grown(POINT_MM))
        .collect();
    let joins = front
        .windows(2)
        .flat_map(|pair| along(at(pair[0]), at(pair[1])));
    taken.extend(joins.map(|spot| Area::between(spot, spot).grown(0.2)));
    let mut named: Vec<&str> = Vec::new();
    for point in front {
        let name = point.0.enclosure.trim_start_matches("DEMO-");
        if named.contains(&name) {
            continue;
        }
        let Some((label, leader)) = place_of_name(at(point), name, &taken) else {
            continue;
        };
        if let Some([from, to]) = leader {
            canvas.line(Layer::Dimensions, from, to);
            taken.extend(along(from, to).map(|spot| Area::between(spot, spot).grown(0.2)));
        }
        taken.push(label.area());
        canvas.write(label.at, label.style, label.content);
        named.push(name);
    }
}

/// The nearest free place of a name, and the line from its point where that is not beside it.
fn place_of_name(spot: Spot, name: &str, taken: &[Area]) -> Option<(Label, Option<[Spot; 2]>)> {
    const BESIDE: [(f64, f64, Align); 5] = [
        (-2.2, 1.6, Align::End),
        (2.2, -3.2, Align::Start),
        (0.0, 2.8, Align::Middle),
        (2.2, 1.0, Align::Start),
        (-2.2, -3.2, Align::End),
    ];
    let style = TextStyle::plain(2.2);
    let label = |(x_mm, y_mm, align): (f64, f64, Align)| Label {
        at: spot.moved(x_mm, y_mm),
        style: style.align(align),
        content: name.to_string(),
    };
    let is_free = |area: &Area| !taken.iter().any(|other| other.meets(&area.grown(0.4)));
    let is_clear = |label: &Label| PLOT.contains(&label.area()) && is_free(&label.area());
    if let Some(label) = BESIDE.map(label).into_iter().find(is_clear) {
        return Some((label, None));
    }
    let away = (1..=8).flat_map(|step| {
        let far_mm = 3.0 + 3.0 * f64::from(step);
        [
            (-far_mm, far_mm, Align::End),
            (far_mm, -far_mm - 1.6, Align::Start),
        ]
    });
    away.map(label).filter(is_clear).find_map(|label| {
        let area = label.area();
        let is_right = area.left_mm > spot.x_mm;
        let end = Spot::new(
            if is_right {
                area.left_mm - 0.6
            } else {
                area.right_mm + 0.6
            },
            area.centre().y_mm,
        );
        // The beginning lies on its own point and its own stretch of the joining line.
        let crosses = along(spot, end)
            .skip(STEPS / 2)
            .any(|on| !is_free(&Area::between(on, on)));
        (!crosses).then_some((label, Some([spot, end])))
    })
}

/// Steps in which a line is looked at.
const STEPS: usize = 40;

fn along(from: Spot, to: Spot) -> impl Iterator<Item = Spot> {
    (0..=STEPS).map(move |step| {
        let share = step as f64 / STEPS as f64;
        from.moved(share * (to.x_mm - from.x_mm), share * (to.y_mm - from.y_mm))
    })
}

/// What is said of candidates that are not drawn.
fn undrawn(rows: &[Row], count: usize) -> Option<String> {
    if rows.iter().any(|row| row.without_part) {
        return Some("No part of the catalogue serves the list: nothing was decided.".to_string());
    }
    (count > 0)
        .then(|| format!("{count} candidates without a rated power for the area are not drawn."))
}

fn captions(canvas: &mut Canvas, title: &str, undrawn: Option<String>) {
    // A long title is written smaller, down to the size of the axes, and cut only then.
    let room_mm = PLOT.right_mm - PLOT.left_mm;
    let style = [4.0, 3.5, 3.0, 2.5]
        .map(|height_mm| TextStyle::plain(height_mm).bold())
        .into_iter()
        .find(|style| crate::sheets::drawing::advance_mm(title, style) <= room_mm)
        .unwrap_or(TextStyle::plain(2.5).bold());
    let title = crate::sheets::drawing::shortened(title, &style, room_mm);
    canvas.write(Spot::new(PLOT.left_mm, 149.0), style, title);
    let style = TextStyle::plain(2.5);
    let mut left_mm = PLOT.left_mm;
    for (colour, radius_mm, words) in [
        (Colour::Black, 1.5, "fits, on the front"),
        (Colour::Grey, 1.1, "fits"),
        (Colour::White, 1.1, "does not fit"),
    ] {
        let circle = Geometry::Circle {
            centre: Spot::new(left_mm + 1.5, 143.2),
            radius_mm,
        };
        canvas.add(
            Shape::new(Layer::Outline, circle)
                .pen(Pen::solid(0.25))
                .fill(colour),
        );
        canvas.write(Spot::new(left_mm + 4.5, 142.0), style, words);
        left_mm += 12.0 + crate::sheets::drawing::advance_mm(words, &style);
    }
    if let Some(words) = undrawn {
        canvas.write(
            Spot::new(PLOT.right_mm, 142.0),
            style.align(Align::End),
            words,
        );
    }
    canvas.write(
        Spot::new(PLOT.left_mm, 4.0),
        TextStyle::plain(2.0),
        crate::arrangement::CAUTION,
    );
}
