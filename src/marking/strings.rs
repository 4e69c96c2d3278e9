//! The marking strings for gas and for dust, from the parts really used.
//! Knows nothing of warnings and labels.
//!
//! Gas: every part counts, since gas reaches all of them. A part that carries intrinsically safe
//! circuits adds its `ia`, `ib` or `ic`; of any other part those letters do not count, for it is not
//! used that way. Dust: enclosure, entries and elements keep it out and count with their protection by
//! enclosure, or where they have none with their encapsulation; the parts of intrinsically safe circuits
//! add their letters. Group and level are the least that any of these parts has.

use super::parts::UsedPart;
use crate::arrangement::Arrangement;
use crate::catalogue::IpCode;
use crate::heat::Determined;
use crate::standards::iec_60079_0::{
    DustGroup, EquipmentProtectionLevel, GasGroup, LevelOfProtection, TemperatureClass,
    ambient_marking, dust_marking, gas_marking,
};
use serde::Serialize;
use std::collections::BTreeSet;

/// Most missing data that are named in one reason.
const MOST_NAMED: usize = 3;

/// A proposed marking string for gas.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GasString {
    /// The string, such as `Ex eb IIC T6 Gb`.
    pub text: String,
    /// Levels of protection in alphabetical order.
    pub protection: Vec<LevelOfProtection>,
    /// Least group of any part.
    pub group: GasGroup,
    /// Class of the rated power used.
    pub class: TemperatureClass,
    /// Least level of any part.
    pub level: EquipmentProtectionLevel,
}

/// A proposed marking string for dust.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DustString {
    /// The string, such as `Ex tb IIIC T85 °C Db`.
    pub text: String,
    /// Levels of protection in alphabetical order.
    pub protection: Vec<LevelOfProtection>,
    /// Least group of the boundary.
    pub group: DustGroup,
    /// Surface temperature: the limit of the class of the rated power used, °C.
    pub surface_c: u16,
    /// Least level of the boundary.
    pub level: EquipmentProtectionLevel,
}

/// What is missing, few of it named, the rest counted.
pub(super) fn missing(mut found: Vec<String>) -> String {
    found.dedup();
    let more = found.len().saturating_sub(MOST_NAMED);
    found.truncate(MOST_NAMED);
    let mut text = found.join("; ");
    if more > 0 {
        text.push_str(&format!("; and {more} more"));
    }
    text
}

/// Whether a level is one of intrinsic safety.
fn is_intrinsic(level: LevelOfProtection) -> bool {
    use LevelOfProtection::{Ia, Ib, Ic};
    matches!(level, Ia | Ib | Ic)
}

/// The certified types of protection of a part.
fn certified(part: &UsedPart<'_>) -> Result<Vec<LevelOfProtection>, String> {
    if part.certificate.protection.is_empty() {
        return Err(format!(
            "{}: no type of protection in its certificate",
            part.name
        ));
    }
    part.certificate
        .protection
        .iter()
        .map(|word| {
            word.parse()
                .map_err(|error| format!("{}: {error}", part.name))
        })
        .collect()
}

/// Levels of a part that count for gas.
fn gas_levels(part: &UsedPart<'_>) -> Result<Vec<LevelOfProtection>, String> {
    let certified = certified(part)?;
    let mut used: Vec<LevelOfProtection> = certified
        .iter()
        .copied()
        .filter(|level| level.gas_level().is_some())
        .filter(|level| !is_intrinsic(*level) || part.intrinsically_safe)
        .collect();
    // A terminal used for intrinsically safe circuits alone is used by these letters alone.
    if !part.increased_safety && used.iter().any(|level| is_intrinsic(*level)) {
        used.retain(|level| is_intrinsic(*level));
    }
    if used.is_empty() {
        return Err(format!(
            "{}: its certificate names no type of protection for gas as it is used here",
            part.name
        ));
    }
    Ok(used)
}

