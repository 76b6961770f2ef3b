//! A tidy house of any size, for the benches that measure speed and memory.
//!
//! It is written row by row, so that a million fruit need no more memory than ten. Start at [`write()`].

use crate::chance::{DEMO_SEED, between, between_logs, factor, happens, stream, whole};
use crate::house::DemoFault;
use crate::truth::WEIGHT_OVER_ELLIPSOID;
use rand_chacha::ChaCha8Rng;
use std::fs::File;
use std::io::{BufWriter, Write};
use std::num::NonZeroU64;
use std::path::Path;

/// How large a house.
#[derive(Clone, Copy, Debug)]
pub struct Size {
    /// Rows of fruit in all.
    pub fruit: u64,
    /// Varieties.
    pub varieties: NonZeroU64,
}

/// Seasons that the fruit is spread over.
const SEASONS: [u64; 3] = [2024, 2025, 2026];
/// Plants of each plot that fruit is taken from.
const PLANTS: u64 = 4;

/// Writes `varieties.csv`, `plots.csv` (a plot a variety and season) and `fruit.csv` (`size.fruit` rows)
/// into `folder`. The same size gives the same bytes.
///
/// # Errors
/// [`DemoFault::Write`] names the file that could not be written.
pub fn write(folder: &Path, size: Size) -> Result<(), DemoFault> {
    let written = std::fs::create_dir_all(folder);
    written.map_err(|source| DemoFault::Write { path: folder.to_owned(), source })?;
    write_file(&folder.join("varieties.csv"), |to| write_varieties(to, size))?;
    write_file(&folder.join("plots.csv"), |to| write_plots(to, size))?;
    write_file(&folder.join("fruit.csv"), |to| write_fruit(to, size))
}

fn write_file(
    path: &Path,
    rows: impl Fn(&mut BufWriter<File>) -> std::io::Result<()>,
) -> Result<(), DemoFault> {
    let written = File::create(path).and_then(|file| {
        let mut to = BufWriter::new(file);
        rows(&mut to)?;
        to.flush()
    });
    written.map_err(|source| DemoFault::Write { path: path.to_owned(), source })
}

fn name(variety: u64) -> String {
    format!("Trial {:05}", variety + 1)
}

fn write_varieties(to: &mut impl Write, size: Size) -> std::io::Result<()> {
    writeln!(to, "variety,also known as")?;
    (0..size.varieties.get()).try_for_each(|variety| writeln!(to, "{},T{}", name(variety), variety + 1))
}

fn label(season: u64, variety: u64) -> String {
    format!("{}-{:05}", season % 100, variety + 1)
}

fn write_plots(to: &mut impl Write, size: Size) -> std::io::Result<()> {
    writeln!(to, "grow-out,garden,season,plot,variety,block,row,position,transplanted,plants")?;
    for season in SEASONS {
        for variety in 0..size.varieties.get() {
            let (block, row, position) = (variety / 400 + 1, variety / 20 + 1, variety % 20 + 1);
            let (label, name) = (label(season, variety), name(variety));
            writeln!(
                to,
                "Home Garden {season},Home Garden,{season},{label},{name},{block},{row},{position},{season}-05-15,{PLANTS}"
            )?;
        }
    }
    Ok(())
}

/// A variety's typical fruit, drawn over all sizes.
struct Typical {
    weight_g: f64,
    length_over_width: f64,
    locules: f64,
}

fn typical(variety: u64) -> Typical {
    let draws = &mut stream(DEMO_SEED, &["scale", &variety.to_string()]);
    let weight_g = between_logs(draws, (3.0, 600.0));
    Typical {
        weight_g,
        length_over_width: between(draws, (0.65, 2.0)),
        locules: (1.6 * weight_g.powf(0.3)).max(2.0),
    }
}

fn write_fruit(to: &mut impl Write, size: Size) -> std::io::Result<()> {
    writeln!(to, "date,season,plot,plant,variety,weight (g),length (mm),width (mm),locules,brix")?;
    let draws = &mut stream(DEMO_SEED, &["scale fruit"]);
    let varieties = size.varieties.get();
    for variety in 0..varieties {
        let typical = typical(variety);
        let share = size.fruit / varieties + u64::from(variety < size.fruit % varieties);
        for fruit in 0..share {
            write_one(to, draws, &typical, variety, fruit)?;
        }
    }
    Ok(())
}

fn write_one(
    to: &mut impl Write,
    draws: &mut ChaCha8Rng,
    typical: &Typical,
    variety: u64,
    fruit: u64,
) -> std::io::Result<()> {
    let season = SEASONS.into_iter().cycle().nth((fruit % 3) as usize).unwrap_or(2026);
    let (plant, day) = (fruit / 3 % PLANTS + 1, fruit / 12 % 28 + 1);
    let weight = typical.weight_g * factor(draws, 0.25);
    let ratio = typical.length_over_width * factor(draws, 0.042);
    let cubic_mm = weight * 1000.0 / WEIGHT_OVER_ELLIPSOID;
    let width = (cubic_mm * 6.0 / (std::f64::consts::PI * ratio)).cbrt();
    let weight = weight * factor(draws, 0.05);
    let (name, label) = (name(variety), label(season, variety));
    write!(
        to,
        "{season}-08-{day:02},{season},{label},{plant},{name},{weight:.1},{:.1},{width:.1},",
        width * ratio
    )?;
    if happens(draws, 0.4) {
        let brix = (7.0 - 1.34 * typical.weight_g.log10()) * factor(draws, 0.12);
        writeln!(to, "{},{brix:.1}", whole(draws, typical.locules))
    } else {
        writeln!(to, ",")
    }
}
