//! The chain of days: departures of the highest and the lowest temperature from the mean of their date, in standard
//! deviations, each day leaning on the one before.

use rand_chacha::ChaCha8Rng;
use statistics::draws::normal;

/// What a day keeps of the day before: rows give the highest and the lowest, columns take them.
///
/// # Source
/// Worked out from the correlations of Richardson and Wright 1984 (0.633 between the two on one day, 0.621 and 0.674 from
/// one day to the next; from memory, unverified).
const KEPT: [[f64; 2]; 2] = [[0.5662, 0.0866], [0.2275, 0.5300]];
/// What is new in it.
const NEW: [[f64; 2]; 2] = [[0.7809, 0.0], [0.3276, 0.6382]];
/// Correlation of the two on one day, which the matrices above keep.
const ON_ONE_DAY: f64 = 0.633;

/// Departures of one day.
pub(super) struct Chain([f64; 2]);

impl Chain {
    /// A first day as likely as any.
    pub(super) fn new(draws: &mut ChaCha8Rng) -> Self {
        let (first, second) = (normal(draws), normal(draws));
        Self([first, ON_ONE_DAY * first + (1.0 - ON_ONE_DAY.powi(2)).sqrt() * second])
    }

    /// Departures of the next day: of its highest temperature and of its lowest.
    pub(super) fn next(&mut self, draws: &mut ChaCha8Rng) -> [f64; 2] {
        let fresh = [normal(draws), normal(draws)];
        let (kept, new) = (times(&KEPT, &self.0), times(&NEW, &fresh));
        self.0 = [kept[0] + new[0], kept[1] + new[1]];
        self.0
    }
}

/// One standard normal draw.
pub(super) fn one(draws: &mut ChaCha8Rng) -> f64 {
    normal(draws)
}

fn times(matrix: &[[f64; 2]; 2], column: &[f64; 2]) -> [f64; 2] {
    matrix.map(|row| row[0] * column[0] + row[1] * column[1])
}

/// Variance of the mean, over so many days, of highest and lowest temperatures in these parts, that comes of the days alone.
pub(super) fn variance_of_mean(parts: [f64; 2], days: u16) -> f64 {
    let dot = |one: &[f64; 2], other: &[f64; 2]| one[0] * other[0] + one[1] * other[1];
    // Covariance of a day's mean with each departure of the same day, then of days further and further on.
    let mut with = times(&[[1.0, ON_ONE_DAY], [ON_ONE_DAY, 1.0]], &parts);
    let count = f64::from(days);
    let mut sum = count * dot(&parts, &with);
    for apart in 1..days {
        with = times(&KEPT, &with);
        sum += 2.0 * (count - f64::from(apart)) * dot(&parts, &with);
    }
    sum / count.powi(2)
}

#[cfg(test)]
mod tests {
    use super::*;
    use statistics::draws::stream;

    /// Correlations of Richardson and Wright 1984 that the matrices were solved for, within 0.01 over a long run.
    #[test]
    fn a_long_run_keeps_the_correlations() {
        let mut draws = stream(&["chain"]);
        let mut chain = Chain::new(&mut draws);
        // So many days that sampling moves none of the five by a third of what is allowed.
        let run: Vec<[f64; 2]> = (0..4_000_000).map(|_| chain.next(&mut draws)).collect();
        let mean = |of: &dyn Fn(&[[f64; 2]]) -> f64| run.windows(2).map(of).sum::<f64>() / 3_999_999.0;
        let near = |found: f64, wanted: f64| assert!((found - wanted).abs() < 0.01, "{found} {wanted}");
        near(mean(&|pair| pair[0][0] * pair[0][0]), 1.0);
        near(mean(&|pair| pair[0][1] * pair[0][1]), 1.0);
        near(mean(&|pair| pair[0][0] * pair[0][1]), 0.633);
        near(mean(&|pair| pair[0][0] * pair[1][0]), 0.621);
        near(mean(&|pair| pair[0][1] * pair[1][1]), 0.674);
    }
}
