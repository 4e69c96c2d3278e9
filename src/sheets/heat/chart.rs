//! The permitted power against the ambient temperature, with the place of the box in it. Draws the rows
//! of the certificate as steps: a row holds up to its ambient temperature, nothing lies between two.

use crate::arrangement::Arrangement;
use crate::catalogue::RatedPower;
use crate::sheets::drawing::{
    Align, Area, Colour, Dash, Geometry, Group, Label, Layer, Pen, Shape, Spot, TextStyle, spread,
};
use crate::sheets::{fixed, number};
use crate::standards::iec_60079_0::TemperatureClass;
use std::collections::BTreeMap;

/// Letters of axes and legend.
const SMALL: TextStyle = TextStyle {
    height_mm: 1.8,
    bold: false,
    upwards: false,
    align: Align::Start,
};
/// Height of a line of the legend.
const LINE_MM: f64 = 4.0;
/// Lines of the legend.
const LEGEND: usize = 4;
/// Kept left of the steps for the names of the classes.
const NAMES_MM: f64 = 9.0;
/// Length of a broken line's dashes and gaps.
const DASHED: Pen = Pen {
    width_mm: 0.25,
    dash: Dash::Dashed,
};

/// Turns °C and W into places on paper.
struct Axes {
    plot: Area,
    ambient_c: [f64; 2],
    power_w: f64,
}

impl Axes {
    fn x_mm(&self, ambient_c: f64) -> f64 {
        let [least, most] = self.ambient_c;
        let room_mm = self.plot.width_mm() - NAMES_MM;
        self.plot.left_mm + NAMES_MM + (ambient_c - least) / (most - least) * room_mm
    }

    fn y_mm(&self, power_w: f64) -> f64 {
        self.plot.bottom_mm + power_w / self.power_w * self.plot.height_mm()
    }

    fn spot(&self, ambient_c: f64, power_w: f64) -> Spot {
        Spot::new(self.x_mm(ambient_c), self.y_mm(power_w))
    }
}

/// The chart, title and legend included, within an area.
pub(in crate::sheets) fn chart(arrangement: &Arrangement, area: Area) -> Group {
    let heat = &arrangement.heat;
    let rows = &arrangement.enclosure.rated_power;
    let asked_c = arrangement.area.ambient_c[1];
    let plot = Area::new(
        area.left_mm + 13.0,
        area.bottom_mm + LEGEND as f64 * LINE_MM + 10.0,
        area.right_mm - 4.0,
        area.top_mm - 13.0,
    );
    let axes = axes(rows, asked_c, heat.power_w, plot);
    let mut shapes = Vec::new();
    let title = TextStyle::plain(2.5).bold();
    let words = "Permitted power against ambient temperature, by the rows of the certificate";
    let at = Spot::new(area.left_mm, area.top_mm - 3.8);
    write(&mut shapes, at, title, words);
    draw_axes(&mut shapes, &axes);
    draw_classes(&mut shapes, &axes, rows, heat.row_class);
    shapes.push(
        line(axes.spot(asked_c, 0.0), axes.spot(asked_c, axes.power_w)).pen(Pen {
            width_mm: 0.18,
            dash: Dash::DashDotted,
        }),
    );
    let row = axes.spot(heat.row_ambient_c, heat.rated_power_w);
    shapes.push(ring(row, Colour::White));
    shapes.push(ring(axes.spot(asked_c, heat.power_w), Colour::Black));
    draw_legend(&mut shapes, arrangement, area);
    Group {
        name: "chart".into(),
        title: words.into(),
        view: None,
        shapes,
    }
}

/// Axes that hold every row and the place of the box.
fn axes(rows: &[RatedPower], asked_c: f64, power_w: f64, plot: Area) -> Axes {
    let ambients = || rows.iter().map(|row| row.ambient_c).chain([asked_c]);
    let least = ambients().fold(f64::MAX, f64::min);
    let most = ambients().fold(f64::MIN, f64::max);
    let highest_w = rows.iter().map(|row| row.power_w).fold(power_w, f64::max);
    let step_w = step(highest_w);
    Axes {
        plot,
        ambient_c: [
            ((least - 10.0) / 10.0).floor() * 10.0,
            ((most + 5.0) / 10.0).ceil() * 10.0,
        ],
        // Half a step of room above the highest, for the name of its class.
        power_w: ((highest_w / step_w) + 0.5).ceil() * step_w,
    }
}

