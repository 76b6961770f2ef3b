//! Measures fruit from one photograph taken beside the printed scale card.
//!
//! Bytes in, values out: it knows pixels, light and the shape of fruit, not where pictures are kept or who asks.
//!
//! Reading order: [`colour`] (what a pixel says in CIELAB) and [`plane`] (a picture as rows of values); [`region`] and
//! [`outline`] (the geometry of a mask), [`fourier`] (an outline as a few numbers); [`decode`] (bytes to a picture);
//! [`card`] and [`markers`] (the scale card found, and what its [`code`] says) -> [`camera`] and [`pose`] (where the camera stood, by [`fit`]) ->
//! [`exposure`] (light enough, and not too much) -> [`sheet`] (the light on the sheet) and [`ground`] (how far it reaches) -> [`part`] (fruit from sheet and from each other) -> [`change`] (what somebody says of the parts) -> [`edge`] (outlines between the
//! pixels) -> [`stem`] (which end is the stem's) -> [`solid`] (sizes, the height above the sheet taken out), [`spread`] (how well they are known), [`lobes`] and [`surface`]
//! (the skin's colour), [`pattern`] (stripes and blends), [`face`] (cut faces and their locules); [`measure`] goes the whole way, or gives a [`refusal`]; [`encode`] writes the picture that was measured.

pub mod colour;
mod company;
pub mod plane;

pub mod fourier;
pub mod outline;
pub mod region;

pub mod decode;
pub mod fit;

pub mod camera;
pub mod card;
pub mod code;
pub mod markers;
pub mod pose;
pub mod sharpness;

pub mod ground;
pub mod sheet;

pub mod change;
pub mod part;

mod contour;
pub mod edge;
pub mod exposure;
pub mod face;
pub mod lobes;
pub mod pattern;
mod ring;
pub mod solid;
pub mod spread;
pub mod stem;
pub mod surface;

pub mod measure;
mod placed;
pub mod refusal;

pub mod encode;
