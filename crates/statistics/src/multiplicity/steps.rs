//! Holm's step-down rule: p values of any origin, made to hold together.
//!
//! Start at [`holm`]. It asks nothing of how the comparisons hang together, and pays for that with power.

use record::share::Share;

/// p values such that to call every one at most `a` a finding misleads in at most a share `a` of families.
///
/// # Shape
/// The answer is in the order of `chances`.
///
/// # Source
/// Holm 1979, Scandinavian Journal of Statistics 6:65-70 (citation from memory, unverified).
///
/// # Examples
/// ```
/// use record::share::Share;
/// let shares: Vec<Share> = [0.03, 0.01, 0.5].into_iter().filter_map(Share::new).collect();
/// let held: Vec<f64> = statistics::multiplicity::steps::holm(&shares).iter().map(|p| p.get()).collect();
/// assert_eq!(held, [0.06, 0.03, 0.5]);
/// ```
#[must_use]
pub fn holm(chances: &[Share]) -> Vec<Share> {
    let mut order: Vec<(usize, f64)> = chances.iter().map(|chance| chance.get()).enumerate().collect();
    order.sort_by(|a, b| a.1.total_cmp(&b.1));
    let mut held = vec![Share::ALL; chances.len()];
    let (mut so_far, mut left) = (0.0_f64, chances.len());
    for (place, chance) in order {
        #[expect(clippy::cast_precision_loss, reason = "nobody makes 2^52 comparisons")]
        let stretched = chance * left as f64;
        so_far = so_far.max(stretched).min(1.0);
        left -= 1;
        if let (Some(slot), Some(share)) = (held.get_mut(place), Share::new(so_far)) {
            *slot = share;
        }
    }
    held
}
