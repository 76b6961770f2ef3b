//! What a grow-out's plots say: varieties ranked beside the check, in words, as a drawing and as a table, and the ground
//! that they stood on.

use super::grow_out_address;
use crate::desk::Desk;
use crate::download;
use crate::page::{self, Place, drawn, scrolling};
use crate::telling::{count, encoded, variety_address};
use crate::trouble::{Trouble, nothing_told, sentence};
use axum::extract::{Path, Query, State};
use axum::response::Response;
use drawing::bed_map::bed_map;
use drawing::ranked::{Ranked, Row, Standing, ranked};
use drawing::scale::Pixels;
use house::compare::ground::{self, ShadedBeds};
use house::compare::{self, Asked, Compared, Outcome, Stability, Trait, verdict};
use house::fault::HouseFault;
use house::folder::House;
use house::growouts::{self, GrowOut};
use jiff::ZonedDateTime;
use maud::{Markup, html};
use record::language::{self, Units, capitalised, counted};
use record::share::Share;
use serde::Deserialize;

/// Widths that the ranks are drawn at, for a desk and for a phone. A choice of the page.
const WIDTHS: [(&str, u16); 2] = [("wide", 760), ("narrow", 320)];
/// What the files of a comparison are called, before their endings.
const STEM: &str = "comparison";

/// What the address asks.
#[derive(Clone, Debug, Default, Deserialize)]
pub(crate) struct Question {
    /// What is compared, else yield.
    of: Option<String>,
    /// The check, else that of the layout.
    check: Option<String>,
    /// Another grow-out to compare together with this one.
    with: Option<String>,
}

impl Question {
    fn asked(&self, name: &str) -> Result<Asked, HouseFault> {
        let said = |field: &Option<String>| field.clone().filter(|word| !word.trim().is_empty());
        let of = said(&self.of).map_or(Ok(Trait::Yield), |of| compare::named(&of))?;
        let grow_outs = std::iter::once(name.to_owned()).chain(said(&self.with)).collect();
        Ok(Asked { grow_outs, of, check: said(&self.check) })
    }

    fn address(&self, path: &str) -> String {
        let fields = [("of", &self.of), ("check", &self.check), ("with", &self.with)];
        let said =
            fields.iter().filter_map(|(field, word)| Some(format!("{field}={}", encoded(word.as_ref()?))));
        format!("{path}?{}", said.collect::<Vec<_>>().join("&"))
    }
}

/// What the page shows.
struct Results {
    /// The grow-out whose page it is.
    grow_out: GrowOut,
    /// Varieties that stand in it, by name.
    varieties: Vec<String>,
    /// The other grow-outs of the house.
    others: Vec<String>,
    /// What was found, or why nothing can be said.
    found: Result<(Compared, Vec<ShadedBeds>), (String, Option<String>)>,
}

/// Shows the results of one trait.
pub(crate) async fn show(
    State(desk): State<Desk>,
    Path(name): Path<String>,
    Query(question): Query<Question>,
) -> Result<Markup, Trouble> {
    let asked = question.clone();
    let (house, results) = desk.ask(move |house| gathered(house, &name, &asked)).await?;
    let title = format!("Results of {}", results.grow_out.name);
    let body = body(&house, &question, &results);
    Ok(page::page(&house, Place::GrowOuts, &title, body))
}

fn gathered(house: &House, name: &str, question: &Question) -> Result<Results, HouseFault> {
    let (planted, others) = growouts::parted(growouts::grow_outs(house, super::today())?, name)?;
    let asked = question.asked(&planted.grow_out.name)?;
    let found = match compare::compare(house, &asked) {
        Ok(compared) => {
            let beds = ground::beds(house, &compared)?;
            Ok((compared, beds))
        }
        Err(fault @ HouseFault::Compare(_)) => Err((fault.to_string(), fault.help())),
        Err(fault) => return Err(fault),
    };
    let mut varieties: Vec<String> = planted.plots.iter().map(|(_, variety)| variety.clone()).collect();
    varieties.sort();
    varieties.dedup();
    let others = others.into_iter().map(|other| other.grow_out.name).collect();
    Ok(Results { grow_out: planted.grow_out, varieties, others, found })
}

/// Sends the table.
pub(crate) async fn export(
    State(desk): State<Desk>,
    Path((name, file)): Path<(String, String)>,
    Query(question): Query<Question>,
) -> Result<Response, Trouble> {
    let (form, media) = download::asked(STEM, &file)?;
    let today = ZonedDateTime::now().date();
    let make =
        move |house: &House| compare::export(&compare::compare(house, &question.asked(&name)?)?, form, today);
    let (_, bytes) = desk.ask(make).await?;
    Ok(download::attached(&file, media, bytes))
}

