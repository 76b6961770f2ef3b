//! What was measured, drawn over its photograph, on a page or in a file.

use super::fault::PhotoFault;
use super::{Seen, SeenFruit, Standing};
use crate::fault::HouseFault;
use crate::folder;
use crate::picture::{Picture, ending};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use drawing::measured::{Counts, LeftOut, Outlined, Photograph, measured};
use drawing::scale::Pixels;
use drawing::svg::Svg;
use photo::encode;
use photo::measure::{Form, Measured};
use photo::plane::Plane;
use publish::picture::{Ground, png_over};
use std::path::Path;

/// Draws what was measured; `picture` is where the photograph is, where the drawing is to hold it.
pub(super) fn drawn(seen: &Measured, fruit: &[SeenFruit], picture: Option<String>) -> Svg {
    let side = |pixels: usize| Pixels::new(pixels as f64).unwrap_or(Pixels::from(0));
    let camera = &seen.pose.camera;
    let [across, down] = seen.card.size;
    let corners = [[0.0, 0.0], [across, 0.0], [across, down], [0.0, down]];
    measured(&Photograph {
        width: side(seen.pixels.width()),
        height: side(seen.pixels.height()),
        picture,
        fruit: seen
            .fruit
            .iter()
            .zip(fruit)
            .map(|(own, told)| Outlined {
                number: own.number,
                outline: own.outline.clone(),
                stem: match own.form {
                    Form::Lying(solid) => Some(solid.stem),
                    Form::Standing { .. } | Form::Cut(_) => None,
                },
                across: match own.form {
                    Form::Lying(solid) => solid.across,
                    Form::Standing { solid, .. } => solid.across,
                    Form::Cut(face) => face.across,
                },
                chambers: own.chambers.clone(),
                counts: counts(told),
            })
            .collect(),
        left_out: seen
            .left_out
            .iter()
            .map(|part| LeftOut { number: part.number, outline: part.outline.clone() })
            .collect(),
        card: corners.map(|[u, v]| camera.sees([u, v, 0.0])),
    })
}

fn counts(fruit: &SeenFruit) -> Counts {
    match fruit.standing {
        Standing::LeftOut => Counts::No,
        Standing::Counts if fruit.is_shape_known() => Counts::Yes,
        Standing::Counts => Counts::StemUnsure,
    }
}

/// A photograph as the bytes of a JPEG.
pub(super) fn jpeg(pixels: &Plane<[u8; 3]>) -> Result<Vec<u8>, PhotoFault> {
    encode::jpeg(pixels).map_err(|fault| PhotoFault::Unwritten(fault.to_string()))
}

/// Writes the photograph with what was measured drawn over it: SVG or PNG, by the file's ending, whole or not at all.
///
/// # Errors
/// [`HouseFault::NotKnown`] for another ending; what the disk refuses.
pub fn write(seen: &Seen, file: &Path) -> Result<Picture, HouseFault> {
    let pixels = &seen.measured.pixels;
    let content = if ending(file)? == "svg" {
        let address = format!("data:image/jpeg;base64,{}", STANDARD.encode(&seen.jpeg));
        drawn(&seen.measured, &seen.fruit, Some(address)).markup().as_bytes().to_vec()
    } else {
        let side = |pixels: usize| u32::try_from(pixels).unwrap_or(u32::MAX);
        let (width, height) = (side(pixels.width()), side(pixels.height()));
        png_over(&seen.drawing, Ground { width, height, pixels: pixels.cells() })?
    };
    folder::write(file, &content)?;
    Ok(Picture { file: file.to_owned(), bytes: u64::try_from(content.len()).unwrap_or(u64::MAX) })
}
