//! One visit as its card needs it: the well, how it is treated, what it needs, in which language.

use std::ops::Deref;

use chrono::NaiveDate;

use super::amounts::Amounts;
use super::from_stock::InPlace;
use super::phrases::Phrase;
use super::words::{Fill, Terms, Words};
use crate::document::card::{Part, Room, Sentence, Size};
use crate::field::WellType;
use crate::field::rules::UnitSystem;
use crate::hazard::Hazard;
use crate::kernel::constants::CHLORATE_GUIDELINE;
use crate::kernel::measure::{Measured, weigh};
use crate::kernel::moving::is_fed;
use crate::kernel::neutralizer::Agent;
use crate::kernel::requirement::Requirement;
use crate::kernel::top_up::measured_top_up;
use crate::quantity::{AgentMass, ChlorineConcentration};
use crate::relation::Given;
use crate::report::defaults::{Taken, Treated};
use crate::visit::Turn;

/// A visit that is planned.
#[derive(Debug, Clone, Copy)]
pub struct Job<'a> {
    /// The well, how it is treated, with what, and what it needs.
    pub treated: Treated<'a>,
    /// What nobody gave for it.
    pub taken: &'a [Taken],
    /// Headings of the well's carried cells.
    pub carried: &'a [String],
    /// The phrases and terms of the language that the crew reads.
    pub words: &'a Words,
    /// The crew's day that it is made on, and its stop there.
    pub turn: Option<&'a Turn>,
    /// Older stock that may be poured in place, with what the well needs of it.
    pub in_place: &'a [InPlace<'a>],
}

impl<'a> Deref for Job<'a> {
    type Target = Treated<'a>;

    fn deref(&self) -> &Treated<'a> {
        &self.treated
    }
}

/// What the list reports that stops a crew until somebody has settled it.
const STOPS: [Hazard; 6] =
    [Hazard::Electric, Hazard::Gas, Hazard::Fuel, Hazard::Chemicals, Hazard::UnderWater, Hazard::Damaged];

impl<'a> Job<'a> {
    /// How its crew measures.
    pub(super) fn amounts(&self) -> Amounts<'a> {
        Amounts { words: self.words, system: self.practice.system }
    }

    /// The same visit with other stock.
    pub(super) fn of<'b>(&'b self, other: &'b InPlace<'b>) -> Job<'b> {
        let given = Given { stock: other.stock, need: &other.need, ..self.treated.given };
        Job { treated: Treated { given, ..self.treated }, in_place: &[], ..*self }
    }

    /// Whether it is a spring that is fed all through the contact time.
    pub(super) fn is_fed(&self) -> bool {
        is_fed(self.well, self.practice)
    }

    /// Whether it is a spring.
    pub(super) fn is_spring(&self) -> bool {
        self.well.well_type == WellType::SpringBox
    }

    /// Whether it is open from above and wide: treated by hand from the rim.
    pub(super) fn is_open(&self) -> bool {
        matches!(self.well.well_type, WellType::Dug | WellType::SpringBox) || self.need.wash.is_some()
    }

    /// How much of a page its card takes.
    pub(super) fn size(&self) -> Size {
        if self.is_open() || self.need.emptyings.is_some() { Size::Full } else { Size::Half }
    }

    /// What pipes and tank leave of the chlorine, where that is less than the target: the strip goes into the well then.
    pub(super) fn spread_below_target(&self) -> Option<ChlorineConcentration> {
        self.need.dose_if_spread.filter(|spread| *spread < self.practice.target)
    }

    /// Whether the strip can be held against the target at the taps: the water of pipes and tank is in the amount, or thins it by no
    /// more than the amount has over.
    pub(super) fn counts_plumbing(&self) -> bool {
        let counted = self.well.plumbing_volume.is_some() || self.practice.plumbing_volume.value > 0.0;
        counted || self.need.dose_if_spread.is_some()
    }

    /// Whether something is reported that stops a crew.
    pub(super) fn stops(&self) -> bool {
        STOPS.iter().any(|hazard| self.well.hazards.has(*hazard))
    }

    /// That nothing may be poured yet, where that is so: read before any amount, and after it.
    pub fn stopped(&self) -> Option<String> {
        let says = |phrase| self.words.say(phrase);
        self.stops().then(|| format!("{}. {}", says(Phrase::CardStopped), says(Phrase::CardSettle)))
    }

    /// The product to measure out.
    pub(super) fn poured(&self) -> String {
        self.amounts().measured(self.need.measured_amount, self.need.measured_unit)
    }

    /// What is added where a strip reads too little.
    pub(super) fn top_up(&self) -> String {
        let more = measured_top_up(self.need.treated_volume, self.practice, self.stock.measured_for(self.practice));
        more.map_or_else(String::new, |(amount, unit)| self.amounts().measured(amount, unit))
    }

    /// The agent with its amount, where something is to be neutralized.
    pub(super) fn agent(&self) -> Option<(Agent, String, f64)> {
        let (agent, weight, kilograms) = agent_of(self.need, self.practice.system)?;
        Some((agent, self.amounts().measured(weight.amount, weight.unit), kilograms))
    }

    /// The agent that leaves no acid, where the other one does, with its amount.
    pub(super) fn agent_instead(&self) -> Option<(Agent, String, f64)> {
        let (agent, weight, kilograms) = agent_instead_of(self.need, self.practice.system)?;
        Some((agent, self.amounts().measured(weight.amount, weight.unit), kilograms))
    }

    /// Chlorate that the product brings, where that is more than drinking water may hold.
    pub(super) fn chlorate(&self) -> Option<String> {
        // Older stock brings more of it.
        let of_stock = self.in_place.iter().filter_map(|other| other.need.chlorate);
        let all = std::iter::once(self.need.chlorate?).chain(of_stock);
        let brought = all.reduce(|most, one| if most >= one { most } else { one })?;
        (brought.milligrams_per_liter() > CHLORATE_GUIDELINE.value).then(|| self.amounts().chlorate(brought))
    }

    /// A date as planned with room for another one; where none is planned, room alone.
    pub(super) fn moment(&self, planned: Option<NaiveDate>) -> Fill {
        let Some(date) = planned else { return MOMENT };
        let fills = vec![("planned", figure(date.to_string())), ("hour", READING), ("moment", MOMENT)];
        Fill::Sentence(self.words.sentence(Phrase::CardPlanned, fills))
    }

    /// An agent's name in the crew's language, with what it is called in shops.
    pub(super) fn agent_name(&self, agent: Agent) -> &'a str {
        self.words.term(Terms::Agent, agent.name())
    }

    /// The product's name as the campaign states it, to be put into a phrase.
    pub(super) fn product_fill(&self) -> Fill {
        Fill::Text(self.product.name.clone())
    }
}

