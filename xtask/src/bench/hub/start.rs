//! How long a hub takes from its start to its first answer, over a store of a million entries.

use anyhow::Result;

use super::serving::Hub;
use super::shop::Shop;
use super::table::load;
use crate::bench::table::Spread;
use crate::program::{program, run as run_program};

/// How often each way.
const STARTS: u32 = 5;

/// Starts one again and again.
pub(crate) fn run(shop: &Shop<'_>) -> Result<()> {
    println!("\nfrom the start of a hub to its first answer, of {STARTS} starts each");
    for (what, is_cold) in [("its file read lately", false), ("nothing of its file in memory", true)] {
        let mut took = Vec::new();
        let (mut peak_mib, mut stopped_s): (f64, f64) = (0.0, 0.0);
        for _ in 0..STARTS {
            if is_cold {
                drop_from_memory(shop)?;
            }
            let hub = Hub::start(shop, None)?;
            took.push(hub.answered_s);
            peak_mib = peak_mib.max(hub.peak_mib()?);
            stopped_s = stopped_s.max(hub.stop()?);
        }
        let Spread { least, median, most } = Spread::of(took.into_iter());
        println!(
            "  {what:<32}{median:.2} s ({least:.2}-{most:.2}), peak {peak_mib:.0} MiB, stopped within {stopped_s:.2} s, load {}",
            load()
        );
    }
    Ok(())
}

/// Has the system forget what it keeps of the file in memory.
fn drop_from_memory(shop: &Shop<'_>) -> Result<()> {
    let mut dd = program("dd");
    dd.arg(format!("of={}", shop.file().display())).args(["oflag=nocache", "conv=notrunc,fdatasync", "count=0"]);
    run_program(dd.arg("status=none"))
}
