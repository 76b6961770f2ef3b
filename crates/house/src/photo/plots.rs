//! Which plot a photograph's fruit are of: the one that is said, or the one that the card was printed for.

use super::fault::PhotoFault;
use crate::fault::HouseFault;
use crate::layout::kept::grow_out;
use ledger::ledger::Ledger;
use ledger::names::label_key;
use record::growout::{GrowOut, Plot};
use record::variety::name_key;
use sha2::Digest;

/// A plot as it is said: its label, and its grow-out where the label alone does not tell.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PlotSaid {
    /// The grow-out's name.
    pub grow_out: Option<String>,
    /// The plot's label.
    pub label: String,
}

/// The tag of a plot on the cards that are printed for it: never 0, which says no plot.
///
/// It is made from the names of grow-out and plot, so that a card outlives a plot that is undone and taken again.
pub(super) fn tag(grow_out: &GrowOut, plot: &Plot) -> u32 {
    let digest = sha2::Sha256::digest([name_key(&grow_out.name), label_key(&plot.label)].join("\n"));
    let first = digest.iter().take(4).fold(0_u32, |tag, byte| tag << 8 | u32::from(*byte));
    first.max(1)
}

/// The plot whose tag a card bears; `None` where no plot or several have it.
pub(super) fn of_tag(ledger: &mut Ledger, wanted: u32) -> Result<Option<PlotSaid>, HouseFault> {
    let (plots, grow_outs) = (ledger.plots()?, ledger.grow_outs()?);
    let all = plots.iter().filter_map(|plot| {
        let grow_out = grow_outs.iter().find(|grow_out| grow_out.id == plot.grow_out)?;
        Some((grow_out, plot))
    });
    let mut own = all.filter(|(grow_out, plot)| tag(grow_out, plot) == wanted);
    let (Some((grow_out, plot)), None) = (own.next(), own.next()) else { return Ok(None) };
    Ok(Some(PlotSaid { grow_out: Some(grow_out.name.clone()), label: plot.label.clone() }))
}

/// The plot that was said, with its grow-out.
///
/// # Errors
/// [`PhotoFault::NoSuchPlot`], [`PhotoFault::SeveralPlots`], [`HouseFault::NoSuchGrowOut`]; what the ledger refuses.
pub(super) fn said(ledger: &mut Ledger, said: &PlotSaid) -> Result<(Plot, GrowOut), HouseFault> {
    let named = said.grow_out.as_deref().map(|name| grow_out(ledger, name)).transpose()?;
    let grow_outs = ledger.grow_outs()?;
    let of = |plot: &Plot| grow_outs.iter().find(|grow_out| grow_out.id == plot.grow_out);
    let mut found: Vec<(Plot, GrowOut)> = ledger
        .plots()?
        .into_iter()
        .filter(|plot| label_key(&plot.label) == label_key(&said.label))
        .filter(|plot| named.as_ref().is_none_or(|named| named.id == plot.grow_out))
        .filter_map(|plot| of(&plot).cloned().map(|grow_out| (plot, grow_out)))
        .collect();
    let label = said.label.clone();
    match (found.pop(), found.as_slice()) {
        (Some(one), []) => Ok(one),
        (Some(last), others) => {
            let mut grow_outs: Vec<String> = others.iter().map(|(_, other)| other.name.clone()).collect();
            grow_outs.push(last.1.name);
            Err(PhotoFault::SeveralPlots { label, grow_outs }.into())
        }
        (None, _) => Err(PhotoFault::NoSuchPlot { label }.into()),
    }
}