/// Levels of a part that count for dust; none for parts inside that are not intrinsically safe.
fn dust_levels(part: &UsedPart<'_>) -> Result<Vec<LevelOfProtection>, String> {
    use LevelOfProtection::{Ta, Tb, Tc};
    if part.boundary {
        let levels = certified(part)?;
        let by_enclosure: Vec<LevelOfProtection> = levels
            .iter()
            .copied()
            .filter(|level| matches!(level, Ta | Tb | Tc))
            .collect();
        let used = if by_enclosure.is_empty() {
            levels
                .into_iter()
                .filter(|level| level.dust_level().is_some() && !is_intrinsic(*level))
                .collect()
        } else {
            by_enclosure
        };
        if used.is_empty() {
            return Err(format!(
                "{}: its certificate names no type of protection for dust",
                part.name
            ));
        }
        return Ok(used);
    }
    if part.intrinsically_safe {
        let levels = certified(part)?;
        return Ok(levels
            .into_iter()
            .filter(|level| is_intrinsic(*level))
            .collect());
    }
    Ok(Vec::new())
}

/// The equipment protection level that a part brings: the best of those certified, and no better than
/// its types of protection give.
fn level_of(
    part: &UsedPart<'_>,
    is_wanted: fn(EquipmentProtectionLevel) -> bool,
    by_type: impl Iterator<Item = EquipmentProtectionLevel>,
) -> Result<EquipmentProtectionLevel, String> {
    let certified = part
        .certificate
        .epl
        .iter()
        .copied()
        .filter(|epl| is_wanted(*epl))
        .min();
    let certified = certified.ok_or_else(|| {
        format!(
            "{}: no equipment protection level in its certificate",
            part.name
        )
    })?;
    // The order runs from very high to enhanced: the greater one is the weaker.
    Ok(by_type.fold(certified, EquipmentProtectionLevel::max))
}

/// Collects what every part gives; errors name the parts.
fn gathered<'a, T>(
    parts: impl Iterator<Item = &'a UsedPart<'a>>,
    of: impl Fn(&UsedPart<'_>) -> Result<T, String>,
) -> Result<Vec<T>, Vec<String>> {
    let (mut values, mut errors) = (Vec::new(), Vec::new());
    for part in parts {
        match of(part) {
            Ok(value) => values.push(value),
            Err(error) => errors.push(error),
        }
    }
    if errors.is_empty() {
        Ok(values)
    } else {
        Err(errors)
    }
}

