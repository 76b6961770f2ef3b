//! Small random trials: treatments in blocks on sites, some plots lost.

use rand::RngExt;
use rand_chacha::ChaCha8Rng;
use statistics::draws::{normal, stream};

/// How many designs each table has.
pub(crate) const SEEDS: usize = 200;

/// One trial, a row a plot.
#[derive(Clone, Debug, Default)]
pub(crate) struct Design {
    pub(crate) seed: usize,
    pub(crate) treatments: usize,
    pub(crate) treatment: Vec<usize>,
    pub(crate) block: Vec<usize>,
    pub(crate) site: Vec<usize>,
    /// What the treatment, block and site add up to.
    pub(crate) signal: Vec<f64>,
    /// A part of the signal that is known beforehand.
    pub(crate) known: Vec<f64>,
}

/// Share of plots that are lost.
const LOST: f64 = 0.08;

impl Design {
    /// Draws a trial; effects of treatments, blocks and sites are of the size of `spread`.
    pub(crate) fn draw(table: &str, seed: usize, spread: f64) -> (Self, ChaCha8Rng) {
        let fresh = std::env::var("LOCULE_FRESH").unwrap_or_default();
        let mut chance = stream(&["against r", table, &seed.to_string(), &fresh]);
        let treatments = chance.random_range(3..7);
        let (blocks, sites) = (chance.random_range(4..9), chance.random_range(4..7));
        let mut effects = |count: usize| -> Vec<f64> {
            let size = spread * chance.random_range(0.3..1.5);
            (0..count).map(|_| size * normal(&mut chance)).collect()
        };
        let (of_treatment, of_block, of_site) = (effects(treatments), effects(blocks), effects(sites));
        let mut design = Self { seed, treatments, ..Self::default() };
        for (block, in_block) in of_block.iter().enumerate() {
            for (treatment, treated) in of_treatment.iter().enumerate().chain(of_treatment.iter().enumerate())
            {
                let (site, lost) = (chance.random_range(0..sites), chance.random::<f64>() < LOST);
                let known = chance.random_range(-0.5..0.5);
                if !lost {
                    design.treatment.push(treatment);
                    design.block.push(block);
                    design.site.push(site);
                    design.signal.push(treated + in_block + of_site[site]);
                    design.known.push(known);
                }
            }
        }
        (design, chance)
    }

    /// An intercept and one column a treatment but the first.
    pub(crate) fn columns(&self) -> Vec<Vec<f64>> {
        let is = |level: usize| self.treatment.iter().map(|own| f64::from(u8::from(*own == level))).collect();
        std::iter::once(vec![1.0; self.treatment.len()]).chain((1..self.treatments).map(is)).collect()
    }

    /// Lines of a table: seed, kind, treatment, block, site, known part, then `numbers` of the plot.
    pub(crate) fn lines(&self, kind: &str, numbers: impl Fn(usize) -> String) -> String {
        let line = |plot: usize| {
            let (treatment, block, site) = (self.treatment[plot], self.block[plot], self.site[plot]);
            format!(
                "{},{kind},t{treatment},b{block},s{site},{},{}\n",
                self.seed,
                self.known[plot],
                numbers(plot)
            )
        };
        (0..self.treatment.len()).map(line).collect()
    }
}
