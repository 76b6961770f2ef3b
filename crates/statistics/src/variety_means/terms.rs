//! The REML criterion of the house, its exact score and its average information, in one pass.
//!
//! With residual variance `e`, plant `i` and season `o`, a plant of n fruits weighs `w = n / (e + n i)`,
//! a season of plants `h = a / (1 + o a)` with `a = sum w`, and a variety `H = sum h`. Everything the
//! criterion needs is a sum of such weights and of weighted squares, so one pass costs a few
//! operations a plant. `P` below is the usual REML projection, `P y` the weighted residuals.

use super::tree::{Plant, Tree};
use crate::climb::{LEVELS, PerLevel, Slope};

/// Sums over one season, given the variances.
struct SeasonSums {
    /// `a`: the sum of its plants' weights.
    plants_weight: f64,
    /// `h`: its own weight.
    weight: f64,
    /// Its plants' weighted mean.
    mean: f64,
}

/// Weighted sums of what the average information multiplies: `V_k P y` for each level k.
#[derive(Clone, Copy, Default)]
struct Moments {
    mean: PerLevel<f64>,
    products: PerLevel<PerLevel<f64>>,
}

/// The criterion and its slope at three variances (season, plant, fruit), or `None` off the ground.
pub(super) fn slope(tree: &Tree, variances: &PerLevel<f64>) -> Option<Slope> {
    let mut total = Total::of_fruits(tree, variances);
    let mut seasons = Vec::new();
    for variety in tree.varieties() {
        seasons.clear();
        seasons.extend(variety.clone().map(|plants| SeasonSums::of(plants, variances)));
        total.add_variety(variety, &seasons);
    }
    total.finish(tree)
}

impl SeasonSums {
    fn of(plants: &[Plant], variances: &PerLevel<f64>) -> Self {
        let (mut plants_weight, mut mean) = (0.0, 0.0);
        for plant in plants {
            let weight = plant_weight(plant, variances);
            plants_weight += weight;
            // Running weighted mean (West): no large sums to subtract.
            mean += (plant.mean - mean) * weight / plants_weight;
        }
        Self { plants_weight, weight: plants_weight / (1.0 + variances[0] * plants_weight), mean }
    }
}

/// `w`: the inverse of the variance of a plant's mean within its season.
fn plant_weight(plant: &Plant, variances: &PerLevel<f64>) -> f64 {
    plant.count / (variances[2] + plant.count * variances[1])
}

/// Weighted mean of the seasons and the sum of their weights.
fn weighted_mean(seasons: &[SeasonSums]) -> (f64, f64) {
    let (mut whole, mut mean) = (0.0, 0.0);
    for season in seasons {
        whole += season.weight;
        mean += (season.mean - mean) * season.weight / whole;
    }
    (mean, whole)
}

/// Everything summed over the house so far.
struct Total<'a> {
    variances: &'a PerLevel<f64>,
    log_determinants: f64,
    varieties: f64,
    /// `y' P y`.
    squares: f64,
    /// `y' P V_k P y` for each level.
    level_squares: PerLevel<f64>,
    /// `trace(P V_k)` for each level.
    traces: PerLevel<f64>,
    /// `y' P V_k P V_l P y` for each pair of levels.
    information: PerLevel<PerLevel<f64>>,
}

impl<'a> Total<'a> {
    /// Begins with what fruits say within their plants, where only their own variance counts.
    fn of_fruits(tree: &Tree, variances: &'a PerLevel<f64>) -> Self {
        let [.., within_degrees] = tree.degrees();
        let fruit = variances[2];
        let scaled = tree.within / fruit;
        let mut information = [[0.0; LEVELS]; LEVELS];
        information[2][2] = scaled / (fruit * fruit);
        Self {
            variances,
            log_determinants: within_degrees * fruit.ln(),
            varieties: 0.0,
            squares: scaled,
            level_squares: [0.0, 0.0, scaled / fruit],
            traces: [0.0, 0.0, within_degrees / fruit],
            information,
        }
    }

