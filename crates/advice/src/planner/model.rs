//! The integer program behind plans and conflicts. Start at [`solve`].

use super::request::{Demand, Request, Wish};
use super::supply::{Room, Supply};
use good_lp::{Constraint, Expression, ProblemVariables, Variable, constraint, variable};
use record::share::Share;
pub use statistics::integer_program::SolverStopped;
use statistics::integer_program::{self, Program, Stop};
use std::collections::BTreeMap;

/// Most plants of one choice: a garden's, not a field's. It bounds the search. Common practice, no source.
pub(super) const MOST_PLANTS: u32 = 200;

/// What is to be found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Goal {
    /// The fewest plants that meet the demands.
    FewestPlants,
    /// As near as can be to a demand that is no longer held to.
    NearestTo(Demand),
}

/// What the solver has to say.
pub(super) enum Answer {
    /// Plants that meet the demands.
    Found(Found),
    /// No plants meet them.
    Nothing,
    /// It found none in as many steps as it may take, and has not shown that there are none. If there is one, its number is
    /// at least this.
    Unsettled(f64),
}

/// What the solver found.
pub(super) struct Found {
    /// Plants of each choice.
    pub(super) plants: Vec<u32>,
    /// The goal's own number: plants, or how near it came in the demand's unit, negative where more is better.
    pub(super) reached: f64,
    /// No answer has a smaller number than this.
    pub(super) bound: f64,
}

impl Found {
    /// Whether there is none better, by so much that would show in print.
    pub(super) fn is_least(&self) -> bool {
        self.reached - self.bound < SHOWS
    }
}

/// A thousandth of a plant, a kilogram or a square metre does not show.
const SHOWS: f64 = 1e-3;

/// Most linear programs that one answer may take: a count and not a clock, so that every machine stops at the same place.
/// Some seconds for a garden of a dozen choices and ten years; plans themselves are found by search.
const MOST_NODES: u64 = 4_000;
/// The same where there is a plan to beat already.
const NODES_TO_BEAT: u64 = 1_000;
/// The same for one year alone.
const NODES_OF_A_YEAR: u64 = 200;

/// Solves for a goal under the demands that are `held`.
///
/// # Errors
/// [`SolverStopped`] for anything but an answer or its absence.
pub(super) fn solve(
    supply: &Supply,
    request: &Request,
    held: &[Demand],
    goal: Goal,
) -> Result<Answer, SolverStopped> {
    formulated(supply, request, held, goal).run(MOST_NODES)
}

/// Looks for a plan of fewer plants than so many: a found one is better, and nothing proves that there is none.
///
/// # Errors
/// [`SolverStopped`] for anything but an answer or its absence.
pub(super) fn beat(supply: &Supply, request: &Request, plants: u32) -> Result<Answer, SolverStopped> {
    let demands = request.demands();
    let mut model = formulated(supply, request, &demands, Goal::FewestPlants);
    let all: Expression = model.plants.iter().sum();
    model.rules.push(constraint!(all <= f64::from(plants) - 1.0));
    model.run(NODES_TO_BEAT)
}

/// The fewest plants that meet one year alone, or a number that they are not under; nothing where none meet it.
///
/// # Errors
/// [`SolverStopped`] for anything but an answer or its absence.
pub(super) fn fewest_in(
    supply: &Supply,
    request: &Request,
    year: usize,
) -> Result<Option<f64>, SolverStopped> {
    let alone = Request { sure: Share::ALL, ..request.clone() };
    let one = supply.of_year(year);
    let demands = alone.demands();
    let answer = formulated(&one, &alone, &demands, Goal::FewestPlants).run(NODES_OF_A_YEAR)?;
    Ok(match answer {
        Answer::Found(found) => Some(found.bound),
        Answer::Unsettled(bound) => Some(bound),
        Answer::Nothing => None,
    })
}

fn formulated<'a>(supply: &'a Supply, request: &'a Request, held: &'a [Demand], goal: Goal) -> Model<'a> {
    let mut model = Model::new(supply, request, held, goal);
    model.space();
    model.varieties();
    let years = model.years();
    for wish in request.wishes.iter().enumerate() {
        model.wish(wish);
    }
    model.share_out();
    model.objective = model.made_small(&years);
    model
}

/// A fresh or kitchen wish in one year: what is taken in each week.
struct Taken {
    class: String,
    year: usize,
    week: usize,
    kilograms: Expression,
}

struct Model<'a> {
    supply: &'a Supply,
    request: &'a Request,
    held: &'a [Demand],
    goal: Goal,
    variables: ProblemVariables,
    rules: Vec<Constraint>,
    plants: Vec<Variable>,
    kinds: Vec<Variable>,
    met: Vec<Expression>,
    nearest: Option<Variable>,
    taken: Vec<Taken>,
    objective: Expression,
}

