//! The planner: how many plants of which variety, set out when, so that a garden's wishes are met in enough years.
//!
//! What is asked is an integer program over sampled weather years. For plants x (whole numbers) and years s, with supply
//! a(s,i,w) in kilograms a plant of choice i in week w:
//!
//! - of each class and week, what is eaten and put up is no more than the sum of a(s,i,w) x(i);
//! - in a year that counts as met, every fresh wish has its kilograms in each of its weeks, and every kitchen wish
//!   its kilograms over at most k weeks, each no more than the loads of one kitchen day;
//! - enough years are met; beds, containers and the count of varieties are kept;
//! - the sum of x is the least that does it.
//!
//! A garden is looked for by search first. Then fewer plants are shown to be too few, by a program whose needs are a little easier
//! than the wishes; of small gardens the whole program is solved. That there is no garden at all comes from single years and classes.
//!
//! The cook follows the crop: kitchen weeks are chosen in each year anew, while the plants are the same in all. Fruit
//! keeps within its week. It does not know where the supply came from, and it adds nothing for what animals eat.
//! Start at [`plan::plan`]; [`watch`] is for who waits for it; [`conflict`] says what stands in the way where there is no plan.

pub mod alternatives;
mod bound;
pub mod conflict;
pub mod harvest;
mod model;
mod needs;
pub mod plan;
mod proof;
pub mod request;
mod search;
mod shortlist;
pub mod supply;
pub mod watch;
pub mod weeks;
mod year;
