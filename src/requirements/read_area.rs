//! Reading `[area]`.

use super::Area;
use super::file::AreaTable;
use super::read::as_written;
use crate::catalogue::IpCode;
use crate::source::{Document, Findings};
use crate::standards::iec_60079_0::EquipmentProtectionLevel;

/// The ambient range that counts where a list names none (IEC 60079-0).
const DEFAULT_AMBIENT_C: [f64; 2] = [-20.0, 40.0];
/// Ambient temperatures that a list may name at all.
const AMBIENT_BOUNDS_C: [f64; 2] = [-70.0, 120.0];
/// The least degree of protection of an Ex e enclosure (IEC 60079-7).
const LEAST_IP: IpCode = IpCode {
    solids: 5,
    water: 4,
};

/// Reads and checks the area; `None` with findings where it is wrong.
pub(super) fn read_area(document: &Document, findings: &mut Findings) -> Option<Area> {
    let table = document.required_table::<AreaTable>("area", findings)?;
    let (table, place) = (table.value, table.place);
    let mut levels: Vec<EquipmentProtectionLevel> = table.epl.map_or(Vec::new(), |levels| levels.0);
    levels.extend(
        table
            .zone
            .iter()
            .flat_map(|zones| &zones.0)
            .map(|zone| zone.required_level()),
    );
    let strictest = |dust: bool| {
        levels
            .iter()
            .copied()
            .filter(|level| level.is_dust() == dust)
            .min()
    };
    let (gas_epl, dust_epl) = (strictest(false), strictest(true));
    let before = findings.len();
    if gas_epl.is_none() && dust_epl.is_none() {
        findings.push(
            place
                .error(
                    "",
                    "list-no-zone",
                    "the area names neither a zone nor an equipment protection level",
                )
                .expected("`zone = 1` or `epl = \"Gb\"`"),
        );
    }
    for (asked, given, field, example, zone) in [
        (
            gas_epl,
            table.gas_group.is_some(),
            "gas_group",
            "\"IIC\"",
            "gas",
        ),
        (
            gas_epl,
            table.temperature_class.is_some(),
            "temperature_class",
            "\"T6\"",
            "gas",
        ),
        (
            dust_epl,
            table.dust_group.is_some(),
            "dust_group",
            "\"IIIC\"",
            "dust",
        ),
        (
            dust_epl,
            table.max_surface_c.is_some(),
            "max_surface_c",
            "80",
            "dust",
        ),
    ] {
        if asked.is_some() && !given {
            findings.push(
                place
                    .error(
                        field,
                        "list-missing-area",
                        format!("the area does not name its `{field}`"),
                    )
                    .expected(format!("such as `{field} = {example}`"))
                    .hint("what is not known is never taken as permission"),
            );
        }
        // A figure that would count for nothing: more likely the zone is missing.
        if asked.is_none() && given && !levels.is_empty() {
            findings.push(
                place
                    .error(
                        field,
                        "list-no-zone",
                        format!("`{field}` is given, but the area names no {zone} zone"),
                    )
                    .expected(format!("a {zone} zone beside it, or no `{field}`")),
            );
        }
    }
    let ambient_c = table.ambient_c.unwrap_or(DEFAULT_AMBIENT_C);
    let [least, most] = AMBIENT_BOUNDS_C;
    if ambient_c[0] > ambient_c[1] || ambient_c[0] < least || ambient_c[1] > most {
        findings.push(
            place
                .error(
                    "ambient_c",
                    "list-range",
                    format!("`ambient_c` is {}", as_written(&place, "ambient_c")),
                )
                .expected(format!(
                    "lowest and highest temperature, between {least} and {most} °C"
                )),
        );
    }
    if let Some(surface_c) = table.max_surface_c
        && !(ambient_c[1]..=450.0).contains(&surface_c)
    {
        findings.push(
            place
                .error(
                    "max_surface_c",
                    "list-range",
                    format!("`max_surface_c` is {}", as_written(&place, "max_surface_c")),
                )
                .expected("a temperature above the highest ambient, at most 450 °C"),
        );
    }
    let ip = table.ip.unwrap_or(LEAST_IP);
    if !ip.covers(LEAST_IP) {
        findings.push(
            place
                .error(
                    "ip",
                    "list-range",
                    format!("{ip} is less than an Ex e enclosure must have"),
                )
                .expected(format!("at least {LEAST_IP}")),
        );
    }
    (findings.len() == before).then_some(Area {
        gas_epl,
        dust_epl,
        gas_group: table.gas_group.filter(|_| gas_epl.is_some()),
        dust_group: table.dust_group.filter(|_| dust_epl.is_some()),
        temperature_class: table.temperature_class.filter(|_| gas_epl.is_some()),
        max_surface_c: table.max_surface_c.filter(|_| dust_epl.is_some()),
        ambient_c,
        ip,
        place,
    })
}