/// The string for gas.
pub(super) fn gas(arrangement: &Arrangement, parts: &[UsedPart<'_>]) -> Determined<GasString> {
    let found = gathered(parts.iter(), |part| {
        let levels = gas_levels(part)?;
        let by_type = levels.iter().filter_map(|level| level.gas_level());
        let level = level_of(part, EquipmentProtectionLevel::is_gas, by_type)?;
        let group = part
            .certificate
            .gas_group
            .ok_or_else(|| format!("{}: no gas group in its certificate", part.name))?;
        Ok((levels, level, group))
    });
    let found = match found {
        Ok(found) => found,
        Err(errors) => return Determined::NotDetermined(missing(errors)),
    };
    let protection: BTreeSet<LevelOfProtection> = found
        .iter()
        .flat_map(|(levels, _, _)| levels.iter().copied())
        .collect();
    let protection: Vec<LevelOfProtection> = protection.into_iter().collect();
    let level = found.iter().map(|(_, level, _)| *level).max();
    let group = found.iter().map(|(_, _, group)| *group).min();
    let (Some(level), Some(group)) = (level, group) else {
        return Determined::NotDetermined("there are no parts".into());
    };
    let class = arrangement.heat.row_class;
    Determined::Known(GasString {
        text: gas_marking(&protection, group, class, level),
        protection,
        group,
        class,
        level,
    })
}

/// The string for dust.
pub(super) fn dust(arrangement: &Arrangement, parts: &[UsedPart<'_>]) -> Determined<DustString> {
    let types = gathered(parts.iter(), dust_levels);
    let boundary = gathered(parts.iter().filter(|part| part.boundary), |part| {
        let levels = dust_levels(part)?;
        let by_type = levels.iter().filter_map(|level| level.dust_level());
        let level = level_of(part, EquipmentProtectionLevel::is_dust, by_type)?;
        let group = part
            .certificate
            .dust_group
            .ok_or_else(|| format!("{}: no dust group in its certificate", part.name))?;
        Ok((level, group))
    });
    let (types, boundary) = match (types, boundary) {
        (Ok(types), Ok(boundary)) => (types, boundary),
        (_, Err(errors)) | (Err(errors), _) => {
            return Determined::NotDetermined(missing(errors));
        }
    };
    let protection: BTreeSet<LevelOfProtection> = types.into_iter().flatten().collect();
    let protection: Vec<LevelOfProtection> = protection.into_iter().collect();
    let level = boundary.iter().map(|(level, _)| *level).max();
    let group = boundary.iter().map(|(_, group)| *group).min();
    let (Some(level), Some(group)) = (level, group) else {
        return Determined::NotDetermined("there are no parts".into());
    };
    // The type test keeps its margin below the limit of the class, and dust asks for the same margin
    // below the marked temperature: the limit itself may be marked. Limits are whole degrees.
    let surface_c = arrangement.heat.row_class.limit_c() as u16;
    Determined::Known(DustString {
        text: dust_marking(&protection, group, surface_c, level),
        protection,
        group,
        surface_c,
        level,
    })
}

/// The ambient range for the marking: that of the list, rounded outwards to whole degrees, where every part may be
/// used in it.
///
/// `None` where it is −20 to +40 °C, which needs no marking.
pub(super) fn ambient(
    arrangement: &Arrangement,
    parts: &[UsedPart<'_>],
) -> Determined<Option<String>> {
    let [least_c, most_c] = arrangement.area.ambient_c;
    let [least, most] = [least_c.floor(), most_c.ceil()];
    let is_whole = |value: f64| (-273.0..=1000.0).contains(&value);
    if !is_whole(least) || !is_whole(most) {
        return Determined::NotDetermined(format!("{least_c} to {most_c} °C is no ambient range"));
    }
    if most > arrangement.heat.row_ambient_c {
        return Determined::NotDetermined(format!(
            "the rating used ends at {} °C, the range at {most} °C",
            arrangement.heat.row_ambient_c
        ));
    }
    let covered = gathered(parts.iter(), |part| match part.certificate.service_c {
        None => Err(format!("{}: the service range is missing", part.name)),
        Some([from_c, to_c]) if from_c <= least_c && most_c <= to_c => Ok(()),
        Some([from_c, to_c]) => Err(format!(
            "{}: its service range is {from_c} to {to_c} °C",
            part.name
        )),
    });
    match covered {
        Ok(_) => Determined::Known(ambient_marking(least as i16, most as i16)),
        Err(errors) => Determined::NotDetermined(missing(errors)),
    }
}

/// The degree of protection for the marking: that of the enclosure where everything in its walls and lid keeps it,
/// else the one asked for where everything keeps that.
pub(super) fn ip(arrangement: &Arrangement, parts: &[UsedPart<'_>]) -> Determined<String> {
    let boundary = gathered(parts.iter().filter(|part| part.boundary), |part| {
        let degree = part.certificate.ip;
        degree
            .map(|degree| (part.name.clone(), degree))
            .ok_or_else(|| format!("{}: the degree of protection is missing", part.name))
    });
    let boundary = match boundary {
        Ok(boundary) => boundary,
        Err(errors) => return Determined::NotDetermined(missing(errors)),
    };
    let lacking = |wanted: IpCode| {
        let lacks = boundary.iter().filter(|(_, degree)| !degree.covers(wanted));
        lacks
            .map(|(name, degree)| format!("{name} has {degree}"))
            .collect::<Vec<_>>()
    };
    let asked = arrangement.area.ip;
    let of_enclosure = arrangement.enclosure.certificate.ip;
    let kept = of_enclosure.into_iter().chain([asked]);
    match kept.into_iter().find(|degree| lacking(*degree).is_empty()) {
        Some(degree) => Determined::Known(degree.to_string()),
        None => {
            Determined::NotDetermined(format!("{asked} is asked for; {}", missing(lacking(asked))))
        }
    }
}
