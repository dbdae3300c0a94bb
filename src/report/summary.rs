//! The Summary sheet: what the campaign needs, on one page: coverage, amounts, what uses assumed values.

use super::Matter;
use super::live::{Follows, agents, of_needs, priced, product, product_in_all, tidy};
use super::show::Shown;
use crate::caution;
use crate::document::cell::{Cell, Role, Sheet};
use crate::document::formula::{Copied, Name, Pieces};
use crate::kernel::requirement::Stock;
use crate::rollup::orders::ItemKind;

pub(super) fn sheet(matter: &Matter<'_>, live: Option<(&mut Vec<Name>, &Follows)>) -> Sheet {
    let mut sheet = Sheet::new("Summary");
    let campaign = matter.plan.campaign;
    let run = matter.run;
    sheet.title(&campaign.title);
    let follows = live.map(|(names, follows)| {
        super::live::picker(matter, &mut sheet, names, follows);
        follows
    });
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
        sheet.note(format!("{count} excluded by a rule of the campaign: {reason}"));
    }
    for (kind, count) in run.other_rows.by_kind() {
        let rows = usize::try_from(count).unwrap_or(usize::MAX);
        sheet.note(format!("Not wells: {count} {} (the Findings sheet names the rows).", kind.words(rows)));
    }
    if let Some(says) = super::flooded::says(run.tally.flood, run.planned, matter.is_of_book) {
        sheet.wide(says, Role::Flagged);
    }
    for says in super::defaults::of_run(matter) {
        sheet.wide(says, Role::Flagged);
    }
    for (told, is_open) in super::crew_days::told(matter) {
        sheet.wide(told, if is_open { Role::Flagged } else { Role::Note });
    }
    for doubt in super::doubts::stock_doubts(matter) {
        sheet.wide(doubt, Role::Flagged);
    }
    if let Some(text) = super::resting::text(matter, 0) {
        sheet.note(format!("{text} Low and high show how much assumed values matter."));
    }
    for text in super::measured_out::in_brief(matter) {
        super::live::say(matter, &mut sheet, &text, Role::Flagged);
    }
    for text in super::outsized::texts(matter) {
        super::live::say(matter, &mut sheet, &text, Role::Flagged);
    }
    sheet.note(format!("Lists: {}. {}.", matter.lists.join(", "), super::crew_days::day_of_plan(matter)));
    sheet.note(caution::GENERAL[0].text);
    if super::site::reported(matter).next().is_some() {
        sheet.gap();
        sheet.wide("What the lists report about the sites (column Crew flags of Wells and Crew)", Role::Total);
        super::site::lines(matter, &mut sheet);
    }
    sheet.keep_together(matter.plan.cases.len() + HEADS + 1);
    sheet.note(super::AS_IF_TOGETHER);
    by_scenario(matter, &mut sheet, follows);
    by_group(matter, &mut sheet, follows);
    sheet.layout.frozen_rows = 0;
    sheet.layout.widths = vec![28.0, 12.0, 9.0, 8.0, 8.0, 11.0, 7.5, 12.0, 7.5, 9.5, 9.5];
    let some_not_priced = (0..matter.plan.cases.len()).any(|index| !matter.orders.priced(index).is_all());
    sheet.layout.printed_columns = Some(GROUP - u16::from(!some_not_priced));
    sheet
}

/// Lines of the headings of a table.
const HEADS: usize = 4;

