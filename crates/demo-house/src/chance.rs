//! Seeded chance: one independent stream of draws for each thing that is drawn.
//!
//! A stream is named by words (`["fruit", "H24-031"]`), so that a new file or a new variety leaves
//! every other draw as it was. Start at [`stream`].

use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use rand_distr::StandardNormal;

/// The seed of the committed demo house. Any number would do.
pub const DEMO_SEED: u64 = 130_2026;

/// FNV-1a offset basis and prime, 64 bits (Fowler, Noll and Vo; from memory, unverified). Any mixing
/// of the words would do.
const FNV_BASIS: u64 = 0xcbf2_9ce4_8422_2325;
const FNV_PRIME: u64 = 0x0100_0000_01b3;

/// Opens the stream of draws that `words` name under `seed`.
#[must_use]
pub fn stream(seed: u64, words: &[&str]) -> ChaCha8Rng {
    let bytes = words.iter().flat_map(|word| word.bytes().chain([0]));
    let mixed = bytes.fold(FNV_BASIS ^ seed, |sum, byte| (sum ^ u64::from(byte)).wrapping_mul(FNV_PRIME));
    ChaCha8Rng::seed_from_u64(mixed)
}

/// Draws from a normal distribution about zero.
pub fn normal(draws: &mut ChaCha8Rng, deviation: f64) -> f64 {
    let standard: f64 = draws.sample(StandardNormal);
    standard * deviation
}

/// Draws a factor that is log-normal about one, `deviation` on the log scale.
pub fn factor(draws: &mut ChaCha8Rng, deviation: f64) -> f64 {
    normal(draws, deviation).exp()
}

/// Draws evenly between two bounds.
pub fn between(draws: &mut ChaCha8Rng, (low, high): (f64, f64)) -> f64 {
    low + (high - low) * draws.random::<f64>()
}

/// Draws evenly on the log scale between two positive bounds.
pub fn between_logs(draws: &mut ChaCha8Rng, (low, high): (f64, f64)) -> f64 {
    between(draws, (low.ln(), high.ln())).exp()
}

/// True with this chance.
pub fn happens(draws: &mut ChaCha8Rng, chance: f64) -> bool {
    draws.random::<f64>() < chance
}

/// Rounds a positive number up or down by chance, so that the mean is kept.
pub fn whole(draws: &mut ChaCha8Rng, number: f64) -> u32 {
    (number.max(0.0) + draws.random::<f64>()) as u32
}

/// One of a few, evenly; `None` of none.
pub fn one_of<'a, T>(draws: &mut ChaCha8Rng, choices: &'a [T]) -> Option<&'a T> {
    let last = choices.len().checked_sub(1)?;
    choices.get(draws.random_range(0..=last))
}
