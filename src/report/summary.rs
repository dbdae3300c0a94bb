//! The Summary sheet: what the campaign needs, on one page: coverage, amounts, what uses assumed values, what is missing.

use super::Matter;
use super::show::Shown;
use crate::caution;
use crate::document::cell::{Cell, Role, Sheet};
use crate::document::formula::Name;
use crate::finding::Severity;
use crate::kernel::requirement::Stock;
use crate::rollup::Sums;
use crate::rollup::orders::ItemKind;

pub(super) fn sheet(matter: &Matter<'_>, names: Option<&mut Vec<Name>>) -> Sheet {
    let mut sheet = Sheet::new("Summary");
    let is_live = names.is_some();
    let campaign = matter.plan.campaign;
    let run = matter.run;
    sheet.title(&campaign.title);
    if let Some(names) = names {
        super::live::picker(matter, &mut sheet, names);
    }
    sheet.wide(format!("{}.", matter.coverage()), Role::Total);
    if run.held_back > 0 {
        sheet.wide(
            format!(
                "The held-back visits ({}) are not included: amounts, orders and hours are understated. The Findings sheet says \
                 why, cell by cell.",
                run.held_back
            ),
            Role::Flagged,
        );
    }
    sheet.note(format!("{}.", matter.account()));
    for (reason, count) in &run.excluded_for {
        sheet.note(format!("{count} excluded by a rule of the scenario file: {reason}"));
    }
    for (kind, count) in run.other_rows.by_kind() {
        let rows = usize::try_from(count).unwrap_or(usize::MAX);
        sheet.note(format!("Not wells: {count} {} (the Findings sheet names the rows).", kind.words(rows)));
    }
    for says in super::defaults::of_run(matter) {
        sheet.wide(says, Role::Flagged);
    }
    for doubt in super::doubts::stock_doubts(matter) {
        sheet.wide(doubt, Role::Flagged);
    }
    let share = if run.planned == 0 { 0.0 } else { 100.0 * run.assumed as f64 / run.planned as f64 };
    sheet.wide(
        format!(
            "{} of {} planned visits ({share:.0} %) use assumed values; low and high show how much that matters.",
            run.assumed, run.planned
        ),
        Role::Note,
    );
    for text in super::outsized::texts(matter) {
        sheet.wide(text, Role::Flagged);
    }
    let day = matter.date.map_or_else(|| "no stated day".to_owned(), |date| date.to_string());
    sheet.note(format!("Lists: {}. Plan for {day}.", matter.lists.join(", ")));
    sheet.note(caution::GENERAL[0].text);
    sheet.gap();

    let volume = Shown::of("L", campaign.system);
    let mass = Shown::of("kg", campaign.system);
    let mut heads = vec!["Scenario".to_owned(), "Product".to_owned()];
    heads.extend(sums_heads(volume, mass));
    heads.extend([
        mass.heading("Neutralizer, all agents, first round"),
        volume.heading("Flush water"),
        "Flush time (h)".to_owned(),
        format!("Order cost ({})", campaign.currency),
    ]);
    sheet.heads(heads);
    for (index, case) in matter.plan.cases.iter().enumerate() {
        let sums = run.totals.overall(index);
        let product = match case.stock.prepared.stock {
            Stock::Liquid { .. } => volume,
            Stock::Dry { .. } => mass,
        };
        let lines = || matter.orders.lines.iter().filter(|line| line.scenario == index);
        let cost = lines().try_fold(0.0, |sum, line| line.cost.map(|cost| sum + cost));
        let short = lines().any(|line| line.kind == ItemKind::Product && line.short > 0.0);
        let mut row = vec![Cell::text(&case.scenario.name), Cell::text(&campaign.products[case.scenario.product].name)];
        row.extend(sums_cells(&sums, product, volume, mass));
        if is_live {
            super::live::follow(&mut row, matches!(case.stock.prepared.stock, Stock::Liquid { .. }));
        }
        if let Some(in_all) = row.last_mut().filter(|_| short) {
            in_all.role = Role::Flagged;
        }
        row.extend([
            Cell::number(mass.value(sums.neutralizer_first_kg()), 1),
            Cell::number(volume.value(sums.flush_volume_l), 0),
            Cell::number(sums.flush_h, 0),
            Cell::number(cost.unwrap_or(f64::NAN), 2),
        ]);
        if is_live {
            super::live::follow_rest(&mut row);
        }
        sheet.push(row);
    }
    sheet.layout.filter_row = None;

    by_group(matter, &mut sheet);
    sites(matter, &mut sheet);
    what_is_missing(matter, &mut sheet);
    sheet.layout.frozen_rows = 0;
    sheet.layout.widths =
        vec![32.0, 16.0, 9.0, 9.0, 9.0, 11.0, 10.0, 9.0, 10.0, 10.0, 10.0, 10.0, 10.0, 10.0, 12.0, 11.0, 10.0, 12.0];
    sheet.layout.landscape = true;
    sheet
}