    fn add_variety<'p>(&mut self, variety: impl Iterator<Item = &'p [Plant]>, seasons: &[SeasonSums]) {
        let (mean, whole) = weighted_mean(seasons);
        self.varieties += 1.0;
        self.log_determinants += whole.ln();
        let mut moments = Moments::default();
        let mut fixed = [0.0; LEVELS];
        for (plants, season) in variety.zip(seasons) {
            let from_season = self.add_season(plants, season, mean, &mut fixed);
            moments.add_season(&from_season, season);
        }
        self.traces.iter_mut().zip(fixed).for_each(|(trace, fixed)| *trace -= fixed / whole);
        add_table(&mut self.information, &moments.products);
        // Take away what the variety's own mean explains.
        add_outer(&mut self.information, -whole.recip(), &moments.mean);
    }

    /// Adds one season's squares and traces, and gives its moments for the average information.
    fn add_season(
        &mut self,
        plants: &[Plant],
        season: &SeasonSums,
        variety_mean: f64,
        fixed: &mut PerLevel<f64>,
    ) -> Moments {
        let [season_variance, ..] = *self.variances;
        let shrink = 1.0 + season_variance * season.plants_weight;
        let distance = season.mean - variety_mean;
        let pull = season.weight * distance;
        self.log_determinants += shrink.ln();
        self.squares += pull * distance;
        self.level_squares[0] += pull * pull;
        self.traces[0] += season.weight;
        fixed[0] += season.weight * season.weight;
        let mut moments = Moments::default();
        for plant in plants {
            let weight = plant_weight(plant, self.variances);
            let own = plant.mean - season.mean;
            let residual = weight * (plant.mean - variety_mean - season_variance * pull);
            self.squares += weight * own * own;
            self.add_plant(plant, weight, residual, shrink, fixed);
            moments.add(weight, &[pull, residual, residual / plant.count]);
        }
        moments
    }

    /// Adds one plant's part of the determinant, the level squares and the traces.
    fn add_plant(
        &mut self,
        plant: &Plant,
        weight: f64,
        residual: f64,
        shrink: f64,
        fixed: &mut PerLevel<f64>,
    ) {
        let [season_variance, ..] = *self.variances;
        self.log_determinants += (plant.count / weight).ln();
        self.level_squares[1] += residual * residual;
        self.level_squares[2] += residual * residual / plant.count;
        let own_trace = weight - weight * weight * season_variance / shrink;
        self.traces[1] += own_trace;
        self.traces[2] += own_trace / plant.count;
        let through_mean = weight / shrink;
        fixed[1] += through_mean * through_mean;
        fixed[2] += through_mean * through_mean / plant.count;
    }

    /// Turns the sums into the criterion and its slope.
    fn finish(self, tree: &Tree) -> Option<Slope> {
        let degrees = tree.fruits - self.varieties;
        let criterion = self.log_determinants + self.squares + degrees * std::f64::consts::TAU.ln();
        let mut score = [0.0; LEVELS];
        for ((score, squares), trace) in score.iter_mut().zip(self.level_squares).zip(self.traces) {
            *score = 0.5 * (squares - trace);
        }
        let information = self.information.map(|row| row.map(|cell| 0.5 * cell));
        criterion.is_finite().then_some(Slope { criterion, score, information })
    }
}

impl Moments {
    fn add(&mut self, weight: f64, values: &PerLevel<f64>) {
        self.mean.iter_mut().zip(values).for_each(|(mean, value)| *mean += weight * value);
        add_outer(&mut self.products, weight, values);
    }

    /// Takes in a season: its own effect shrinks what its plants' weighted sums say.
    fn add_season(&mut self, of: &Self, season: &SeasonSums) {
        let kept = season.weight / season.plants_weight;
        self.mean.iter_mut().zip(of.mean).for_each(|(mean, more)| *mean += kept * more);
        add_table(&mut self.products, &of.products);
        add_outer(&mut self.products, (kept - 1.0) / season.plants_weight, &of.mean);
    }
}

/// Adds `weight * values * values'`.
fn add_outer(to: &mut PerLevel<PerLevel<f64>>, weight: f64, values: &PerLevel<f64>) {
    for (row, left) in to.iter_mut().zip(values) {
        row.iter_mut().zip(values).for_each(|(cell, right)| *cell += weight * left * right);
    }
}

/// Adds another table of the same size.
fn add_table(to: &mut PerLevel<PerLevel<f64>>, more: &PerLevel<PerLevel<f64>>) {
    let cells = to.iter_mut().flatten().zip(more.iter().flatten());
    cells.for_each(|(cell, more)| *cell += more);
}
