//! Checks of the certificate data that every part has.

use super::checker::{Checker, SERVICE_C};
use crate::catalogue::{Certificate, IpCode};
use crate::standards::LevelOfProtection;

/// The lowest degree of protection of an increased-safety enclosure with bare live parts inside
/// (IEC 60079-7, from memory).
pub(super) const LEAST_IP_EX_E: IpCode = IpCode {
    solids: 5,
    water: 4,
};

/// A certificate that has a number, levels of protection that are known, and a service range that is one.
pub(super) fn check(certificate: &Certificate, checker: &mut Checker<'_>) {
    let number = certificate.number.as_deref().unwrap_or_default();
    if number.trim().is_empty() {
        checker.error(
            "certificate.number",
            "catalogue-certificate",
            "the certificate has no number",
            "the number of the certificate that says all this",
            "add `number = \"…\"`; of several certificates that of the one for this use",
        );
    }
    check_what_it_says(certificate, checker);
}

/// The same without a number, for a part that has no certificate of its own.
pub(super) fn check_what_it_says(certificate: &Certificate, checker: &mut Checker<'_>) {
    for (index, word) in certificate.protection.iter().enumerate() {
        if word.parse::<LevelOfProtection>().is_err() {
            let known: Vec<&str> = LevelOfProtection::ALL
                .iter()
                .map(|level| level.word())
                .collect();
            let hint = match crate::source::nearest(word, known.iter().copied()) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("known are {}", known.join(", ")),
            };
            checker.error(
                &format!("certificate.protection[{index}]"),
                "catalogue-protection",
                format!("`{word}` is not a level of protection"),
                "a type of protection with its level, such as `eb`",
                hint,
            );
        }
    }
    if let Some(service_c) = certificate.service_c {
        for (index, value) in service_c.into_iter().enumerate() {
            checker.between(
                &format!("certificate.service_c[{index}]"),
                value,
                SERVICE_C[0],
                SERVICE_C[1],
            );
        }
        checker.rising("certificate.service_c", service_c);
    }
}

/// Whether the part is certified for increased safety.
pub(super) fn is_increased_safety(certificate: &Certificate) -> bool {
    certificate.protection.iter().any(|word| {
        matches!(
            word.parse(),
            Ok(LevelOfProtection::Eb | LevelOfProtection::Ec)
        )
    })
}

/// A part in the wall of an Ex e enclosure must not lower its degree of protection below IP54. A
/// missing one is unknown, and no finding here.
pub(super) fn check_ip_in_wall(certificate: &Certificate, checker: &mut Checker<'_>) {
    if let Some(ip) = certificate.ip
        && is_increased_safety(certificate)
        && !ip.covers(LEAST_IP_EX_E)
        && !(ip.solids >= LEAST_IP_EX_E.solids && ip.water >= 7)
    {
        checker.error(
            "certificate.ip",
            "catalogue-ip",
            format!("{ip} is too low for increased safety"),
            format!("{LEAST_IP_EX_E} or higher"),
            "take the part out, or correct its degree of protection from the certificate",
        );
    }
}