/// Sums of the first scenario by the campaign's grouping columns.
fn by_group(matter: &Matter<'_>, sheet: &mut Sheet) {
    let (Some(case), false) = (matter.plan.cases.first(), matter.plan.groups.is_empty()) else { return };
    let campaign = matter.plan.campaign;
    let volume = Shown::of("L", campaign.system);
    let mass = Shown::of("kg", campaign.system);
    let product = match case.stock.prepared.stock {
        Stock::Liquid { .. } => volume,
        Stock::Dry { .. } => mass,
    };
    sheet.gap();
    let names: Vec<&str> = matter.plan.groups.iter().map(|group| group.name.as_str()).collect();
    sheet.wide(
        format!("By {}: {} (totals.csv has every scenario)", names.join(" and "), case.scenario.name),
        Role::Title,
    );
    let mut heads = vec![names.join(" / "), String::new()];
    heads.extend(sums_heads(volume, mass));
    sheet.push(heads.into_iter().map(Cell::head).collect());
    for (values, sums) in matter.run.totals.by_group(0) {
        let named: Vec<&str> =
            values.iter().map(|value| if value.is_empty() { "(not given)" } else { value.as_str() }).collect();
        let mut row = vec![Cell::text(named.join(" / ")), Cell::empty()];
        row.extend(sums_cells(&sums, product, volume, mass));
        sheet.push(row);
    }
}

/// Headings of [`sums_cells`].
fn sums_heads(volume: Shown, mass: Shown) -> [String; 12] {
    [
        "Visits planned".to_owned(),
        "Visits held back".to_owned(),
        "Visits excluded".to_owned(),
        volume.heading("Water treated"),
        mass.heading("Chlorine, as Cl2"),
        "Product unit".to_owned(),
        "First round".to_owned(),
        "  low".to_owned(),
        "  high".to_owned(),
        "Repeat round".to_owned(),
        "Handling loss".to_owned(),
        "Total, incl. repeats and losses".to_owned(),
    ]
}

/// What some rows come to, with the product in the unit it is bought by.
fn sums_cells(sums: &Sums, product: Shown, volume: Shown, mass: Shown) -> [Cell; 12] {
    let held_back = if sums.held_back > 0 { Role::Flagged } else { Role::Body };
    let amount = |value: f64| Cell::number(product.value(value), 1);
    [
        Cell::count(sums.planned),
        Cell::count(sums.held_back).with_role(held_back),
        Cell::count(sums.excluded),
        Cell::number(volume.value(sums.treated_volume_l), 0),
        Cell::number(mass.value(sums.chlorine_g / 1000.0), 1),
        Cell::text(product.symbol),
        amount(sums.product).with_role(Role::Total),
        amount(sums.product_low),
        amount(sums.product_high),
        amount(sums.repeat),
        amount(sums.loss),
        amount(sums.product_in_all()).with_role(Role::Total),
    ]
}

/// What the lists' own words say that a crew must know.
fn sites(matter: &Matter<'_>, sheet: &mut Sheet) {
    if super::site::reported(matter).next().is_none() {
        return;
    }
    sheet.gap();
    sheet.wide("What the lists report about the sites (column Crew flags of Wells and Crew)", Role::Title);
    sheet.push(["Reported", "Flag", "Visits", "What the crew is told"].map(Cell::head).to_vec());
    for (entry, count) in super::site::reported(matter) {
        sheet.push(vec![Cell::text(entry.what), Cell::text(entry.word), Cell::count(count), Cell::text(entry.text)]);
    }
}

/// How often each finding was made, worst first; a missing column counts once.
fn what_is_missing(matter: &Matter<'_>, sheet: &mut Sheet) {
    let times = matter.causes.times_by_code();
    if times.is_empty() {
        return;
    }
    sheet.gap();
    sheet.wide("What is wrong with the lists, and how often", Role::Title);
    sheet.push(["What", "Code", "Times", "Severity"].map(Cell::head).to_vec());
    let mut counts: Vec<_> = times.iter().collect();
    counts.sort_by_key(|(code, count)| (code.severity(), std::cmp::Reverse(**count), **code));
    for (code, count) in counts {
        let role = if code.severity() == Severity::Error { Role::Flagged } else { Role::Body };
        sheet.push(vec![
            Cell::text(code.name().replace('-', " ")).with_role(role),
            Cell::text(code.id()),
            Cell::count(*count),
            Cell::text(code.severity().word()),
        ]);
    }
}
