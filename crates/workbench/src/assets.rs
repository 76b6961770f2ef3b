//! The few files that pages load: one style sheet, one small script, one mark. They are part of the
//! program; their addresses hold a hash of their text, so browsers may keep them for good.

use crate::trouble::Trouble;
use axum::extract::Path;
use axum::http::header;
use axum::response::{IntoResponse, Response};
use std::sync::LazyLock;

/// The workbench's own style, after that of all pages of a house.
static STYLE: LazyLock<String> = LazyLock::new(|| {
    stationery::style(&[
        include_str!("../assets/style/page.css"),
        include_str!("../assets/style/ways.css"),
        include_str!("../assets/style/notices.css"),
        include_str!("../assets/style/forms.css"),
        include_str!("../assets/style/tables.css"),
        include_str!("../assets/style/drawings.css"),
        include_str!("../assets/style/list.css"),
        include_str!("../assets/style/variety.css"),
        include_str!("../assets/style/what.css"),
        include_str!("../assets/style/grow_outs.css"),
        include_str!("../assets/style/bring_in.css"),
        include_str!("../assets/style/photo.css"),
        include_str!("../assets/style/sheets.css"),
        include_str!("../assets/style/print.css"),
    ])
});

struct Asset {
    stem: &'static str,
    ending: &'static str,
    media: &'static str,
    text: &'static str,
}

static ASSETS: LazyLock<[Asset; 3]> = LazyLock::new(|| {
    let script = include_str!("../assets/workbench.js");
    [
        Asset { stem: "workbench", ending: "css", media: "text/css; charset=utf-8", text: &STYLE },
        Asset { stem: "workbench", ending: "js", media: "text/javascript; charset=utf-8", text: script },
        Asset { stem: "mark", ending: "svg", media: "image/svg+xml", text: stationery::MARK },
    ]
});

/// Addresses of the style sheet, the script and the mark.
pub(crate) static ADDRESSES: LazyLock<[String; 3]> =
    LazyLock::new(|| ASSETS.each_ref().map(|asset| format!("/assets/{}", name(asset))));

fn name(asset: &Asset) -> String {
    format!("{}-{:016x}.{}", asset.stem, fingerprint(asset.text), asset.ending)
}

/// The 64-bit FNV-1a hash (Fowler, Noll, Vo; offset basis and prime as published by its authors).
pub(crate) fn fingerprint(text: &str) -> u64 {
    const OFFSET: u64 = 0xcbf2_9ce4_8422_2325;
    const PRIME: u64 = 0x0100_0000_01b3;
    text.bytes().fold(OFFSET, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(PRIME))
}

/// Serves one of them.
pub(crate) async fn serve(Path(wanted): Path<String>) -> Result<Response, Trouble> {
    let asset = ASSETS.iter().find(|asset| name(asset) == wanted);
    let asset = asset.ok_or_else(|| Trouble::missing("there is no such file"))?;
    let headers =
        [(header::CONTENT_TYPE, asset.media), (header::CACHE_CONTROL, "public, max-age=31536000, immutable")];
    Ok((headers, asset.text).into_response())
}
