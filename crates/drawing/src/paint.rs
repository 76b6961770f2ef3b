//! Paint: the fruit's own colours, from a trade word or a measured CIELAB value, and the house's ink.
//!
//! Shading moves lightness alone and keeps the hue, so that a shaded pink is still that pink.

use record::colour::{ColourSeen, Lab, TradeColour};

/// Ink: words, rules and outlines.
pub(crate) const INK: &str = "#23211d";
/// Ink thinned: notes and second units.
pub(crate) const THIN_INK: &str = "#6b655a";
/// Ink thinned to a hair: borders between columns, empty ends of rules.
pub(crate) const HAIR: &str = "#ddd7ca";
/// Ink thinned to a wash: bands behind dots.
pub(crate) const WASH: &str = "#b9b2a3";

/// A colour in CIELAB: lightness, a (green to red), b (blue to yellow). Unlike [`Lab`] it may be
/// shaded beyond what can be measured; it is brought back when written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Hue(pub(crate) f64, pub(crate) f64, pub(crate) f64);

impl Hue {
    /// The same hue, lighter by `steps` of L* (darker where negative).
    pub(crate) fn lighter(self, steps: f64) -> Self {
        let lightness = (self.0 + steps).clamp(0.0, 98.0);
        // White has no room for colour: what nears it gives up some.
        let room = if steps > 0.0 { 1.0 - 0.5 * steps / 100.0 } else { 1.0 + 0.4 * steps / 100.0 };
        Self(lightness, self.1 * room, self.2 * room)
    }

    /// The colour `share` of the way to another.
    pub(crate) fn towards(self, other: Self, share: f64) -> Self {
        let mix = |from: f64, to: f64| from + (to - from) * share;
        Self(mix(self.0, other.0), mix(self.1, other.1), mix(self.2, other.2))
    }

    /// The colour as `#rrggbb`; what the screen cannot show loses strength, not hue.
    pub(crate) fn hex(self) -> String {
        let mut strength = 1.0;
        let mut channels = self.linear(strength);
        while channels.iter().any(|channel| !(-0.002..=1.002).contains(channel)) && strength > 0.0 {
            strength -= 0.05;
            channels = self.linear(strength);
        }
        channels.iter().fold(String::from("#"), |mut text, channel| {
            let byte = encoded(*channel);
            for digit in [byte / 16, byte % 16] {
                text.push(char::from_digit(u32::from(digit), 16).unwrap_or('0'));
            }
            text
        })
    }

    /// Linear red, green and blue of the colour with its chroma times `strength`.
    ///
    /// # Source
    /// CIE 15 for CIELAB to XYZ with the D65 white of ASTM E308; the XYZ to RGB matrix is that of
    /// IEC 61966-2-1 (sRGB). From memory, unverified; tests hold it to known sRGB primaries.
    fn linear(self, strength: f64) -> [f64; 3] {
        let y = (self.0 + 16.0) / 116.0;
        let x = y + strength * self.1 / 500.0;
        let z = y - strength * self.2 / 200.0;
        let unfold = |f: f64| {
            if f > 6.0 / 29.0 { f * f * f } else { 3.0 * (6.0_f64 / 29.0).powi(2) * (f - 4.0 / 29.0) }
        };
        let (x, y, z) = (0.950_47 * unfold(x), unfold(y), 1.088_83 * unfold(z));
        [
            3.240_454_2 * x - 1.537_138_5 * y - 0.498_531_4 * z,
            -0.969_266 * x + 1.876_010_8 * y + 0.041_556 * z,
            0.055_643_4 * x - 0.204_025_9 * y + 1.057_225_2 * z,
        ]
    }
}

/// The sRGB curve of IEC 61966-2-1, from a linear share to a byte.
fn encoded(linear: f64) -> u8 {
    let linear = linear.clamp(0.0, 1.0);
    let curved = if linear <= 0.003_130_8 { 12.92 * linear } else { 1.055 * linear.powf(1.0 / 2.4) - 0.055 };
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to 0 to 255")]
    let byte = (curved * 255.0).round().clamp(0.0, 255.0) as u8;
    byte
}

impl From<Lab> for Hue {
    fn from(lab: Lab) -> Self {
        Self(lab.lightness(), lab.a(), lab.b())
    }
}

/// Every colour of one fruit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Palette {
    /// The skin.
    pub(crate) skin: Hue,
    /// What stripes, marbling or shoulders are painted with.
    pub(crate) second: Hue,
    /// The wall and the core of the cut face.
    pub(crate) flesh: Hue,
    /// The gel in the chambers.
    pub(crate) gel: Hue,
    /// The seeds.
    pub(crate) seed: Hue,
}

/// The green of stem and calyx. A choice of the drawing.
pub(crate) const LEAF: Hue = Hue(45.0, -20.0, 30.0);
/// Paper, a little shaded: the fruit of which no colour is known.
const PAPER: Hue = Hue(93.0, 0.0, 5.0);