/// The agent that a requirement asks for, as it is weighed, and in kilograms.
pub(super) fn agent_of(need: &Requirement, system: UnitSystem) -> Option<(Agent, Measured<f64>, f64)> {
    weighed(need.neutralizer?, need.neutralizer_mass, system)
}

/// The agent that leaves no acid, where the other one does, the same way.
pub(super) fn agent_instead_of(need: &Requirement, system: UnitSystem) -> Option<(Agent, Measured<f64>, f64)> {
    weighed(need.neutralizer_instead?, need.neutralizer_instead_mass?, system)
}

fn weighed(agent: Agent, mass: AgentMass, system: UnitSystem) -> Option<(Agent, Measured<f64>, f64)> {
    let weight = weigh(mass.kilograms(), system)?;
    // The unit of a weight is one of the unit table.
    let unit = crate::quantity::unit::by_symbol(weight.unit)?;
    let kilograms = unit.to_si(weight.amount);
    Some((agent, weight, kilograms))
}

/// Steps with what their phrases need, gathered in order.
pub(super) struct Steps<'a> {
    pub(super) job: &'a Job<'a>,
    said: Vec<Sentence>,
}

impl<'a> Steps<'a> {
    pub(super) fn of(job: &'a Job<'a>) -> Self {
        Self { job, said: Vec::new() }
    }

    pub(super) fn said(self) -> Vec<Sentence> {
        self.said
    }

    pub(super) fn say(&mut self, phrase: Phrase, fills: Vec<(&'static str, Fill)>) {
        self.said.push(self.job.words.sentence(phrase, fills));
    }

    /// Words that belong to the step before.
    pub(super) fn add(&mut self, phrase: Phrase, fills: Vec<(&'static str, Fill)>) {
        let more = self.job.words.sentence(phrase, fills);
        if let Some(last) = self.said.last_mut() {
            last.0.push(Part::Text(" ".to_owned()));
            last.0.extend(more.0);
        }
    }
}

/// Room for a reading.
pub(super) const READING: Fill = Fill::Room(Room::Reading);
/// Room for a date and an hour.
const MOMENT: Fill = Fill::Room(Room::Moment);
/// Room for a few words.
pub(super) const FOUND: Fill = Fill::Room(Room::Words);

/// A figure that stands out.
pub(super) fn figure(text: impl Into<String>) -> Fill {
    Fill::Figure(text.into())
}

/// Words set in as they are.
pub(super) fn text(words: impl Into<String>) -> Fill {
    Fill::Text(words.into())
}
