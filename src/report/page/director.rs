//! The director's page: what, how many, the cheapest choice, its cost, what is uncertain, three risks, two charts, and what
//! must be decided. It is one page when printed, so every part is bounded.

use super::choice::{self, WhyNot};
use super::names::{LETTERS, named};
use super::{AS_IF_TOGETHER, Pages, costs, counted, money, percent, words};
use crate::caution::{self, Caution};
use crate::document::block::{Block, Form, KeyFigure, List, Paragraph, Section, Tone};
use crate::document::cell::Value;
use crate::document::figure;
use crate::engine::raised;
use crate::kernel::constants::SLOW_PH;
use crate::parameter::NO_CURRENCY;
use crate::report::Matter;
use crate::report::fitted::{shortened, shortened_within};
use crate::report::{crew_days, defaults, outsized, quality, resting, site};
use crate::rollup::orders::ItemKind;

/// Bars on each of the two charts.
const BARS: usize = 5;
/// Letters of each of several names in a sentence.
const SEVERAL: usize = 32;
/// Letters of one item.
const ITEM: usize = 260;
/// Letters of a question about the lists.
const QUESTION: usize = 100;

pub(super) fn section(pages: &Pages<'_>) -> Section {
    let mut section = Section::new("decision", "What must be decided");
    section.own_page = true;
    let run = pages.matter.run;
    let visits = run.planned + run.held_back;
    let mut lead = format!(
        "{} of {} can be treated as listed.",
        figure::number(run.planned as f64, 0),
        counted(visits, "well visit", "well visits")
    );
    if run.held_back > 0 {
        lead += &format!(
            " {} held back until the open questions are answered, and in no amount below.",
            counted(run.held_back, "is", "are")
        );
    }
    section.push(Paragraph::new(lead, Tone::Lead));
    if pages.matter.plan.cases.is_empty() || run.planned == 0 {
        section.flag("Nothing is planned, so nothing can be compared: the lists come first.");
        return section;
    }
    section.push(figures(pages));
    section.headline("The cheapest choice that can be made");
    let (found, text) = answer(pages);
    section.say(text);
    if !found {
        section.say(format!("The amounts below are those of \"{}\".", named(pages, pages.shown)));
    }
    if pages.matter.plan.cases.len() > 1 {
        let cards = named(pages, 0);
        let other = if pages.shown == 0 {
            String::new()
        } else {
            format!(
                ", not for the choice above: pick that one on the Summary for its order; for its cards {}, before a crew leaves",
                pages.matter.cards_of_another()
            )
        };
        section.flag(format!("The crew sheets, the Summary and the Order sheet are for \"{cards}\"{other}."));
    }
    let needs = super::depots::needs(pages, BARS);
    match costs::drawn(pages, BARS) {
        Some(costs) => section.push(Block::Beside(vec![costs.into(), needs.into()])),
        None => {
            section.say(costs::unpriced(pages));
            section.push(Block::Beside(vec![needs.into()]));
        }
    }
    section.headline("What is uncertain");
    section.push(list(uncertain(pages), 3));
    section.headline("Three risks");
    section.push(list(risks(pages), 3));
    section.headline("To decide");
    section.push(Block::List(List { counted: true, ..items(decisions(pages), 5) }));
    section.push(Block::Form(Form {
        title: "Decided".to_owned(),
        lines: ["Scenario", "By", "Date"].map(str::to_owned).to_vec(),
    }));
    section.remark(format!("{AS_IF_TOGETHER} {}", caution::GENERAL[0].text));
    section
}

fn list(texts: Vec<String>, most: usize) -> Block {
    Block::List(items(texts, most))
}

fn items(texts: Vec<String>, most: usize) -> List {
    List { counted: false, items: texts.iter().take(most).map(|text| brief(text)).collect() }
}

/// As many whole sentences as an item has room for: what is cut off in the middle of one may say the opposite.
fn brief(text: &str) -> String {
    let mut kept = String::new();
    for sentence in text.split_inclusive(". ") {
        if !kept.is_empty() && kept.chars().count() + sentence.trim_end().chars().count() > ITEM {
            break;
        }
        kept.push_str(sentence);
    }
    shortened(kept.trim_end(), ITEM)
}

