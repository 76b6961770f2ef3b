//! The best use of the ground: which varieties, and how many plots of each.
//!
//! An integer program: each variety is grown in one of its ways or not at all, y(v,w) being 0 or 1; plots, plants and places
//! apart are kept; the sum of what the ways are worth is the most. The solver proves how far from the best it may be, and
//! a better answer found by filling up the ground in turn is kept. What a bed more would bring is found by solving again.
//! Start at [`choose`].

use good_lp::{Expression, ProblemVariables, Variable, constraint, variable};
use record::share::Share;
use statistics::integer_program::{Answer, Program, SolverStopped, Stop, solve};

/// A way to grow a variety.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Way {
    /// Plots.
    pub plots: u32,
    /// Plants.
    pub plants: u32,
    /// Places apart from other tomatoes, or bagged.
    pub apart: u32,
    /// What it is worth, in packets.
    pub worth: f64,
    /// Packets of seed that it is expected to give; nothing where none is saved.
    pub seed: f64,
}

/// A variety that may be grown.
#[derive(Clone, Debug, PartialEq)]
pub struct Candidate {
    /// Its ways, by plots.
    pub ways: Vec<Way>,
    /// Whether it must be grown.
    pub must: Must,
}

/// Whether a variety must be grown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Must {
    /// It must, in one of its ways.
    Stand,
    /// Only where it is worth it.
    IfWorthIt,
}

/// What there is to grow on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ground {
    /// Plots.
    pub plots: u32,
    /// Plants that can be raised; `None` where only the plots count.
    pub plants: Option<u32>,
    /// Varieties whose flowers cross readily that can be kept apart or bagged.
    pub apart: u32,
}

/// What was chosen.
#[derive(Clone, Debug, PartialEq)]
pub struct Chosen {
    /// The place of each variety's way; `None` of one that is left out.
    pub ways: Vec<Option<usize>>,
    /// What all together is worth, in packets.
    pub worth: f64,
    /// No choice is worth more than this.
    pub bound: f64,
}

/// Why nothing could be chosen.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ChoiceFault {
    /// What must be grown does not fit.
    #[error("the varieties that must be grown do not fit on the ground")]
    NoRoom,
    /// The solver failed.
    #[error(transparent)]
    Solver(#[from] SolverStopped),
}

/// How far from the best an answer may be: 1 in 200.
const GAP: f64 = 0.005;
/// Most linear programs of one choice: a thousand varieties take a few dozen.
const MOST_NODES: u64 = 2_000;

/// Chooses what to grow.
///
/// # Shape
/// `candidates`: one a variety. The answer has as many, in the same order.
///
/// # Errors
/// [`ChoiceFault`].
pub fn choose(candidates: &[Candidate], ground: Ground) -> Result<Chosen, ChoiceFault> {
    let (program, flags) = formulated(candidates, ground);
    let gap = Share::new(GAP).unwrap_or(Share::NONE);
    let solved = solve(program, Stop { gap, most_nodes: MOST_NODES })?;
    let filled = filled(candidates, ground);
    let (solved, bound) = match solved {
        Answer::Nothing => return Err(ChoiceFault::NoRoom),
        Answer::Found(found) => (Some(read(&flags, &found.values)), -found.bound),
        Answer::Unsettled(bound) => (None, -bound),
    };
    let worth = |ways: &Vec<Option<usize>>| worth(candidates, ways);
    let best = solved.into_iter().chain(filled).max_by(|one, other| worth(one).total_cmp(&worth(other)));
    let ways = best.ok_or(ChoiceFault::NoRoom)?;
    let worth = worth(&ways);
    Ok(Chosen { ways, worth, bound: bound.max(worth) })
}

/// A choice on more ground.
#[derive(Clone, Debug, PartialEq)]
pub struct MoreGround {
    /// What all together would be worth.
    pub worth: f64,
    /// The choice.
    pub chosen: Chosen,
}

impl MoreGround {
    /// What the ground more is worth: nothing less than nothing, as both choices are only so near to the best.
    #[must_use]
    pub fn worth_over(&self, chosen: &Chosen) -> f64 {
        (self.worth - chosen.worth).max(0.0)
    }
}

/// Chooses again with so many plots more.
///
/// # Errors
/// [`ChoiceFault`].
pub fn with_more(candidates: &[Candidate], ground: Ground, plots: u32) -> Result<MoreGround, ChoiceFault> {
    let more = Ground { plots: ground.plots.saturating_add(plots), ..ground };
    let chosen = choose(candidates, more)?;
    Ok(MoreGround { worth: chosen.worth, chosen })
}

type Flags = Vec<Vec<Variable>>;

