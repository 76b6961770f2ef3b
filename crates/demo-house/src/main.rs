//! Makes the demo house, or a tidy house of any size for the benches.

use clap::{Parser, Subcommand};
use demo_house::house::{DemoFault, write_demo};
use demo_house::paper::Sheaf;
use demo_house::scale::{self, Size};
use std::error::Error;
use std::io::Write;
use std::num::NonZeroU64;
use std::path::PathBuf;
use std::process::ExitCode;

/// Make the demo house from its hidden truth
#[derive(Parser)]
#[command(args_conflicts_with_subcommands = true, arg_required_else_help = true)]
struct Wish {
    /// Folder to write `raw/`, the truth and the README into
    folder: Option<PathBuf>,
    #[command(subcommand)]
    other: Option<Other>,
}

#[derive(Subcommand)]
enum Other {
    /// Write a tidy house of any size for the benches
    Scale {
        /// Rows of fruit in all
        #[arg(long)]
        fruit: u64,
        /// Varieties
        #[arg(long)]
        varieties: NonZeroU64,
        /// Folder to write `varieties.csv`, `plots.csv` and `fruit.csv` into
        folder: PathBuf,
    },
}

fn main() -> ExitCode {
    match fulfil(Wish::parse()) {
        Ok(words) => say(&mut std::io::stdout(), &words, ExitCode::SUCCESS),
        Err(fault) => say(&mut std::io::stderr(), &told(&fault), ExitCode::from(2)),
    }
}

fn fulfil(wish: Wish) -> Result<String, DemoFault> {
    match (wish.other, wish.folder) {
        (Some(Other::Scale { fruit, varieties, folder }), _) => {
            scale::write(&folder, Size { fruit, varieties })?;
            Ok(format!("{fruit} fruit of {varieties} varieties"))
        }
        (None, Some(folder)) => write_demo(&folder).map(|sheaves| summary(&sheaves)),
        (None, None) => Ok(String::new()),
    }
}

fn summary(sheaves: &[Sheaf]) -> String {
    let rows: usize = sheaves.iter().map(Sheaf::rows).sum();
    format!("{} files, {rows} rows", sheaves.len())
}

fn told(fault: &DemoFault) -> String {
    let reasons = std::iter::successors(fault.source(), |reason| (*reason).source());
    reasons.fold(fault.to_string(), |words, reason| format!("{words}: {reason}"))
}

fn say(to: &mut impl Write, words: &str, code: ExitCode) -> ExitCode {
    if writeln!(to, "{words}").is_ok() { code } else { ExitCode::FAILURE }
}
