//! Guides: the house's rules as plain TOML that its owner may edit, read with faults that say where.
//!
//! A guide states values that no standard settles: how heavy a plum may be, which truss count still is
//! determinate. Each value carries its source and, where published sources disagree, who says otherwise.
//! [`reading`] turns TOML text into checked values for every guide; [`fruit`], [`habit`] and [`colour`] are
//! the guides of the three calls, [`standards`] the open descriptor standards. Start at [`fruit::read`].

pub mod colour;
pub mod fruit;
pub mod habit;
pub mod quantity;
pub mod reading;
pub mod source;
pub mod standards;
pub mod uses;
pub mod value;
