//! Whose weather a page is asked about: a garden's, or that of a station that the house keeps or knows.
//!
//! An address names a station as it is called and a garden after [`GARDEN`]. Start at [`choices`].

use crate::desk::Desk;
use crate::trouble::Trouble;
use house::fault::HouseFault;
use house::folder::House;
use house::forecast::Place;
use house::forecast::place::stations;
use house::gardens;
use maud::{Markup, html};

/// What stands before a garden's name in an address.
const GARDEN: &str = "garden:";

/// Gardens and stations that can be chosen.
#[derive(Debug)]
pub(crate) struct Choices {
    gardens: Vec<String>,
    stations: Vec<String>,
}

/// Everything that can be chosen.
///
/// # Errors
/// What the ledger refuses.
pub(crate) fn choices(house: &House) -> Result<Choices, HouseFault> {
    let gardens = gardens::gardens(house)?.into_iter().map(|garden| garden.name).collect();
    Ok(Choices { gardens, stations: stations(house)? })
}

/// What can be chosen, and what was found for what was asked.
///
/// # Errors
/// What the house refuses.
pub(crate) async fn gathered<Asked, Found>(
    desk: &Desk,
    asked: &Asked,
    find: fn(&House, &Choices, &Asked) -> Result<Found, HouseFault>,
) -> Result<(House, (Choices, Found)), Trouble>
where
    Asked: Clone + Send + 'static,
    Found: Send + 'static,
{
    let asked = asked.clone();
    desk.ask(move |house| {
        let choices = choices(house)?;
        let found = find(house, &choices, &asked)?;
        Ok((choices, found))
    })
    .await
}

impl Choices {
    /// The place of that word; a page reads no files, so a station is one that the house keeps or knows.
    ///
    /// # Errors
    /// A sentence where there is none.
    pub(crate) fn place(&self, word: &str) -> Result<Place, String> {
        match word.strip_prefix(GARDEN) {
            Some(garden) if self.gardens.iter().any(|known| known == garden) => {
                Ok(Place::Garden(garden.to_owned()))
            }
            Some(garden) => Err(format!("there is no garden {garden:?}")),
            None if self.stations.iter().any(|known| known == word) => Ok(Place::Station(word.into())),
            None => Err(format!("no station {word:?} is kept or known")),
        }
    }

    /// The field that asks whose weather, with what was said last.
    pub(crate) fn select(&self, said: Option<&str>) -> Markup {
        self.field(None, said)
    }

    /// The same where nobody's may be chosen, in these words.
    pub(crate) fn select_or(&self, nobodys: &str, said: Option<&str>) -> Markup {
        self.field(Some(nobodys), said)
    }

    fn field(&self, nobodys: Option<&str>, said: Option<&str>) -> Markup {
        let option = |word: String, name: &str| {
            html! { option value=(word) selected[said == Some(word.as_str())] { (name) } }
        };
        html! {
            label {
                span { "Weather of" }
                select name="weather" {
                    @if let Some(words) = nobodys { option value="" { (words) } }
                    @if !self.gardens.is_empty() {
                        optgroup label="Gardens" {
                            @for garden in &self.gardens { (option(format!("{GARDEN}{garden}"), garden)) }
                        }
                    }
                    optgroup label="Stations" {
                        @for station in &self.stations { (option(station.clone(), station)) }
                    }
                }
            }
        }
    }
}

/// A name without the word that sets gardens apart, for a heading or a file.
pub(crate) fn named(word: &str) -> &str {
    word.strip_prefix(GARDEN).unwrap_or(word)
}
