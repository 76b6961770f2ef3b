//! `locule publish`: the list as a folder of web pages.

use super::reference::{Shape, shape};
use super::{Failure, bars};
use crate::answer::Answer;
use crate::arguments::publish::Publish;
use house::folder::House;
use house::pages;
use jiff::ZonedDateTime;
use record::language::counted;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};
use std::time::Instant;

/// A folder of pages that was written.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Pages {
    /// The folder.
    folder: String,
    /// Files in it.
    files: u64,
    /// Their bytes together.
    bytes: u64,
    /// Varieties.
    varieties: usize,
    /// How long it took.
    seconds: f64,
}

pub(crate) fn run(house: &House, typed: &Publish) -> Result<Pages, Failure> {
    let began = Instant::now();
    let folder = typed.to.clone().unwrap_or_else(|| pages::default_folder(house));
    let written = pages::write(house, &folder, ZonedDateTime::now().date(), &bars())?;
    Ok(Pages {
        folder: written.folder.display().to_string(),
        files: written.files,
        bytes: written.bytes,
        varieties: written.varieties,
        seconds: began.elapsed().as_secs_f64(),
    })
}

impl Answer for Pages {
    const SHAPE: &'static str = "publish/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let varieties = counted(self.varieties as u64, "variety", "varieties");
        let files = counted(self.files, "file", "files");
        writeln!(to, "{} written, {varieties} in {files}, in {:.1} s.", self.folder, self.seconds)?;
        writeln!(to, "Open index.html in it, or put the folder on any web server.")
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Pages>()]
}
