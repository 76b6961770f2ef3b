//! Guides: the house's rules as plain TOML that its owner may edit, read with faults that say where.
//!
//! A guide states values that no standard settles: how heavy a plum may be, which truss count still is
//! determinate. Each value carries its source and, where published sources disagree, who says otherwise.
//! [`reading`] turns TOML text into checked values for every guide; [`fruit`] is the fruit-class guide.
//! Start at [`fruit::read`].

pub mod fruit;
pub mod reading;
pub mod source;
