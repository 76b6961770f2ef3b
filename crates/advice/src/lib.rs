//! Advice for one garden and one kitchen: what fruit becomes in the pot and in jars, and how many plants it takes.
//!
//! Values in, values out: it knows masses, solids, jars and plants, not where they were written down or who asks.
//! Preserving is a hazard. This crate plans fruit and jars; it certifies no process, and hands on a printed time only
//! where its guide marks it as read in the published one.
//!
//! Reading order: [`solids`] (what is dissolved in tomato, and what is not) -> [`boiling`] (fruit to pulp to product)
//! -> [`burner`] (heat and hours) -> [`standard`] (what may be called puree or paste); [`jars`] (fruit by the canner
//! load) and [`market`] (fruit by the basket); [`kitchen`] (what a product takes, all together); [`preserving`] (process times, acid and cautions);
//! [`space`] (places in beds) and [`planner`] (plants for wishes); [`by_itself`] (one or two varieties for one wish).

pub mod solids;

pub mod boiling;
pub mod burner;
pub mod standard;

pub mod jars;
pub mod market;

pub mod kitchen;

pub mod preserving;

pub mod space;

pub mod planner;

pub mod by_itself;