impl<'a> Model<'a> {
    fn new(supply: &'a Supply, request: &'a Request, held: &'a [Demand], goal: Goal) -> Self {
        let mut variables = ProblemVariables::new();
        let plants = supply
            .choices()
            .iter()
            .map(|choice| {
                let most = if request.barred.contains(&choice.variety) { 0 } else { MOST_PLANTS };
                variables.add(variable().integer().min(0).max(most))
            })
            .collect();
        let (rules, kinds, met, taken) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
        let objective = Expression::default();
        Self {
            supply,
            request,
            held,
            goal,
            variables,
            rules,
            plants,
            kinds,
            met,
            nearest: None,
            taken,
            objective,
        }
    }

    fn holds(&self, demand: Demand) -> bool {
        self.held.contains(&demand)
    }

    /// Square metres of bed that the plants take.
    fn bed(&self) -> Expression {
        let choices = self.supply.choices().iter().zip(&self.plants);
        choices
            .filter_map(|(choice, plants)| match choice.room {
                Room::Bed(area) => Some(*plants * area),
                Room::Container => None,
            })
            .sum()
    }

    fn containers(&self) -> Expression {
        let choices = self.supply.choices().iter().zip(&self.plants);
        choices.filter(|(choice, _)| choice.room == Room::Container).map(|(_, plants)| *plants).sum()
    }

    fn space(&mut self) {
        if self.holds(Demand::Bed) {
            self.rules.push(constraint!(self.bed() <= self.request.bed));
        }
        if self.holds(Demand::Containers) {
            self.rules.push(constraint!(self.containers() <= self.request.containers));
        }
    }

    /// Varieties that are planted at all, and those that must be.
    fn varieties(&mut self) {
        let mut by_name: BTreeMap<&str, Vec<Variable>> = BTreeMap::new();
        for (choice, plants) in self.supply.choices().iter().zip(&self.plants) {
            by_name.entry(&choice.variety).or_default().push(*plants);
        }
        for (index, name) in self.request.wanted.iter().enumerate() {
            if self.holds(Demand::Wanted(index)) {
                let plants: Expression = by_name.get(name.as_str()).into_iter().flatten().sum();
                self.rules.push(constraint!(plants >= 1));
            }
        }
        let counted =
            self.holds(Demand::MostVarieties) || self.goal == Goal::NearestTo(Demand::MostVarieties);
        if counted {
            for plants in by_name.values().flat_map(|plants| {
                let kind = self.variables.add(variable().binary());
                self.kinds.push(kind);
                plants.iter().map(move |plants| (kind, *plants))
            }) {
                self.rules.push(constraint!(plants.1 <= f64::from(MOST_PLANTS) * plants.0));
            }
        }
        if self.holds(Demand::MostVarieties) {
            let kinds: Expression = self.kinds.iter().sum();
            self.rules.push(constraint!(kinds <= self.request.most_varieties));
        }
    }

    /// Whether each year is met, 0 or 1. Where all must be, there is nothing to choose.
    fn years(&mut self) -> Vec<Expression> {
        let needed = years_needed(self.request.sure, self.supply.years());
        let all = self.holds(Demand::Sure) && needed == self.supply.years();
        let met: Vec<Expression> = (0..self.supply.years())
            .map(|_| if all { Expression::from(1.0) } else { self.variables.add(variable().binary()).into() })
            .collect();
        if self.holds(Demand::Sure) && !all {
            let sum: Expression = met.iter().cloned().sum();
            self.rules.push(constraint!(sum >= count(needed)));
        }
        self.met.clone_from(&met);
        met
    }

    /// Kilograms that a wish asks in a year, nothing in one that need not be met.
    fn asked(&mut self, index: usize, kilograms: f64, met: &Expression) -> Expression {
        if self.goal != Goal::NearestTo(Demand::Wish(index)) {
            return met.clone() * kilograms;
        }
        let most = variable().min(0).max(kilograms);
        let nearest = match self.nearest {
            Some(nearest) => nearest,
            None => self.variables.add(most),
        };
        self.nearest = Some(nearest);
        nearest - kilograms * (1.0 - met.clone())
    }

    fn wish(&mut self, (index, wish): (usize, &Wish)) {
        let near = self.goal == Goal::NearestTo(Demand::Wish(index));
        if !near && !self.holds(Demand::Wish(index)) {
            return;
        }
        for (year, met) in self.met.clone().iter().enumerate() {
            let asked = self.asked(index, wish.kilograms(), met);
            match wish {
                Wish::Fresh { class, weeks, .. } => self.fresh(class, year, weeks.clone(), &asked),
                Wish::Kitchen { class, window, days, a_day, keeps, .. } => {
                    let weeks = self.kitchen((class, *keeps), year, window.clone(), (*days, *a_day));
                    let sum: Expression = weeks.into_iter().sum();
                    self.rules.push(constraint!(sum >= asked));
                }
            }
        }
    }

