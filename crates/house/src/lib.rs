//! What a user can do with a house: one use case a file, each a short story.
//!
//! Every story fetches from the ledger, computes with the science, stores, and hands on; there is no
//! arithmetic here and no SQL. The command line and the workbench both speak only to this crate, so
//! neither can do what the other cannot. A house is made and found in [`folder`]; then, in the order of
//! the work: [`take`] notes, mend the [`quarantine`], [`calls`], [`list`], [`show`], [`mod@print`], [`keep`].

pub mod fault;
pub mod first_steps;
pub mod folder;
pub mod progress;
pub mod settings;
pub mod tables;
pub mod typed_file;

pub mod again;
pub mod asked;
pub mod correct;
mod corrected;
pub mod doubts;
pub mod growouts;
pub mod history;
pub mod labels;
pub mod layout;
pub mod look;
pub mod mapping;
pub mod names;
pub mod opened;
pub mod photo;
pub mod quarantine;
pub mod roster;
mod seen;
pub mod take;

pub mod calls;
pub mod compare;
pub mod evidence;
pub mod facts;
pub mod guides;
pub mod kept;
pub mod moves;

pub mod chart;
pub mod claims;
pub mod editing;
pub mod keep;
pub mod list;
pub mod pages;
pub mod picture;
pub mod portraits;
pub mod print;
pub mod printed;
pub mod proof;
pub mod show;
pub mod stakes;
pub mod strips;
pub mod walks;

pub mod advise;
mod alike;
pub mod calendar;
pub mod emergence;
pub mod forecast;
pub mod frost;
pub mod gaps;
pub mod gardens;
pub mod increase;
pub mod lots;
pub mod next;
pub mod ripen;
pub mod rogues;
pub mod sales;
pub mod season_sheet;
pub mod standins;
mod uses;
pub mod warmth;
pub mod weather;
pub mod what;
