//! What was seen of every plot so far, for what is due next.

use crate::fault::HouseFault;
use jiff::civil::Date;
use ledger::evidence::Whose;
use ledger::ledger::Ledger;
use record::growout::Plot;
use record::id::Id;
use record::stage::{StageNote, StageSeen};
use std::collections::HashMap;
use std::ops::ControlFlow;
use trial::due::{Noted, Seen, Stem};

/// What was seen of a plot, and how many notes that were.
#[derive(Clone, Debug, Default)]
pub(crate) struct PlotSeen {
    pub(crate) seen: Seen,
    pub(crate) notes: u64,
}

/// What was seen of every plot that has a note or a day of transplanting.
pub(crate) fn of_plots(ledger: &mut Ledger) -> Result<HashMap<Id<Plot>, PlotSeen>, HouseFault> {
    let mut plots: HashMap<Id<Plot>, PlotSeen> = HashMap::new();
    for plot in ledger.plots()? {
        plots.entry(plot.id).or_default().seen.transplanted = plot.transplanted;
    }
    ledger.stages_by_variety(Whose::Everyones, &mut |gathered| {
        for stage in gathered.records {
            noted(&mut plots, stage.subject.plot, |seen| stage_seen(seen, stage));
        }
        ControlFlow::Continue(())
    })?;
    ledger.heights_by_variety(Whose::Everyones, &mut |gathered| {
        for height in gathered.records {
            noted(&mut plots, height.subject.plot, |seen| {
                seen.height = seen.height.max(Some(height.read_on))
            });
        }
        ControlFlow::Continue(())
    })?;
    ledger.picks_by_variety(Whose::Everyones, &mut |gathered| {
        for pick in gathered.records {
            noted(&mut plots, pick.subject.plot, |seen| seen.picked = seen.picked.max(Some(pick.picked_on)));
        }
        ControlFlow::Continue(())
    })?;
    ledger.fruit_by_variety(Whose::Everyones, &mut |gathered| {
        gathered.records.iter().for_each(|fruit| noted(&mut plots, fruit.subject.plot, |_| ()));
        ControlFlow::Continue(())
    })?;
    Ok(plots)
}

fn noted(plots: &mut HashMap<Id<Plot>, PlotSeen>, plot: Option<Id<Plot>>, learn: impl FnOnce(&mut Seen)) {
    if let Some(plot) = plot.and_then(|plot| plots.get_mut(&plot)) {
        plot.notes += 1;
        learn(&mut plot.seen);
    }
}

fn stage_seen(seen: &mut Seen, stage: &StageNote) {
    let day = stage.noted_on;
    let later = |last: Option<Date>| last.max(day);
    match stage.seen {
        StageSeen::FirstFlower => seen.flowered = Noted::Noted,
        StageSeen::FirstRipe => seen.ripe = seen.ripe.or(day),
        StageSeen::StemEnded { .. } => seen.stem = Stem::Ended,
        StageSeen::StemGrowing { .. } => {
            seen.stem = match seen.stem {
                Stem::Ended => Stem::Ended,
                Stem::Growing(last) => Stem::Growing(later(last)),
                Stem::NotLookedAt => Stem::Growing(day),
            }
        }
        StageSeen::PlantCount(_) => seen.counted = later(seen.counted),
        StageSeen::OffType { .. } => seen.off_types = later(seen.off_types),
        StageSeen::LeavesBetweenTrusses(_) | StageSeen::DwarfLeaves => {}
    }
}
