//! The commands, each in its own file: what was typed in, a use case of the house, an answer out.

mod advise;
mod calendar;
mod call;
mod calls_told;
mod compare;
mod correct;
mod demo;
mod doubts;
mod emergence;
mod field_paper;
mod forecast;
mod frost;
mod gaps;
mod garden;
mod germination;
mod guide;
mod hindsight;
mod history;
mod increase;
mod instead;
mod keep;
mod layout;
mod list;
mod look;
mod lot_books;
mod lot_kept;
mod lots;
mod names;
mod new;
mod next;
mod orders;
mod packets;
mod photo;
mod picture;
mod plants;
mod print;
mod publish;
mod quarantine;
mod reading;
mod records;
mod reference;
mod ripen;
mod rogues;
mod sales;
mod season_sheet;
mod settings;
mod show;
mod stations;
mod take;
mod warmth;
mod weather;
mod what;
mod workbench;

use crate::answer::{Answer, Ending, Form, give};
use crate::arguments::{Arguments, Command};
use crate::bars::Bars;
use clap::CommandFactory;
use house::fault::HouseFault;
use house::folder::{self, House};
use house::history::{Act, BatchNumber};
use house::lots::fault::SeedRoomFault;
use house::quarantine::Mending;
use jiff::{Timestamp, ZonedDateTime};
use std::io;
use std::path::Path;

/// Why a command failed.
#[derive(Debug)]
pub(crate) enum Failure {
    /// The house could not do it.
    House(HouseFault),
    /// What was typed cannot be used.
    Typed {
        /// What is wrong with it.
        message: String,
        /// What to type instead.
        help: String,
    },
    /// The answer could not be written.
    Output(io::Error),
}

impl From<HouseFault> for Failure {
    fn from(fault: HouseFault) -> Self {
        Self::House(fault)
    }
}

impl From<SeedRoomFault> for Failure {
    fn from(fault: SeedRoomFault) -> Self {
        Self::House(fault.into())
    }
}

impl From<io::Error> for Failure {
    fn from(fault: io::Error) -> Self {
        Self::Output(fault)
    }
}

/// Runs what was typed.
///
/// # Errors
/// [`Failure`] with what to do about it.
pub(crate) fn run(arguments: Arguments, form: Form) -> Result<Ending, Failure> {
    let named = arguments.house;
    let house = || open(named.as_deref());
    match arguments.command {
        Command::New(new) => answer(&new::run(&new)?, form),
        Command::Take(take) if take.dry_run => answer(&look::look(&house()?, &take)?, form),
        Command::Take(take) => answer(&take::take(&house()?, &take)?, form),
        Command::Photo(photo) => answer(&photo::run(&house()?, &photo)?, form),
        Command::Quarantine(quarantine) => quarantine::run(&house()?, quarantine.action, form),
        Command::Names(names) => names::run(&house()?, names.action, form),
        Command::Doubts(doubts) => doubts::run(&house()?, doubts.action, form),
        Command::Undo(undo) => answer(&history::undo(&house()?, &undo)?, form),
        Command::Redo(redo) => answer(&history::redo(&house()?, &redo)?, form),
        Command::History(history) => history::run(&house()?, &history, form),
        Command::Withdraw(withdraw) => answer(&doubts::withdraw(&house()?, &withdraw)?, form),
        Command::Correct(correct) => answer(&correct::run(&house()?, &correct)?, form),
        Command::Call(call) => answer(&call::run(&house()?, &call)?, form),
        Command::Show(show) => match &show.picture {
            Some(file) => answer(&picture::run(&house()?, &show.variety, file)?, form),
            None => answer(&show::run(&house()?, &show)?, form),
        },
        Command::List(list) => answer(&list::run(&house()?, list)?, form),
        Command::What(what) => answer(&what::run(found(named.as_deref())?.as_ref(), *what)?, form),
        Command::Instead(instead) => answer(&instead::run(&house()?, &instead)?, form),
        Command::Gaps(gaps) => answer(&gaps::run(&house()?, &gaps)?, form),
        Command::Compare(compare) => answer(&compare::run(&house()?, &compare)?, form),
        Command::Forecast(forecast) => answer(&forecast::run(&house()?, &forecast)?, form),
        Command::Advise(advise) => answer(&advise::run(&house()?, &advise)?, form),
        Command::Calendar(calendar) => answer(&calendar::run(&house()?, &calendar)?, form),
        Command::Ripen(ripen) => answer(&ripen::run(&house()?, &ripen)?, form),
        Command::Hindsight(hindsight) => answer(&hindsight::run(&house()?, &hindsight)?, form),
        Command::Emergence(emergence) => {
            answer(&emergence::run(found(named.as_deref())?.as_ref(), &emergence)?, form)
        }
        Command::Frost(frost) => frost::run(found(named.as_deref())?.as_ref(), &frost, form),
        Command::Weather(weather) => stations::run(&house()?, weather.action, form),
        Command::Garden(garden) => garden::run(&house()?, garden, form),
        Command::Lot(lot) => lots::run(&house()?, lot, form),
        Command::Germination(germination) => germination::run(&house()?, germination, form),
        Command::Order(order) => orders::run(&house()?, &order, form),
        Command::Plants(plants) => plants::run(&plants, form),
        Command::Rogues(rogues) => rogues::run(&house()?, &rogues, form),
        Command::Increase(increase) => answer(&increase::run(&house()?, &increase)?, form),
        Command::Sales(sales) => sales::run(&house()?, sales, form),
        Command::Next(next) => answer(&next::run(&house()?, *next)?, form),
        Command::Layout(layout) => layout::run(&house()?, &layout, form),
        Command::Guide(guide) => guide::run(&house()?, &guide.action, form),
        Command::Print(print) => print::run(&house()?, &print, form),
        Command::Publish(typed) => answer(&publish::run(&house()?, &typed)?, form),
        Command::Settings(settings) => answer(&settings::run(house()?, settings)?, form),
        Command::Backup(backup) => answer(&keep::back_up(&house()?, &backup)?, form),
        Command::Restore(restore) => answer(&keep::restore(&house()?, &restore)?, form),
        Command::Verify => answer(&keep::verify(&house()?)?, form),
        Command::Workbench(workbench) => workbench::run(house()?, workbench.port),
        Command::Demo(demo) => demo::run(&demo, form),
        Command::Completions(completions) => complete(completions.shell),
        Command::Reference(reference) => reference::run(&reference.docs),
    }
}

