//! One station's lines out of a file of one value a line, as the network writes files by year with every station of the world.

use intake::file::Content;
use ripening::weather::ghcn;
use std::fs::File;
use std::io::{self, BufRead, BufReader, Read};

/// Bytes from the beginning by which a file is told.
pub(super) const BEGINNING: u64 = 1 << 16;

/// The lines of a station by its identifier, none of them where it holds other stations only; `None` where the file is not of one
/// value a line, or no identifier was said. They may be a line more than a station's days can need.
///
/// # Errors
/// What the disk refuses.
pub(super) fn values(content: &Content, station: Option<&str>) -> io::Result<Option<Vec<u8>>> {
    let Some(station) = station.filter(|station| ghcn::is_station(station)) else { return Ok(None) };
    let beginning = bytes(content, BEGINNING)?;
    if !ghcn::is_of_values(&String::from_utf8_lossy(&beginning)) {
        return Ok(None);
    }
    let mut own = Vec::new();
    let mut source: Box<dyn BufRead + '_> = match content {
        Content::Path(path) => Box::new(BufReader::new(File::open(path)?)),
        Content::Bytes(held) => Box::new(held.as_ref()),
    };
    let mut line = Vec::new();
    while own.len() as u64 <= super::MOST_BYTES && 0 < source.read_until(b'\n', &mut line)? {
        if ghcn::is_of(&line, station) {
            own.extend_from_slice(&line);
        }
        line.clear();
    }
    Ok(Some(own))
}

/// The first bytes of a file.
///
/// # Errors
/// What the disk refuses.
pub(super) fn bytes(content: &Content, most: u64) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    match content {
        Content::Path(path) => File::open(path)?.take(most).read_to_end(&mut bytes)?,
        Content::Bytes(held) => held.as_ref().take(most).read_to_end(&mut bytes)?,
    };
    Ok(bytes)
}
