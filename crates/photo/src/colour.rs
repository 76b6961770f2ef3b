//! Colour: from the bytes of a picture to CIELAB, and how far two colours lie apart to the eye.
//!
//! Everything is for daylight (D65) and the 2 degree observer. It does not know the light a picture was taken in: the
//! card tells that, and the caller divides it out before coming here. Start at [`Lab`].

use std::sync::LazyLock;

/// A colour in CIELAB, D65, 2 degree observer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lab {
    /// Lightness, 0 black to 100 white.
    pub l: f64,
    /// Green (negative) to red.
    pub a: f64,
    /// Blue (negative) to yellow.
    pub b: f64,
}

/// Light as a camera's screen space mixes it: red, green and blue in linear light, white at 1.
pub type Linear = [f64; 3];

/// D65 white, the sum of the rows of [`TO_XYZ`]. Source: IEC 61966-2-1 matrix, from memory, unverified; agrees with the
/// oracle of the tests within 0.01.
const WHITE: [f64; 3] = [0.950_456, 1.0, 1.088_754];
const TO_XYZ: [[f64; 3]; 3] =
    [[0.412_453, 0.357_580, 0.180_423], [0.212_671, 0.715_160, 0.072_169], [0.019_334, 0.119_193, 0.950_227]];

/// Linear light of one byte of an sRGB picture.
#[must_use]
pub fn linear_of_byte(byte: u8) -> f64 {
    static LIGHT: LazyLock<[f64; 256]> = LazyLock::new(|| {
        std::array::from_fn(|byte| {
            let value = byte as f64 / 255.0;
            if value <= 0.04045 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
        })
    });
    LIGHT.get(usize::from(byte)).copied().unwrap_or(0.0)
}

impl Lab {
    /// The colour of linear light relative to white at (1, 1, 1).
    #[must_use]
    pub fn of_linear(light: Linear) -> Self {
        Self::by(light, cube_root_or_line)
    }

    /// The same to a few thousandths of a step, and many times faster; for light up to 1.6.
    #[must_use]
    pub(crate) fn nearly_of_linear(light: Linear) -> Self {
        Self::by(light, looked_up)
    }

    #[inline]
    fn by(light: Linear, root: fn(f64) -> f64) -> Self {
        let mut f = [0.0; 3];
        for ((f, row), white) in f.iter_mut().zip(TO_XYZ).zip(WHITE) {
            let sum: f64 = row.iter().zip(light).map(|(weight, light)| weight * light).sum();
            *f = root(sum / white);
        }
        Self { l: 116.0 * f[1] - 16.0, a: 500.0 * (f[0] - f[1]), b: 200.0 * (f[1] - f[2]) }
    }

    /// The colour of a pixel of an sRGB picture.
    #[must_use]
    pub fn of_srgb(bytes: [u8; 3]) -> Self {
        Self::of_linear(bytes.map(linear_of_byte))
    }

    /// The pixel of an sRGB picture that shows this colour, or the nearest that a screen has.
    #[must_use]
    pub fn to_srgb(self) -> [u8; 3] {
        self.to_linear().map(|light| {
            let light = light.clamp(0.0, 1.0);
            let written =
                if light <= 0.003_130_8 { 12.92 * light } else { 1.055 * light.powf(1.0 / 2.4) - 0.055 };
            (255.0 * written).round() as u8
        })
    }

    /// Linear light of this colour; the other way round from [`Lab::of_linear`].
    #[must_use]
    pub fn to_linear(self) -> Linear {
        let middle = (self.l + 16.0) / 116.0;
        let f = [middle + self.a / 500.0, middle, middle - self.b / 200.0];
        let [x, y, z] = [0, 1, 2].map(|axis: usize| {
            let value = f.get(axis).copied().unwrap_or(0.0);
            let relative = if 6.0 / 29.0 < value { value.powi(3) } else { (value - 16.0 / 116.0) / 7.787 };
            relative * WHITE.get(axis).copied().unwrap_or(1.0)
        });
        [
            3.240_481 * x - 1.537_152 * y - 0.498_536 * z,
            -0.969_255 * x + 1.875_990 * y + 0.041_556 * z,
            0.055_647 * x - 0.204_041 * y + 1.057_311 * z,
        ]
    }

