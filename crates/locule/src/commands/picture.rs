//! `locule show VARIETY --picture FILE`: the portrait as a file.

use super::Failure;
use super::reference::{Shape, shape};
use crate::answer::Answer;
use house::folder::House;
use house::portraits;
use record::language::grouped;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};
use std::path::Path;

/// A portrait that was written.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Picture {
    /// The file.
    file: String,
    /// Its size.
    bytes: u64,
}

pub(crate) fn run(house: &House, variety: &str, file: &Path) -> Result<Picture, Failure> {
    let written = portraits::write(house, variety, file)?;
    Ok(Picture { file: written.file.display().to_string(), bytes: written.bytes })
}

impl Answer for Picture {
    const SHAPE: &'static str = "picture/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "{} written, {} kB.", self.file, grouped(self.bytes.div_ceil(1000)))
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Picture>()]
}