fn body(house: &House, question: &Question, results: &Results) -> Markup {
    let name = &results.grow_out.name;
    let address = grow_out_address(name);
    html! {
        p.back { a href=(address) { (name) } }
        h1 { "Results of " (name) }
        (form(question, results))
        @match &results.found {
            Err((why, help)) => (nothing_told(why, help.as_deref())),
            Ok((compared, beds)) => {
                (told(compared, house.settings.units))
                (table(compared, house.settings.units))
                (download::ways(STEM, |file| question.address(&format!("{address}/results/{file}"))))
                (ground_told(beds))
                @if let Some(stability) = &compared.comparison.stability { (answers(stability)) }
                (heaviest(compared))
                (how(compared, house.settings.units))
            }
        }
    }
}

fn form(question: &Question, results: &Results) -> Markup {
    let is = |field: &Option<String>, word: &str| field.as_deref() == Some(word);
    html! {
        form.filter method="get" role="search" aria-label="What to compare" {
            label { span { "Compared in" }
                select name="of" {
                    @for one in Trait::ALL {
                        option value=(one.name()) selected[is(&question.of, one.name())] { (one.name()) }
                    }
                }
            }
            label { span { "Beside" }
                select name="check" {
                    option value="" { "the check of the layout" }
                    @for variety in &results.varieties {
                        option value=(variety) selected[is(&question.check, variety)] { (variety) }
                    }
                }
            }
            label { span { "Together with" }
                select name="with" {
                    option value="" { "no other grow-out" }
                    @for other in &results.others {
                        option value=(other) selected[is(&question.with, other)] { (other) }
                    }
                }
            }
            button { "Show" }
        }
    }
}

/// The ranks, drawn and in sentences.
fn told(compared: &Compared, units: Units) -> Markup {
    let found = &compared.comparison;
    let check = found.check.as_deref();
    let sentences = check.map(|check| {
        found
            .outcomes
            .iter()
            .filter_map(|own| verdict::sentence(found.of, own, check, units))
            .collect::<Vec<_>>()
    });
    html! {
        section aria-labelledby="ranks" {
            h2 #ranks { (capitalised(found.of.name())) @if let Some(check) = check { ", beside " (check) } }
            p.count {
                (compared.plots.len()) " of "
                (counted(count(compared.plots_in_all()), "plot", "plots")) " have a number."
            }
            @for (class, width) in WIDTHS {
                div.{ "ranks " (class) } { (drawn(&ranked(&ranks(compared, units), Pixels::from(width)))) }
            }
            p.quiet {
                @if check.is_some() {
                    "A full dot is told from the check, an open one is not. All intervals together hold 95 times in 100."
                } @else {
                    "No check is known, so each variety stands by itself: its interval holds 95 times in 100."
                }
            }
            @if let Some(sentences) = sentences { ul.verdicts { @for sentence in sentences { li { (sentence) } } } }
            @for note in &found.notes { p.note { "Note: " (note) "." } }
        }
    }
}

/// With a check, differences from it; without, means.
fn ranks(compared: &Compared, units: Units) -> Ranked {
    let found = &compared.comparison;
    let (per, unit) = found.of.axis(units);
    let check = found.check.as_deref();
    let row = |own: &Outcome| {
        let name = own.variety.clone();
        let scaled = |(low, high): (f64, f64)| (low / per, high / per);
        if check == Some(name.as_str()) {
            return Some(Row { name, at: 0.0, interval: None, standing: Standing::Line });
        }
        if check.is_none() {
            let interval = own.interval.map(scaled);
            return Some(Row { name, at: own.mean?.estimate / per, interval, standing: Standing::NotTold });
        }
        let against = own.against?;
        let standing = if against.verdict.is_told() { Standing::Told } else { Standing::NotTold };
        Some(Row { name, at: against.difference / per, interval: Some(scaled(against.interval)), standing })
    };
    Ranked {
        title: format!("{} of {}", capitalised(found.of.name()), names(compared)),
        axis: check.map_or_else(|| unit.to_owned(), |check| format!("{unit} more than {check}")),
        line: check.map(|_| 0.0),
        rows: found.outcomes.iter().filter_map(row).collect(),
    }
}

fn names(compared: &Compared) -> String {
    let names: Vec<&str> = compared.grow_outs.iter().map(|grow_out| grow_out.name.as_str()).collect();
    names.join(" and ")
}

