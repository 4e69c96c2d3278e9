//! The unit at the end of a field's name: `current_a` is in A. General units, no trade.

/// Endings, the symbol they stand for and a number that often occurs, for examples in messages.
const UNITS: &[(&str, &str, &str)] = &[
    ("mm", "mm", "25"),
    ("cm", "cm", "25"),
    ("m", "m", "2.5"),
    ("in", "inch", "1"),
    ("inch", "inch", "1"),
    ("um", "µm", "25"),
    ("mm2", "mm²", "2.5"),
    ("cm2", "cm²", "25"),
    ("m2", "m²", "0.25"),
    ("m3", "m³", "0.25"),
    ("a", "A", "16"),
    ("ma", "mA", "20"),
    ("ka", "kA", "6"),
    ("v", "V", "230"),
    ("mv", "mV", "100"),
    ("kv", "kV", "1"),
    ("w", "W", "10"),
    ("mw", "mW", "500"),
    ("kw", "kW", "1.5"),
    ("va", "VA", "10"),
    ("c", "°C", "40"),
    ("f", "°F", "100"),
    ("k", "K", "40"),
    ("percent", "%", "20"),
    ("g", "g", "250"),
    ("kg", "kg", "2.5"),
    ("n", "N", "50"),
    ("kn", "kN", "1"),
    ("nm", "N·m", "1.2"),
    ("pa", "Pa", "100"),
    ("kpa", "kPa", "100"),
    ("bar", "bar", "1"),
    ("j", "J", "7"),
    ("ohm", "Ω", "10"),
    ("mohm", "mΩ", "1.5"),
    ("kohm", "kΩ", "10"),
    ("h", "h", "1"),
    ("hz", "Hz", "50"),
    ("s", "s", "10"),
    ("ms", "ms", "100"),
    ("min", "min", "10"),
    ("deg", "°", "90"),
    ("km", "km", "1"),
];

/// The unit a field's name ends in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Unit {
    /// As written after a number.
    pub(super) symbol: String,
    /// A number that often occurs with it.
    pub(super) example: Option<&'static str>,
}

/// The unit a field's name ends in: `diameter_mm`, `loss_w_per_m2`. A name that is nothing but an
/// ending (`a`) has no unit.
pub(super) fn unit_of(field: &str) -> Option<Unit> {
    let (_, ending) = split(field)?;
    match ending.split_once("_per_") {
        Some((above, below)) => Some(Unit {
            symbol: format!("{}/{}", look_up(above)?.1, look_up(below)?.1),
            example: None,
        }),
        None => look_up(ending).map(|(_, symbol, example)| Unit {
            symbol: (*symbol).to_owned(),
            example: Some(example),
        }),
    }
}

/// How a field that is not known differs from one that is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum UnitSlip {
    /// `width_cm` for `width_mm`.
    Wrong,
    /// `width` for `width_mm`.
    Left,
}

/// Whether `given` is `known` but for its unit.
pub(super) fn unit_slip(given: &str, known: &str) -> Option<UnitSlip> {
    let (known_stem, known_ending) = split(known)?;
    if given == known_stem {
        return Some(UnitSlip::Left);
    }
    let (given_stem, given_ending) = split(given)?;
    (given_stem == known_stem && given_ending != known_ending).then_some(UnitSlip::Wrong)
}

/// A field's name before and after the `_` in front of its unit.
fn split(field: &str) -> Option<(&str, &str)> {
    let (before, last) = field.rsplit_once('_')?;
    look_up(last)?;
    if let Some((stem, above)) = before.strip_suffix("_per").and_then(|b| b.rsplit_once('_'))
        && look_up(above).is_some()
    {
        return Some((stem, &field[stem.len() + 1..]));
    }
    Some((before, last))
}

fn look_up(ending: &str) -> Option<&'static (&'static str, &'static str, &'static str)> {
    UNITS.iter().find(|(known, ..)| *known == ending)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_end_in_their_unit() {
        let symbol = |field| unit_of(field).map(|unit| unit.symbol);
        assert_eq!(symbol("current_a").as_deref(), Some("A"));
        assert_eq!(symbol("ambient_max_c").as_deref(), Some("°C"));
        assert_eq!(symbol("torque_nm").as_deref(), Some("N·m"));
        assert_eq!(symbol("resistance_mohm").as_deref(), Some("mΩ"));
        assert_eq!(symbol("resistance_ohm_per_km").as_deref(), Some("Ω/km"));
        assert_eq!(symbol("cross_section_mm2").as_deref(), Some("mm²"));
        assert_eq!(symbol("spare_percent").as_deref(), Some("%"));
        assert_eq!(symbol("tag"), None);
        assert_eq!(symbol("a"), None);
        assert_eq!(symbol("gas_group"), None);
    }

    #[test]
    fn slips_of_the_unit_are_told_from_other_names() {
        assert_eq!(unit_slip("width_cm", "width_mm"), Some(UnitSlip::Wrong));
        assert_eq!(unit_slip("width", "width_mm"), Some(UnitSlip::Left));
        assert_eq!(
            unit_slip("r_ohm_per_m", "r_ohm_per_km"),
            Some(UnitSlip::Wrong)
        );
        assert_eq!(unit_slip("height_cm", "width_mm"), None);
        assert_eq!(unit_slip("width_max", "width_mm"), None);
        assert_eq!(unit_slip("gas_colour", "gas_group"), None);
    }

    #[test]
    fn no_ending_is_listed_twice() {
        for (place, (ending, ..)) in UNITS.iter().enumerate() {
            assert!(
                UNITS[..place].iter().all(|(other, ..)| other != ending),
                "{ending}"
            );
        }
    }
}