fn answer<A: Answer>(found: &A, form: Form) -> Result<Ending, Failure> {
    Ok(give(found, form)?)
}

fn open(named: Option<&Path>) -> Result<House, Failure> {
    let here = std::env::current_dir()?;
    Ok(folder::find(named, &here)?)
}

/// The house, or `None` where none was named and none is found.
fn found(named: Option<&Path>) -> Result<Option<House>, Failure> {
    match open(named) {
        Err(Failure::House(HouseFault::NoHouse(_))) if named.is_none() => Ok(None),
        found => found.map(Some),
    }
}

fn complete(shell: clap_complete::Shell) -> Result<Ending, Failure> {
    let mut text = Vec::new();
    clap_complete::generate(shell, &mut Arguments::command(), "locule", &mut text);
    io::Write::write_all(&mut io::stdout().lock(), &text)?;
    Ok(Ending::Done)
}

/// Who does it: the name given, else the house's keeper.
fn who(house: &House, by: Option<&String>) -> String {
    by.unwrap_or(&house.settings.keeper).clone()
}

fn act(house: &House, by: Option<&String>, why: Option<String>) -> Act {
    Act { who: who(house, by), at: Timestamp::now(), why }
}

fn mending(house: &House, by: Option<&String>) -> Mending {
    Mending { who: who(house, by), at: Timestamp::now(), today: ZonedDateTime::now().date() }
}

fn bars() -> Bars {
    Bars::default()
}

/// Reads a batch's number as it was typed.
fn batch(typed: &str) -> Result<BatchNumber, Failure> {
    typed.trim().parse().map(BatchNumber).map_err(|_| Failure::Typed {
        message: format!("{typed:?} is no batch number"),
        help: "see the numbers with locule history".to_owned(),
    })
}

/// Parts `HEADING=VALUE` at its first equals sign.
fn parted(typed: &str) -> Result<(&str, &str), Failure> {
    typed.split_once('=').ok_or_else(|| Failure::Typed {
        message: format!("{typed:?} has no equals sign"),
        help: "write HEADING=VALUE, such as \"wt=58 g\"".to_owned(),
    })
}