fn figures(pages: &Pages<'_>) -> Block {
    let run = pages.matter.run;
    let sums = run.totals.overall(pages.shown);
    let shown = pages.bought_by(pages.shown);
    let offer = &pages.offers[pages.shown];
    let range = |low: f64, high: f64| format!("{} to {}", figure::number(low, 0), figure::number(high, 0));
    let so_far = pages.matter.orders.priced(pages.shown);
    let (label, note) = if so_far.is_all() {
        let range = offer.cost_low.zip(offer.cost_high).map_or(String::new(), |(low, high)| range(low, high));
        ("Cost of the order", range)
    } else {
        ("Priced so far, not the order", so_far.share())
    };
    // A word for what is missing is too long for a figure.
    let (unit, note) = if pages.currency() == NO_CURRENCY {
        let note = if note.is_empty() { NO_CURRENCY.to_owned() } else { format!("{note}; {NO_CURRENCY}") };
        (String::new(), note)
    } else {
        (pages.currency().to_owned(), note)
    };
    let cost = KeyFigure { label: label.to_owned(), value: Value::number(so_far.cost, 0), unit, note };
    let product = |label: &str, value: f64, note: String| KeyFigure {
        label: label.to_owned(),
        value: Value::number(shown.value(value), super::decimals(shown.value(value))),
        unit: shown.symbol.to_owned(),
        note,
    };
    let count = |label: &str, count: u64, note: String| KeyFigure {
        label: label.to_owned(),
        value: Value::Count(count),
        unit: String::new(),
        note,
    };
    Block::Figures(vec![
        count("Visits planned", run.planned, format!("of {}", run.planned + run.held_back)),
        product(
            "Product, first round",
            sums.product,
            range(shown.value(sums.product_low), shown.value(sums.product_high)),
        ),
        product("With repeats and losses", sums.product_in_all(), String::new()),
        cost,
        count(
            "Visits on assumed sizes",
            sums.resting.on_size,
            format!("{} % of those planned", percent(sums.resting.on_size as f64, run.planned as f64)),
        ),
    ])
}

/// The answer in a few sentences, and whether there is a choice that can be made.
pub(super) fn answer(pages: &Pages<'_>) -> (bool, String) {
    let matter = pages.matter;
    let open = choice::by_cost(&pages.offers);
    let count = |why: WhyNot| pages.offers.iter().filter(|offer| offer.why_not == Some(why)).count() as u64;
    let Some(best) = open.first() else {
        let mut text = format!("No scenario can be chosen as it stands: {}.", reasons(&count));
        text += &supplies_without_price(matter).unwrap_or_default();
        return (false, text);
    };
    let case = &matter.plan.cases[best.scenario];
    let sums = matter.run.totals.overall(best.scenario);
    let shown = pages.bought_by(best.scenario);
    let product = &matter.plan.campaign.products[case.scenario.product].name;
    let mut text = format!(
        "\"{}\": {} of {} ({} of its label strength remaining) to reach {} mg/L, {} with repeats and losses, {} for everything on \
         the order.",
        named(pages, best.scenario),
        words(shown, sums.product),
        shortened_within(product, LETTERS),
        choice::strength_left(case),
        figure::number(choice::target(matter, case), 0),
        words(shown, sums.product_in_all()),
        money(best.cost, pages.currency()),
    );
    if let Some(next) = open.get(1) {
        text += &format!(" Next is \"{}\" at {}.", named(pages, next.scenario), money(next.cost, pages.currency()));
    }
    let others = reasons(&count);
    if !others.is_empty() {
        text += &format!(" Left out: {others}.");
    }
    (true, text)
}

/// Supplies without a price, with how they are left out: many come with a new book, and they alone may keep every cost open.
fn supplies_without_price(matter: &Matter<'_>) -> Option<String> {
    let mut names: Vec<&str> = Vec::new();
    for line in matter.orders.lines.iter().filter(|line| line.kind == ItemKind::Supply && line.cost.is_none()) {
        if !names.contains(&line.item_name()) {
            names.push(line.item_name());
        }
    }
    let others = matter.orders.lines.iter().any(|line| line.kind != ItemKind::Supply && line.cost.is_none());
    let place = if matter.is_of_book { "on the sheet Supplies" } else { "in the scenario file" };
    (!names.is_empty()).then(|| {
        format!(
            " Supplies without a price: {}. Give {} a price {place}, or clear the lines there: what is not listed is neither counted nor \
             ordered{}.",
            names.join(", "),
            if names.len() == 1 { "it" } else { "each" },
            if others { "" } else { ", and nothing else keeps a cost open" }
        )
    })
}

/// `2 with spent stock, 3 with a lower target`.
fn reasons(count: &impl Fn(WhyNot) -> u64) -> String {
    let parts = [
        (WhyNot::AimsLower, "with a lower target than the campaign's own"),
        (WhyNot::Spent, "with spent stock"),
        (WhyNot::Younger, "with younger stock than the product's own age"),
        (WhyNot::Short, "that need more than can be had"),
        (WhyNot::Unpriced, "not all priced"),
        (WhyNot::Nothing, "with nothing planned"),
    ];
    let parts = parts.into_iter().map(|(why, words)| (count(why), words)).filter(|(count, _)| *count > 0);
    parts.map(|(count, words)| format!("{count} {words}")).collect::<Vec<_>>().join(", ")
}

