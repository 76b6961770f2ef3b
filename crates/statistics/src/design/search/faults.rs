//! Faults beside efficiency: a treatment beside itself, a pair side by side again and again, plots of one
//! treatment crowded in one zone.

#![expect(
    clippy::indexing_slicing,
    reason = "treatments, plots and zones are numbered below the sizes of the lists made for them"
)]

use super::{Ground, Weights};

/// Counts of what stands where, and the sum of their weights.
#[derive(Clone, Debug)]
pub(super) struct Faults {
    treatments: usize,
    /// The plots beside each plot.
    beside: Vec<Vec<usize>>,
    /// How often two treatments stand side by side, the smaller number's row.
    pairs: Vec<u32>,
    /// The zone of each plot in each partition, all partitions' zones numbered through.
    zones: Vec<Vec<usize>>,
    /// How many plots of a treatment lie in a zone: a row a zone.
    crowds: Vec<u32>,
    /// The weights, a plot's share of the trial each.
    weights: Weights,
    sum: f64,
}

impl Faults {
    /// Counts what stands where.
    pub(super) fn of(ground: &Ground<'_>, plots: &[usize]) -> Self {
        let share = 1.0 / plots.len() as f64;
        let given = ground.weights;
        let mut beside = vec![Vec::new(); plots.len()];
        for (left, right) in ground.neighbours {
            beside[*left].push(*right);
            beside[*right].push(*left);
        }
        let mut zones = vec![Vec::with_capacity(ground.zones.len()); plots.len()];
        let mut width = 0;
        for partition in ground.zones {
            zones.iter_mut().zip(partition).for_each(|(own, zone)| own.push(width + zone));
            width += partition.iter().max().map_or(0, |most| most + 1);
        }
        let treatments = ground.start.treatments();
        let mut faults = Self {
            treatments,
            beside,
            pairs: vec![0; treatments * treatments],
            zones,
            crowds: vec![0; treatments * width],
            weights: Weights {
                itself: given.itself * share,
                same_pair: given.same_pair * share,
                same_zone: given.same_zone * share,
            },
            sum: 0.0,
        };
        for (left, right) in ground.neighbours {
            faults.sum += faults.join(plots[*left], plots[*right]);
        }
        for (plot, treatment) in plots.iter().enumerate() {
            faults.sum += faults.enter(plot, *treatment);
        }
        faults
    }

    /// The weights of all faults together.
    pub(super) fn sum(&self) -> f64 {
        self.sum
    }

    /// What the sum would change by if two plots exchanged their treatments.
    pub(super) fn change(&mut self, plots: &mut [usize], left: usize, right: usize) -> f64 {
        let before = self.sum;
        self.exchange(plots, left, right);
        let change = self.sum - before;
        self.exchange(plots, left, right);
        // Exactly what it was: going there and back rounds.
        self.sum = before;
        change
    }

    /// Exchanges two plots' treatments in `plots` and in the counts.
    pub(super) fn exchange(&mut self, plots: &mut [usize], left: usize, right: usize) {
        let mut change = 0.0;
        for plot in [left, right] {
            change += self.leave(plot, plots[plot]);
            for at in 0..self.beside[plot].len() {
                let other = self.beside[plot][at];
                if plot == left || other != left {
                    change += self.part(plots[plot], plots[other]);
                }
            }
        }
        plots.swap(left, right);
        for plot in [left, right] {
            change += self.enter(plot, plots[plot]);
            for at in 0..self.beside[plot].len() {
                let other = self.beside[plot][at];
                if plot == left || other != left {
                    change += self.join(plots[plot], plots[other]);
                }
            }
        }
        self.sum += change;
    }

    fn pair(&self, left: usize, right: usize) -> usize {
        left.min(right) * self.treatments + left.max(right)
    }

    fn join(&mut self, left: usize, right: usize) -> f64 {
        let pair = self.pair(left, right);
        let before = self.pairs[pair];
        self.pairs[pair] += 1;
        if left == right { self.weights.itself } else { self.weights.same_pair * f64::from(before) }
    }

    fn part(&mut self, left: usize, right: usize) -> f64 {
        let pair = self.pair(left, right);
        self.pairs[pair] -= 1;
        let after = self.pairs[pair];
        if left == right { -self.weights.itself } else { -self.weights.same_pair * f64::from(after) }
    }

    fn enter(&mut self, plot: usize, treatment: usize) -> f64 {
        let mut added = 0.0;
        for zone in &self.zones[plot] {
            let crowd = &mut self.crowds[zone * self.treatments + treatment];
            added += self.weights.same_zone * f64::from(*crowd);
            *crowd += 1;
        }
        added
    }

    fn leave(&mut self, plot: usize, treatment: usize) -> f64 {
        let mut added = 0.0;
        for zone in &self.zones[plot] {
            let crowd = &mut self.crowds[zone * self.treatments + treatment];
            *crowd -= 1;
            added -= self.weights.same_zone * f64::from(*crowd);
        }
        added
    }

    /// Neighbour pairs of one treatment, pairs beyond the first time, and pairs of plots in one zone.
    pub(super) fn counted(&self) -> (usize, usize, usize) {
        let mut itself = 0;
        let mut same_pair = 0;
        for left in 0..self.treatments {
            itself += self.pairs[left * self.treatments + left] as usize;
            let more = (left + 1..self.treatments).map(|right| self.pairs[left * self.treatments + right]);
            same_pair += more.map(|count| count.saturating_sub(1) as usize).sum::<usize>();
        }
        let same_zone =
            self.crowds.iter().map(|crowd| *crowd as usize).map(|crowd| crowd * crowd.saturating_sub(1) / 2);
        (itself, same_pair, same_zone.sum())
    }
}
