//! The Order sheet: what each depot must buy under the scenario that is picked, to be signed.

use super::super::{Matter, crew};
use super::alerts::{self, CARDS_SHORT, IS_CHEAPER, Open, SHORT};
use super::as_planned::say;
use super::follows::of_needs;
use super::model::{Model, PackageRow, indexed};
use super::needs::Needs;
use crate::document::cell::{Cell, Role, Sheet};
use crate::document::formula::{Pieces, Place};
use crate::rollup::orders::{OrderLine, PricedSoFar};

pub(super) const SHEET: &str = "Order";

/// Columns: item, package, count, price of one, amount, unit, cost, to buy, over, alert; behind the printed ones which need and
/// package it is.
const NEED: u16 = 10;
const PACKAGE: u16 = 11;
const DEPOT: u16 = 12;
const SLOT: u16 = 13;
/// Columns between the share that is priced and the cost, and behind the cost.
const BEFORE_COST: usize = 4;
const BEHIND_COST: usize = 2;
/// Where an alert stands.
const ALERT: usize = 9;
/// Names of what is not priced; more make a formula too long.
const MOST_NAMES: usize = 40;

pub(super) fn sheet(model: &mut Model<'_>, needs: &Needs) -> Sheet {
    let matter = model.matter;
    let mut sheet = Sheet::new(SHEET);
    sheet.title("Order: what to buy, by depot");
    let picked = matter.plan.cases.first().map_or("", |case| case.scenario.name.as_str());
    let said = Pieces::text("\"Scenario: \"&Picked_scenario").saying(format!("Scenario: {picked}"));
    // It runs over the columns, like a note.
    sheet.layout.wide_rows.push(sheet.rows.len() as u32);
    sheet.push(vec![Cell::formula(said).with_role(Role::Title)]);
    sheet.note(format!(
        "The scenario is picked on Summary. Counts are changed on Packages, prices on Prices ({}), stock on Stock.",
        matter.plan.campaign.currency
    ));
    sheet.note(format!("{}; nothing is ordered for visits that are held back.", matter.coverage()));
    for remark in &matter.orders.remarks {
        sheet.wide(format!("Check: {remark}; it was not used."), Role::Flagged);
    }
    for text in super::super::settled::text(matter).into_iter().chain(super::super::unpriced::text(matter)) {
        sheet.wide(text, Role::Flagged);
    }
    sheet.note(format!(
        "The lines from here to the table are of the plan as it was made{}: they do not follow what is changed, and say so then.",
        if matter.plan.cases.len() > 1 { format!(", for \"{picked}\"") } else { String::new() }
    ));
    if let Some(text) = super::super::outsized::on_the_order(matter) {
        say(matter, &mut sheet, &text, Role::Flagged);
    }
    // The order follows the scenario that is picked; this was worked out for the first.
    let rounding = super::super::rounding::text(matter, 0);
    let rounding =
        rounding.map(|text| if matter.plan.cases.len() > 1 { format!("Under \"{picked}\": {text}") } else { text });
    for text in super::super::on_hand::texts(matter).into_iter().chain(rounding) {
        say(matter, &mut sheet, &text, Role::Flagged);
    }
    if let Some(text) = crew::counted_for(matter) {
        say(matter, &mut sheet, &text, Role::Note);
    }
    for (text, is_open) in super::super::measured_out::texts(matter) {
        say(matter, &mut sheet, &text, if is_open { Role::Flagged } else { Role::Note });
    }
    let of_first = of_agents(matter, 0);
    if (0..matter.plan.cases.len()).any(|at| super::super::agents::text(matter, at).is_some()) {
        let pieces = Pieces::text("INDEX(Said_on_the_order,Picked)&\"\"");
        sheet.layout.wide_rows.push(sheet.rows.len() as u32);
        sheet.push(vec![Cell::formula(pieces.saying(of_first)).with_role(Role::Flagged)]);
    }
    let heads = [
        "Item",
        "Package",
        "Count",
        "Price of one",
        "Amount",
        "Unit",
        "Cost",
        "To buy",
        "Over",
        "Alert",
        "Need no.",
        "Package no.",
        "Depot no.",
        "Place",
    ];
    sheet.heads(heads);
    sheet.layout.filter_row = None;
    sheet.layout.repeat_rows = sheet.layout.frozen_rows.checked_sub(1);
    let mut slots: Vec<Place> = Vec::new();
    let mut is_first = true;
    for (at, depot) in model.depots.iter().enumerate().filter(|(_, depot)| model.is_ordered_for(depot)) {
        if !std::mem::take(&mut is_first) {
            sheet.set_apart(needs.slots.iter().map(|(_, kinds)| 1 + kinds).sum::<usize>() + 2);
        }
        let name = if depot.is_empty() { "(no depot)" } else { depot.as_str() };
        sheet.push(vec![Cell::text(name).with_role(Role::Total)]);
        for (slot, (_, kinds)) in needs.slots.iter().enumerate() {
            if slots.len() == slot {
                slots.push(Place { sheet: SHEET, row: sheet.rows.len() as u32, column: SLOT });
            }
            block(&mut sheet, model, at, slot + 1, *kinds);
        }
        let lines = matter.orders.lines.iter().filter(|line| line.scenario == 0 && line.depot == *depot);
        let which = Pieces::text(",Needs_depot,").and(Pieces::here(DEPOT));
        let titles = [format!("Total for {name}"), format!("Priced so far, {name}")];
        total_row(&mut sheet, titles, which, (&PricedSoFar::of(lines), open(model, Some(depot))), at);
    }
    // Nobody signs for a total that stands on another page.
    sheet.keep_together(super::signed::LINES);
    let so_far = matter.orders.priced(0);
    let titles = ["Total of the order", "Priced so far, not the order"].map(str::to_owned);
    total_row(&mut sheet, titles, Pieces::text(""), (&so_far, open(model, None)), 0);
    super::signed::not_covered(&mut sheet, open(model, None));
    not_priced(&mut sheet, model, needs, &slots);
    super::signed::add(&mut sheet, matter);
    sheet.set_apart(super::suppliers::lines(model));
    super::suppliers::add(&mut sheet, model);
    let campaign = matter.plan.campaign;
    let products = matter.plan.cases.iter().map(|case| &campaign.products[case.scenario.product]);
    let rules = crew::on_the_road(products);
    sheet.set_apart(rules.len() + 2);
    sheet.wide("On the road, and what is left over", Role::Total);
    rules.into_iter().for_each(|rule| sheet.wide(rule, Role::Body));
    // As wide together as a page upright takes; an alert stays on one line.
    sheet.layout.widths = vec![26.0, 14.0, 6.5, 7.5, 8.5, 7.5, 9.5, 8.5, 7.5, 16.5, 7.0, 7.0, 7.0, 7.0];
    sheet.layout.printed_columns = Some(NEED);
    sheet
}

