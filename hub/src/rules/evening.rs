//! An evening tried out under a rulebook: who uses what for how long, and when it would have to end.

use shared_core::estimate::History;
use shared_core::ids::MachineId;
use shared_core::ordered::Set;
use shared_core::plan::{self, HotWork, Request, Use};
use shared_core::rulebook::Rulebook;
use shared_core::sync::rules::{Evening, EveningPlanned, EveningStep};
use shared_core::time::Span;

/// More people than this sweep no shop.
const CREW_MOST: u32 = 50;
/// The longest use, in minutes: a week, as in a rulebook's longest session.
const USE_MINUTES_MOST: u32 = 10_080;
/// More uses than this are no evening.
const USES_MOST: usize = 50;

/// The plan of it, or why there is none, in words.
pub(crate) fn evening(book: &Rulebook, asked: &Evening) -> Result<EveningPlanned, String> {
    let too_long = asked.uses.iter().any(|(_, minutes)| *minutes > USE_MINUTES_MOST);
    if asked.crew > CREW_MOST || asked.uses.len() > USES_MOST || too_long {
        return Err(format!(
            "at most {CREW_MOST} people, {USES_MOST} uses, and {USE_MINUTES_MOST} minutes for each are planned for"
        ));
    }
    let of = |(machine, minutes): &(MachineId, u32)| Use {
        machine: machine.clone(),
        used: Span::from_minutes(i64::from(*minutes)),
    };
    let uses: Vec<Use> = asked.uses.iter().map(of).collect();
    let hot = uses.iter().any(|use_| book.machine(&use_.machine).is_some_and(|machine| machine.hot_work));
    let request = Request {
        book,
        room: &asked.room,
        out_by: asked.out_by,
        crew: asked.crew,
        last_out: asked.last_out,
        hot_work: if hot { HotWork::Coming } else { HotWork::None },
        uses: &uses,
        done: &Set::new(),
        now: None,
        history: &History::new(),
    };
    let plan = plan::plan(&request).map_err(|impossible| impossible.to_string())?;
    let step = |step: plan::Step| EveningStep { id: step.id, start: step.start, end: step.end, hands: step.hands };
    Ok(EveningPlanned {
        out_by: plan.out_by,
        sweep_from: plan.sweep_from,
        first_bell: plan.first_bell,
        last_spark: plan.last_spark,
        watch: plan.watch,
        reserve_minutes: plan.reserve_minutes,
        steps: plan.steps.into_iter().map(step).collect(),
    })
}
