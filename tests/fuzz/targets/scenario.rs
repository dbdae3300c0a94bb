//! Scenario files: TOML, sections, quantities, products, grids, stock; then held against a list, SQL conditions and all.
#![no_main]

use std::path::Path;

use aftercrest::engine::Plan;
use aftercrest::scenario::Campaign;
use aftercrest_fuzz::forgive_the_readers;
use libfuzzer_sys::fuzz_target;

fuzz_target!(init: forgive_the_readers(), |data: &[u8]| {
    let Ok(text) = std::str::from_utf8(data) else { return };
    let campaign = match Campaign::parse(Path::new("plan.toml"), text) {
        Ok(campaign) => campaign,
        Err(error) => {
            assert!(error.to_string().contains("plan.toml"));
            return;
        }
    };
    let Ok(all) = campaign.select(&[]) else { return };
    if let Ok(plan) = Plan::prepare(&campaign, all, None, &["Road no.".to_owned()]) {
        drop(plan);
    }
});
