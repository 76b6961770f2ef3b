//! How many parent plants keep what is rare in a variety.
//!
//! A tomato fertilises itself, so each plant of an old variety carries about one independent copy of an allele, not two: the
//! form for outbred plants would promise more than the seed holds. Start at [`chance_kept`].

use super::off_types::plants_to_detect;
use record::share::Share;

/// The chance that an allele carried by such a share of the plants is among so many parents: `1 - (1 - share)^plants`.
///
/// # Examples
/// 64 in 100 for one plant in 20 and 20 parents.
#[must_use]
pub fn chance_kept(carriers: Share, plants: u32) -> Share {
    let lost = f64::from(plants) * (-carriers.get()).ln_1p();
    let kept = if plants == 0 { 0.0 } else { -lost.exp_m1() };
    Share::new(kept.clamp(0.0, 1.0)).unwrap_or(Share::ALL)
}

/// The fewest parents that keep it, `level` sure; `None` where there is nothing to keep or certainty is asked for.
#[must_use]
pub fn plants_to_keep(carriers: Share, level: Share) -> Option<u32> {
    plants_to_detect(carriers, level)
}