fn table(compared: &Compared, units: Units) -> Markup {
    let found = &compared.comparison;
    let brief = |number: f64| found.of.told_briefly(number, units);
    let range = |(low, high): (f64, f64)| format!("{} to {}", brief(low), brief(high));
    let table = html! {
        table.list {
            caption.unseen { "Varieties from most to least" }
            (page::heads(&["Variety", "Plots", "Mean", "95% interval", "Letters", "Beside the check", "Chance"]))
            tbody {
                @for own in &found.outcomes {
                    tr {
                        th scope="row" { a href=(variety_address(&own.variety)) { (own.variety) } }
                        td.number { (own.plots) }
                        td { @match own.mean { Some(mean) => (brief(mean.estimate)), None => "not comparable" } }
                        td { @if let Some(interval) = own.interval { (range(interval)) } }
                        td { (own.letters) }
                        td { @if let Some(against) = own.against { (range(against.interval)) } }
                        td { @if let Some(against) = own.against { (chance(against.chance.get())) } }
                    }
                }
            }
        }
    };
    html! {
        section aria-labelledby="table" {
            h2 #table { "One by one" }
            (scrolling("Varieties from most to least, as a table", &table))
            p.quiet {
                "Varieties that share a letter were not told apart. The chance is how often a variety no different from "
                "the check would look this different somewhere in the grow-out."
            }
        }
    }
}

fn chance(chance: f64) -> String {
    if chance < 0.001 { "under 0.001".to_owned() } else { format!("{chance:.3}") }
}

fn ground_told(beds: &[ShadedBeds]) -> Markup {
    html! {
        section aria-labelledby="ground" {
            h2 #ground { "The ground" }
            @if beds.is_empty() {
                p {
                    "Nobody said where these plots lie. Lay the grow-out out here, or give its table of beds the columns "
                    "bed, row, from and to."
                }
            }
            @for own in beds {
                @for (layer, map) in &own.layers {
                    h3 { (layer.name()) @if 1 < beds.len() { ", " (own.grow_out) } }
                    (scrolling(&format!("{}: {}", own.grow_out, layer.name()), &drawn(&bed_map(map))))
                }
            }
        }
    }
}

/// How varieties answer to gardens and seasons.
fn answers(stability: &Stability) -> Markup {
    let best = stability.environments.iter().map(|(name, _)| name.as_str()).collect::<Vec<_>>().join(", ");
    let table = html! {
        table.list {
            caption.unseen { "How much each variety gains where all gain 1" }
            (page::heads(&["Variety", "Slope", "95% interval", "What that means"]))
            tbody {
                @for own in &stability.varieties {
                    tr {
                        th scope="row" { a href=(variety_address(&own.variety)) { (own.variety) } }
                        td.number { (format!("{:.2}", own.slope)) }
                        td { (format!("{:.2} to {:.2}", own.interval.0, own.interval.1)) }
                        td { (own.verdict.words()) }
                    }
                }
            }
        }
    };
    html! {
        section aria-labelledby="stability" {
            h2 #stability { "From garden to garden" }
            p { "From good to poor for all varieties together: " (best) "." }
            (scrolling("How varieties answer to gardens and seasons, as a table", &table))
        }
    }
}

/// Least Cook's distance that is worth a look. Source: Cook and Weisberg, Residuals and Influence in Regression (1982),
/// who call values near 1 large; half of it is common practice.
const WORTH_A_LOOK: f64 = 0.5;
/// Most plots that are named.
const MOST_NAMED: usize = 5;

/// The plots that move a result most.
fn heaviest(compared: &Compared) -> Markup {
    let mut moved: Vec<(f64, &str, &str)> = Vec::new();
    for own in &compared.comparison.outcomes {
        let Some((at, distance)) = own.moved_by.filter(|(_, distance)| WORTH_A_LOOK <= *distance) else {
            continue;
        };
        let Some(seen) = compared.plots.get(at) else { continue };
        moved.push((distance, seen.plot.label.as_str(), own.variety.as_str()));
    }
    moved.sort_by(|one, other| other.0.total_cmp(&one.0));
    html! {
        @if !moved.is_empty() {
            section aria-labelledby="heaviest" {
                h2 #heaviest { "Plots that weigh most" }
                p { "Look at the notes of these first: one such plot moves its variety's result by much." }
                ul {
                    @for (distance, label, variety) in moved.iter().take(MOST_NAMED) {
                        li { "plot " (label) ", " (variety) ": Cook's distance " (format!("{distance:.1}")) }
                    }
                }
            }
        }
    }
}

/// How it was worked out.
fn how(compared: &Compared, units: Units) -> Markup {
    let found = &compared.comparison;
    html! {
        section aria-labelledby="how" {
            h2 #how { "How it was worked out" }
            @if let Some(error) = found.error_of_difference {
                p { "A difference of two varieties is off by about " (found.of.told_briefly(error, units)) ", taken over all pairs." }
            }
            @if let Some(own) = found.repeatability.and_then(Share::new) {
                p { "Of the differences seen, " (language::chance(own)) " parts are the varieties' own." }
            }
            p { (sentence(&found.ground.told())) }
            p { (sentence(&found.degrees.told())) }
        }
    }
}
