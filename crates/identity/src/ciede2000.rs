//! How different two colours look: CIEDE2000, and CIELAB values from a screen's red, green and blue.
//!
//! A reading is compared with the guide's reference colours by a distance that follows the eye: about
//! 1 can just be seen side by side, 10 is another shade, 50 another colour. This file is formula only;
//! what counts as red is the guide's affair ([`crate::colour`]). Start at [`colour_difference`].

use record::colour::Lab;

/// A CIEDE2000 difference between two colours: 0 is the same colour.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct ColourDifference(f64);

impl ColourDifference {
    /// The number of CIEDE2000 units.
    #[must_use]
    pub fn get(self) -> f64 {
        self.0
    }
}

/// 25 to the seventh power, the scale of the chroma terms. Source: Sharma, Wu and Dalal (2005), eq. 4.
const CHROMA_SCALE: f64 = 6_103_515_625.0;

/// The CIEDE2000 difference of two colours, with all three weights at 1.
///
/// # Source
/// G. Sharma, W. Wu and E. N. Dalal, "The CIEDE2000 color-difference formula: implementation notes,
/// supplementary test data, and mathematical observations", Color Research and Application 30 (2005).
/// The numbers in the comments are that paper's equations.
#[must_use]
pub fn colour_difference(first: Lab, second: Lab) -> ColourDifference {
    let stretch = a_stretch((chroma(first.a(), first.b()) + chroma(second.a(), second.b())) / 2.0);
    let (first, second) = (Polar::new(first, stretch), Polar::new(second, stretch));
    let (lightness, lightness_weight) = lightness_terms(first, second);
    let (chroma, chroma_weight) = chroma_terms(first, second);
    let (hue, hue_weight, rotation) = hue_terms(first, second);
    let (lightness, chroma, hue) = (lightness / lightness_weight, chroma / chroma_weight, hue / hue_weight);
    let squared = lightness.powi(2) + chroma.powi(2) + hue.powi(2) + rotation * chroma * hue; // eq. 22
    // Rounding can leave a hair under nothing where the two colours are one.
    ColourDifference(squared.max(0.0).sqrt())
}

/// A colour as lightness, stretched chroma and hue in degrees from 0 to 360. Eqs. 5 to 7.
#[derive(Clone, Copy)]
struct Polar {
    lightness: f64,
    chroma: f64,
    hue: f64,
}

impl Polar {
    fn new(lab: Lab, stretch: f64) -> Self {
        let a = lab.a() * stretch;
        let hue = if a == 0.0 && lab.b() == 0.0 { 0.0 } else { lab.b().atan2(a).to_degrees() };
        let hue = if hue < 0.0 { hue + 360.0 } else { hue };
        Self { lightness: lab.lightness(), chroma: chroma(a, lab.b()), hue }
    }
}

fn chroma(a: f64, b: f64) -> f64 {
    a.hypot(b)
}

/// How far a* is stretched, more for greyer colours. Eqs. 4 and 5.
fn a_stretch(mean_chroma: f64) -> f64 {
    1.0 + 0.5 * (1.0 - chroma_share(mean_chroma))
}

/// The root of c^7 / (c^7 + 25^7), which eqs. 4 and 17 share.
fn chroma_share(chroma: f64) -> f64 {
    let seventh = chroma.powi(7);
    (seventh / (seventh + CHROMA_SCALE)).sqrt()
}

/// Difference in lightness and its weight. Eqs. 8, 12 and 15.
fn lightness_terms(first: Polar, second: Polar) -> (f64, f64) {
    let from_middle = ((first.lightness + second.lightness) / 2.0 - 50.0).powi(2);
    (second.lightness - first.lightness, 1.0 + 0.015 * from_middle / (20.0 + from_middle).sqrt())
}

/// Difference in chroma and its weight. Eqs. 9, 13 and 16.
fn chroma_terms(first: Polar, second: Polar) -> (f64, f64) {
    (second.chroma - first.chroma, 1.0 + 0.045 * (first.chroma + second.chroma) / 2.0)
}

