//! `locule advise`: which varieties, how many plants and when.

mod told;
mod watched;

use super::Failure;
use super::reference::{Shape, shape};
use crate::answer::Answer;
use crate::arguments::advise::{Advise, PlanPaper};
use crate::columns::columns;
use house::advise::request::Request;
use house::advise::telling::{self, DEFERS, NOTICE};
use house::advise::{self, SAMPLED, Unwatched, paper, request};
use house::fault::HouseFault;
use house::folder::House;
use house::print::Paper;
use jiff::ZonedDateTime;
use record::language::{self, counted};
use std::fs;
use std::io::{self, Write};
use std::path::Path;
use std::time::Duration;
pub(super) use told::Advised;
use told::{Harvested, LineTold};
use watched::Watched;

pub(crate) fn run(house: &House, typed: &Advise) -> Result<Advised, Failure> {
    let mut asked = read(&typed.request)?;
    asked.barred.extend(typed.without.iter().cloned());
    asked.wanted.extend(typed.with.iter().cloned());
    let now = ZonedDateTime::now();
    let found = {
        let watched = Watched::begin(typed.seconds.map(Duration::from_secs));
        advise::advise(house, &asked, now.date(), &watched)?
    };
    let mut told = told::of(&found, house.settings.units);
    if let Some(file) = &typed.pdf {
        let paper = match typed.paper {
            PlanPaper::Letter => Paper::UsLetter,
            PlanPaper::A4 => Paper::A4,
        };
        paper::write_sheet(house, &found, paper, now.date(), file)?;
        told.written.push(file.display().to_string());
    }
    if let Some(file) = &typed.calendar {
        paper::write_days(house, &asked, &found, (now.date(), now.timestamp()), file)?;
        told.written.push(file.display().to_string());
    }
    Ok(told)
}

/// The answer to a request of the demo.
pub(super) fn of_demo(house: &House, request: &Path) -> Result<Advised, Failure> {
    let found = advise::advise(house, &read(request)?, ZonedDateTime::now().date(), &Unwatched)?;
    Ok(told::of(&found, house.settings.units))
}

fn read(path: &Path) -> Result<Request, Failure> {
    let name = path.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
    let text = fs::read_to_string(path).map_err(|fault| HouseFault::File { path: path.to_owned(), fault })?;
    Ok(request::read(&name, &text)?)
}

impl Answer for Advised {
    const SHAPE: &'static str = "advice/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(
            to,
            "Advice in the weather of {}, plants out on {}; all is had in {} years of 10\n",
            self.weather.name,
            self.plants_out.join(" and "),
            self.years_in_ten
        )?;
        for wish in &self.wishes {
            writeln!(to, "  {}, {} to {}", wish.words, wish.from, wish.to)?;
        }
        writeln!(to)?;
        match (&self.plan, &self.in_the_way) {
            (Some(plan), _) => self.tell_plan(plan, to)?,
            (None, _) if self.stopped => writeln!(to, "{}", telling::STOPPED)?,
            (None, standing) => {
                let said = if self.no_plan_shown { telling::NO_PLAN } else { telling::NONE_FOUND };
                writeln!(to, "{said} In each other's way:\n")?;
                for one in standing {
                    writeln!(to, "  {}: {}", language::capitalised(&one.demand), one.way)?;
                }
            }
        }
        self.tell_kitchen(to)?;
        self.tell_rest(to)
    }
}

impl Advised {
    fn mass(&self, kilograms: f64) -> String {
        telling::kilograms(kilograms, self.units)
    }

    fn range(&self, range: &[f64; 3]) -> Vec<String> {
        range.iter().map(|kilograms| self.mass(*kilograms)).collect()
    }

    /// Tells the wishes and what is planted, or what stands in the way.
    pub(super) fn tell_briefly(&self, to: &mut dyn Write) -> io::Result<()> {
        for wish in &self.wishes {
            writeln!(to, "  {}, {} to {}", wish.words, wish.from, wish.to)?;
        }
        match &self.plan {
            None => writeln!(to, "  {}", telling::NONE_FOUND),
            Some(plan) => {
                let rows = plan.lines.iter().map(|line| {
                    let plants = counted(u64::from(line.plants), "plant", "plants");
                    vec![
                        format!("    {plants}"),
                        line.variety.clone(),
                        format!("out on {}", line.out),
                        line.words.seed.clone(),
                    ]
                });
                columns(to, &rows.collect::<Vec<_>>())
            }
        }
    }

