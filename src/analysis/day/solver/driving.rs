//! What burns and flows at an instant, and where the draft drives the gas.

use super::sweep::Swept;
use super::{Rates, Solver};
use crate::analysis::branch;
use crate::analysis::conditions::Weather;
use crate::analysis::day::Without;
use crate::analysis::draft::{Flow, Ledger, ledger};
use crate::analysis::fire::Burn;
use crate::analysis::march::{Passage, Stream};
use crate::analysis::of_passage;
use crate::design::AirControl;
use crate::physics::air::DRY_AIR;
use crate::physics::gas::{Gas, sensible_enthalpy};

/// A flow that stands for none (kg/s).
const LEAST_FLOW: f64 = 1e-5;
/// Excess air beyond which a fire is as good as out (–).
const MOST_EXCESS_AIR: f64 = 1e7;

/// What burns, what flows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Instant {
    /// Gas and flow.
    pub stream: Stream,
    /// Air taken in (kg/s).
    pub air_flow: f64,
    /// Air over stoichiometric air (–); 0 without fire.
    pub excess_air_ratio: f64,
    /// Heat of the wood that burns (W).
    pub wood: f64,
    /// Heat into the firebox: wood less unburned, and air (W).
    pub(super) supply: f64,
    /// Hottest that the fire can be (K).
    pub(super) hottest: f64,
    pub(super) inlet_area: f64,
    pub(super) burning: bool,
}

impl Solver<'_> {
    /// What burns and flows at a rate over the mean rate.
    pub(super) fn instant(&mut self, share: f64) -> Instant {
        let fire = &self.design.fire;
        if share <= 0.0 {
            let flow = self.setup.after_flow.unwrap_or(self.found.flow).max(LEAST_FLOW);
            let room = self.design.site.room_temperature;
            return Instant {
                stream: self.stream(&self.air, flow),
                air_flow: flow,
                excess_air_ratio: 0.0,
                wood: 0.0,
                supply: flow * sensible_enthalpy(&DRY_AIR, room),
                hottest: room,
                inlet_area: fire.after_opening,
                burning: false,
            };
        }
        let mut burn = match fire.air {
            AirControl::Held => self.held,
            AirControl::Draft => self.burn_by_draft(share),
        };
        burn.rate *= share;
        Instant {
            stream: self.stream(&burn.gas, burn.gas_flow().max(LEAST_FLOW)),
            air_flow: burn.air_flow(),
            excess_air_ratio: burn.excess_air_ratio,
            wood: burn.heat(),
            supply: burn.supply(self.design),
            hottest: burn.flame_temperature(self.design.site.room_temperature),
            inlet_area: self.design.firebox.inlet_area,
            burning: true,
        }
    }

    /// The burn whose air is the flow that the draft drives.
    pub(super) fn burn_by_draft(&mut self, share: f64) -> Burn {
        let stoichiometric = self.held.air_flow() / self.held.excess_air_ratio * share;
        if self.found.flow <= 0.0 {
            self.found.flow = stoichiometric * self.design.fire.excess_air_ratio;
        }
        let ratio = (self.found.flow / stoichiometric).min(MOST_EXCESS_AIR);
        Burn::new(self.design, ratio)
    }

    pub(super) const fn stream(&self, gas: &Gas, mass_flow: f64) -> Stream {
        Stream { gas: *gas, mass_flow, pressure: self.pressure, factors: self.setup.factors }
    }

    /// Moves the driven flow toward the balance of draft and losses; whether it is there.
    pub(super) fn drive(&mut self, instant: &Instant, swept: &Swept) -> bool {
        let (pull, held) = self.moving(&self.ledger(instant, swept));
        let at = libm::log(instant.air_flow);
        let open = instant.inlet_area > 0.0 && pull > 0.0 && held > 0.0;
        let imbalance = if open { libm::log(pull / held) } else { -f64::INFINITY };
        let (next, there) = self.seeking_flow.next(at, imbalance);
        self.found.flow = libm::exp(next).max(LEAST_FLOW);
        there || (imbalance < 0.0 && instant.air_flow < 1.01 * LEAST_FLOW)
    }

    /// Parts the gas anew between runs and bleed slot; whether it was parted so already.
    pub(super) fn part(&mut self, stream: &Stream, swept: &Swept) -> bool {
        let Swept { firebox, way, .. } = swept;
        let opening = self.design.path.bleed_area;
        let shut = opening <= 0.0 || self.setup.lacks(Without::Bleed);
        if shut || way.passages.is_empty() {
            return true;
        }
        let share = branch::share(self.path, stream, (opening, firebox.temperature), way);
        let (next, there) = self.seeking_share.next(way.branched, share - way.branched);
        self.found.branched = next.clamp(0.0, branch::MOST_SHARE);
        there
    }

    pub(super) fn ledger(&self, instant: &Instant, swept: &Swept) -> Ledger {
        let flow = Flow {
            stream: &instant.stream,
            runs_stream: &swept.way.runs_stream,
            path: self.path,
            firebox_temperature: swept.firebox.temperature,
            passages: &swept.way.passages,
            flue: &swept.flue,
            air: instant.air_flow,
            inlet_area: instant.inlet_area.max(1e-9),
            weather: Weather::stated(self.design),
        };
        ledger(self.design, &flow)
    }

    /// What is left of the draft to move gas against suction and wind, and what the gas that moves
    /// loses (Pa).
    pub(super) fn moving(&self, ledger: &Ledger) -> (f64, f64) {
        let site = &self.design.site;
        let still = site.house_suction + site.wind_pressure;
        (ledger.draft - still, ledger.losses - still)
    }

    pub(super) fn rates(&self, instant: &Instant, swept: &Swept) -> Rates {
        let Swept { firebox, way, flue } = swept;
        let Stream { gas, mass_flow, .. } = &instant.stream;
        let room = self.design.site.room_temperature;
        let ledger = self.ledger(instant, swept);
        let (pull, held) = self.moving(&ledger);
        Rates {
            excess_air_ratio: instant.excess_air_ratio,
            gas_flow: *mass_flow,
            wood: instant.wood,
            air: instant.air_flow * sensible_enthalpy(&DRY_AIR, room),
            unburned: instant.wood * self.design.fire.unburned_fraction,
            firebox: firebox.temperature,
            runs: way.passages.iter().map(|passage| passage.outlet).collect(),
            chimney_inlet: flue.connector.outlet,
            mouth_gas: flue.outdoors.outlet,
            mouth_wall: self.mouth_wall(&instant.stream, flue.outdoors.outlet),
            glass: firebox.glass_heat,
            door: firebox.door_heat,
            mouth: mass_flow * gas.enthalpy(flue.outdoors.outlet),
            stack: mass_flow * (gas.enthalpy(way.joined) - gas.enthalpy(room)),
            richardson: self.largest_richardson(firebox.temperature, &way.passages),
            margin: ledger.margin(),
            // What holds back goes with the square of the flow.
            drawn_ratio: instant.excess_air_ratio * (pull.max(0.0) / held).sqrt(),
        }
    }

    /// The largest Richardson number of all runs (–): above 1 the gas is stirred by its own heat.
    fn largest_richardson(&self, firebox: f64, passages: &[Passage]) -> f64 {
        let mut inlet = firebox;
        let along = passages.iter().zip(&self.path.segments).map(|(passage, segment)| {
            let diameter = segment.duct.hydraulic_diameter;
            let found = of_passage(passage, inlet, diameter);
            inlet = passage.outlet;
            found.abs()
        });
        along.fold(0.0, f64::max)
    }
}