/// What each scenario comes to; Compare says more.
fn by_scenario(matter: &Matter<'_>, sheet: &mut Sheet, follows: Option<&Follows>) {
    let mass = Shown::of("kg", matter.plan.campaign.system);
    let orders = matter.orders;
    let some_not_priced = (0..matter.plan.cases.len()).any(|index| !orders.priced(index).is_all());
    let currency = &matter.plan.campaign.currency;
    let mut heads = vec![
        "Scenario".to_owned(),
        "Product".to_owned(),
        "First round".to_owned(),
        "  low".to_owned(),
        "  high".to_owned(),
        "Total, incl. repeats and losses".to_owned(),
        "Unit".to_owned(),
        mass.heading("Neutralizer, first round"),
        "Flush time (h)".to_owned(),
        format!("Order cost ({currency})"),
    ];
    if some_not_priced {
        heads.push(format!("Priced so far ({currency})"));
    }
    sheet.heads(heads);
    sheet.layout.filter_row = None;
    for (index, case) in matter.plan.cases.iter().enumerate() {
        let sums = matter.run.totals.overall(index);
        let shown = bought_by(matter, index);
        let lines = || matter.orders.lines.iter().filter(|line| line.scenario == index);
        let so_far = orders.priced(index);
        let short = lines().any(|line| line.kind == ItemKind::Product && line.short > 0.0);
        let number = || Pieces::call("MATCH", [Pieces::here(0), Pieces::text("Scenario_names"), Pieces::text("0")]);
        let cell = |pieces: Option<Pieces>, value: f64, digits: usize| match (follows, pieces) {
            (Some(_), Some(pieces)) => Cell::formula(pieces.giving(tidy(value), digits)),
            _ => Cell::number(value, digits),
        };
        let need = |name: &str, value: f64| cell(Some(product(name, number())), shown.value(value), 1);
        let hours = follows.and_then(|follows| follows.of_wells("Wells_hours", number()));
        let paid = priced(of_needs("Needs_cost", number()), of_needs("Needs_unpriced", number()));
        let in_all = cell(Some(product_in_all(&number())), shown.value(sums.product_in_all()), 1);
        let mut row = vec![
            Cell::text(&case.scenario.name),
            Cell::text(&matter.plan.campaign.products[case.scenario.product].name),
            need("Needs_first", sums.product).with_role(Role::Total),
            need("Needs_low", sums.product_low),
            need("Needs_high", sums.product_high),
            in_all.with_role(if short { Role::Flagged } else { Role::Total }),
            Cell::text(shown.symbol),
            cell(Some(agents("Needs_first", number())), mass.value(sums.neutralizer_first_kg()), 1),
            cell(hours, sums.flush_h, 0),
            cell(Some(paid), so_far.of_all().unwrap_or(f64::NAN), 2),
        ];
        if some_not_priced {
            let so_far = if so_far.is_all() { f64::NAN } else { so_far.cost };
            let none = Pieces::text("\"\"");
            let missing = of_needs("Needs_unpriced", number()).then(">0");
            let part = Pieces::call("IF", [missing, of_needs("Needs_cost", number()), none]);
            row.push(cell(Some(part), so_far, 2).with_role(Role::Flagged));
        }
        sheet.push(row);
    }
}

/// The unit that a scenario's product is bought by.
fn bought_by(matter: &Matter<'_>, index: usize) -> Shown {
    let system = matter.plan.campaign.system;
    match matter.plan.cases.get(index).map(|case| &case.stock.prepared.stock) {
        Some(Stock::Dry { .. }) => Shown::of("kg", system),
        _ => Shown::of("L", system),
    }
}

/// More groups than this need not stand on one page.
const GROUPS_TOGETHER: usize = 40;
/// More groups than this are values: each asks every row of Wells a dozen times.
const MOST_GROUPS: usize = 100;
/// Where the number of a group stands, beside what is printed.
const GROUP: u16 = 11;

