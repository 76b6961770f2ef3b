//! The whole house: grows it from the seed and writes its folder.
//!
//! Start at [`write_demo`].

use crate::chance::DEMO_SEED;
use crate::faults::Slips;
use crate::files;
use crate::fruit::{self, BenchFruit};
use crate::garden::{self, Plot};
use crate::hue::{self, ColourNote};
use crate::paper::{self, PaperFault, Sheaf};
use crate::ripening::{self, TruePick};
use crate::roll::{self, RollFault};
use crate::season::Garden;
use crate::tables;
use crate::trial::{self, TrialPlot};
use crate::truth::{self, TrueVariety};
use crate::vine::{self, TrueHeight, Walk};
use crate::weather;
use std::path::{Path, PathBuf};
use thiserror::Error;

/// The house as it truly is, and everything that was there to be noted.
#[derive(Clone, Debug)]
pub struct House {
    /// The varieties.
    pub truth: Vec<TrueVariety>,
    /// The plots of all grow-outs, with what was seen on each.
    pub plots: Vec<PlotNotes>,
    /// The plots of the trials, of which only picks were noted.
    pub trial: Vec<TrialPlot>,
}

/// One plot and all that was seen on it.
#[derive(Clone, Debug)]
pub struct PlotNotes {
    /// The plot.
    pub plot: Plot,
    /// Fruit on the bench.
    pub fruits: Vec<BenchFruit>,
    /// Picks.
    pub picks: Vec<TruePick>,
    /// Heights.
    pub heights: Vec<TrueHeight>,
    /// Walks.
    pub walks: Vec<Walk>,
    /// Colours.
    pub colours: Vec<ColourNote>,
}

impl House {
    /// The plots of one season and garden.
    pub fn plots_of(&self, year: i16, garden: Garden) -> impl Iterator<Item = &PlotNotes> {
        self.plots
            .iter()
            .filter(move |notes| notes.plot.grow_out.year == year && notes.plot.grow_out.garden == garden)
    }
}

/// Why the demo could not be written.
#[derive(Debug, Error)]
pub enum DemoFault {
    /// The roll holds a slip.
    #[error("the roll cannot be read")]
    Roll(#[from] RollFault),
    /// A raw file cannot be made.
    #[error("{path} cannot be made")]
    Paper {
        /// The raw file.
        path: String,
        /// Why.
        source: PaperFault,
    },
    /// A file cannot be written.
    #[error("{path:?} cannot be written")]
    Write {
        /// The file or folder.
        path: PathBuf,
        /// Why.
        source: std::io::Error,
    },
}

/// Grows the house of one seed.
///
/// # Errors
/// [`RollFault`] where the roll holds a slip.
pub fn grow(seed: u64) -> Result<House, RollFault> {
    let truth = truth::varieties(seed, &roll::read()?);
    let plots = garden::plant(seed, &truth).into_iter().map(|plot| notes(seed, &truth, plot)).collect();
    let trial = trial::plant(seed, &truth);
    Ok(House { truth, plots, trial })
}

fn notes(seed: u64, truth: &[TrueVariety], plot: Plot) -> PlotNotes {
    PlotNotes {
        fruits: fruit::sample(seed, truth, &plot),
        picks: ripening::picks(seed, truth, &plot),
        heights: vine::heights(seed, truth, &plot),
        walks: vine::walks(seed, truth, &plot),
        colours: hue::notes(seed, truth, &plot),
        plot,
    }
}

/// Writes the demo house into `folder`: `raw/` as the keepers left it, `weather/` as two thermometers were read, `sales/` as the
/// shop did, and beside them the hidden
/// `truth.csv`, `truth-plots.csv`, `truth-trial.csv` and `faults.csv`, and a README. Gives the raw files written.
///
/// # Errors
/// [`DemoFault`] names the file that could not be made or written.
pub fn write_demo(folder: &Path) -> Result<Vec<Sheaf>, DemoFault> {
    let house = grow(DEMO_SEED)?;
    let mut slips = Slips::default();
    let sheaves = files::all(&house, &mut slips);
    for (name, bytes) in weather::thermometers(DEMO_SEED) {
        write(&folder.join("weather").join(name), &bytes)?;
    }
    sheaves.iter().try_for_each(|sheaf| write_sheaf(&folder.join("raw"), sheaf))?;
    let sales = files::of_sales(&house, DEMO_SEED);
    sales.iter().try_for_each(|sheaf| write_sheaf(folder, sheaf))?;
    write(&folder.join("truth.csv"), &tables::varieties(&house))?;
    write(&folder.join("truth-plots.csv"), &tables::plots(&house))?;
    write(&folder.join("truth-trial.csv"), &tables::trial(&house))?;
    write(&folder.join("faults.csv"), &tables::faults(slips.made()))?;
    write(&folder.join("README.md"), tables::readme(&sheaves, &sales, &slips).as_bytes())?;
    Ok(sheaves)
}

fn write_sheaf(folder: &Path, sheaf: &Sheaf) -> Result<(), DemoFault> {
    let made = paper::bytes(sheaf);
    let bytes = made.map_err(|source| DemoFault::Paper { path: sheaf.path.clone(), source })?;
    write(&folder.join(&sheaf.path), &bytes)
}

fn write(path: &Path, bytes: &[u8]) -> Result<(), DemoFault> {
    let fault = |source| DemoFault::Write { path: path.to_owned(), source };
    if let Some(folder) = path.parent() {
        std::fs::create_dir_all(folder).map_err(fault)?;
    }
    std::fs::write(path, bytes).map_err(fault)
}
