//! What a part's certificate says about where the part may be used.

use crate::standards::iec_60079_0::{DustGroup, EquipmentProtectionLevel, GasGroup};
use serde::{Deserialize, Serialize};

/// The certificate data of one part. A missing field is unknown, and unknown is never permission:
/// the audit reports it as `not determined`.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Certificate {
    /// The certificate's number, for the record.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub number: Option<String>,
    /// Types of protection with their level, such as `eb`, `db`, `ia`, `tb`.
    #[serde(default)]
    pub protection: Vec<String>,
    /// Equipment protection levels that the part gives or may be used in.
    #[serde(default)]
    pub epl: Vec<EquipmentProtectionLevel>,
    /// The most severe gas group.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gas_group: Option<GasGroup>,
    /// The most severe dust group.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dust_group: Option<DustGroup>,
    /// Service temperature of the part itself, lowest and highest, °C.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub service_c: Option<[f64; 2]>,
    /// Degree of protection against dust and water, such as `IP66`. Not used for parts inside a box.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ip: Option<IpCode>,
}

/// A degree of protection by enclosure (IEC 60529), such as `IP66`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(try_from = "String", into = "String")]
pub struct IpCode {
    /// First numeral: solid objects and dust, 0 to 6.
    pub solids: u8,
    /// Second numeral: water, 0 to 9.
    pub water: u8,
}

impl IpCode {
    /// Whether a part of this degree may stand where `required` is asked for.
    ///
    /// Both numerals must be reached. Numerals 7, 8 and 9 for water do not include 5 and 6 (IEC 60529
    /// clause 6), so that a part marked with them alone does not cover a jet.
    pub fn covers(self, required: IpCode) -> bool {
        let water = if self.water >= 7 {
            required.water == self.water
                || required.water <= 4
                || (self.water == 8 && required.water == 7)
        } else {
            self.water >= required.water
        };
        self.solids >= required.solids && water
    }
}

impl std::fmt::Display for IpCode {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(formatter, "IP{}{}", self.solids, self.water)
    }
}

impl From<IpCode> for String {
    fn from(code: IpCode) -> Self {
        code.to_string()
    }
}

impl TryFrom<String> for IpCode {
    type Error = String;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        let digits: Vec<u8> = text.strip_prefix("IP").unwrap_or("").bytes().collect();
        match digits[..] {
            [solids @ b'0'..=b'6', water @ b'0'..=b'9'] => Ok(IpCode {
                solids: solids - b'0',
                water: water - b'0',
            }),
            _ => Err(format!(
                "`{text}` is not a degree of protection such as `IP66`"
            )),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ip(text: &str) -> IpCode {
        IpCode::try_from(text.to_string()).expect("valid in this test")
    }

    #[test]
    fn immersion_does_not_include_jets() {
        assert!(ip("IP66").covers(ip("IP54")));
        assert!(!ip("IP54").covers(ip("IP66")));
        assert!(!ip("IP67").covers(ip("IP66")));
        assert!(ip("IP67").covers(ip("IP64")));
        assert!(ip("IP68").covers(ip("IP67")));
    }

    #[test]
    fn broken_codes_are_refused() {
        for text in ["66", "IP6", "IP666", "IP76", "ip66", "IPX4"] {
            assert!(IpCode::try_from(text.to_string()).is_err(), "{text}");
        }
    }
}
