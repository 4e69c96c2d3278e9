//! Dissipated power reckoned again from conductors, terminals, jumpers, contacts and elements, against
//! the rating of the certificate. Knows nothing of places and temperatures.
//!
//! Terms: every conductor with its heat current, its resistance by section and build at the reference
//! temperature and the space diagonal of the inside as length; every level of a terminal with the
//! largest heat current of its conductors; every link of a jumper between two terminals with the
//! jumper's heat current; every contact block with the largest heat current on its points; every
//! element with its own power. Resistances of parts are given at 20 °C and follow copper to the
//! reference temperature.

use crate::arrangement::Wire;
use crate::audit::case::{Cases, Rule, figure_text, figures_within};
use crate::audit::context::Context;
use crate::audit::electrical::build_word;
use crate::audit::measure;
use crate::catalogue::ConductorBuild;
use crate::number::short;
use crate::standards::awg::{
    ANNEALED_COPPER_OHM_MM2_PER_KM, Awg, STRANDING_FACTOR, Stranding, WireSize,
};
use crate::standards::iec_60079_0::TemperatureClass;
use crate::standards::iec_60079_7::{CONDUCTOR_LENGTH, DISSIPATED_POWER};
use crate::standards::iec_60228::{
    HIGHEST_TEMPERATURE_C, resistance_at_20_ohm_per_km, resistance_ratio,
};
use crate::standards::{ConductorClass, Source, Status};

const SIMULTANEITY: Source = Source::new(
    "IEC 60079-7",
    "2015+A1:2017",
    "Annex E, note on diversity",
    Status::FromMemory,
);

/// By what share a recorded sum may differ from the one reckoned here: room for rounding in the record.
const SUM_SHARE: f64 = 0.001;

/// The rules of this group.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "heat.length",
        title: "length of the conductors",
        requires: "every conductor counts with at least the space diagonal of the inside",
        source: CONDUCTOR_LENGTH,
        unit: "mm",
        check: length,
    },
    Rule {
        id: "heat.currents",
        title: "currents of the heat calculation",
        requires: "the heat current of every conductor is at least its largest current times the simultaneity of its circuit, which lies between 0 and 1; that of a jumper at least its largest current times the least share with which a conductor on its terminals is reckoned",
        source: SIMULTANEITY,
        unit: "A",
        check: currents,
    },
    Rule {
        id: "heat.sum",
        title: "sum of the dissipated power",
        requires: "the recorded sums at the reference temperature and at the limit of the class less the margin of the type test differ by no more than 0.1 % from those reckoned again from conductors, terminals, jumpers, contacts and elements; that limit is the one of the class of the row used",
        source: DISSIPATED_POWER,
        unit: "W",
        check: sum,
    },
    Rule {
        id: "heat.lines",
        title: "lines of the heat calculation",
        requires: "the lines give the recorded sum within 0.1 %, and every line with a current is count × current² × resistance within 0.1 %",
        source: DISSIPATED_POWER,
        unit: "W",
        check: lines,
    },
    Rule {
        id: "heat.row",
        title: "ambient of the certificate's row of power",
        requires: "the rated power used stands in the certificate of the enclosure for the recorded class and ambient temperature, and its ambient temperature is at least the highest of the area",
        source: DISSIPATED_POWER,
        unit: "°C",
        check: row,
    },
    Rule {
        id: "heat.reserve",
        title: "heat reserve",
        requires: "the share of the rated power that is kept free is at least the one asked for, and the permitted power is the rated one less that share",
        source: DISSIPATED_POWER,
        unit: "%",
        check: reserve,
    },
    Rule {
        id: "heat.power",
        title: "dissipated power within the rating",
        requires: "the power reckoned again is not above the rated power of the row less the reserve asked for",
        source: DISSIPATED_POWER,
        unit: "W",
        check: power,
    },
];

fn length(context: &Context<'_>, cases: &mut Cases) {
    let required_mm = measure::room_diagonal_mm(context.interior());
    let heat = &context.arrangement.heat;
    // The record may be rounded to a tenth of a millimetre.
    let rounded_mm = required_mm - 0.05;
    cases.at_least(
        &["heat calculation"],
        heat.conductor_length_mm,
        rounded_mm,
        || "conductor length of the heat calculation".to_string(),
    );
    for wire in &context.arrangement.wires {
        cases.at_least(&[&wire.id], wire.heat_length_mm, rounded_mm, || {
            format!("length with which {} counts for the heat", wire.id)
        });
    }
}

