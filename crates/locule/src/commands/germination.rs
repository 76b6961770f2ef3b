//! `locule germination`: which lots to test next, tests noted, and tests planned in small steps.

use super::lots::{JudgedByTold, LotTold, asked, judged_by, show, tell_rule, told};
use super::reference::{Shape, shape};
use super::{Failure, act, answer};
use crate::answer::{Answer, Ending, Form};
use crate::arguments::lots::{Germination as Typed, GerminationAction};
use crate::columns::columns;
use house::folder::House;
use house::lots::steps::{self, Steps as Planned};
use house::lots::typed::{self, Counts};
use house::lots::{self, writing};
use record::germination::{GerminationTest, Made};
use record::lot::LotNote;
use record::share::WholePercent;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

pub(crate) fn run(house: &House, typed: Typed, form: Form) -> Result<Ending, Failure> {
    let asked = asked(house, typed.judged);
    match typed.action {
        None => {
            let queue = lots::to_test(house, asked)?;
            let lots = queue
                .lots
                .iter()
                .map(|seen| told(seen, &queue.by, asked.today, house.settings.units))
                .collect();
            answer(&ToTest { lots, judged_by: judged_by(&queue.by) }, form)
        }
        Some(GerminationAction::Steps { good, poor, at_once, most }) => {
            let planned =
                steps::steps(steps::Asked { good: percent(good)?, poor: percent(poor)?, at_once, most })?;
            answer(&steps_told(&planned), form)
        }
        Some(GerminationAction::Note {
            lot,
            begun,
            counted,
            first_counted,
            seeds,
            normal,
            abnormal,
            hard,
            first,
            laboratory,
            by,
        }) => {
            let counts = Counts { seeds_each: seeds, normal, abnormal, hard, first };
            let test = GerminationTest {
                begun_on: begun,
                first_counted_on: first_counted,
                counted_on: counted,
                made: if laboratory { Made::Laboratory } else { Made::InHouse },
                replicates: typed::replicates(&counts)?,
            };
            let test = typed::in_order(test)?;
            writing::note(house, &lot, LotNote::Germination(test), &act(house, by.as_ref(), None))?;
            show(house, &lot, asked, form)
        }
    }
}

fn percent(typed: u8) -> Result<WholePercent, Failure> {
    WholePercent::new(typed).ok_or_else(|| Failure::Typed {
        message: format!("{typed} is no per cent"),
        help: "write a whole number from 0 to 100".to_owned(),
    })
}

/// Lots to test next.
#[derive(Debug, Serialize, JsonSchema)]
struct ToTest {
    /// The most urgent first: never tested, test again, then by the day.
    lots: Vec<LotTold>,
    /// What they were judged by.
    judged_by: JudgedByTold,
}

impl Answer for ToTest {
    const SHAPE: &'static str = "germination/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        if self.lots.is_empty() {
            return writeln!(to, "No lot with seed in the house waits for a test.");
        }
        columns(to, &self.lots.iter().map(LotTold::row).collect::<Vec<_>>())?;
        tell_rule(to, &self.judged_by)
    }
}

/// A test in steps.
#[derive(Debug, Serialize, JsonSchema)]
struct Steps {
    /// The steps.
    steps: Vec<StepTold>,
    /// How they end.
    ends: Vec<EndsTold>,
}

/// One step.
#[derive(Debug, Serialize, JsonSchema)]
struct StepTold {
    /// Seeds laid out so far.
    seeds_so_far: u32,
    /// Pass at so many dead seeds or fewer.
    pass_at: Option<u32>,
    /// Fail at so many or more.
    fail_at: u32,
}

/// How the steps end for a lot.
#[derive(Debug, Serialize, JsonSchema)]
struct EndsTold {
    /// Its true germination in per cent.
    germination_percent: u8,
    /// How often it passes, from 0 to 1.
    passes: f64,
    /// How often it fails.
    fails: f64,
    /// Seeds laid out on the mean.
    seeds: f64,
}

fn steps_told(planned: &Planned) -> Steps {
    let mut so_far = 0_u32;
    let steps = planned.plan.steps().iter().map(|step| {
        so_far = so_far.saturating_add(step.more);
        StepTold { seeds_so_far: so_far, pass_at: step.accept_at, fail_at: step.reject_at }
    });
    Steps {
        steps: steps.collect(),
        ends: planned
            .ends
            .iter()
            .map(|(truly, ends)| EndsTold {
                germination_percent: truly.get(),
                passes: ends.accepted.get(),
                fails: ends.rejected.get(),
                seeds: ends.looked_at,
            })
            .collect(),
    }
}

impl Answer for Steps {
    const SHAPE: &'static str = "germination-steps/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "After so many seeds, by seeds that did not sprout:\n")?;
        let row = |step: &StepTold| {
            let pass = step
                .pass_at
                .map_or_else(|| "cannot pass yet".to_owned(), |most| format!("pass at {most} or fewer"));
            vec![step.seeds_so_far.to_string(), pass, format!("fail at {} or more", step.fail_at)]
        };
        columns(to, &self.steps.iter().map(row).collect::<Vec<_>>())?;
        writeln!(to, "\nIn between, lay out the next step. How often it ends so:\n")?;
        let row = |ends: &EndsTold| {
            vec![
                format!("true germination {}%", ends.germination_percent),
                format!("passes {:.1} in 100", 100.0 * ends.passes),
                format!("fails {:.1} in 100", 100.0 * ends.fails),
                format!("{:.0} seeds on the mean", ends.seeds),
            ]
        };
        columns(to, &self.ends.iter().map(row).collect::<Vec<_>>())?;
        writeln!(
            to,
            "\nA test in steps saves seed of a small lot; it is no official test, which takes 400 seeds."
        )
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<ToTest>(), shape::<Steps>()]
}
