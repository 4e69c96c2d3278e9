//! Whether a part's certificate allows its use in the area. Unknown is never permission.

use crate::catalogue::Certificate;
use crate::requirements::Area;

/// Why a part may not be used in the area.
#[derive(Debug, Clone, PartialEq)]
pub enum Unsuitable {
    /// Its certificate does not say.
    Unknown(&'static str),
    /// Its certificate says no; what is needed and what there is.
    Refused {
        /// What the certificate is asked for.
        what: &'static str,
        /// What the area needs.
        needed: String,
        /// What the part has.
        has: String,
    },
}

impl std::fmt::Display for Unsuitable {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Unsuitable::Unknown(what) => write!(formatter, "its {what} is not known"),
            Unsuitable::Refused { what, needed, has } => {
                write!(formatter, "its {what} is {has}; {needed} is needed")
            }
        }
    }
}

/// Checks the certificate of a part against the area. `exposed` parts (enclosure, glands, plugs,
/// elements) must also have the degree of protection.
pub fn suits(certificate: &Certificate, area: &Area, exposed: bool) -> Result<(), Unsuitable> {
    if certificate.protection.is_empty() {
        return Err(Unsuitable::Unknown("type of protection"));
    }
    for needed in [area.gas_epl, area.dust_epl].into_iter().flatten() {
        if certificate.epl.is_empty() {
            return Err(Unsuitable::Unknown("equipment protection level"));
        }
        if !certificate.epl.iter().any(|has| has.covers(needed)) {
            let has = certificate
                .epl
                .iter()
                .map(|level| level.to_string())
                .collect::<Vec<_>>()
                .join(" and ");
            let needed = needed.to_string();
            return Err(Unsuitable::Refused {
                what: "equipment protection level",
                needed,
                has,
            });
        }
    }
    if let Some(needed) = area.gas_group {
        let has = certificate
            .gas_group
            .ok_or(Unsuitable::Unknown("gas group"))?;
        if !has.covers(needed) {
            return Err(refused("gas group", needed, has));
        }
    }
    if let Some(needed) = area.dust_group {
        let has = certificate
            .dust_group
            .ok_or(Unsuitable::Unknown("dust group"))?;
        if !has.covers(needed) {
            return Err(refused("dust group", needed, has));
        }
    }
    let [least, most] = certificate
        .service_c
        .ok_or(Unsuitable::Unknown("service temperature"))?;
    let [coldest, hottest] = area.ambient_c;
    // Only the end that is not covered: the other may be one that nobody asks for.
    let ends = match (coldest < least, hottest > most) {
        (false, false) => None,
        (true, true) => Some((
            format!("{coldest} to {hottest} °C"),
            format!("{least} to {most} °C"),
        )),
        (true, false) => Some((
            format!("down to {coldest} °C"),
            format!("down to {least} °C"),
        )),
        (false, true) => Some((format!("up to {hottest} °C"), format!("up to {most} °C"))),
    };
    if let Some((needed, has)) = ends {
        return Err(refused("service temperature", needed, has));
    }
    if exposed {
        let has = certificate
            .ip
            .ok_or(Unsuitable::Unknown("degree of protection"))?;
        if !has.covers(area.ip) {
            return Err(refused("degree of protection", area.ip, has));
        }
    }
    Ok(())
}

fn refused(what: &'static str, needed: impl ToString, has: impl ToString) -> Unsuitable {
    Unsuitable::Refused {
        what,
        needed: needed.to_string(),
        has: has.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::Catalogue;
    use crate::requirements::RequirementList;
    use crate::source::SourceFile;
    use crate::workshop::Workshop;

    #[test]
    fn of_the_service_temperature_the_end_that_is_not_covered_is_told() {
        let text = "[job]\ntag = \"JB-1\"\n[area]\nzone = 1\ngas_group = \"IIB\"\ntemperature_class = \"T6\"\n\
                    ambient_c = [-20, 40]\nip = \"IP54\"\n[[cable]]\ntag = \"W1\"\ncores = \"2 x 1.5 mm2\"\n";
        let file = SourceFile::from_text("list.toml", text);
        let list = RequirementList::from_source(file, &Workshop::default()).expect("sound");
        let mut area = list.area;
        let mut certificate = Catalogue::demo().enclosure[0].certificate.clone();
        certificate.service_c = Some([-40.0, 55.0]);
        let mut told = |ambient_c| {
            area.ambient_c = ambient_c;
            suits(&certificate, &area, false)
                .err()
                .map(|reason| reason.to_string())
                .unwrap_or_default()
        };
        assert_eq!(told([-40.0, 55.0]), "");
        assert_eq!(
            told([-20.0, 60.0]),
            "its service temperature is up to 55 °C; up to 60 °C is needed"
        );
        assert_eq!(
            told([-50.0, 40.0]),
            "its service temperature is down to -40 °C; down to -50 °C is needed"
        );
        assert_eq!(
            told([-50.0, 60.0]),
            "its service temperature is -40 to 55 °C; -50 to 60 °C is needed"
        );
    }
}
