//! Who makes which visit when: visits that can be planned, given to the days of the campaign's crews.
//!
//! By depot; within it along a curve that goes from neighbor to neighbor, where the lists give positions, then in the order of the
//! lists. Crews of the depot take them in pieces of a day's visits, the earliest day first; crews that load anywhere take what is
//! left, a depot a day, in the order of the depots' names. The same lists and crews give the same days, whatever was asked for
//! beside. It knows places and counts, and computes no amount.

mod curve;

use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::sync::Arc;

use crate::field::names::{is_same, spellings_that_count};
use crate::scenario::crew::{CrewLine, WorkDay};
use crate::visit::{CrewDay, Turn};

/// A visit that waits for a day.
#[derive(Debug, Clone, Copy)]
struct Waiting {
    /// Its place among all visits.
    visit: u64,
    /// Its depot, by its place among the names.
    depot: usize,
    /// Degrees north and east.
    place: Option<(f64, f64)>,
}

/// The visits that wait for a day, taken in reading order.
#[derive(Debug, Default)]
pub struct Gathered {
    /// Names of depots as typed, each with its place among them and how many visits have it.
    depots: BTreeMap<String, (usize, u64)>,
    waiting: Vec<Waiting>,
}

impl Gathered {
    /// Takes a visit by its place in reading order; its depot as typed, and degrees north and east where they are known.
    pub fn take(&mut self, visit: u64, depot: &str, place: Option<(f64, f64)>) {
        let depot = depot.trim();
        let next = self.depots.len();
        let at = match self.depots.get_mut(depot) {
            Some((at, count)) => {
                *count += 1;
                *at
            }
            None => {
                self.depots.insert(depot.to_owned(), (next, 1));
                next
            }
        };
        self.waiting.push(Waiting { visit, depot: at, place });
    }
}

/// Who makes which visit when.
#[derive(Debug, Default)]
pub struct Schedule {
    /// Days on which a crew goes out, by crew and day.
    pub days: Vec<Arc<CrewDay>>,
    /// Visits that have a day, in their order: the place of the day, and the stop.
    turns: Vec<(u64, usize, u32)>,
    /// Visits that can be planned.
    pub planned: u64,
    /// Those for which no crew has a day, by depot.
    pub without_day: BTreeMap<String, u64>,
    /// Crews that go out on no day, with the depot that they load at.
    pub idle: Vec<(String, Option<String>)>,
    /// Days that crews which load at one depot alone have left, where visits of other depots have none.
    pub spare: Vec<Spare>,
}

/// What a crew that loads at one depot alone could still do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Spare {
    /// The crew.
    pub crew: String,
    /// The depot that it loads at.
    pub depot: String,
    /// Days that it does not go out; as many as are wanted where its days are not stated.
    pub days: Option<u32>,
}

/// A crew on a day, with the visits that it makes.
struct Outing {
    crew: usize,
    number: u32,
    day: WorkDay,
    depot: String,
    visits: Vec<u64>,
}

impl Schedule {
    /// Gives visits to crews; `stated` are the depots that the campaign names.
    pub fn of(crews: &[CrewLine], gathered: Gathered, stated: &[String]) -> Self {
        let planned = gathered.waiting.len() as u64;
        let mut queues = queues(gathered, stated);
        let mut outings = Vec::new();
        for (depot, queue) in &mut queues {
            let mut days = Ahead::of(crews, |crew| crew.depot.as_ref().is_some_and(|stated| is_same(stated, depot)));
            send(depot, queue, &mut days, &mut outings);
        }
        let mut days = Ahead::of(crews, |crew| crew.depot.is_none());
        for (depot, queue) in &mut queues {
            send(depot, queue, &mut days, &mut outings);
        }
        let without_day = queues.into_iter().filter(|(_, queue)| !queue.is_empty());
        let without_day = without_day.map(|(depot, queue)| (depot, queue.len() as u64)).collect();
        outings.sort_by_key(|outing| (outing.crew, outing.number));
        let is_idle = |at: &usize| outings.iter().all(|outing| outing.crew != *at);
        let named = |at: usize| (crews[at].name.clone(), crews[at].depot.clone());
        let idle = (0..crews.len()).filter(is_idle).map(named).collect();
        let spare = spare(crews, &outings, &without_day);
        let mut turns = Vec::with_capacity(usize::try_from(planned).unwrap_or_default());
        let mut days = Vec::with_capacity(outings.len());
        for (place, outing) in outings.into_iter().enumerate() {
            turns.extend((1..).zip(&outing.visits).map(|(stop, visit)| (*visit, place, stop)));
            let crew = &crews[outing.crew];
            days.push(Arc::new(CrewDay {
                place,
                crew: crew.name.clone(),
                day: outing.day.to_string(),
                date: outing.day.date(),
                number: outing.number,
                depot: outing.depot,
                stops: outing.visits.len() as u32,
            }));
        }
        turns.sort_unstable();
        Self { days, turns, planned, without_day, idle, spare }
    }

