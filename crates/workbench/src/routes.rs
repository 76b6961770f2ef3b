//! Every address of the workbench, by the job it belongs to.

use crate::desk::Desk;
use crate::trouble::Trouble;
use crate::{
    advice, assets, bring_in, calendar, doubts, emergence, first_steps, forecast, frost, gaps, gate,
    growouts, guides, hindsight, history, list, names, photo, print, quarantine, records, ripening, sales,
    seed_room, settings, standins, type_chart, variety, weather, what,
};
use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::middleware::from_fn;
use axum::routing::{get, post};
use tower_http::compression::CompressionLayer;

/// Most bytes of a form, the longest of which is a guide's text. A choice of ours.
const MOST_OF_A_FORM: usize = 2 << 20;

/// All pages behind the gate.
pub(crate) fn all(desk: Desk) -> Router {
    Router::new()
        .merge(the_list())
        .merge(bringing_in())
        .merge(records_and_history())
        .merge(other_rooms())
        .route("/assets/{file}", get(assets::serve))
        .fallback(async || Trouble::missing("there is no such page"))
        .with_state(desk)
        .layer(DefaultBodyLimit::max(MOST_OF_A_FORM))
        .layer(CompressionLayer::new())
        .layer(from_fn(gate::keep))
}

fn the_list() -> Router<Desk> {
    Router::new()
        .route("/", get(list::show))
        .route("/bench", get(list::on_the_bench))
        .route("/export/{file}", get(list::exports::send))
        .route("/portrait/{look}/{name}", get(list::portraits::serve))
        .route("/call", post(list::call_again))
        .route("/first-steps/put-away", post(first_steps::put_away))
        .route("/variety/{name}", get(variety::show))
        .route("/instead/{name}", get(standins::show))
        .route("/ripening/{name}", get(ripening::show))
        .route("/forecast", get(forecast::show))
        .route("/hindsight", get(hindsight::show))
        .route("/emergence", get(emergence::show))
        .route("/frost", get(frost::show))
        .route("/calendar", get(calendar::show))
        .route("/calendar.ics", get(calendar::file))
        .route("/calendar/print", post(calendar::print))
        .route("/what", get(what::show))
        .route("/gaps", get(gaps::show))
        .route("/types", get(type_chart::show))
        .route("/guides", get(guides::all))
        .route("/guides/{name}", get(guides::edit).post(guides::decide))
}

fn bringing_in() -> Router<Desk> {
    let files = post(bring_in::receive).layer(DefaultBodyLimit::max(bring_in::MOST_AT_ONCE));
    let sold = post(sales::take).layer(DefaultBodyLimit::max(bring_in::MOST_AT_ONCE));
    let photographs = post(photo::receive).layer(DefaultBodyLimit::max(bring_in::MOST_AT_ONCE));
    Router::new()
        .route("/photo", photographs.get(photo::choose))
        .route("/photo/{stack}", get(photo::look).post(photo::take))
        .route("/photo/{stack}/picture.jpg", get(photo::picture))
        .route("/bring-in", files.get(bring_in::choose))
        .route("/bring-in/{stack}", get(bring_in::look).post(bring_in::decide))
        .route("/quarantine", get(quarantine::all))
        .route("/quarantine.csv", get(quarantine::export))
        .route("/quarantine/{number}", get(quarantine::one).post(quarantine::mend))
        .route("/weather", get(weather::all).post(weather::decide))
        .route("/sales", sold.get(sales::show))
        .route("/sales/turn", post(sales::turn))
        .route("/names", get(names::all).post(names::accept))
}

fn records_and_history() -> Router<Desk> {
    Router::new()
        .route("/doubts", get(doubts::all))
        .route("/records", post(records::decide))
        .route("/record/{record}", get(records::one).post(records::correct))
        .route("/history", get(history::all))
        .route("/history/{batch}", get(history::one))
        .route("/history/{batch}/undo", post(history::undo))
        .route("/history/{batch}/redo", post(history::redo))
}

fn other_rooms() -> Router<Desk> {
    Router::new()
        .route("/grow-outs", get(growouts::all))
        .route("/grow-outs/new", get(growouts::begin).post(growouts::decide))
        .route("/grow-outs/next", get(growouts::next::show))
        .route("/grow-outs/{name}", get(growouts::show))
        .route("/grow-outs/{name}/results", get(growouts::results::show))
        .route("/grow-outs/{name}/results/{file}", get(growouts::results::export))
        .route("/grow-outs/{name}/move", post(growouts::moved))
        .route("/grow-outs/{name}/print", post(growouts::print))
        .route("/seed-room", get(seed_room::show))
        .route("/seed-room/new", get(seed_room::begin).post(seed_room::found))
        .route("/seed-room/tests", get(seed_room::to_test))
        .route("/seed-room/order", get(seed_room::order).post(seed_room::fill))
        .route("/seed-room/kept", get(seed_room::kept))
        .route("/seed-room/how-many", get(seed_room::how_many))
        .route("/seed-room/rogues", get(seed_room::rogues))
        .route("/increase", get(seed_room::increase::show))
        .route("/lot/{number}", get(seed_room::lot).post(seed_room::write))
        .route("/advice", get(advice::show))
        .route("/advice/questions", get(advice::one_by_one::show))
        .route("/advice/stop", post(advice::stop))
        .route("/advice.pdf", get(advice::taken::sheet))
        .route("/advice.ics", get(advice::taken::days))
        .route("/advice.toml", get(advice::taken::request))
        .route("/print", get(print::show).post(print::print))
        .route("/print/proof", get(print::proof_page))
        .route("/print/labels", post(print::print_labels))
        .route("/print/lots", post(print::print_cards))
        .route("/print/card", post(print::print_card))
        .route("/print/{sheet}", get(print::sheet))
        .route("/settings", get(settings::show).post(settings::change))
}
