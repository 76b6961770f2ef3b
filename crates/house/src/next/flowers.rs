//! How far a variety that is grown for seed must stand from other tomatoes, by the isolation guide.

use record::length::Millimetres;
use seedroom::trueness::isolation::{Flower, IsolationGuide, KnownBy};
pub use sowing::need::Flowers;

/// The isolation that a variety's flowers want.
#[derive(Clone, Debug, PartialEq)]
pub struct Isolation {
    /// How readily they cross.
    pub flowers: Flowers,
    /// Their type, as the guide names it.
    pub flower: String,
    /// How the type is known.
    pub known_by: KnownBy,
    /// The distance to other varieties that suits it.
    pub away: Millimetres,
}

impl Isolation {
    /// By a variety's name, else its fruit class, else as most tomatoes; `None` where the guide tells of no flower.
    #[must_use]
    pub fn by(guide: &IsolationGuide, variety: &str, fruit_class: Option<&str>) -> Option<Self> {
        let (flower, known_by) = guide.flower(variety, fruit_class)?;
        Some(Self::of(guide, flower, known_by))
    }

    /// Of a variety that was named as one that crosses readily, whatever the guide says of it.
    #[must_use]
    pub fn crossing(guide: &IsolationGuide) -> Option<Self> {
        guide.strictest().map(|flower| Self::of(guide, flower, KnownBy::Variety))
    }

    /// A flower crosses readily where it wants more distance than the type that the guide names first, as most tomatoes have it.
    fn of(guide: &IsolationGuide, flower: &Flower, known_by: KnownBy) -> Self {
        let usual = guide.flowers.first().map_or(flower.away, |usual| usual.away);
        let flowers = if usual.get() < flower.away.get() { Flowers::Open } else { Flowers::Closed };
        Self { flowers, flower: flower.name.clone(), known_by, away: flower.away }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use seedroom::trueness::isolation::{SHIPPED, read};

    /// The shipped guide: 100 ft for most tomatoes, 200 ft for currants and for whatever is said to cross readily.
    #[test]
    fn the_guide_tells_what_stands_apart() {
        let guide = read(SHIPPED.0, SHIPPED.1).unwrap();
        let feet = |own: &Isolation| (own.away.get() / 304.8).round();
        let told = |class| Isolation::by(&guide, "Post Mill", class).unwrap();
        let (slicer, currant) = (told(Some("slicer")), told(Some("currant")));
        assert_eq!(
            (slicer.flowers, slicer.known_by, feet(&slicer)),
            (Flowers::Closed, KnownBy::Nothing, 100.0)
        );
        assert_eq!(
            (currant.flowers, currant.known_by, feet(&currant)),
            (Flowers::Open, KnownBy::FruitClass, 200.0)
        );
        assert_eq!(Isolation::crossing(&guide).unwrap().flowers, Flowers::Open);
    }

    /// A variety whose flower somebody looked into goes by what the house's own guide says of it.
    #[test]
    fn a_variety_that_the_guide_names_goes_by_its_name() {
        let text = SHIPPED.1.replacen("varieties = []", "varieties = [\"Candle Hill\"]", 2);
        let named = text.rfind("[\"Candle Hill\"]").unwrap();
        let only_last = text[..named].replace("[\"Candle Hill\"]", "[]") + &text[named..];
        let guide = read(SHIPPED.0, &only_last).unwrap();
        let own = Isolation::by(&guide, "candle hill", Some("slicer")).unwrap();
        assert_eq!((own.flowers, own.known_by), (Flowers::Open, KnownBy::Variety));
    }
}