impl Palette {
    /// The colours of a fruit; `None` gives paper, which says that nobody has noted a colour.
    pub(crate) fn of(exterior: Option<ColourSeen>, flesh: Option<ColourSeen>) -> Self {
        let outside = exterior.or(flesh);
        let Some(outside) = outside else {
            return Self {
                skin: PAPER,
                second: PAPER.lighter(-14.0),
                flesh: PAPER.lighter(2.0),
                gel: PAPER.lighter(-7.0),
                seed: PAPER.lighter(4.0),
            };
        };
        let mut palette = seen(outside);
        if let Some(flesh) = flesh {
            let inner = seen(flesh);
            (palette.flesh, palette.gel, palette.seed) = (inner.flesh, inner.gel, inner.seed);
        }
        palette
    }
}

fn seen(colour: ColourSeen) -> Palette {
    match colour {
        ColourSeen::Word(word) => of_word(word),
        ColourSeen::Measured(lab) => {
            let skin = Hue::from(lab);
            Palette {
                skin,
                second: skin.lighter(22.0),
                flesh: skin.lighter((72.0 - skin.0).max(6.0) * 0.45),
                gel: skin.lighter((72.0 - skin.0).max(8.0) * 0.7).towards(Hue(72.0, 8.0, 40.0), 0.3),
                seed: SEED,
            }
        }
    }
}

/// Seeds in the gel. A choice of the drawing.
const SEED: Hue = Hue(90.0, 2.0, 24.0);

/// What each trade word looks like.
///
/// # Source
/// By eye on sRGB; common practice, no source. A measured colour takes precedence.
fn of_word(word: TradeColour) -> Palette {
    let palette = |skin, second, flesh, gel| Palette { skin, second, flesh, gel, seed: SEED };
    match word {
        TradeColour::Red => palette(
            Hue(45.0, 60.0, 43.0),
            Hue(63.0, 40.0, 58.0),
            Hue(58.0, 54.0, 36.0),
            Hue(66.0, 36.0, 44.0),
        ),
        TradeColour::Pink => palette(
            Hue(51.0, 54.0, 19.0),
            Hue(69.0, 34.0, 24.0),
            Hue(62.0, 46.0, 22.0),
            Hue(70.0, 30.0, 30.0),
        ),
        TradeColour::Orange => palette(
            Hue(66.0, 42.0, 68.0),
            Hue(48.0, 58.0, 50.0),
            Hue(74.0, 32.0, 58.0),
            Hue(83.0, 10.0, 55.0),
        ),
        TradeColour::Yellow => {
            palette(Hue(82.0, 8.0, 72.0), Hue(70.0, 28.0, 68.0), Hue(87.0, 4.0, 52.0), Hue(84.0, 1.0, 62.0))
        }
        TradeColour::White => palette(
            Hue(91.0, -2.0, 25.0),
            Hue(83.0, -8.0, 40.0),
            Hue(93.0, -1.0, 17.0),
            Hue(87.0, -5.0, 33.0),
        ),
        TradeColour::Green => palette(
            Hue(66.0, -20.0, 55.0),
            Hue(46.0, -28.0, 40.0),
            Hue(77.0, -20.0, 46.0),
            Hue(69.0, -22.0, 58.0),
        ),
        TradeColour::Brown => palette(
            Hue(37.0, 32.0, 27.0),
            Hue(44.0, -10.0, 30.0),
            Hue(49.0, 38.0, 30.0),
            Hue(56.0, 4.0, 42.0),
        ),
        TradeColour::Black => {
            palette(Hue(27.0, 24.0, 9.0), Hue(35.0, -10.0, 18.0), Hue(44.0, 38.0, 17.0), Hue(51.0, 2.0, 34.0))
        }
        TradeColour::Bicolour => palette(
            Hue(77.0, 18.0, 68.0),
            Hue(48.0, 58.0, 44.0),
            Hue(80.0, 14.0, 58.0),
            Hue(74.0, 22.0, 56.0),
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// CIELAB (D65) of the sRGB primaries and white, as colour references print them to one decimal:
    /// red 53.2, 80.1, 67.2; green 87.7, -86.2, 83.2; blue 32.3, 79.2, -107.9; white 100, 0, 0.
    #[test]
    fn primaries_agree_with_print() {
        let printed = [
            (Hue(53.24, 80.09, 67.2), [255, 0, 0]),
            (Hue(87.73, -86.18, 83.18), [0, 255, 0]),
            (Hue(32.3, 79.19, -107.86), [0, 0, 255]),
            (Hue(100.0, 0.0, 0.0), [255, 255, 255]),
        ];
        for (hue, bytes) in printed {
            for (channel, byte) in hue.linear(1.0).iter().zip(bytes) {
                assert!(encoded(*channel).abs_diff(byte) <= 1, "{hue:?} gives {}", hue.hex());
            }
        }
    }
}
