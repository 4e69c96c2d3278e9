//! A ZIP archive whose files are stored as they are (APPNOTE 6.3, from memory). No clock: every file has
//! the earliest date that the format knows, so that the same files give the same bytes.

/// 1 January 1980, the first day of the format's dates; its time is midnight.
const FIRST_DAY: u16 = (1 << 5) | 1;
/// Version of the format that is needed to read stored files.
const VERSION: u16 = 20;
/// Flag: names are UTF-8.
const UTF_8: u16 = 1 << 11;

/// Packs files, in this order. Names are paths with `/`.
pub(super) fn pack(files: &[(String, Vec<u8>)]) -> Vec<u8> {
    let mut out = Vec::new();
    let mut directory = Vec::new();
    for (name, content) in files {
        let offset = size(out.len());
        let entry = entry(name, content);
        out.extend(0x0403_4b50_u32.to_le_bytes());
        out.extend(&entry);
        out.extend(name.as_bytes());
        out.extend(content);
        directory.extend(0x0201_4b50_u32.to_le_bytes());
        directory.extend(VERSION.to_le_bytes());
        directory.extend(&entry);
        // Comment, disk, internal and external attributes: none.
        directory.extend([0; 10]);
        directory.extend(offset.to_le_bytes());
        directory.extend(name.as_bytes());
    }
    let begin = size(out.len());
    out.extend(&directory);
    out.extend(0x0605_4b50_u32.to_le_bytes());
    out.extend([0; 4]);
    let count = u16::try_from(files.len()).unwrap_or(u16::MAX);
    out.extend(count.to_le_bytes());
    out.extend(count.to_le_bytes());
    out.extend(size(directory.len()).to_le_bytes());
    out.extend(begin.to_le_bytes());
    out.extend([0; 2]);
    out
}

/// What the heads of a file have in common, from the version needed to the length of the extra field.
fn entry(name: &str, content: &[u8]) -> Vec<u8> {
    let mut head = Vec::new();
    head.extend(VERSION.to_le_bytes());
    head.extend(UTF_8.to_le_bytes());
    // Method "stored", time midnight.
    head.extend([0; 4]);
    head.extend(FIRST_DAY.to_le_bytes());
    head.extend(checksum(content).to_le_bytes());
    head.extend(size(content.len()).to_le_bytes());
    head.extend(size(content.len()).to_le_bytes());
    let length = u16::try_from(name.len()).unwrap_or(u16::MAX);
    head.extend(length.to_le_bytes());
    head.extend([0; 2]);
    head
}

/// A size of the format; lists of one box never come near its 4 GB.
fn size(length: usize) -> u32 {
    u32::try_from(length).unwrap_or(u32::MAX)
}

/// CRC-32 as ISO 3309 has it, bit by bit.
fn checksum(content: &[u8]) -> u32 {
    !content.iter().fold(u32::MAX, |sum, byte| {
        (0..8).fold(sum ^ u32::from(*byte), |sum, _| {
            (sum >> 1) ^ (0xedb8_8320 & (sum & 1).wrapping_neg())
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The check value that catalogues of checksums give for the nine digits.
    #[test]
    fn the_checksum_is_the_usual_one() {
        assert_eq!(checksum(b"123456789"), 0xcbf4_3926);
        assert_eq!(checksum(b""), 0);
    }

    #[test]
    fn an_archive_ends_with_the_place_of_its_directory() {
        let packed = pack(&[("a".into(), b"xyz".to_vec()), ("b".into(), Vec::new())]);
        let end = &packed[packed.len() - 22..];
        assert_eq!(end[..4], 0x0605_4b50_u32.to_le_bytes());
        assert_eq!(end[8..10], 2_u16.to_le_bytes());
        let begin = u32::from_le_bytes([end[16], end[17], end[18], end[19]]) as usize;
        assert_eq!(packed[begin..begin + 4], 0x0201_4b50_u32.to_le_bytes());
        // 30 bytes of head and the name for each, and the one content.
        assert_eq!(begin, 2 * 31 + 3);
    }
}