fn formulated(candidates: &[Candidate], ground: Ground) -> (Program, Flags) {
    let mut variables = ProblemVariables::new();
    let mut flag = |_: &Way| variables.add(variable().binary());
    let flags: Flags = candidates.iter().map(|own| own.ways.iter().map(&mut flag).collect()).collect();
    let pairs = || candidates.iter().zip(&flags).flat_map(|(own, flags)| own.ways.iter().zip(flags));
    let sum = |of: &dyn Fn(&Way) -> f64| -> Expression { pairs().map(|(way, flag)| of(way) * *flag).sum() };
    let mut rules = vec![
        constraint!(sum(&|way| way.plots.into()) <= ground.plots),
        constraint!(sum(&|way| way.apart.into()) <= ground.apart),
    ];
    if let Some(plants) = ground.plants {
        rules.push(constraint!(sum(&|way| way.plants.into()) <= plants));
    }
    for (own, flags) in candidates.iter().zip(&flags) {
        let ways: Expression = flags.iter().sum();
        match own.must {
            Must::Stand => rules.push(constraint!(ways == 1)),
            Must::IfWorthIt if 1 < flags.len() => rules.push(constraint!(ways <= 1)),
            Must::IfWorthIt => {}
        }
    }
    let objective = -sum(&|way| way.worth);
    (Program { variables, objective, rules }, flags)
}

/// The ways whose flags stand; the variables come in the order of the flags.
fn read(flags: &Flags, values: &[f64]) -> Vec<Option<usize>> {
    let mut values = values.iter();
    let own = |flags: &Vec<Variable>| {
        let mut stands = None;
        for place in 0..flags.len() {
            if values.next().is_some_and(|value| 0.5 < *value) {
                stands = Some(place);
            }
        }
        stands
    };
    flags.iter().map(own).collect()
}

fn worth(candidates: &[Candidate], ways: &[Option<usize>]) -> f64 {
    let own = |(own, way): (&Candidate, &Option<usize>)| own.ways.get((*way)?).map(|way| way.worth);
    candidates.iter().zip(ways).filter_map(own).sum()
}

/// Fills the ground with the step that is worth most a plot, again and again; `None` where what must stand does not fit so.
fn filled(candidates: &[Candidate], ground: Ground) -> Option<Vec<Option<usize>>> {
    let cheapest =
        |own: &Candidate| (0..own.ways.len()).min_by_key(|way| own.ways.get(*way).map(|way| way.plots));
    let first = |own: &Candidate| if own.must == Must::Stand { cheapest(own) } else { None };
    let mut ways: Vec<Option<usize>> = candidates.iter().map(first).collect();
    let missing = candidates.iter().zip(&ways).any(|(own, way)| own.must == Must::Stand && way.is_none());
    let mut left = Left::of(ground, candidates, &ways).filter(|_| !missing)?;
    loop {
        let steps = candidates.iter().enumerate().flat_map(|(place, own)| {
            let now = ways.get(place).copied().flatten();
            let next = move |way: usize| Step::of(own, now, way).map(|step| (place, way, step));
            (0..own.ways.len()).filter_map(next)
        });
        let best = steps
            .filter(|(_, _, step)| left.has(step))
            .max_by(|one, other| one.2.rate().total_cmp(&other.2.rate()));
        let Some((place, way, step)) = best else { return Some(ways) };
        left = left.less(&step);
        if let Some(own) = ways.get_mut(place) {
            *own = Some(way);
        }
    }
}

/// From one way of a variety to a better one.
struct Step {
    plots: i64,
    plants: i64,
    apart: i64,
    worth: f64,
}

impl Step {
    fn of(own: &Candidate, now: Option<usize>, next: usize) -> Option<Self> {
        const NOT_GROWN: Way = Way { plots: 0, plants: 0, apart: 0, worth: 0.0, seed: 0.0 };
        let now = now.and_then(|now| own.ways.get(now)).unwrap_or(&NOT_GROWN);
        let next = own.ways.get(next)?;
        let more = |of: fn(&Way) -> u32| i64::from(of(next)) - i64::from(of(now));
        let step = Self {
            plots: more(|way| way.plots),
            plants: more(|way| way.plants),
            apart: more(|way| way.apart),
            worth: next.worth - now.worth,
        };
        (0.0 < step.worth && 0 <= step.plots).then_some(step)
    }

    /// What it is worth a plot; a step that takes none goes first.
    fn rate(&self) -> f64 {
        #[expect(clippy::cast_precision_loss, reason = "plots of a garden")]
        let plots = self.plots as f64;
        self.worth / plots.max(1e-9)
    }
}

/// What is left of the ground.
struct Left {
    plots: i64,
    plants: i64,
    apart: i64,
}

impl Left {
    fn of(ground: Ground, candidates: &[Candidate], ways: &[Option<usize>]) -> Option<Self> {
        let plants = ground.plants.map_or(i64::MAX, i64::from);
        let whole = Self { plots: ground.plots.into(), plants, apart: ground.apart.into() };
        let taken = candidates.iter().zip(ways).filter_map(|(own, way)| own.ways.get((*way)?));
        let left = taken.fold(whole, |left, way| Self {
            plots: left.plots - i64::from(way.plots),
            plants: left.plants - i64::from(way.plants),
            apart: left.apart - i64::from(way.apart),
        });
        (0 <= left.plots && 0 <= left.plants && 0 <= left.apart).then_some(left)
    }

    fn has(&self, step: &Step) -> bool {
        step.plots <= self.plots && step.plants <= self.plants && step.apart <= self.apart
    }

    fn less(&self, step: &Step) -> Self {
        Self {
            plots: self.plots - step.plots,
            plants: self.plants - step.plants,
            apart: self.apart - step.apart,
        }
    }
}