/// The step between marks: 1, 2 or 5 times a power of ten, so that four to nine marks are made.
fn step(highest: f64) -> f64 {
    let wished = highest.max(1e-3) / 8.0;
    let decade = 10f64.powf(wished.log10().floor());
    [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .map(|factor| factor * decade)
        .find(|step| *step >= wished)
        .unwrap_or(10.0 * decade)
}

fn draw_axes(shapes: &mut Vec<Shape>, axes: &Axes) {
    let plot = axes.plot;
    shapes.push(Shape::new(Layer::Text, Geometry::Rectangle(plot)).pen(Pen::solid(0.25)));
    let step_w = step(axes.power_w);
    let decimals = (-step_w.log10().floor()).max(0.0) as usize;
    let marks = (axes.power_w / step_w + 1e-6) as usize;
    for index in 0..=marks {
        let power_w = index as f64 * step_w;
        let y_mm = axes.y_mm(power_w);
        let ends = (
            Spot::new(plot.left_mm - 1.2, y_mm),
            Spot::new(plot.left_mm, y_mm),
        );
        shapes.push(line(ends.0, ends.1));
        let at = Spot::new(plot.left_mm - 2.0, y_mm - 0.9);
        write(
            shapes,
            at,
            SMALL.align(Align::End),
            &number(power_w, decimals),
        );
    }
    let unit = Spot::new(plot.left_mm - 2.0, plot.top_mm + 3.0);
    write(shapes, unit, SMALL.align(Align::End), "W");
    let [least, most] = axes.ambient_c;
    let apart_c = if most - least > 90.0 { 20.0 } else { 10.0 };
    let mut ambient_c = least;
    while ambient_c <= most + 1e-9 {
        let x_mm = axes.x_mm(ambient_c);
        let ends = (
            Spot::new(x_mm, plot.bottom_mm - 1.2),
            Spot::new(x_mm, plot.bottom_mm),
        );
        shapes.push(line(ends.0, ends.1));
        let at = Spot::new(x_mm, plot.bottom_mm - 4.2);
        write(
            shapes,
            at,
            SMALL.align(Align::Middle),
            &number(ambient_c, 0),
        );
        ambient_c += apart_c;
    }
    let at = Spot::new(plot.left_mm - 2.0, plot.bottom_mm - 4.2);
    write(shapes, at, SMALL.align(Align::Start), "°C");
}

/// A line of steps for each class, the class of the row used drawn broad.
fn draw_classes(shapes: &mut Vec<Shape>, axes: &Axes, rows: &[RatedPower], used: TemperatureClass) {
    let mut classes: BTreeMap<String, (TemperatureClass, Vec<RatedPower>)> = BTreeMap::new();
    for row in rows {
        let entry = classes.entry(row.class.to_string());
        entry.or_insert((row.class, Vec::new())).1.push(*row);
    }
    let mut lines: Vec<(f64, String)> = Vec::new();
    for (name, (class, mut rows)) in classes {
        rows.sort_by(|a, b| a.ambient_c.total_cmp(&b.ambient_c));
        let mut spots = Vec::new();
        let mut from_c = axes.ambient_c[0];
        for row in &rows {
            spots.push(axes.spot(from_c, row.power_w));
            spots.push(axes.spot(row.ambient_c, row.power_w));
            from_c = row.ambient_c;
        }
        // Above its last row a class permits nothing.
        spots.push(axes.spot(from_c, 0.0));
        let begin_mm = spots.first().map_or(axes.plot.bottom_mm, |spot| spot.y_mm);
        lines.push((begin_mm, name));
        let pen = if class == used {
            Pen::solid(0.7)
        } else {
            DASHED
        };
        let steps = Geometry::Polyline {
            spots,
            closed: false,
        };
        shapes.push(Shape::new(Layer::Text, steps).pen(pen));
    }
    lines.sort_by(|a, b| a.0.total_cmp(&b.0));
    let wished: Vec<f64> = lines.iter().map(|(y_mm, _)| *y_mm).collect();
    for (y_mm, (_, name)) in spread(&wished, 3.2).into_iter().zip(&lines) {
        let at = Spot::new(axes.plot.left_mm + NAMES_MM - 1.5, y_mm - 0.9);
        write(shapes, at, SMALL.bold().align(Align::End), name);
    }
}

fn draw_legend(shapes: &mut Vec<Shape>, arrangement: &Arrangement, area: Area) {
    let heat = &arrangement.heat;
    let asked_c = number(arrangement.area.ambient_c[1], 1);
    let at = |index: usize| {
        let y_mm = area.bottom_mm + (LEGEND - 1 - index) as f64 * LINE_MM + 1.0;
        Spot::new(area.left_mm + 13.0, y_mm)
    };
    let middle = |index: usize| at(index).moved(-6.0, 0.9);
    shapes.push(ring(middle(0), Colour::Black));
    shapes.push(ring(middle(1), Colour::White));
    for (index, pen) in [(2, Pen::solid(0.7)), (3, DASHED)] {
        let spot = middle(index);
        shapes.push(line(spot.moved(-4.0, 0.0), spot.moved(4.0, 0.0)).pen(pen));
    }
    let lines: [String; LEGEND] = [
        format!(
            "this box: {} W at {asked_c} °C, the highest ambient temperature asked for",
            fixed(heat.power_w, 2)
        ),
        format!(
            "row used: {} W for {} up to {} °C",
            number(heat.rated_power_w, 2),
            heat.row_class,
            number(heat.row_ambient_c, 1)
        ),
        format!("{}, the class of the row used", heat.row_class),
        "other classes of the certificate".to_string(),
    ];
    for (index, words) in lines.iter().enumerate() {
        write(shapes, at(index), SMALL, words);
    }
}

fn ring(centre: Spot, colour: Colour) -> Shape {
    let circle = Geometry::Circle {
        centre,
        radius_mm: 1.1,
    };
    Shape::new(Layer::Text, circle)
        .pen(Pen::solid(0.35))
        .fill(colour)
}

fn line(from: Spot, to: Spot) -> Shape {
    Shape::new(Layer::Text, Geometry::Line(from, to))
}

fn write(shapes: &mut Vec<Shape>, at: Spot, style: TextStyle, content: &str) {
    let label = Label {
        at,
        style,
        content: content.to_string(),
    };
    shapes.push(Shape::new(Layer::Text, Geometry::Text(label)));
}