fn uncertain(pages: &Pages<'_>) -> Vec<String> {
    let matter = pages.matter;
    let run = matter.run;
    let mut texts = Vec::new();
    if run.held_back > 0 {
        texts.push(format!(
            "What the {} need: they are {} % of the visits.",
            counted(run.held_back, "visit that is held back", "visits that are held back"),
            percent(run.held_back as f64, (run.planned + run.held_back) as f64)
        ));
    }
    texts.extend(resting::text(matter, pages.shown));
    if let Some(repair) = run.quality.repairs.first() {
        texts.push(format!(
            "One measurement narrows the range by {} %: {} of well {} ({}).",
            percent(repair.span_l, run.quality.span_l),
            quality::names(&repair.fields).replace('_', " "),
            shortened_within(&repair.well, LETTERS),
            shortened_within(&quality::place_words(repair), LETTERS)
        ));
    }
    let case = &matter.plan.cases[pages.shown];
    if case.stock.prepared.share_left < 1.0 {
        texts.push(format!(
            "Strength of the stock is reckoned from its age and heat ({} of the label's left): a test settles it.",
            choice::strength_left(case)
        ));
    }
    texts.extend(defaults::in_brief(matter, LETTERS));
    texts
}

fn risks(pages: &Pages<'_>) -> Vec<String> {
    let matter = pages.matter;
    let mut texts = Vec::new();
    if let Some((entry, count)) = site::reported(matter).next() {
        let report = if count == 1 { "reports" } else { "report" };
        let told = site::told(entry, count);
        texts.push(format!("{} {report} {}. {told}", counted(count, "visit", "visits"), entry.what));
    }
    let toward = raised(matter.run, pages.shown, Caution::NeutralizeBeforeStream);
    if toward > 0 {
        let agent = matter.run.totals.overall(pages.shown).neutralizer_first_kg();
        texts.push(format!(
            "Flush water of {} goes toward a stream or a storm drain: {} of neutralizer must be there, and the water tested, \
             before it runs.",
            counted(toward, "visit", "visits"),
            words(pages.mass, agent)
        ));
    }
    texts.extend(outsized::first_in_brief(matter, SEVERAL));
    let slow = format!(
        "end above pH {}, where chlorine works slowly: allow a longer contact time. Acid never meets hypochlorite.",
        SLOW_PH.value
    );
    for (caution, words) in [
        (
            Caution::ConfinedSpace,
            "are at dug or bored wells, spring boxes or well pits, where gas, lack of air and collapse kill: never enter one.",
        ),
        (Caution::PhAboveEight, slow.as_str()),
        (Caution::RouteUnknown, "have no known place for the flush water: it is counted as a stream."),
    ] {
        let count = raised(matter.run, pages.shown, caution);
        if count > 0 {
            texts.push(format!("{} {words}", counted(count, "visit", "visits")));
        }
    }
    texts
}

/// A sentence with its end.
fn ended(text: &str) -> String {
    if text.ends_with(['.', '?', '!', '…']) { text.to_owned() } else { format!("{text}.") }
}

fn decisions(pages: &Pages<'_>) -> Vec<String> {
    let matter = pages.matter;
    let mut texts = Vec::new();
    match choice::cheapest(&pages.offers) {
        Some(best) => texts.push(format!(
            "Release the order of \"{}\" ({}{}), or choose another scenario below.",
            named(pages, best.scenario),
            money(best.cost, pages.currency()),
            if best.scenario == 0 { "" } else { "; the Order sheet shows it once it is picked on the Summary" }
        )),
        None => texts.push(
            "Find a product that can be had, is priced, and is not spent: no scenario can be released.".to_owned(),
        ),
    }
    let open = matter.causes.open_questions();
    if let Some(first) = open.first().and_then(|at| matter.causes.questions().get(*at)) {
        texts.push(format!(
            "Who answers {} about the lists: that frees {} of {} held back. First: {}",
            counted(open.len() as u64, "question", "questions"),
            matter.causes.answerable(),
            counted(matter.run.held_back, "visit", "visits"),
            ended(&shortened(&first.asks(matter.causes), QUESTION))
        ));
    } else if matter.run.held_back > 0 {
        texts.push(format!(
            "Who measures what {} lack.",
            counted(matter.run.held_back, "held-back visit", "held-back visits")
        ));
    }
    let lower = pages.offers.iter().filter(|offer| offer.why_not == Some(WhyNot::AimsLower));
    let lower = lower.filter_map(|offer| Some((offer.cost?, offer.scenario))).min_by(|a, b| a.0.total_cmp(&b.0));
    if let (Some((cost, scenario)), Some(best)) = (lower, choice::cheapest(&pages.offers).and_then(|best| best.cost))
        && cost < best
    {
        texts.push(format!(
            "Whether the authority allows a lower target: \"{}\" would cost {}.",
            named(pages, scenario),
            money(Some(cost), pages.currency())
        ));
    }
    texts.extend(crew_days::to_decide(matter, pages.shown));
    let sums = matter.run.totals.overall(pages.shown);
    if sums.repeat > 0.0 {
        let shown = pages.bought_by(pages.shown);
        texts.push(format!(
            "Whether to buy the repeat round now ({} of product for about {}), or once the first samples are in.",
            words(shown, sums.repeat),
            counted(sums.repeat_visits.round() as u64, "visit", "visits")
        ));
    }
    texts
}
