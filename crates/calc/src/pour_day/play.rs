//! One made-up day after the other: trucks, one bay, one hopper.
//!
//! Every truck has exactly one thing that happens next to it. The earliest of them happens, and gives the
//! truck its next one; as bay and hopper take trucks in the order they come, that is all there is to know.
//!
//! Units: seconds after now.
//! Never: let the number of trucks change the draws of a load.

use super::duration::{Learned, Today};
use super::seen::{SoFar, UnderWay};
use super::{DayError, PourDay, Sample, WorkAfter};
use crate::chance::Draws;

/// How a day went.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Played {
    pub(super) in_time: bool,
    pub(super) finish: f64,
    pub(super) oldest: f64,
    pub(super) longest_gap: f64,
}

/// Everything every day begins with.
pub(super) struct Stage<'a> {
    plan: &'a PourDay,
    learned: [Learned; 9],
    under_way: Vec<UnderWay>,
    ended: Vec<f64>,
    oldest: Option<f64>,
    batched_last: Option<f64>,
    trucks: usize,
}

/// The nine durations of a day, in the order of [`super::Durations`].
struct Round {
    bay: Today,
    haul: Today,
    test: Today,
    position: Today,
    discharge: Today,
    back: Today,
    section: Today,
    lift: Today,
    finish: Today,
}

/// What a load will take, whichever truck brings it.
#[derive(Clone, Copy)]
struct Load {
    bay: f64,
    haul: f64,
    test: f64,
    position: f64,
    discharge: f64,
    back: f64,
}

/// What happens next to a truck.
#[derive(Clone, Copy)]
struct Next {
    at: f64,
    what: What,
}

#[derive(Clone, Copy)]
enum What {
    /// Comes to the plant.
    Plant,
    /// Comes to the site: its place in the queue.
    Site { load: usize },
}

impl Round {
    /// What a load will take. Always as many draws, so that they stay in step between two plans.
    fn load(&self, draws: &mut Draws) -> Load {
        Load {
            bay: self.bay.draw(draws),
            haul: self.haul.draw(draws),
            test: self.test.draw(draws),
            position: self.position.draw(draws),
            discharge: self.discharge.draw(draws),
            back: self.back.draw(draws),
        }
    }

    /// Seconds of work at the hopper after a load of the pour.
    fn work_after(&self, load: usize, work: &[WorkAfter], draws: &mut Draws) -> f64 {
        let mut seconds = 0.0;
        for one in work.iter().filter(|one| one.load as usize == load) {
            seconds += (0..one.sections).map(|_| self.section.draw(draws)).sum::<f64>();
            seconds += (0..one.lifts).map(|_| self.lift.draw(draws)).sum::<f64>();
        }
        seconds
    }
}

impl<'a> Stage<'a> {
    pub(super) fn set(plan: &'a PourDay, so_far: &SoFar<'_>, trucks: u32) -> Result<Self, DayError> {
        so_far.check()?;
        let loads = so_far.loads.len();
        let oldest = so_far.oldest();
        match (loads, plan.loads_left, trucks, oldest) {
            (0, 0, _, _) => return Err(DayError::NoLoad),
            (_, 1.., 0, _) => return Err(DayError::NoTruck),
            (1.., _, _, None) => return Err(DayError::NoBatchTime),
            _ => {}
        }
        Ok(Stage {
            plan,
            learned: learned(plan, so_far)?,
            under_way: so_far.under_way()?,
            ended: so_far.ended(),
            oldest,
            batched_last: so_far.batched_last(),
            trucks: trucks as usize,
        })
    }

    pub(super) fn days(&self, sample: Sample) -> impl Iterator<Item = Played> + '_ {
        let mut draws = Draws::seeded(sample.seed);
        (0..sample.days).map(move |_| Day::begin(self, &mut draws).played_out())
    }

    /// Whether a load that had not ended by now is tested before it goes in.
    fn is_tested(&self, load: usize) -> bool {
        let every = self.plan.test_every as usize;
        every > 0 && (self.ended.len() + load).is_multiple_of(every)
    }

    /// Loads of the whole pour.
    fn total(&self) -> usize {
        self.ended.len() + self.under_way.len() + self.plan.loads_left as usize
    }
}

fn learned(plan: &PourDay, so_far: &SoFar<'_>) -> Result<[Learned; 9], DayError> {
    let of = &plan.durations;
    let from = |duration: &super::HowLong, seen: &[quantity::Span]| duration.learned(seen, plan.plan_worth);
    Ok([
        from(&of.bay, &[])?,
        from(&of.haul, &so_far.hauls())?,
        from(&of.test, &[])?,
        from(&of.position, &[])?,
        from(&of.discharge, &so_far.discharges())?,
        from(&of.back, &[])?,
        from(&of.section, so_far.sections)?,
        from(&of.lift, so_far.lifts)?,
        from(&of.finish, &[])?,
    ])
}

/// A day while it is played.
struct Day<'s> {
    stage: &'s Stage<'s>,
    /// Loads under way first, then those to come, in the order they are batched.
    loads: Vec<Load>,
    /// Work after each load of the pour, in the order of discharge.
    work: Vec<f64>,
    finish: f64,
    deadline_after_batch: f64,
    trucks: Vec<Next>,
    /// Trucks that leave the round when they come to the plant.
    leaving: usize,
    batched: usize,
    discharged: usize,
    bay_free: f64,
    hopper_free: f64,
    last_batch: Option<f64>,
    last_end: Option<f64>,
    oldest: Option<f64>,
    longest_gap: f64,
}