fn currents(context: &Context<'_>, cases: &mut Cases) {
    for circuit in &context.arrangement.circuits {
        let share = circuit.simultaneity;
        if !(0.0..=1.0).contains(&share) {
            cases.is_so(false, &[&circuit.tag], || {
                format!(
                    "the simultaneity of {} is {}",
                    circuit.tag,
                    figure_text(share)
                )
            });
        }
    }
    for wire in &context.arrangement.wires {
        let circuit = context.circuits.get(wire.circuit.as_str());
        let share = circuit.map_or(1.0, |circuit| circuit.simultaneity);
        cases.at_least(
            &[&wire.id],
            wire.heat_current_a,
            wire.current_a * share,
            || format!("heat current of {}", wire.id),
        );
    }
    for jumper in &context.arrangement.jumpers {
        let terminals = jumper
            .terminals
            .iter()
            .filter_map(|id| context.terminals.get(id.as_str()));
        let wires = terminals.flat_map(|terminal| context.wires_at(terminal));
        let carrying = wires.filter(|wire| wire.current_a > 0.0);
        let share = carrying
            .map(|wire| wire.heat_current_a / wire.current_a)
            .fold(1.0, f64::min);
        cases.at_least(
            &[&jumper.id],
            jumper.heat_current_a,
            jumper.current_a * share,
            || format!("heat current of jumper {}", jumper.id),
        );
    }
}

/// The resistance of a conductor per length at a temperature, ohm/km.
///
/// Metric sections by IEC 60228, American ones from their geometry; kcmil from area and stranding. For
/// any other section nothing is known.
fn resistance_ohm_per_km(wire: &Wire, temperature_c: f64) -> Result<f64, String> {
    let text = wire.section.as_str();
    if text.contains("AWG") || text.contains("kcmil") {
        let size: WireSize = text.parse().map_err(|error| format!("{error}"))?;
        let area_mm2 = size.area_mm2();
        // The name and the area of the record must speak of the same conductor.
        if (area_mm2 - wire.section_mm2).abs() > 0.01 * area_mm2 {
            return Err(format!(
                "{text} has {} mm², {} mm² is recorded",
                figure_text(area_mm2),
                figure_text(wire.section_mm2)
            ));
        }
        let stranding = match wire.build {
            ConductorBuild::Solid => Stranding::Solid,
            ConductorBuild::Stranded | ConductorBuild::Flexible => Stranding::Stranded,
        };
        let resistance = match size {
            WireSize::Gauge(gauge) => Awg::resistance_ohm_per_km(gauge, stranding, temperature_c),
            WireSize::Kcmil(_) => resistance_ratio(temperature_c)
                .map(|ratio| ANNEALED_COPPER_OHM_MM2_PER_KM / area_mm2 * STRANDING_FACTOR * ratio),
        };
        return resistance.map_err(|error| error.to_string());
    }
    let class = match wire.build {
        ConductorBuild::Solid => ConductorClass::Class1,
        ConductorBuild::Stranded => ConductorClass::Class2,
        ConductorBuild::Flexible => ConductorClass::Class5,
    };
    let cold = resistance_at_20_ohm_per_km(wire.section_mm2, class);
    let ratio = resistance_ratio(temperature_c);
    cold.and_then(|cold| ratio.map(|ratio| cold * ratio))
        .map_err(|error| error.to_string())
}

/// The heat of one conductor that counts with the space diagonal, its copper at a temperature, W.
pub(super) fn conductor_w(
    context: &Context<'_>,
    wire: &Wire,
    temperature_c: f64,
) -> Result<f64, (String, String)> {
    if wire.heat_current_a == 0.0 {
        return Ok(0.0);
    }
    let length_km = measure::room_diagonal_mm(context.interior()) * 1e-6;
    let ohm_per_km = resistance_ohm_per_km(wire, temperature_c).map_err(|error| {
        let text = format!(
            "the resistance of {} ({} {}) is unknown: {error}",
            wire.id,
            wire.section,
            build_word(wire.build)
        );
        (wire.id.clone(), text)
    })?;
    Ok(wire.heat_current_a.powi(2) * ohm_per_km * length_km)
}

