//! `locule workbench`: the same in a browser on this machine.

use super::Failure;
use crate::answer::Ending;
use house::folder::House;
use std::io::{self, Write};

/// Serves the workbench until it is interrupted.
///
/// # Errors
/// [`Failure::Typed`] where the port is taken.
pub(crate) fn run(house: House, port: u16) -> Result<Ending, Failure> {
    let bench = ::workbench::open(house, port).map_err(|fault| Failure::Typed {
        message: format!("cannot serve the workbench on port {port}: {fault}"),
        help: "choose another port with --port, or 0 for a free one".to_owned(),
    })?;
    let mut out = io::stdout().lock();
    writeln!(out, "The workbench is at {} (stop it with Ctrl-C)", bench.address())?;
    out.flush()?;
    drop(out);
    bench.serve()?;
    Ok(Ending::Done)
}
