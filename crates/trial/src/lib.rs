//! Grow-outs that can be compared: how plots are laid out, and what they say of one variety beside another.
//!
//! Values in, values out. The mathematics is in `statistics`; here are beds, plots, checks and verdicts.