/// The dissipated power of everything in the box, its copper at a temperature, W.
pub(super) fn dissipated_w(
    context: &Context<'_>,
    temperature_c: f64,
) -> Result<f64, (String, String)> {
    let arrangement = context.arrangement;
    let ratio = resistance_ratio(temperature_c)
        .map_err(|error| ("heat calculation".to_string(), error.to_string()))?;
    let mut total_w = 0.0;
    for wire in &arrangement.wires {
        total_w += conductor_w(context, wire, temperature_c)?;
    }
    for terminal in &arrangement.terminals {
        for level in 0..terminal.live.len().max(1) {
            let wires = context.wires_at(terminal).iter();
            let on_level =
                wires.filter(|wire| Context::ends_on_level(wire, terminal, level as u32));
            let current_a = on_level.map(|wire| wire.heat_current_a).fold(0.0, f64::max);
            total_w += current_a.powi(2) * terminal.resistance_mohm * 1e-3 * ratio;
        }
    }
    for jumper in &arrangement.jumpers {
        let links = jumper.terminals.len().saturating_sub(1) as f64;
        total_w += links * jumper.heat_current_a.powi(2) * jumper.resistance_mohm * 1e-3 * ratio;
    }
    for element in &arrangement.elements {
        total_w += element.power_w;
        for contact in &element.contacts {
            let wires = context.wires_on_contact(contact);
            let current_a = wires
                .iter()
                .map(|wire| wire.heat_current_a)
                .fold(0.0, f64::max);
            total_w += current_a.powi(2) * contact.resistance_mohm * 1e-3 * ratio;
        }
    }
    Ok(total_w)
}

/// Decimals of the figures of a line, of which a watt may be a small part.
const FINE: usize = 9;

/// The limit of a class less the margin of the type test, °C.
fn limit_c(class: TemperatureClass) -> f64 {
    class.limit_c() - class.type_test_margin_k()
}

/// How warm copper counts at that limit, °C: no warmer than its resistance is known.
pub(super) fn copper_at_limit_c(class: TemperatureClass) -> f64 {
    limit_c(class).min(HIGHEST_TEMPERATURE_C)
}

fn sum(context: &Context<'_>, cases: &mut Cases) {
    let heat = &context.arrangement.heat;
    let limit_c = limit_c(heat.row_class);
    let is_limit = (heat.limit_c - limit_c).abs() <= 1e-9;
    cases.is_so(is_limit, &["heat calculation"], || {
        format!(
            "the limit of {:?} less the margin of the type test is {limit_c} °C, {} °C is recorded",
            heat.row_class,
            figure_text(heat.limit_c)
        )
    });
    let sums = [
        (heat.power_w, heat.reference_c),
        (heat.power_at_limit_w, copper_at_limit_c(heat.row_class)),
    ];
    for (recorded_w, temperature_c) in sums {
        let found_w = match dissipated_w(context, temperature_c) {
            Ok(found_w) => found_w,
            Err((name, text)) => {
                cases.unknown(&[&name], || text);
                continue;
            }
        };
        let allowed_w = found_w.abs() * SUM_SHARE;
        cases.at_most(
            &["heat calculation"],
            (recorded_w - found_w).abs(),
            allowed_w,
            || {
                let (recorded, found) = figures_within(recorded_w, found_w, allowed_w);
                format!(
                    "difference of the recorded {recorded} W and {found} W reckoned again at {} °C",
                    figure_text(temperature_c)
                )
            },
        );
    }
}

fn lines(context: &Context<'_>, cases: &mut Cases) {
    let heat = &context.arrangement.heat;
    let total_w: f64 = heat.lines.iter().map(|line| line.power_w).sum();
    let allowed_w = total_w.abs() * SUM_SHARE;
    cases.at_most(
        &["heat calculation"],
        (total_w - heat.power_w).abs(),
        allowed_w,
        || {
            let (lines, recorded) = figures_within(total_w, heat.power_w, allowed_w);
            format!("difference of the lines' {lines} W and the recorded {recorded} W")
        },
    );
    for line in heat.lines.iter().filter(|line| line.current_a != 0.0) {
        let found_w = f64::from(line.count) * line.current_a.powi(2) * line.resistance_mohm * 1e-3;
        cases.at_most(
            &[&line.item],
            (found_w - line.power_w).abs(),
            found_w.abs() * SUM_SHARE,
            || {
                format!(
                    "difference of {} × ({} A)² × {} mohm and the recorded {} W for {}",
                    line.count,
                    short(line.current_a, FINE),
                    short(line.resistance_mohm, FINE),
                    short(line.power_w, FINE),
                    line.item
                )
            },
        );
    }
}

fn row(context: &Context<'_>, cases: &mut Cases) {
    let heat = &context.arrangement.heat;
    let enclosure = &context.arrangement.enclosure;
    let found = enclosure.rated_power.iter().any(|row| {
        row.class == heat.row_class
            && (row.ambient_c - heat.row_ambient_c).abs() <= 1e-9
            && (row.power_w - heat.rated_power_w).abs() <= 1e-9
    });
    cases.is_so(found, &[&enclosure.id], || {
        format!(
            "{} W for {:?} at {} °C {} in the certificate of {}",
            figure_text(heat.rated_power_w),
            heat.row_class,
            figure_text(heat.row_ambient_c),
            if found { "stands" } else { "does not stand" },
            enclosure.id
        )
    });
    let [_, most_c] = context.arrangement.area.ambient_c;
    cases.at_least(&[&enclosure.id], heat.row_ambient_c, most_c, || {
        "ambient temperature of the row used".to_string()
    });
}

