//! How efficient a design of a given size could be at best.

/// Upper bound of the average efficiency of `replicates` resolved replicates of `treatments` in
/// `blocks` blocks each: `(v-1)(r-1) / ((v-1)(r-1) + r(s-1))`.
///
/// `None` where a number is too small to compare anything.
///
/// # Source
/// Patterson and Williams, Biometrika 63 (1976), 83-92; from memory, unverified. Two designs worked out
/// elsewhere stand beside it in the tests.
#[must_use]
pub fn resolved(treatments: usize, replicates: usize, blocks: usize) -> Option<f64> {
    if treatments < 2 || replicates < 1 || blocks < 1 {
        return None;
    }
    let (v, r, s) = (treatments as f64, replicates as f64, blocks as f64);
    let kept = (v - 1.0) * (r - 1.0);
    let lost = r * (s - 1.0);
    Some(if lost == 0.0 { 1.0 } else { kept / (kept + lost) })
}

/// Upper bound of the average efficiency of any equally replicated design in blocks of `block_size`:
/// that of a balanced one, `v(k-1) / (k(v-1))`, and never above 1.
///
/// `None` where a number is too small to compare anything.
///
/// # Source
/// The canonical efficiencies' mean is at most this, and their harmonic mean at most their mean.
#[must_use]
pub fn one_way(treatments: usize, block_size: usize) -> Option<f64> {
    if treatments < 2 || block_size < 1 {
        return None;
    }
    let (v, k) = (treatments as f64, block_size as f64);
    Some((v * (k - 1.0) / (k * (v - 1.0))).min(1.0))
}
