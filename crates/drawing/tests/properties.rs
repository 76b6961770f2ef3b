//! What must hold of any drawing of anything.

#![expect(clippy::unwrap_used, reason = "a test that cannot make its input should stop")]

mod reading;

use drawing::gauge::{Gauge, VerdictShare, gauge};
use drawing::look::{FruitLook, Shoulder, Tip};
use drawing::plant::{Build, PlantLook, StemTip, plant};
use drawing::portrait::portrait;
use drawing::scale::{Pixels, Scale};
use drawing::span::{Span, span};
use drawing::strip::{Band, Border, Dot, MeanInterval, Measured, Reading, Strip, strip};
use drawing::svg::Svg;
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::{
    Just, ProptestConfig, Strategy, any, prop_assert, prop_assert_eq, prop_oneof, proptest,
};
use record::colour::{ColourSeen, Lab, Pattern, TradeColour};
use record::language::Units;
use record::length::Millimetres;
use record::mass::Grams;
use record::share::Share;

fn share() -> impl Strategy<Value = Option<Share>> {
    option::of((0.0..=1.0).prop_map(|share| Share::new(share).unwrap()))
}

/// Usual sizes, and the absurd.
fn size() -> impl Strategy<Value = Option<Millimetres>> {
    option::of(prop_oneof![4.0..150.0, Just(0.0), Just(1e-300), Just(1e300), 0.0..1e6])
        .prop_map(|size| size.and_then(Millimetres::new))
}

fn colour() -> impl Strategy<Value = Option<ColourSeen>> {
    let words = prop_oneof![
        Just(TradeColour::Red),
        Just(TradeColour::White),
        Just(TradeColour::Black),
        Just(TradeColour::Bicolour)
    ];
    let measured = (0.0..=100.0, -150.0..=150.0, -150.0..=150.0);
    option::of(prop_oneof![
        words.prop_map(ColourSeen::Word),
        measured.prop_map(|(lightness, a, b)| ColourSeen::Measured(Lab::new(lightness, a, b).unwrap())),
    ])
}

fn any_of<T: Clone + std::fmt::Debug + 'static>(all: &'static [T]) -> impl Strategy<Value = Option<T>> {
    option::of(proptest::sample::select(all))
}

fn look() -> impl Strategy<Value = FruitLook> {
    let shape = (size(), size(), share(), option::of(any::<u32>()), option::of(any::<u32>()));
    let kind = (
        any_of(&[Shoulder::Indented, Shoulder::Flat, Shoulder::Rounded, Shoulder::Tapered]),
        any_of(&[Tip::Flat, Tip::Rounded, Tip::Pointed, Tip::Nippled]),
        any_of(&[Pattern::Plain, Pattern::Striped, Pattern::Marbled, Pattern::DarkShouldered]),
    );
    let inside = (share(), share(), option::of(any::<u32>()), colour(), colour());
    let weight = option::of(0.0..1e9).prop_map(|grams| grams.and_then(Grams::new));
    (any::<String>(), weight, shape, kind, inside).prop_map(|(name, weight, shape, kind, inside)| FruitLook {
        name,
        weight,
        length: shape.0,
        width: shape.1,
        neck: shape.2,
        lobes: shape.3.map(|lobes| lobes % 40),
        locules: shape.4.map(|locules| if locules % 7 == 0 { locules } else { locules % 16 }),
        shoulder: kind.0,
        tip: kind.1,
        pattern: kind.2,
        wall: inside.0,
        gel: inside.1,
        seeds: inside.2,
        exterior: inside.3,
        flesh: inside.4,
    })
}

fn reading() -> impl Strategy<Value = Reading> {
    prop_oneof![-5.0..500.0, Just(0.0), Just(1e300), Just(-1e300)].prop_map(|at| Reading::new(at).unwrap())
}

fn band() -> impl Strategy<Value = Band> {
    let border = || option::of((reading(), reading()).prop_map(|(from, to)| Border { from, to }));
    (any::<String>(), border(), border(), any::<bool>()).prop_map(|(name, low, high, called)| Band {
        name,
        low,
        high,
        called,
    })
}