/// Difference in hue, its weight, and the rotation that couples it with chroma. Eqs. 10, 11, 14, 17 to 21.
fn hue_terms(first: Polar, second: Polar) -> (f64, f64, f64) {
    let turn = hue_turn(first, second);
    let difference = 2.0 * (first.chroma * second.chroma).sqrt() * (turn / 2.0).to_radians().sin();
    let (mean_hue, mean_chroma) = (mean_hue(first, second), (first.chroma + second.chroma) / 2.0);
    let weight = 1.0 + 0.015 * mean_chroma * hue_weight(mean_hue);
    let blueness = 30.0 * (-((mean_hue - 275.0) / 25.0).powi(2)).exp();
    let rotation = -(2.0 * blueness).to_radians().sin() * 2.0 * chroma_share(mean_chroma);
    (difference, weight, rotation)
}

/// The shorter way round from one hue to the other, in degrees. Eq. 10.
fn hue_turn(first: Polar, second: Polar) -> f64 {
    let turn = second.hue - first.hue;
    match turn {
        _ if first.chroma * second.chroma == 0.0 => 0.0,
        far if 180.0 < far => far - 360.0,
        far if far < -180.0 => far + 360.0,
        near => near,
    }
}

/// The hue halfway along the shorter way round, in degrees. Eq. 14.
fn mean_hue(first: Polar, second: Polar) -> f64 {
    let sum = first.hue + second.hue;
    match (first.hue - second.hue).abs() {
        _ if first.chroma * second.chroma == 0.0 => sum,
        near if near <= 180.0 => sum / 2.0,
        _ if sum < 360.0 => (sum + 360.0) / 2.0,
        _ => (sum - 360.0) / 2.0,
    }
}

/// How finely the eye parts hues round the circle. Eq. 15 of the paper, T.
fn hue_weight(hue: f64) -> f64 {
    let wave = |times: f64, shift: f64| (times * hue + shift).to_radians().cos();
    1.0 - 0.17 * wave(1.0, -30.0) + 0.24 * wave(2.0, 0.0) + 0.32 * wave(3.0, 6.0) - 0.20 * wave(4.0, -63.0)
}

/// Linear light from red, green and blue to XYZ. Source: IEC 61966-2-1 (sRGB), in the digits of
/// the values that the test's published table was computed with.
const LIGHT_TO_XYZ: [[f64; 3]; 3] =
    [[0.412_453, 0.357_580, 0.180_423], [0.212_671, 0.715_160, 0.072_169], [0.019_334, 0.119_193, 0.950_227]];
/// White of D65 for the 2-degree observer. Source: CIE 15, as above.
const D65: [f64; 3] = [0.950_47, 1.0, 1.088_83];
/// Where the cube root of CIELAB gives way to a straight line. Source: CIE 15, rounded as above.
const DARKEST_CUBE: f64 = 0.008_856;

/// The CIELAB colour (D65, 2 degrees) of a screen colour.
///
/// # Source
/// IEC 61966-2-1 for sRGB, CIE 15 for CIELAB.
#[must_use]
#[expect(clippy::expect_used, reason = "the farthest screen colour, pure blue, has b* of -108")]
pub fn lab_of_srgb(red_green_blue: [u8; 3]) -> Lab {
    let light = red_green_blue.map(|level| linear(f64::from(level) / 255.0));
    let dot = |row: [f64; 3]| row[0] * light[0] + row[1] * light[1] + row[2] * light[2];
    let [x, y, z] = LIGHT_TO_XYZ.map(dot);
    let [x, y, z] = [x / D65[0], y / D65[1], z / D65[2]].map(lab_root);
    Lab::new((116.0 * y - 16.0).clamp(0.0, 100.0), 500.0 * (x - y), 200.0 * (y - z))
        .expect("sRGB lies within the limits of CIELAB readings")
}

/// sRGB's own curve, from level to light.
fn linear(level: f64) -> f64 {
    if level <= 0.040_45 { level / 12.92 } else { ((level + 0.055) / 1.055).powf(2.4) }
}

fn lab_root(ratio: f64) -> f64 {
    if DARKEST_CUBE < ratio { ratio.cbrt() } else { 7.787 * ratio + 16.0 / 116.0 }
}
