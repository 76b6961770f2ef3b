//! When seedlings emerge, by the warmth of the soil. Start at [`emergence`].

use record::temperature::Celsius;
use ripening::emergence;
pub use ripening::emergence::SOURCE;

/// Days to emergence in soil of one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Emerging {
    /// The soil.
    pub soil: Celsius,
    /// Days from sowing; `None` where it is too cold or too hot.
    pub days: Option<f64>,
}

/// Days to emergence at each temperature; at those of the published table where none is asked.
#[must_use]
pub fn emergence(soil: &[Celsius]) -> Vec<Emerging> {
    let of = |soil: Celsius| Emerging { soil, days: emergence::days(soil.get()) };
    if soil.is_empty() {
        emergence::table().map(of).collect()
    } else {
        soil.iter().copied().map(of).collect()
    }
}