    fn tell_plan(&self, plan: &told::PlanTold, to: &mut dyn Write) -> io::Result<()> {
        writeln!(
            to,
            "Plant {}; every wish is met in {} of {SAMPLED} sampled years\n",
            plan.size, plan.years_met
        )?;
        let heading = [
            "Out",
            "Variety",
            "Plants",
            "Class",
            "Habit",
            "Colour",
            "A plant, poor to good",
            "Without it",
            "Seed",
        ];
        let rows = plan.lines.iter().map(|line| self.row(line));
        columns(to, &std::iter::once(heading.map(str::to_owned).to_vec()).chain(rows).collect::<Vec<_>>())?;
        for line in plan.lines.iter().filter(|line| 0.5 <= line.borrowed) {
            writeln!(
                to,
                "\n{}: {:.0} in 100 of what is believed of its weight is borrowed from others of its kind.",
                line.variety,
                100.0 * line.borrowed
            )?;
        }
        if !plan.alternatives.is_empty() {
            writeln!(to, "\nFor at most a twentieth more plants (plan so with --with and --without):")?;
            plan.alternatives.iter().try_for_each(|other| writeln!(to, "  {}", other.words))?;
        }
        if !plan.for_seed.is_empty() {
            writeln!(to, "\nFor seed:")?;
            plan.for_seed.iter().try_for_each(|own| writeln!(to, "  {}", own.words))?;
        }
        for kitchen in plan.kitchen.iter().filter(|kitchen| !kitchen.days.is_empty()) {
            writeln!(to, "\nKitchen days for {}:", kitchen.of)?;
            for (number, day) in (1..).zip(&kitchen.days) {
                writeln!(to, "  {number}. {}", day.words)?;
            }
        }
        plan.harvests.iter().try_for_each(|harvest| self.tell_harvest(harvest, to))
    }

    fn row(&self, line: &LineTold) -> Vec<String> {
        let [poor, _, good] = self.range(&line.kilograms).try_into().unwrap_or_default();
        let said = |word: &Option<String>| word.clone().unwrap_or_else(|| "-".to_owned());
        vec![
            line.out.clone(),
            line.variety.clone(),
            line.words.plants.clone(),
            line.class.clone(),
            said(&line.habit),
            said(&line.colour),
            format!("{poor} to {good}"),
            line.words.without.clone(),
            line.words.seed.clone(),
        ]
    }

    fn tell_harvest(&self, harvest: &Harvested, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "\nHarvest of {}, week by week:\n", harvest.class)?;
        let heading = ["Week of", "Poor year", "Middling", "Good year", "Eaten"].map(str::to_owned).to_vec();
        let rows = harvest.weeks.iter().map(|week| {
            let mut row = vec![week.week_of.clone()];
            row.extend(self.range(&week.kilograms));
            row.push(if 0.0 < week.eaten { self.mass(week.eaten) } else { "-".to_owned() });
            row
        });
        columns(to, &std::iter::once(heading).chain(rows).collect::<Vec<_>>())
    }

    fn tell_kitchen(&self, to: &mut dyn Write) -> io::Result<()> {
        if self.kitchen.is_empty() {
            return Ok(());
        }
        writeln!(to, "\nIn the kitchen\n")?;
        for sheet in &self.kitchen {
            writeln!(to, "  {}", language::capitalised(&sheet.title))?;
            for line in sheet.lines.iter().chain(&sheet.process) {
                writeln!(to, "    {line}")?;
            }
            if !sheet.acid.is_empty() {
                writeln!(to, "    Acid, one of these, whatever the variety:")?;
                sheet.acid.iter().try_for_each(|acid| writeln!(to, "      {acid}"))?;
            }
        }
        writeln!(to, "\nCautions\n")?;
        self.cautions.iter().try_for_each(|caution| writeln!(to, "  {caution}"))?;
        writeln!(to, "  {DEFERS}")
    }

    fn tell_rest(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "\nAssumed\n")?;
        self.assumed.iter().try_for_each(|line| writeln!(to, "  {line}"))?;
        writeln!(to, "  {NOTICE}")?;
        self.written.iter().try_for_each(|file| writeln!(to, "\nWritten: {file}"))
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Advised>(), ("request-file/1", request::schema())]
}