fn any_strip() -> impl Strategy<Value = Strip> {
    let measured =
        any_of(&[Measured::Weight, Measured::Length, Measured::Ratio, Measured::Count, Measured::Percent]);
    let mean = option::of((reading(), reading(), reading()))
        .prop_map(|mean| mean.map(|(low, mean, high)| MeanInterval { low, mean, high }));
    let dots = vec((reading(), any::<bool>()).prop_map(|(reading, counted)| Dot { reading, counted }), 0..60);
    (any::<String>(), measured, dots, vec(band(), 0..9), mean).prop_map(
        |(title, measured, dots, bands, mean)| Strip {
            title,
            measured: measured.unwrap_or(Measured::Weight),
            dots,
            bands,
            mean,
            units: Units::US,
        },
    )
}

/// Well formed, taken by the PDF's reader, and every shape inside the frame.
fn stands(svg: &Svg) -> Result<(), proptest::test_runner::TestCaseError> {
    let document = roxmltree::Document::parse(svg.markup()).unwrap();
    for attribute in document.descendants().flat_map(|node| node.attributes().collect::<Vec<_>>()) {
        prop_assert!(attribute.name() != "style", "a strict page forbids style");
        prop_assert!(!attribute.value().contains("NaN") && !attribute.value().contains("inf"));
    }
    let tree = reading::tree(svg);
    // A pixel, or two thousandths of a huge drawing: the bulge of a curve between its knots.
    let slack = (svg.width().get() * 0.002).max(1.0) as f32;
    for bounds in reading::path_bounds(tree.root()) {
        let inside = bounds.left() >= -slack
            && bounds.top() >= -slack
            && bounds.right() <= svg.width().get() as f32 + slack
            && bounds.bottom() <= svg.height().get() as f32 + slack;
        prop_assert!(inside, "{bounds:?} of {:?} by {:?}", svg.width(), svg.height());
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_portrait_stands(look in look(), scale in 0.3..6.0) {
        let scale = Scale::new(scale).unwrap();
        let svg = portrait(&look, scale, Units::METRIC);
        stands(&svg)?;
        prop_assert_eq!(&svg, &portrait(&look, scale, Units::METRIC));
    }

    #[test]
    fn any_strip_stands(picture in any_strip(), width in 320_u16..900) {
        stands(&strip(&picture, Pixels::from(width)))?;
    }

    #[test]
    fn any_gauge_stands(verdicts in vec((any::<String>(), 0.0..=1.0), 0..9), contested: bool, width: u16) {
        let share = |share: f64| Share::new(share).unwrap();
        let verdicts: Vec<_> = verdicts
            .into_iter()
            .map(|(verdict, of)| VerdictShare { verdict, share: share(of) })
            .collect();
        stands(&gauge(&Gauge { verdicts, contested }, Pixels::from(width)))?;
    }

    #[test]
    fn any_plant_stands(
        height in 0.0..5000.0,
        trusses in 0_u32..90,
        leaves in (0.0..9.0, 0.0..9.0),
        ripe in 0.0..=1.0,
        (tip, build) in (
            any_of(&[StemTip::Truss, StemTip::GrowsOn]),
            any_of(&[Build::Slender, Build::Sturdy]),
        ),
        scale in 0.03..0.3,
    ) {
        let look = PlantLook {
            words: "a plant".into(),
            height: Millimetres::new(height).unwrap(),
            tip: tip.unwrap_or(StemTip::Truss),
            trusses,
            leaves_between: leaves,
            build: build.unwrap_or(Build::Slender),
            ripe: Share::new(ripe).unwrap(),
        };
        stands(&plant(&look, Scale::new(scale).unwrap()))?;
    }

    #[test]
    fn any_span_stands(
        ends in (reading(), reading()),
        borders in vec(reading(), 0..9),
        parts in (option::of((reading(), reading())), option::of((reading(), reading()))),
        width in 1_u16..900,
    ) {
        let border = |part: Option<(Reading, Reading)>| part.map(|(from, to)| Border { from, to });
        let (low, high) = (border(parts.0), border(parts.1));
        let bar = Span { words: "x".into(), measured: Measured::Weight, ends, borders, low, high };
        stands(&span(&bar, Pixels::from(width)))?;
    }

    /// A drawing's words come back from the markup as they went in, but for what XML cannot hold.
    #[test]
    fn names_stay_words(name in "[ -~\u{a0}-\u{2fff}]{1,40}") {
        let svg = portrait(&FruitLook::named(name.clone()), Scale::LIFE_SIZE, Units::US);
        let document = roxmltree::Document::parse(svg.markup()).unwrap();
        let title = document.descendants().find(|node| node.has_tag_name("title")).unwrap();
        prop_assert!(title.text().unwrap_or_default().starts_with(&name));
    }
}
