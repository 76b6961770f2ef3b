//! Deals the plots of each variety to replicates: as evenly as its number allows, and replicates alike in size.

use super::Entry;

/// The entries of each replicate, an entry as often as it stands there.
pub(super) fn dealt(entries: &[Entry], replicates: usize) -> Vec<Vec<usize>> {
    let mut hands: Vec<Vec<usize>> = vec![Vec::new(); replicates];
    for (at, entry) in entries.iter().enumerate() {
        let plots = entry.plots as usize;
        for hand in &mut hands {
            hand.extend(std::iter::repeat_n(at, plots / replicates));
        }
        for replicate in emptiest(&hands, at, plots % replicates) {
            if let Some(hand) = hands.get_mut(replicate) {
                hand.push(at);
            }
        }
    }
    hands
}

/// The `count` replicates with the fewest plots so far; `turn` breaks ties, so that not all start with the first.
fn emptiest(hands: &[Vec<usize>], turn: usize, count: usize) -> Vec<usize> {
    let all = hands.len().max(1);
    let mut order: Vec<usize> = (0..hands.len()).collect();
    order.sort_by_key(|at| (hands.get(*at).map_or(0, Vec::len), (at + turn) % all));
    order.truncate(count);
    order
}