impl<'s> Day<'s> {
    fn begin(stage: &'s Stage<'s>, draws: &mut Draws) -> Self {
        let [bay, haul, test, position, discharge, back, section, lift, finish] =
            stage.learned.each_ref().map(|one| one.on_a_day(draws));
        let round = Round { bay, haul, test, position, discharge, back, section, lift, finish };
        let life = &stage.plan.life;
        let deadline = life.value.to_seconds() + life.standard_error.to_seconds() * draws.normal();
        let finish = round.finish.draw(draws);
        let loads_here = stage.total() - stage.ended.len();
        let work = (1..=stage.total()).map(|load| round.work_after(load, &stage.plan.work, draws)).collect();
        let loads = (0..loads_here).map(|_| round.load(draws)).collect();
        let mut day = Day {
            stage,
            loads,
            work,
            finish,
            deadline_after_batch: deadline,
            trucks: Vec::with_capacity(stage.trucks + stage.under_way.len()),
            leaving: 0,
            batched: stage.under_way.len(),
            discharged: stage.ended.len(),
            bay_free: 0.0,
            hopper_free: 0.0,
            last_batch: stage.batched_last,
            last_end: stage.ended.last().copied(),
            oldest: stage.oldest,
            longest_gap: 0.0,
        };
        day.place_trucks(&round, draws);
        day
    }

    /// Puts every truck where it is by now.
    fn place_trucks(&mut self, round: &Round, draws: &mut Draws) {
        if let Some(last) = self.last_batch {
            self.bay_free = last + round.bay.draw_beyond(-last, draws);
        }
        if let Some(end) = self.last_end {
            self.hopper_free = end + self.work[self.discharged - 1];
        }
        let stage = self.stage;
        for (load, place) in stage.under_way.iter().enumerate() {
            let next = self.next_of(load, *place, round, draws);
            self.trucks.push(next);
        }
        self.leaving = self.trucks.len().saturating_sub(stage.trucks);
        let returning = stage.trucks.saturating_sub(self.trucks.len()).min(stage.ended.len());
        for end in stage.ended.iter().rev().take(returning) {
            // Only the way back is known of these; a truck that had to be back by now waits at the plant.
            let at = (end + round.back.draw(draws)).max(0.0);
            self.trucks.push(Next { at, what: What::Plant });
        }
        while self.trucks.len() < stage.trucks {
            self.trucks.push(Next { at: 0.0, what: What::Plant });
        }
    }

    /// What happens next to the truck of a load under way.
    fn next_of(&mut self, load: usize, place: UnderWay, round: &Round, draws: &mut Draws) -> Next {
        match place {
            UnderWay::OnTheRoad { batched } => {
                let at = batched + round.haul.draw_beyond(-batched, draws);
                Next { at, what: What::Site { load } }
            }
            UnderWay::OnSite { arrived } => Next { at: arrived, what: What::Site { load } },
            UnderWay::Discharging { since } => {
                let end = since + round.discharge.draw_beyond(-since, draws);
                self.ends(end);
                Next { at: end + self.loads[load].back, what: What::Plant }
            }
        }
    }

    fn played_out(mut self) -> Played {
        let total = self.stage.total();
        while self.discharged < total {
            let truck = self.earliest();
            let Next { at, what } = self.trucks[truck];
            match what {
                What::Plant => self.at_plant(truck, at),
                What::Site { load } => self.at_site(truck, load, at),
            }
        }
        let last = self.last_end.unwrap_or(0.0);
        let finish = (last + self.work.last().copied().unwrap_or(0.0) + self.finish).max(0.0);
        let oldest = finish - self.oldest.unwrap_or(0.0);
        Played { in_time: oldest <= self.deadline_after_batch, finish, oldest, longest_gap: self.longest_gap }
    }

    fn earliest(&self) -> usize {
        let mut best = 0;
        for (truck, next) in self.trucks.iter().enumerate().skip(1) {
            if next.at < self.trucks[best].at {
                best = truck;
            }
        }
        best
    }

    fn at_plant(&mut self, truck: usize, at: f64) {
        if self.batched == self.loads.len() || self.leaving > 0 {
            self.leaving = self.leaving.saturating_sub(1);
            self.trucks[truck].at = f64::INFINITY;
            return;
        }
        let headway = self.stage.plan.headway.map_or(0.0, |headway| headway.to_seconds());
        let called = self.last_batch.map_or(at, |last| last + headway);
        let batched = at.max(self.bay_free).max(called);
        let (index, load) = (self.batched, self.loads[self.batched]);
        self.bay_free = batched + load.bay;
        self.last_batch = Some(batched);
        self.oldest.get_or_insert(batched);
        self.batched += 1;
        self.trucks[truck] = Next { at: batched + load.haul, what: What::Site { load: index } };
    }

    /// Trucks go in as they came; the test goes on while the truck waits, and a truck it holds, holds the others.
    fn at_site(&mut self, truck: usize, load: usize, at: f64) {
        let Load { test, position, discharge, back, .. } = self.loads[load];
        let tested = if self.stage.is_tested(load) { at + test } else { at };
        let start = tested.max(self.hopper_free) + position;
        if let Some(end) = self.last_end {
            self.longest_gap = self.longest_gap.max(start - end);
        }
        let end = start + discharge;
        self.ends(end);
        self.trucks[truck] = Next { at: end + back, what: What::Plant };
    }

    /// A discharge ends; the hopper is free after the work that follows it.
    fn ends(&mut self, end: f64) {
        self.last_end = Some(end);
        self.hopper_free = end + self.work[self.discharged];
        self.discharged += 1;
    }
}