/// What a scenario's order says of another neutralizer.
pub(super) fn of_agents(matter: &Matter<'_>, at: usize) -> String {
    super::super::agents::text(matter, at)
        .unwrap_or_else(|| "No visit wants another neutralizer under this scenario.".to_owned())
}

/// Needs of the first scenario that something is alerted of, of one depot or of all.
fn open(model: &Model<'_>, depot: Option<&str>) -> Open {
    let lines = model.matter.orders.lines.iter().enumerate().filter(|(_, line)| line.scenario == 0);
    Open::of(model, lines.filter(|(_, line)| depot.is_none_or(|depot| line.depot == depot)))
}

/// A sum of the picked scenario's needs, of those that `which` narrows it to: the cost where all of them are priced, else what is
/// priced so far, with two titles for the two; beside it, whether it covers them.
fn total_row(
    sheet: &mut Sheet,
    titles: [String; 2],
    which: Pieces,
    (so_far, open): (&PricedSoFar, Open),
    depot: usize,
) {
    let of = |start: &str| Pieces::text(start).then(",Needs_scenario,Picked").and(which.clone());
    let missing = || of("SUMIFS(Needs_unpriced").then(")>0");
    let counted = || Pieces::text("COUNTIFS(Needs_scenario,Picked").and(which.clone());
    let share = counted().then(",Needs_unpriced,0)&\" of \"&").and(counted()).then(")&\" priced\"");
    let share = Pieces::call("IF", [missing(), share, Pieces::quoted("")]);
    let title = Pieces::call("IF", [missing(), Pieces::quoted(&titles[1]), Pieces::quoted(&titles[0])]);
    let [whole, part] = titles;
    let is_all = so_far.is_all();
    let total = |formula| Cell::formula(formula).with_role(Role::Total);
    let mut row = vec![
        total(title.saying(if is_all { whole } else { part })),
        total(share.saying(if is_all {
            String::new()
        } else {
            format!("{} of {} priced", so_far.priced, so_far.lines)
        })),
    ];
    row.extend((0..BEFORE_COST).map(|_| Cell::empty().with_role(Role::Total)));
    // A cost that nobody knows is not nothing.
    let sum = || of("SUMIFS(Needs_cost").then(")");
    let unknown = Pieces::call("AND", [sum().then("=0"), missing()]);
    let cost = Pieces::call("IF", [unknown, Pieces::quoted(""), sum()]);
    let is_unknown = so_far.cost == 0.0 && !is_all;
    row.push(total(cost.giving(if is_unknown { f64::NAN } else { so_far.cost }, 2)));
    row.extend((0..BEHIND_COST).map(|_| Cell::empty().with_role(Role::Total)));
    let any = [SHORT, CARDS_SHORT, IS_CHEAPER].map(|name| of(&format!("COUNTIFS({name},\">0\"")).then(")>0"));
    let alert = alerts::first_of(any, alerts::words(), Pieces::quoted(""));
    row.push(total(alert.saying(open.word())));
    row.extend([Cell::empty(), Cell::empty(), Cell::count(depot as u64 + 1)]);
    leave_room_for_alert(sheet);
    sheet.push(row);
}

