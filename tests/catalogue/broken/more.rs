//! Parts beside those of the page, so that every kind has one to break.

/// Parts that the examples of the page lack.
pub const MORE: &str = r#"
[[terminal]]
id = "PAGE-BLUE"
function = "feed_through"
circuits = ["intrinsically_safe"]
clamp = { stranded_mm2 = [0.5, 2.5] }
width_mm = 5.2
length_mm = 45
height_mm = 42
live = { sides_mm = 1.2, ends_mm = 6, top_mm = 7, foot_mm = 9 }
rated_voltage_v = 90
ratings = [{ section_mm2 = 0.5, current_a = 5 }]
resistance_mohm = 0.6
neighbour_distance_mm = 6
rails = ["TH35-15"]
certificate = { number = "PAGE-C-2", protection = ["ia"] }
mass_kg = 0.01
price = 1

[[accessory]]
id = "PAGE-END-PLATE"
kind = "end_plate"
fits = ["PAGE-BLUE"]
width_mm = 1.5
length_mm = 46
height_mm = 43
material = "polyamide"
certificate = { number = "PAGE-C-3" }
mass_kg = 0.001
price = 0.4

[[element]]
id = "PAGE-STOP"
kind = "emergency_stop"
colour = "red"
latching = true
hole_mm = [22.3, 22.3]
footprint_mm = [60, 60]
body_mm = [30, 42]
depth_mm = [20, 46]
live_inset_mm = 3
certificate = { number = "PAGE-C-3" }
mass_kg = 0.07
price = 34
"#;
