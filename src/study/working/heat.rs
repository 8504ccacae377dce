//! Working of air, gas temperatures, efficiency, dew point, the wall at the mouth.

use super::{Inputs, Spot, Term, Total, Working};
use crate::analysis::chimney::{FILM_OUTDOORS, mouth_of};
use crate::analysis::last_cell_of_runs;
use crate::design::material::MINERAL_WOOL_CONDUCTIVITY;
use crate::physics::air::DRY_AIR;
use crate::physics::conduction::{CYLINDER_RESISTANCE, FILM_RESISTANCE, INNER_SURFACE};
use crate::physics::convection::{COOLED, TRANSFER_UNITS};
use crate::physics::gas::{STREAM_HEAT, Species};
use crate::physics::vapor::{DEW_POINT, PARTIAL_PRESSURE};
use crate::physics::wood::{
    EXCESS_AIR, FIRE_POWER, HIGHER_HEATING_VALUE, NET_HEAT, SHARE_OF_HIGHER,
    STOICHIOMETRIC_OXYGEN, USEFUL_SHARE,
};
use crate::units::measure;

impl Inputs<'_> {
    /// Lower heating value of the moist wood, and the higher one of the dry wood (J/kg).
    pub(super) fn heating_value(&self, to: &mut Working) -> (f64, f64) {
        let fire = &self.design.fire;
        let wood = fire.species.ultimate();
        let elements = [wood.carbon, wood.hydrogen, wood.oxygen, wood.nitrogen, wood.ash];
        let higher = to.put(&HIGHER_HEATING_VALUE, Spot::Wood, &elements);
        let moist = [higher, fire.moisture_fraction, wood.hydrogen];
        (to.put(&NET_HEAT, Spot::Wood, &moist), higher)
    }

    pub(super) fn excess_air(&self, to: &mut Working) {
        let fire = &self.design.fire;
        let wood = fire.species.ultimate();
        let elements = [wood.carbon, wood.hydrogen, wood.oxygen];
        let oxygen = to.put(&STOICHIOMETRIC_OXYGEN, Spot::Wood, &elements);
        let burn = &self.state.burn;
        let values =
            [burn.air_flow(), burn.rate, fire.moisture_fraction, oxygen, DRY_AIR.molar_mass()];
        to.put(&EXCESS_AIR, Spot::Firebox, &values);
    }

    pub(super) fn chimney_inlet(&self, to: &mut Working) {
        let state = &self.state;
        let heat = &self.analysis.height_of_fire.heat;
        let terms = vec![
            (Term::Wood, heat.wood_watts),
            (Term::Air, heat.air_watts),
            (Term::Unburned, -heat.unburned_watts),
            (Term::Walls, -heat.firebox_walls_watts),
            (Term::Glass, -heat.glass_watts),
            (Term::Door, -heat.door_watts),
        ];
        to.sum(Total::FireboxGas, measure::POWER, terms);
        if let Some(cell) = last_cell_of_runs(self.design, &self.path, state) {
            let values = [cell.exchange, cell.length, cell.mass_flow, cell.heat_capacity];
            let units = to.put(&TRANSFER_UNITS, Spot::LastCell, &values);
            to.put(&COOLED, Spot::LastCell, &[cell.inlet, cell.equilibrium, units]);
        }
        let room = self.design.site.room_temperature;
        let (inlet, outlet) = (state.way.joined, state.flue.connector.outlet);
        let left = (outlet - room) / (inlet - room);
        let units = if 0.0 < left { -libm::log(left) } else { 0.0 };
        to.put(&COOLED, Spot::Connector, &[inlet, room, units]);
    }

    /// Efficiency on the lower heating value, with both heating values of the wood (J/kg): the
    /// lower one as it is, the higher one dry.
    pub(super) fn efficiency(&self, to: &mut Working) -> (f64, f64, f64) {
        let (lower, higher) = self.heating_value(to);
        let state = &self.state;
        let wood = to.put(&FIRE_POWER, Spot::Firebox, &[state.burn.rate, lower]);
        let gas = &state.stream.gas;
        let room = gas.enthalpy(self.design.site.room_temperature);
        let values = [state.stream.mass_flow, gas.enthalpy(state.way.joined), room];
        let stack = to.put(&STREAM_HEAT, Spot::OutOfRuns, &values);
        let unburned = self.design.fire.unburned_fraction;
        let share = to.put(&USEFUL_SHARE, Spot::Heater, &[stack, wood, unburned]);
        (share, lower, higher)
    }

    pub(super) fn efficiency_higher(&self, to: &mut Working) {
        let (share, lower, dry) = self.efficiency(to);
        let higher = dry * (1.0 - self.design.fire.moisture_fraction);
        to.put(&SHARE_OF_HIGHER, Spot::Heater, &[share, lower, higher]);
    }

    pub(super) fn dew_point(&self, to: &mut Working) {
        let stream = &self.state.stream;
        let water = stream.gas.composition().fraction(Species::Water);
        let pressure = self.pressure(to);
        let vapor = to.put(&PARTIAL_PRESSURE, Spot::Mouth, &[water, pressure]);
        to.put(&DEW_POINT, Spot::Mouth, &[vapor]);
    }

    pub(super) fn mouth_wall(&self, to: &mut Working) {
        let chimney = &self.design.chimney;
        let inner = chimney.hydraulic_diameter();
        let wall = inner + 2.0 * chimney.wall_thickness;
        let outer = wall + 2.0 * chimney.insulation_thickness;
        let conductivity = chimney.wall_material.properties().conductivity;
        let mut terms = Vec::new();
        let mut layer = |to: &mut Working, spot, from, until, conductivity| {
            let values = [inner, from, until, conductivity];
            terms.push((Term::At(spot), to.put(&CYLINDER_RESISTANCE, spot, &values)));
        };
        layer(to, Spot::FlueWall, inner, wall, conductivity);
        layer(to, Spot::Wool, wall, outer, MINERAL_WOOL_CONDUCTIVITY);
        let film = [inner, outer, FILM_OUTDOORS];
        let film = to.put(&FILM_RESISTANCE, Spot::OutsideFilm, &film);
        terms.push((Term::At(Spot::OutsideFilm), film));
        let resistance = to.sum(Total::Resistance, measure::RESISTANCE, terms);
        let state = &self.state;
        let at = mouth_of(self.design, &state.stream, self.path.exit_height, &state.flue);
        to.put(&INNER_SURFACE, Spot::Mouth, &[at.gas, at.outside, at.film, resistance]);
    }
}