/// The next row is as tall as its alert may come to need.
fn leave_room_for_alert(sheet: &mut Sheet) {
    let mut cells = vec![Cell::empty(); ALERT];
    cells.push(Cell::text(alerts::NOT_COVERED).with_role(Role::Total));
    sheet.layout.room.push((sheet.rows.len() as u32, cells));
}

/// What the picked scenario's order holds without a price, by name.
fn not_priced(sheet: &mut Sheet, model: &Model<'_>, needs: &Needs, slots: &[Place]) {
    let is_missing = |slot: usize| {
        let mut lines = model.matter.orders.lines.iter().filter(|line| line.scenario == 0 && line.cost.is_none());
        lines.any(|line| super::needs::slot_of(line, model) == slot)
    };
    let end = "the sum is not the cost of the order.";
    let (mut names, mut said) = (Pieces::quoted("Not priced: "), "Not priced: ".to_owned());
    for (at, ((name, _), place)) in needs.slots.iter().zip(slots).take(MOST_NAMES).enumerate() {
        let name = if at == 0 { "the product; ".to_owned() } else { format!("{name}; ") };
        let missing = Pieces::text("SUMIFS(Needs_unpriced,Needs_scenario,Picked,Needs_slot,").and(Pieces::at(*place));
        names =
            names.then("&").and(Pieces::call("IF", [missing.then(")>0"), Pieces::quoted(&name), Pieces::quoted("")]));
        said.push_str(if is_missing(at + 1) { &name } else { "" });
    }
    let is_all = model.matter.orders.priced(0).is_all();
    let said = if is_all { String::new() } else { said + end };
    let missing = of_needs("Needs_unpriced", Pieces::text("Picked")).then(">0");
    let pieces = Pieces::call("IF", [missing, names.then("&").and(Pieces::quoted(end)), Pieces::quoted("")]);
    sheet.layout.wide_rows.push(sheet.rows.len() as u32);
    sheet.push(vec![Cell::formula(pieces.saying(said)).with_role(Role::Body)]);
}

