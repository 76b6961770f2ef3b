//! Two counts of one face's locules made one, with how sure it is.
//!
//! Start at [`counted`].

/// The locules of a face as they were counted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Counted {
    /// On the way round.
    pub sectors: u32,
    /// As patches of gel.
    pub patches: u32,
    /// The likeliest count.
    pub likely: u32,
    /// Chances that there are one fewer, so many, one more; what is missing to 1 lies farther off.
    pub chances: [f64; 3],
}

impl Counted {
    /// Whether both ways of counting say the same and it is likely enough to be taken unseen.
    #[must_use]
    pub fn agrees(&self) -> bool {
        self.sectors == self.patches && LIKELY_ENOUGH <= self.chances[1]
    }
}

/// Below this chance somebody should look.
const LIKELY_ENOUGH: f64 = 0.7;
/// The chance that is left to each neighbour, whatever the counts say: a septum may be hidden, or a fold look like one (found on the
/// faces that the tests draw).
const DOUBT: f64 = 0.03;
/// What the plain count of either way weighs beside all its variations.
const PLAIN: f64 = 0.5;

/// Makes one of counts of sectors and of patches; of each the plain count first, then its variations.
pub(super) fn counted(sectors: Vec<u32>, patches: Vec<u32>) -> Counted {
    let plain = |counts: &[u32]| counts.first().copied().unwrap_or(0);
    let chance = |count: u32| (weight(&sectors, count) + weight(&patches, count)) / 2.0;
    let all = sectors.iter().chain(&patches).copied();
    let likely = all.max_by(|p, q| chance(*p).total_cmp(&chance(*q))).unwrap_or(0);
    let near = [likely.saturating_sub(1), likely, likely + 1];
    let chances = near.map(|count| DOUBT + (1.0 - 3.0 * DOUBT) * chance(count));
    Counted { sectors: plain(&sectors), patches: plain(&patches), likely, chances }
}

/// What one way of counting gives to a count.
fn weight(counts: &[u32], count: u32) -> f64 {
    let share = |counts: &[u32]| {
        counts.iter().filter(|own| **own == count).count() as f64 / counts.len().max(1) as f64
    };
    let (plain, others) = counts.split_at(1.min(counts.len()));
    PLAIN * share(plain) + (1.0 - PLAIN) * share(others)
}

#[cfg(test)]
mod tests {
    use super::counted;

    #[test]
    fn two_ways_that_agree_are_sure() {
        let told = counted(vec![5, 5, 5, 5], vec![5, 5, 5, 6]);
        assert_eq!((told.sectors, told.patches, told.likely), (5, 5, 5));
        assert!(told.agrees(), "{told:?}");
        assert!((told.chances.iter().sum::<f64>() - 1.0).abs() < 1e-12, "{told:?}");
    }

    #[test]
    fn two_ways_that_differ_ask_to_look() {
        let told = counted(vec![5, 5, 5, 5], vec![4, 4, 4, 5]);
        assert_eq!(told.likely, 5);
        assert!(!told.agrees() && told.chances[2] < told.chances[0], "{told:?}");
        assert_eq!(counted(Vec::new(), Vec::new()).likely, 0);
    }
}