fn reserve(context: &Context<'_>, cases: &mut Cases) {
    let heat = &context.arrangement.heat;
    let asked = context.arrangement.spare.heat_percent;
    cases.at_least(&["heat calculation"], heat.reserve_percent, asked, || {
        "share of the rated power kept free".to_string()
    });
    let permitted_w = heat.rated_power_w * (100.0 - heat.reserve_percent) / 100.0;
    let equal = permitted_w.is_finite()
        && (permitted_w - heat.permitted_power_w).abs() <= permitted_w.abs() * SUM_SHARE + 1e-9;
    cases.is_so(equal, &["heat calculation"], || {
        format!(
            "{} W less {} % are {} W, {} W are recorded as permitted",
            short(heat.rated_power_w, FINE),
            short(heat.reserve_percent, FINE),
            short(permitted_w, FINE),
            short(heat.permitted_power_w, FINE)
        )
    });
}

fn power(context: &Context<'_>, cases: &mut Cases) {
    let heat = &context.arrangement.heat;
    let asked = context.arrangement.spare.heat_percent;
    let permitted_w = heat.rated_power_w * (100.0 - asked) / 100.0;
    let enclosure = context.arrangement.enclosure.id.as_str();
    match dissipated_w(context, context.arrangement.heat.reference_c) {
        Err((name, text)) => cases.unknown(&[&name], || text),
        Ok(found_w) => cases.at_most(&[enclosure], found_w, permitted_w, || {
            format!(
                "dissipated power in {enclosure} ({:?}, {} °C)",
                heat.row_class,
                figure_text(heat.row_ambient_c)
            )
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::arrangement::WireEnd;

    fn wire(section: &str, section_mm2: f64, build: ConductorBuild) -> Wire {
        let end = WireEnd::Core {
            cable: "W1".into(),
            core: "1".into(),
        };
        Wire {
            id: "1".into(),
            from: end.clone(),
            to: end,
            potential: String::new(),
            circuit: String::new(),
            section_mm2,
            section: section.into(),
            build,
            current_a: 1.0,
            heat_current_a: 1.0,
            heat_length_mm: 0.0,
            route_mm: 0.0,
        }
    }

    #[test]
    fn metric_sections_by_table_and_temperature() {
        let flexible = wire("2.5 mm²", 2.5, ConductorBuild::Flexible);
        // IEC 60228 class 5: 7.98 ohm/km at 20 °C; copper: 0.393 % a kelvin.
        assert_eq!(resistance_ohm_per_km(&flexible, 20.0), Ok(7.98));
        let warm = resistance_ohm_per_km(&flexible, 80.0).expect("listed");
        assert!((warm - 7.98 * 1.2358).abs() < 1e-9);
        assert!(resistance_ohm_per_km(&wire("3 mm²", 3.0, ConductorBuild::Solid), 20.0).is_err());
    }

    #[test]
    fn american_sizes_by_their_geometry() {
        // 14 AWG: 2.081 mm², 8.285 ohm/km as one wire, 2 % more as strands.
        let solid = wire("AWG 14", 2.081, ConductorBuild::Solid);
        let strands = wire("AWG 14", 2.081, ConductorBuild::Stranded);
        let ohm = resistance_ohm_per_km(&solid, 20.0).expect("a gauge");
        assert!((ohm - 8.285).abs() < 1e-3);
        let more = resistance_ohm_per_km(&strands, 20.0).expect("a gauge");
        assert!((more / ohm - 1.02).abs() < 1e-12);
        let kcmil = wire("250 kcmil", 126.68, ConductorBuild::Stranded);
        let ohm = resistance_ohm_per_km(&kcmil, 20.0).expect("a size");
        assert!((ohm - 17.241 / 126.677 * 1.02).abs() < 1e-4);
        for wire in [strands, kcmil] {
            let cold = resistance_ohm_per_km(&wire, 20.0).expect("a size");
            let warm = resistance_ohm_per_km(&wire, 80.0).expect("a size");
            assert!((warm / cold - 1.2358).abs() < 1e-4, "{}", wire.section);
        }
    }

    #[test]
    fn a_name_that_does_not_fit_its_area_is_refused() {
        assert!(resistance_ohm_per_km(&wire("AWG 14", 2.5, ConductorBuild::Solid), 20.0).is_err());
        assert!(
            resistance_ohm_per_km(&wire("AWG 99", 2.081, ConductorBuild::Solid), 20.0).is_err()
        );
    }
}
