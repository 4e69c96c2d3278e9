//! Breaks of the rules of `suitability`: what the certificates of the parts cover.

use super::{Broken, broken};
use glandrail::catalogue::*;
use glandrail::standards::iec_60079_0::{DustGroup, EquipmentProtectionLevel};

/// The breaks of this group.
pub static BREAKS: &[Broken] = &[
    broken("suitability.area", "dust group not stated", |a| {
        a.area.dust_group = None
    }),
    broken("suitability.area", "no protection level asked for", |a| {
        a.area.epl.clear()
    }),
    broken("suitability.area", "gas group not stated", |a| {
        a.area.gas_group = None
    }),
    broken("suitability.area", "temperature class not stated", |a| {
        a.area.temperature_class = None
    }),
    broken("suitability.area", "surface temperature not stated", |a| {
        a.area.max_surface_c = None
    }),
    broken("suitability.area", "from 40.1 °C to 40 °C", |a| {
        a.area.ambient_c = [40.1, 40.0]
    }),
    broken("suitability.certificate", "terminal without number", |a| {
        a.terminals[0].certificate.number = None;
    }),
    broken(
        "suitability.certificate",
        "gland with an empty number",
        |a| {
            a.entries[0].part.certificate.number = Some(" ".into());
        },
    ),
    broken("suitability.epl", "terminal for Gc", |a| {
        a.terminals[0].certificate.epl = vec![EquipmentProtectionLevel::Gc];
    }),
    broken("suitability.epl", "plug without a level", |a| {
        a.entries[2].part.certificate.epl.clear()
    }),
    broken("suitability.gas_group", "terminal without a group", |a| {
        a.terminals[0].certificate.gas_group = None;
    }),
    broken(
        "suitability.gas_group",
        "earth plate without a group",
        |a| {
            if let Some(plate) = &mut a.entries[0].earth_plate {
                plate.certificate.gas_group = None;
            }
        },
    ),
    broken("suitability.ambient", "earth plate up to 39 °C", |a| {
        if let Some(plate) = &mut a.entries[0].earth_plate {
            plate.certificate.service_c = Some([-40.0, 39.0]);
        }
    }),
    broken("suitability.dust_group", "gland for IIIA", |a| {
        a.entries[0].part.certificate.dust_group = Some(DustGroup::IIIA);
    }),
    broken(
        "suitability.temperature_class",
        "dust asks for 80 °C",
        |a| a.area.max_surface_c = Some(80.0),
    ),
    broken("suitability.ambient", "gland from -19 °C on", |a| {
        a.entries[1].part.certificate.service_c = Some([-19.0, 75.0]);
    }),
    broken("suitability.ambient", "gland up to 39 °C", |a| {
        a.entries[1].part.certificate.service_c = Some([-40.0, 39.0]);
    }),
    broken("suitability.ambient", "jumper of unknown range", |a| {
        a.jumpers[0].certificate.service_c = None
    }),
    broken("suitability.ip", "element with IP54", |a| {
        a.elements[0].certificate.ip = IpCode::try_from("IP54".to_string()).ok();
    }),
    broken("suitability.ip", "gland with IP67, jets asked for", |a| {
        a.entries[0].part.certificate.ip = IpCode::try_from("IP67".to_string()).ok();
    }),
    broken("suitability.protection", "terminal without eb", |a| {
        a.terminals[0].certificate.protection = vec!["tb".into()];
    }),
    broken("suitability.protection", "enclosure only for dust", |a| {
        a.enclosure.certificate.protection = vec!["tb".into()];
    }),
    broken("suitability.impact", "no impact test", |a| {
        a.enclosure.impact_j = None
    }),
    broken("suitability.impact", "impact test with 4 J", |a| {
        a.enclosure.impact_j = Some(4.0)
    }),
];
