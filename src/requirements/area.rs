//! The hazardous area.

use crate::catalogue::IpCode;
use crate::source::Place;
use crate::standards::iec_60079_0::{
    DustGroup, EquipmentProtectionLevel, GasGroup, TemperatureClass,
};

/// The area that the box will stand in.
#[derive(Debug, Clone)]
pub struct Area {
    /// Equipment protection level for gas; from the zone where the list names one.
    pub gas_epl: Option<EquipmentProtectionLevel>,
    /// Equipment protection level for dust.
    pub dust_epl: Option<EquipmentProtectionLevel>,
    /// Gas group; present with `gas_epl`.
    pub gas_group: Option<GasGroup>,
    /// Dust group; present with `dust_epl`.
    pub dust_group: Option<DustGroup>,
    /// Temperature class; present with `gas_epl`.
    pub temperature_class: Option<TemperatureClass>,
    /// Maximum surface temperature, °C; present with `dust_epl`.
    pub max_surface_c: Option<f64>,
    /// Lowest and highest ambient temperature, °C.
    pub ambient_c: [f64; 2],
    /// Degree of protection.
    pub ip: IpCode,
    /// Where the list says so.
    pub place: Place,
}