/// Sums of the picked scenario by the campaign's grouping columns, in the columns of the table above; of the first where the wells
/// are values.
fn by_group(matter: &Matter<'_>, sheet: &mut Sheet, follows: Option<&Follows>) {
    let (Some(case), false) = (matter.plan.cases.first(), matter.plan.groups.is_empty()) else { return };
    let volume = Shown::of("L", matter.plan.campaign.system);
    let shown = bought_by(matter, 0);
    let names: Vec<&str> = matter.plan.groups.iter().map(|group| group.name.as_str()).collect();
    let groups = matter.run.totals.by_group(0);
    sheet.keep_together(groups.len().min(GROUPS_TOGETHER) + HEADS + 1);
    let lives = follows.is_some_and(|follows| follows.wells) && groups.len() <= MOST_GROUPS;
    let by = format!("By {}", names.join(" and "));
    if lives {
        let title = Pieces::quoted(&format!("{by}, for the scenario that is picked: ")).then("&Picked_scenario");
        let said = format!("{by}, for the scenario that is picked: {}", case.scenario.name);
        sheet.layout.wide_rows.push(sheet.rows.len() as u32);
        sheet.push(vec![Cell::formula(title.saying(said)).with_role(Role::Total)]);
    } else {
        sheet.wide(format!("{by}, as planned: {} (totals.csv has every scenario)", case.scenario.name), Role::Total);
    }
    sheet.push(
        [
            names.join(" / "),
            "Visits planned".to_owned(),
            "First round".to_owned(),
            "  low".to_owned(),
            "  high".to_owned(),
            "Total, incl. repeats and losses".to_owned(),
            "Unit".to_owned(),
            volume.heading("Water treated"),
            "Flush time (h)".to_owned(),
            "Visits held back".to_owned(),
        ]
        .map(Cell::head)
        .to_vec(),
    );
    if lives {
        let heads = sheet.rows.len() - 1;
        sheet.rows[heads].extend([Cell::empty(), Cell::head("Group no.")]);
    }
    let symbols = ["L", "kg"].map(|unit| Pieces::quoted(Shown::of(unit, matter.plan.campaign.system).symbol));
    let of = |name: &str| {
        let parts = ["Wells_scenario", "Picked", "Wells_group"].map(Pieces::text);
        Pieces::call("SUMIFS", std::iter::once(Pieces::text(name)).chain(parts).chain([Pieces::here(GROUP)]))
    };
    let either =
        |liquid: Pieces, dry: Pieces| Pieces::call("IF", [Pieces::text("INDEX(Liquid,Picked)=1"), liquid, dry]);
    let of_product = |name: &str| either(of(&format!("Wells_{name}_l")), of(&format!("Wells_{name}_kg")));
    let in_all = of_product("product").then("+").and(of_product("repeat")).then("+").and(of_product("loss"));
    let unit = either(symbols[0].clone(), symbols[1].clone()).copied();
    let living: Vec<Copied> = [
        of("Wells_planned"),
        of_product("product"),
        of_product("low"),
        of_product("high"),
        in_all,
        of("Wells_treated"),
        of("Wells_hours"),
    ]
    .into_iter()
    .map(Pieces::copied)
    .collect();
    for (at, (values, sums)) in groups.into_iter().enumerate() {
        let named: Vec<&str> =
            values.iter().map(|value| if value.is_empty() { "(not given)" } else { value.as_str() }).collect();
        let figure = |which: usize, value: f64, digits: usize| {
            if lives { Cell::formula(living[which].giving(tidy(value), digits)) } else { Cell::number(value, digits) }
        };
        let amount = |which: usize, value: f64| figure(which, shown.value(value), 1);
        let held_back = if sums.held_back > 0 { Role::Flagged } else { Role::Body };
        sheet.push(vec![
            Cell::text(named.join(" / ")),
            figure(0, sums.planned as f64, 0),
            amount(1, sums.product).with_role(Role::Total),
            amount(2, sums.product_low),
            amount(3, sums.product_high),
            amount(4, sums.product_in_all()).with_role(Role::Total),
            if lives { Cell::formula(unit.saying(shown.symbol)) } else { Cell::text(shown.symbol) },
            figure(5, volume.value(sums.treated_volume_l), 0),
            figure(6, sums.flush_h, 0),
            Cell::count(sums.held_back).with_role(held_back),
        ]);
        if lives {
            let row = sheet.rows.len() - 1;
            sheet.rows[row].extend([Cell::empty(), Cell::count(at as u64 + 1)]);
        }
    }
}
