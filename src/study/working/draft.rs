//! Working of what pulls, what holds back, what is left, how fast the gas is.

use super::{Inputs, Spot, Term, Total, Working};
use crate::analysis::conditions::{DraftState, LEAST_SUCTION};
use crate::analysis::draft::Item;
use crate::physics::air::{DRY_AIR, PRESSURE_AT_ALTITUDE};
use crate::physics::convection::RICHARDSON;
use crate::physics::gas::DENSITY;
use crate::physics::pressure::{COLUMN_PULL, FLOW_SPEED, LOCAL_LOSS, MARGIN, ORIFICE_AREA};
use crate::rules::{Day, Start, WANTED};
use crate::units::measure;

impl Inputs<'_> {
    /// Local air pressure (Pa).
    pub(super) fn pressure(&self, to: &mut Working) -> f64 {
        to.put(&PRESSURE_AT_ALTITUDE, Spot::Site, &[self.design.site.altitude])
    }

    /// Density of air (kg/m3) at a temperature (K).
    pub(super) fn air(&self, to: &mut Working, spot: Spot, temperature: f64) -> f64 {
        let pressure = self.state.stream.pressure;
        to.put(&DENSITY, spot, &[pressure, DRY_AIR.molar_mass(), temperature])
    }

    /// Density of gas (kg/m3) at a temperature (K).
    fn gas(&self, to: &mut Working, spot: Spot, temperature: f64) -> f64 {
        let stream = &self.state.stream;
        to.put(&DENSITY, spot, &[stream.pressure, stream.gas.molar_mass(), temperature])
    }

    pub(super) fn draft(&self, to: &mut Working) {
        self.pressure(to);
        let outdoors = self.air(to, Spot::Outdoors, self.design.site.outdoor_temperature);
        let mut terms = Vec::new();
        let mut column = |to: &mut Working, spot: Spot, rise: f64, density: f64| {
            let pull = to.put(&COLUMN_PULL, spot, &[rise, outdoors, density]);
            terms.push((Term::At(spot), pull));
        };
        let state = &self.state;
        let segments = &self.path.segments;
        let first = segments.first().map_or(0.0, |segment| segment.rise);
        let density = self.gas(to, Spot::Firebox, state.firebox.temperature);
        column(to, Spot::Firebox, self.design.firebox.height + first, density);
        let rises = segments.iter().enumerate().skip(1).zip(&state.way.passages);
        for ((index, segment), before) in rises {
            if segment.rise.abs() > 0.0 {
                let density = self.gas(to, Spot::Into(index), before.outlet);
                column(to, Spot::Into(index), segment.rise, density);
            }
        }
        let chimney = &self.design.chimney;
        let outside = chimney.outdoor_length;
        let indoors = chimney.mouth_height - self.path.exit_height - outside;
        let flue = &state.flue;
        column(to, Spot::ChimneyIndoors, indoors, flue.indoors.mean_density);
        if 0.0 < outside {
            column(to, Spot::ChimneyOutdoors, outside, flue.outdoors.mean_density);
        }
        to.sum(Total::Draft, measure::PRESSURE, terms);
    }

    pub(super) fn losses(&self, to: &mut Working) {
        self.pressure(to);
        let mut terms = Vec::new();
        let firebox = &self.design.firebox;
        let state = &self.state;
        let room = self.air(to, Spot::Room, self.design.site.room_temperature);
        let values =
            [firebox.inlet_coefficient, state.burn.air_flow(), firebox.inlet_area, room];
        terms.push((Term::Item(Item::Inlet), to.put(&LOCAL_LOSS, Spot::Inlet, &values)));
        self.turns(to, &mut terms);
        let chimney = &self.design.chimney;
        let mouth = self.gas(to, Spot::Mouth, state.flue.outdoors.outlet);
        let values = [chimney.mouth_coefficient, state.stream.mass_flow, chimney.area(), mouth];
        terms.push((Term::Item(Item::Mouth), to.put(&LOCAL_LOSS, Spot::Mouth, &values)));
        for item in [
            Item::RunFriction,
            Item::ChimneyFriction,
            Item::Acceleration,
            Item::HouseSuction,
            Item::Wind,
        ] {
            terms.push((Term::Item(item), self.item(item)));
        }
        to.sum(Total::Losses, measure::PRESSURE, terms);
    }

    /// Hindrance of an item of the ledger (Pa).
    fn item(&self, item: Item) -> f64 {
        let entries = &self.analysis.height_of_fire.ledger;
        entries.iter().filter(|entry| entry.item == item).map(|entry| -entry.pascals).sum()
    }

    fn turns(&self, to: &mut Working, terms: &mut Vec<(Term, f64)>) {
        let state = &self.state;
        let flow = state.way.runs_stream.mass_flow;
        let mut gas = state.firebox.temperature;
        let mut area = f64::INFINITY;
        let mut turn = |to: &mut Working, spot, coefficient, narrow: f64, gas| {
            let density = self.gas(to, spot, gas);
            let loss = to.put(&LOCAL_LOSS, spot, &[coefficient, flow, narrow, density]);
            terms.push((Term::At(spot), loss));
        };
        let segments = self.path.segments.iter().enumerate();
        for ((index, segment), passage) in segments.zip(&state.way.passages) {
            let narrow = segment.area.min(area);
            turn(to, Spot::Into(index), segment.turn_coefficient, narrow, gas);
            area = segment.area;
            gas = passage.outlet;
        }
        let narrow = area.min(self.design.chimney.area());
        turn(to, Spot::OutOfRuns, self.path.exit_coefficient, narrow, gas);
    }

    pub(super) fn margin(&self, to: &mut Working) {
        let fire = &self.analysis.height_of_fire;
        to.put(&MARGIN, Spot::Heater, &[fire.draft, fire.losses]);
    }

    /// Draft and losses of a condition that has its own.
    const fn state_of(&self, start: Start, day: Day) -> Option<&DraftState> {
        let conditions = &self.analysis.conditions;
        match (start, day) {
            (Start::Hot, Day::Design) => None,
            (Start::Hot, Day::Mild) => Some(&conditions.mild_day.stated),
            (Start::Cold, Day::Design) => Some(&conditions.cold_start.design_day),
            (Start::Cold, Day::Mild) => Some(&conditions.cold_start.mild_day),
        }
    }

    /// Draft and losses as they are judged (Pa).
    fn as_judged(&self, start: Start, day: Day) -> (f64, f64) {
        if let Some(state) = self.state_of(start, day) {
            return (state.draft, state.losses);
        }
        let fire = &self.analysis.height_of_fire;
        let raise = (LEAST_SUCTION - self.design.site.house_suction).max(0.0);
        (fire.draft, fire.losses + raise)
    }

    pub(super) fn judged(&self, to: &mut Working, start: Start, day: Day) {
        let (draft, losses) = self.as_judged(start, day);
        let stated = self.analysis.height_of_fire.losses;
        if start == Start::Hot && day == Day::Design && stated < losses {
            let raised = (Term::MoreSuction, losses - stated);
            let terms = vec![(Term::Losses, stated), raised];
            to.sum(Total::Losses, measure::PRESSURE, terms);
        }
        to.put(&MARGIN, Spot::Heater, &[draft, losses]);
    }

    pub(super) fn wanted(&self, to: &mut Working, day: Day) {
        let (_, losses) = self.as_judged(Start::Hot, day);
        to.put(&WANTED, Spot::Heater, &[losses]);
    }

    pub(super) fn speed(&self, to: &mut Working, run: usize) {
        let state = &self.state;
        let Some(segment) = self.path.segments.get(run) else { return };
        let before = run.checked_sub(1).and_then(|before| state.way.passages.get(before));
        let gas = before.map_or(state.firebox.temperature, |passage| passage.outlet);
        self.pressure(to);
        let density = self.gas(to, Spot::Into(run), gas);
        let flow = state.way.runs_stream.mass_flow;
        to.put(&FLOW_SPEED, Spot::Run(run), &[flow, segment.area, density]);
    }

    pub(super) fn buoyancy(&self, to: &mut Working, run: usize) {
        let found = self.analysis.height_of_fire.runs.get(run);
        let (Some(found), Some(segment)) = (found, self.path.segments.get(run)) else { return };
        let mean = 0.5 * (found.inlet + found.outlet);
        // The speed rises with the temperature at constant mass flow.
        let speed = found.velocity * mean / found.inlet;
        let values = [mean, found.wall, segment.duct.hydraulic_diameter, speed];
        to.put(&RICHARDSON, Spot::Run(run), &values);
    }

    pub(super) fn air_asked(&self, to: &mut Working) {
        self.pressure(to);
        let outdoors = self.air(to, Spot::Outdoors, self.design.site.outdoor_temperature);
        let values = [self.analysis.height_of_fire.air_flow, outdoors, LEAST_SUCTION];
        to.put(&ORIFICE_AREA, Spot::Inlet, &values);
    }

    pub(super) fn inflow(&self, to: &mut Working) {
        self.pressure(to);
        let density = self.air(to, Spot::Room, self.design.site.room_temperature);
        let air = self.state.burn.air_flow();
        to.put(&FLOW_SPEED, Spot::Inlet, &[air, self.design.firebox.inlet_area, density]);
    }
}