    /// Distance from grey: how strong the colour is.
    #[must_use]
    pub fn chroma(self) -> f64 {
        self.a.hypot(self.b)
    }

    /// Hue in degrees, 0 to 360: red near 30, yellow near 90, green near 130.
    #[must_use]
    pub fn hue(self) -> f64 {
        self.b.atan2(self.a).to_degrees().rem_euclid(360.0)
    }
}

/// [`cube_root_or_line`] by a table, for every pixel of a picture: good to a hundred-thousandth where the root is curved, and up to
/// the brightest that is asked for.
fn looked_up(value: f64) -> f64 {
    const PLACES: usize = 4096;
    const BRIGHTEST: f64 = 2.0;
    static ROOTS: LazyLock<Vec<f64>> = LazyLock::new(|| {
        (0..=PLACES + 1).map(|at| cube_root_or_line(at as f64 * BRIGHTEST / PLACES as f64)).collect()
    });
    let place = (value * (PLACES as f64 / BRIGHTEST)).clamp(0.0, PLACES as f64);
    let low = place as usize;
    let at = |place: usize| ROOTS.get(place).copied().unwrap_or(0.0);
    at(low) + (place - low as f64) * (at(low + 1) - at(low))
}

fn cube_root_or_line(value: f64) -> f64 {
    if 0.008_856 < value { value.cbrt() } else { 7.787 * value + 16.0 / 116.0 }
}

/// How far two colours lie apart to the eye: CIEDE2000 with all weights 1.
///
/// # Source
/// Sharma, Wu, Dalal, Color Research and Application 30(1) 21-30, 2005: the 34 pairs of its Table 1 are the test.
#[must_use]
pub fn difference(one: Lab, other: Lab) -> f64 {
    let stretch = grey_stretch(f64::midpoint(one.chroma(), other.chroma()));
    let (one, other) = (Lab { a: one.a * stretch, ..one }, Lab { a: other.a * stretch, ..other });
    let (c1, c2) = (one.chroma(), other.chroma());
    let (hue_step, hue) = hues(one, other);
    let d_hue = 2.0 * (c1 * c2).sqrt() * (hue_step / 2.0).to_radians().sin();
    let (lightness, chroma) = (f64::midpoint(one.l, other.l), f64::midpoint(c1, c2));
    let off_middle = (lightness - 50.0).powi(2);
    let s_l = 1.0 + 0.015 * off_middle / (20.0 + off_middle).sqrt();
    let s_c = 1.0 + 0.045 * chroma;
    let s_h = 1.0 + 0.015 * chroma * hue_weight(hue);
    let turn =
        -(60.0 * (-((hue - 275.0) / 25.0).powi(2)).exp()).to_radians().sin() * 2.0 * strong_share(chroma);
    let (l, c, h) = ((other.l - one.l) / s_l, (c2 - c1) / s_c, d_hue / s_h);
    (l * l + c * c + h * h + turn * c * h).max(0.0).sqrt()
}

fn strong_share(chroma: f64) -> f64 {
    let seventh = chroma.powi(7);
    (seventh / (seventh + 25.0_f64.powi(7))).sqrt()
}

fn grey_stretch(chroma: f64) -> f64 {
    1.0 + 0.5 * (1.0 - strong_share(chroma))
}

/// The step from one hue to the other the short way round, and the hue between them, in degrees. A grey has no hue: it
/// takes no step, and the other's hue stands for both.
fn hues(one: Lab, other: Lab) -> (f64, f64) {
    let (h1, h2) = (one.hue(), other.hue());
    if one.chroma() * other.chroma() == 0.0 {
        return (0.0, h1 + h2);
    }
    let step = h2 - h1;
    if step.abs() <= 180.0 {
        (step, f64::midpoint(h1, h2))
    } else {
        let sum = h1 + h2;
        let middle = if sum < 360.0 { (sum + 360.0) / 2.0 } else { (sum - 360.0) / 2.0 };
        (if step < 0.0 { step + 360.0 } else { step - 360.0 }, middle)
    }
}

fn hue_weight(hue: f64) -> f64 {
    let cos = |degrees: f64| degrees.to_radians().cos();
    1.0 - 0.17 * cos(hue - 30.0) + 0.24 * cos(2.0 * hue) + 0.32 * cos(3.0 * hue + 6.0)
        - 0.20 * cos(4.0 * hue - 63.0)
}