    /// The turn of a visit, by its place among all visits.
    pub fn turn(&self, visit: u64) -> Option<Turn> {
        let at = self.turns.binary_search_by_key(&visit, |(visit, ..)| *visit).ok()?;
        let (_, day, stop) = *self.turns.get(at)?;
        Some(Turn { of: self.days.get(day)?.clone(), stop })
    }

    /// Visits for which no crew has a day.
    pub fn left(&self) -> u64 {
        self.without_day.values().sum()
    }

    /// Crews that go out on a day at least.
    pub fn crews_out(&self) -> usize {
        self.days.iter().map(|day| &day.crew).collect::<BTreeSet<_>>().len()
    }
}

/// Crews that are bound to a depot whose visits all have a day, with the days that they have left; none where every visit has one.
fn spare(crews: &[CrewLine], outings: &[Outing], without_day: &BTreeMap<String, u64>) -> Vec<Spare> {
    let bound = crews.iter().enumerate().filter_map(|(at, crew)| Some((at, crew, crew.depot.as_ref()?)));
    let left = bound.filter(|(_, _, depot)| without_day.keys().any(|open| !is_same(open, depot)));
    left.map(|(at, crew, depot)| {
        let out = outings.iter().filter(|outing| outing.crew == at).count() as u32;
        let days = crew.days.map(|days| days.saturating_sub(out));
        Spare { crew: crew.name.clone(), depot: depot.clone(), days }
    })
    .filter(|spare| spare.days != Some(0))
    .collect()
}

/// The visits of each depot, in the order in which they are made; those without a depot last.
fn queues(gathered: Gathered, stated: &[String]) -> Vec<(String, VecDeque<u64>)> {
    let Gathered { depots, waiting } = gathered;
    let counts = depots.iter().map(|(name, (_, count))| (name.clone(), *count)).collect();
    let counted_as = spellings_that_count(&counts, stated);
    let mut names = vec![""; depots.len()];
    for (name, (at, _)) in &depots {
        names[*at] = counted_as.get(name).unwrap_or(name);
    }
    let mut by_depot: BTreeMap<(bool, &str), Vec<Waiting>> = BTreeMap::new();
    for visit in waiting {
        let name = names[visit.depot];
        by_depot.entry((name.is_empty(), name)).or_default().push(visit);
    }
    let in_order = |visits: Vec<Waiting>| {
        let along = curve::along(&visits.iter().map(|visit| visit.place).collect::<Vec<_>>());
        let mut order: Vec<_> = along.into_iter().zip(&visits).map(|(along, of)| (along, of.visit)).collect();
        order.sort_unstable_by_key(|(along, visit)| (along.is_none(), *along, *visit));
        order.into_iter().map(|(_, visit)| visit).collect()
    };
    by_depot.into_iter().map(|((_, name), visits)| (name.to_owned(), in_order(visits))).collect()
}

/// Gives the visits of a depot to the days ahead, until none is left of either.
fn send(depot: &str, queue: &mut VecDeque<u64>, ahead: &mut Ahead<'_>, outings: &mut Vec<Outing>) {
    while !queue.is_empty() {
        let Some((crew, number, day)) = ahead.next() else { return };
        let most = queue.len().min(ahead.crews[crew].visits_per_day as usize);
        outings.push(Outing { crew, number, day, depot: depot.to_owned(), visits: queue.drain(..most).collect() });
    }
}

/// The days of some crews, the earliest first; of one day the crews in their order.
struct Ahead<'a> {
    crews: &'a [CrewLine],
    days: BTreeSet<(u64, usize, u32)>,
}

impl<'a> Ahead<'a> {
    fn of(crews: &'a [CrewLine], goes: impl Fn(&CrewLine) -> bool) -> Self {
        let going = crews.iter().enumerate().filter(|(_, crew)| goes(crew));
        Self { crews, days: going.map(|(at, crew)| (crew.begins, at, 1)).collect() }
    }

    /// The next day: of which crew, its number, and when it is.
    fn next(&mut self) -> Option<(usize, u32, WorkDay)> {
        loop {
            let (after, crew, number) = self.days.pop_first()?;
            if let Some(day) = self.crews[crew].day(number) {
                self.days.insert((after + 1, crew, number.saturating_add(1)));
                return Some((crew, number, day));
            }
        }
    }
}