    fn fresh(
        &mut self,
        class: &str,
        year: usize,
        weeks: std::ops::RangeInclusive<usize>,
        asked: &Expression,
    ) {
        for week in weeks {
            let eaten = self.variables.add(variable().min(0));
            self.rules.push(constraint!(eaten >= asked.clone()));
            self.taken.push(Taken { class: class.to_owned(), year, week, kilograms: eaten.into() });
        }
    }

    /// Kilograms put up in each week of the window. Days are only chosen where there are fewer of them than weeks.
    fn kitchen(
        &mut self,
        (class, keeps): (&str, usize),
        year: usize,
        window: std::ops::RangeInclusive<usize>,
        (days, a_day): (u32, f64),
    ) -> Vec<Variable> {
        let scarce = usize::try_from(days).is_ok_and(|days| days < window.clone().count());
        let mut chosen = Vec::new();
        let mut weeks = Vec::new();
        for week in window {
            let put_up = self.variables.add(variable().min(0).max(a_day));
            if scarce {
                let day = self.variables.add(variable().binary());
                self.rules.push(constraint!(put_up <= a_day * day));
                chosen.push(day);
            }
            self.take((class, keeps), (year, week), put_up);
            weeks.push(put_up);
        }
        if scarce {
            let chosen: Expression = chosen.into_iter().sum();
            self.rules.push(constraint!(chosen <= days));
        }
        weeks
    }

    /// What is put up in a week is taken from it, or from it and those before that it keeps from.
    fn take(&mut self, (class, keeps): (&str, usize), (year, week): (usize, usize), put_up: Variable) {
        let taken = |week, kilograms: Variable| Taken {
            class: class.to_owned(),
            year,
            week,
            kilograms: kilograms.into(),
        };
        if keeps == 0 {
            self.taken.push(taken(week, put_up));
            return;
        }
        let mut used = Expression::default();
        for borne_in in week.saturating_sub(keeps)..=week {
            let own = self.variables.add(variable().min(0));
            used += own;
            self.taken.push(taken(borne_in, own));
        }
        self.rules.push(constraint!(put_up <= used));
    }

    /// What is taken of a class in a week is no more than its plants bear.
    fn share_out(&mut self) {
        let mut by_week: BTreeMap<(String, usize, usize), Expression> = BTreeMap::new();
        for Taken { class, year, week, kilograms } in self.taken.drain(..) {
            *by_week.entry((class, year, week)).or_default() += kilograms;
        }
        for ((class, year, week), taken) in by_week {
            let borne: Expression = (0..)
                .zip(self.supply.choices())
                .zip(&self.plants)
                .filter(|((_, choice), _)| choice.class == class)
                .map(|((index, _), plants)| *plants * self.supply.kilograms(year, index, week))
                .sum();
            self.rules.push(constraint!(taken <= borne));
        }
    }

    /// What is made as small as can be.
    fn made_small(&self, years: &[Expression]) -> Expression {
        match self.goal {
            Goal::FewestPlants | Goal::NearestTo(Demand::Wanted(_)) => self.plants.iter().sum(),
            Goal::NearestTo(Demand::Bed) => self.bed(),
            Goal::NearestTo(Demand::Containers) => self.containers(),
            Goal::NearestTo(Demand::MostVarieties) => self.kinds.iter().sum(),
            Goal::NearestTo(Demand::Sure) => -years.iter().cloned().sum::<Expression>(),
            Goal::NearestTo(Demand::Wish(_)) => {
                self.nearest.map_or(Expression::from(0.0), |nearest| -nearest)
            }
        }
    }

    fn run(self, most_nodes: u64) -> Result<Answer, SolverStopped> {
        let gap = match self.goal {
            Goal::FewestPlants => self.request.gap,
            Goal::NearestTo(_) => Share::NONE,
        };
        let choices = self.plants.len();
        let program = Program { variables: self.variables, objective: self.objective, rules: self.rules };
        Ok(match integer_program::solve(program, Stop { gap, most_nodes })? {
            integer_program::Answer::Found(found) => Answer::Found(planted(&found, choices)),
            integer_program::Answer::Nothing => Answer::Nothing,
            integer_program::Answer::Unsettled(bound) => Answer::Unsettled(bound),
        })
    }
}

/// Plants are the program's first variables, so the first values are theirs.
fn planted(found: &integer_program::Found, choices: usize) -> Found {
    let plants = found.values.iter().take(choices).map(|plants| whole(*plants)).collect();
    Found { plants, reached: found.reached, bound: found.bound }
}

/// Years that must be met.
pub(super) fn years_needed(sure: Share, years: usize) -> usize {
    // A tenth of a thousandth below: 0.8 of 10 years are 8, however the product rounds.
    let needed = (sure.get() * count(years) - 1e-4).ceil();
    (0..=years).find(|met| needed <= count(*met)).unwrap_or(years)
}

#[expect(clippy::cast_precision_loss, reason = "a count of years")]
fn count(number: usize) -> f64 {
    number as f64
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "the solver keeps plants from 0 to 200"
)]
fn whole(plants: f64) -> u32 {
    plants.round() as u32
}