/// One item of a depot: what is to be bought, and a line for each kind of package.
fn block(sheet: &mut Sheet, model: &Model<'_>, depot: usize, slot: usize, kinds: usize) {
    let matter = model.matter;
    let here = Pieces::here;
    let line = line_of(matter, model, depot, slot);
    let place = line.and_then(|line| matter.orders.lines.iter().position(|known| known == line));
    let shown = line.map(|line| super::super::show::Shown::of(line.unit, model.system));
    let value = |get: fn(&OrderLine) -> f64| {
        line.zip(shown).map_or(f64::NAN, |(line, shown)| super::inputs::tidy(shown.value(get(line))))
    };
    let found =
        |name: &str| Pieces::call("IF", [here(NEED).then("=0"), Pieces::text("\"\""), indexed(name, here(NEED))]);
    let need = Pieces::text("SUMIFS(Needs_no,Needs_scenario,Picked,Needs_depot,")
        .and(here(DEPOT))
        .then(",Needs_slot,")
        .and(here(SLOT))
        .then(")");
    let any = [SHORT, CARDS_SHORT, IS_CHEAPER].map(|name| indexed(name, here(NEED)).then(">0"));
    let priced = Pieces::call(
        "IF",
        [indexed("Needs_unpriced", here(NEED)).then(">0"), Pieces::quoted("no price"), Pieces::quoted("covered")],
    );
    let alert =
        Pieces::call("IF", [here(NEED).then("=0"), Pieces::quoted(""), alerts::first_of(any, alerts::words(), priced)]);
    let word = |line: &OrderLine| Open::of(model, place.into_iter().map(|place| (place, line))).word();
    let said = match line {
        None => "",
        Some(line) if !word(line).is_empty() => word(line),
        Some(line) if line.cost.is_none() => "no price",
        Some(_) => "covered",
    };
    let item = line.map_or("", OrderLine::item_name);
    leave_room_for_alert(sheet);
    sheet.push(vec![
        Cell::formula(found("Needs_item").saying(item)),
        Cell::empty(),
        Cell::empty(),
        Cell::empty(),
        Cell::formula(found("Needs_bought").giving(value(|line| line.amount), 1)),
        Cell::formula(found("Needs_unit").saying(shown.map_or("", |shown| shown.symbol))),
        Cell::formula(found("Needs_cost").giving(line.and_then(|line| line.cost).unwrap_or(f64::NAN), 2)),
        Cell::formula(found("Needs_gap").giving(value(|line| line.gap), 1)),
        Cell::formula(found("Needs_over").giving(value(|line| (line.amount - line.gap).max(0.0)), 1)),
        Cell::formula(alert.saying(said)),
        Cell::formula(need.giving(place.map_or(0.0, |place| place as f64 + 1.0), 0)),
        Cell::empty(),
        Cell::count(depot as u64 + 1),
        Cell::count(slot as u64),
    ]);
    let above = sheet.rows.len() as u32 - 1;
    for kind in 0..kinds {
        package(sheet, model, place, above, kind);
    }
}

fn package(sheet: &mut Sheet, model: &Model<'_>, place: Option<usize>, above: u32, kind: usize) {
    let here = Pieces::here;
    let need = Pieces::at(Place { sheet: SHEET, row: above, column: NEED });
    let number =
        Pieces::text("SUMIFS(Packages_no,Packages_need,").and(need).then(",Packages_kind,").and(here(SLOT)).then(")");
    // Of what is not bought nothing is said.
    let found = |name: &str| {
        let number = || Pieces::call("MAX", [here(PACKAGE), Pieces::text("1")]);
        let none = Pieces::call("OR", [here(PACKAGE).then("=0"), indexed("Packages_count", number()).then("=0")]);
        Pieces::call("IF", [none, Pieces::text("\"\""), indexed(name, here(PACKAGE))])
    };
    let known = place.and_then(|place| model.packages.iter().position(|known| *known == (place, kind)));
    let row = known.and_then(|at| model.package_rows.get(at)).filter(|row| row.count > 0.0);
    let of = |get: fn(&PackageRow) -> f64| row.map_or(f64::NAN, get);
    let supplier = match super::suppliers::is_stated(model) {
        true => Cell::formula(found("Packages_supplier").saying(row.map_or("", |row| row.supplier.as_str()))),
        false => Cell::empty(),
    };
    sheet.push(vec![
        supplier.with_role(Role::Note),
        Cell::formula(found("Packages_package").saying(row.map_or("", |row| row.package.as_str()))),
        Cell::formula(found("Packages_count").giving(of(|row| row.count), 0)),
        Cell::formula(found("Packages_price").giving(of(|row| row.price), 2)),
        Cell::formula(found("Packages_amount").giving(of(|row| row.amount), 1)),
        Cell::empty(),
        Cell::formula(found("Packages_cost").giving(of(|row| row.cost), 2)),
        Cell::empty(),
        Cell::empty(),
        Cell::empty(),
        Cell::empty(),
        Cell::formula(number.giving(known.map_or(0.0, |at| at as f64 + 1.0), 0)),
        Cell::empty(),
        Cell::count(kind as u64 + 1),
    ]);
}

fn line_of<'m>(matter: &'m Matter<'_>, model: &Model<'_>, depot: usize, slot: usize) -> Option<&'m OrderLine> {
    let name = &model.depots[depot];
    matter
        .orders
        .lines
        .iter()
        .find(|line| line.scenario == 0 && line.depot == *name && super::needs::slot_of(line, model) == slot)
}
