//! The zip package round a workbook, looked through before anything is made of it.
//!
//! A few kilobytes can unpack to terabytes. [`Package::open`] checks what the package says of itself,
//! then unpacks every part once into nothing, counting, and stops at the limits. Only then is it read.

use crate::file::{Content, OpenFault, Source};
use std::io::{BufReader, Read};
use zip::ZipArchive;
use zip::read::ZipFile;
use zip::result::ZipError;

/// Most bytes that a workbook may unpack to, pictures and all. A full sheet of a million rows takes
/// about half of it. Common practice, no source.
pub(crate) const MOST_UNPACKED: u64 = 512 * 1024 * 1024;
/// Most bytes of one part that are held in memory at once (the shared strings).
pub(crate) const MOST_STRINGS: u64 = 128 * 1024 * 1024;
/// Most times its own size that a large part may unpack to. Sheets of numbers reach about 20, sheets of
/// one repeated value about 100; deflate itself cannot pass 1032. Common practice, no source.
const MOST_RATIO: u64 = 300;
/// Parts smaller than this may unpack at any ratio.
const SMALL_PART: u64 = 4 * 1024 * 1024;
/// Most parts of a package.
const MOST_PARTS: usize = 4096;

/// A package that keeps within the limits.
pub(crate) struct Package {
    archive: ZipArchive<Box<dyn Source>>,
}

/// One part of a package, unpacked as it is read.
pub(crate) type Part<'a> = BufReader<ZipFile<'a, Box<dyn Source>>>;

impl Package {
    pub(crate) fn open(content: &Content) -> Result<Self, OpenFault> {
        let mut archive = ZipArchive::new(content.reader()?).map_err(zip_fault)?;
        if MOST_PARTS < archive.len() {
            return Err(OpenFault::TooMany { what: "parts", most: MOST_PARTS as u64 });
        }
        within_limits(&mut archive)?;
        Ok(Self { archive })
    }

    /// Whether the package has a part of this name.
    pub(crate) fn holds(&self, name: &str) -> bool {
        self.names().iter().any(|part| part.eq_ignore_ascii_case(name))
    }

    /// Opens a part.
    pub(crate) fn part(&mut self, name: &str) -> Result<Part<'_>, OpenFault> {
        let found = self.names().into_iter().find(|part| part.eq_ignore_ascii_case(name));
        let name = found.unwrap_or_else(|| name.to_owned());
        Ok(BufReader::new(self.archive.by_name(&name).map_err(zip_fault)?))
    }

    /// The names of all parts, as far as they can be read.
    pub(crate) fn names(&self) -> Vec<String> {
        self.archive.file_names().flatten().map(std::borrow::Cow::into_owned).collect()
    }
}

fn within_limits(archive: &mut ZipArchive<Box<dyn Source>>) -> Result<(), OpenFault> {
    let mut unpacked = 0_u64;
    for at in 0..archive.len() {
        let mut part = archive.by_index(at).map_err(zip_fault)?;
        let stated = part.size();
        if MOST_UNPACKED < unpacked.saturating_add(stated) {
            return Err(OpenFault::Bomb("more than 512 MB".to_owned()));
        }
        let room = (MOST_UNPACKED - unpacked).min(most_of(&part));
        unpacked += count(&mut part, room)?;
    }
    Ok(())
}

/// The most that one part may unpack to, by its packed size.
fn most_of<R: Read>(part: &ZipFile<'_, R>) -> u64 {
    part.compressed_size().saturating_mul(MOST_RATIO).max(SMALL_PART)
}

/// Unpacks a part into nothing and gives its size, unless it is more than `room`.
fn count(part: &mut impl Read, room: u64) -> Result<u64, OpenFault> {
    let size = std::io::copy(&mut part.take(room + 1), &mut std::io::sink())
        .map_err(|fault| OpenFault::Damaged(fault.to_string()))?;
    if room < size {
        return Err(OpenFault::Bomb("hundreds of times its own size".to_owned()));
    }
    Ok(size)
}

pub(crate) fn zip_fault(fault: ZipError) -> OpenFault {
    match fault {
        ZipError::Io(fault) if fault.kind() == std::io::ErrorKind::NotFound => OpenFault::Unreadable(fault),
        ZipError::UnsupportedArchive(ZipError::PASSWORD_REQUIRED) => OpenFault::Encrypted,
        fault => OpenFault::Damaged(fault.to_string()),
    }
}
