//! The marking: the order of its parts and the ambient range. Knows nothing of how it is drawn.

use super::{
    DEFAULT_AMBIENT_MAXIMUM_C, DEFAULT_AMBIENT_MINIMUM_C, DustGroup, EquipmentProtectionLevel,
    GasGroup, LevelOfProtection, TemperatureClass,
};
use crate::standards::provenance::{Source, Status};

/// Order of the parts of the marking.
pub const MARKING: Source = Source::new("IEC 60079-0", "", "cl. 29.4", Status::Published);
/// Form of the ambient range in the marking.
pub const AMBIENT_MARKING: Source =
    Source::new("IEC 60079-0", "2017", "cl. 29", Status::FromMemory);

/// The marking for gas: `Ex eb ia IIC T6 Gb`, the levels of protection in alphabetical order.
///
/// ```
/// use glandrail::standards::iec_60079_0::gas_marking;
/// use glandrail::standards::{EquipmentProtectionLevel, GasGroup, LevelOfProtection, TemperatureClass};
/// let marking = gas_marking(
///     &[LevelOfProtection::Ia, LevelOfProtection::Eb],
///     GasGroup::IIC,
///     TemperatureClass::T6,
///     EquipmentProtectionLevel::Gb,
/// );
/// assert_eq!(marking, "Ex eb ia IIC T6 Gb");
/// ```
pub fn gas_marking(
    levels: &[LevelOfProtection],
    group: GasGroup,
    class: TemperatureClass,
    level: EquipmentProtectionLevel,
) -> String {
    format!("Ex {} {group} {class} {level}", symbols(levels))
}

/// The marking for dust: `Ex tb IIIC T80 °C Db`. Stands by itself, never merged with that for gas.
///
/// ```
/// use glandrail::standards::iec_60079_0::dust_marking;
/// use glandrail::standards::{DustGroup, EquipmentProtectionLevel, LevelOfProtection};
/// let marking =
///     dust_marking(&[LevelOfProtection::Tb], DustGroup::IIIC, 80, EquipmentProtectionLevel::Db);
/// assert_eq!(marking, "Ex tb IIIC T80 °C Db");
/// ```
pub fn dust_marking(
    levels: &[LevelOfProtection],
    group: DustGroup,
    surface_c: u16,
    level: EquipmentProtectionLevel,
) -> String {
    format!("Ex {} {group} T{surface_c} °C {level}", symbols(levels))
}

/// The symbols in alphabetical order, each once.
fn symbols(levels: &[LevelOfProtection]) -> String {
    let mut words: Vec<&str> = levels.iter().map(|level| level.word()).collect();
    words.sort_unstable();
    words.dedup();
    words.join(" ")
}

/// The ambient range as the marking writes it; `None` for −20 to +40 °C, which needs no marking.
///
/// ```
/// use glandrail::standards::iec_60079_0::ambient_marking;
/// assert_eq!(ambient_marking(-20, 40), None);
/// assert_eq!(ambient_marking(-20, 50).as_deref(), Some("-20 °C ≤ Ta ≤ +50 °C"));
/// ```
pub fn ambient_marking(minimum_c: i16, maximum_c: i16) -> Option<String> {
    let default = f64::from(minimum_c) == DEFAULT_AMBIENT_MINIMUM_C
        && f64::from(maximum_c) == DEFAULT_AMBIENT_MAXIMUM_C;
    (!default).then(|| format!("{minimum_c:+} °C ≤ Ta ≤ {maximum_c:+} °C"))
}
