//! Working of sizes, masses, loads, and of the heater in its house.

use super::{Inputs, Shown, Spot, Term, Total, Working};
use crate::analysis::house::neutral_height;
use crate::analysis::standard_route::sizes::{
    BLEED_AREA, FIREBOX_SURFACE, LEAST_FIREBOX_BASE, LEAST_FIREBOX_HEIGHT, PATH_OF_CHARGE,
    base_factor,
};
use crate::analysis::structure::Part;
use crate::physics::expansion::{GROUND_PRESSURE, MASS, SOIL_PRESSURE, THERMAL_GROWTH};
use crate::physics::geometry::{BASE, BLOCK_SURFACE, GLASS_SHARE, RATIO_OF_SIDES};
use crate::physics::house::{CHARGE_FOR, FIRINGS_FOR, HEAT_OF_A_DAY, HOUSE_LOSS, WOOD_HEAT};
use crate::physics::pressure::COLUMN_PULL;
use crate::rules::{FLUX_OF_GLASS, PATH_OF_DEFINITION, REACH_OF_GLASS, STAYS_OPEN, given_off};
use crate::units::measure;

impl Inputs<'_> {
    pub(super) fn route(&self, to: &mut Working, shown: Shown) {
        let firebox = &self.design.firebox;
        let charge = self.design.fire.charge;
        let (width, depth) = (firebox.width, firebox.depth);
        let surface = [width, depth, firebox.height];
        let factor = base_factor(self.design.shell.gap);
        let spot = Spot::Firebox;
        match shown {
            Shown::FireboxSurface => to.put(&BLOCK_SURFACE, spot, &surface),
            Shown::SurfaceAsked => to.put(&FIREBOX_SURFACE, spot, &[charge]),
            Shown::FireboxBase => to.put(&BASE, spot, &[width, depth]),
            Shown::BaseAsked => to.put(&LEAST_FIREBOX_BASE, spot, &[charge]),
            Shown::BaseRatio => {
                let sides = [width.max(depth), width.min(depth)];
                to.put(&RATIO_OF_SIDES, spot, &sides)
            }
            Shown::GlassShare => {
                let inner = to.put(&BLOCK_SURFACE, spot, &surface);
                let values = [firebox.door_area(), firebox.glass_fraction, inner];
                to.put(&GLASS_SHARE, spot, &values)
            }
            Shown::PathOfDefinition => to.put(&PATH_OF_DEFINITION, spot, &[firebox.largest()]),
            Shown::DamperAsked => {
                to.put(&STAYS_OPEN, Spot::FlueWall, &[self.design.chimney.area()])
            }
            Shown::GlassReach => {
                let (glass, _) = firebox.door_parts();
                let room = self.design.site.room_temperature;
                let fire = self.analysis.height_of_fire.firebox_outlet;
                let flux = to.put(&FLUX_OF_GLASS, spot, &[fire, room]);
                to.put(&REACH_OF_GLASS, spot, &[glass, flux, given_off(room)])
            }
            Shown::BleedAsked => to.put(&BLEED_AREA, spot, &[charge]),
            Shown::HeightAsked => to.put(&LEAST_FIREBOX_HEIGHT, spot, &[charge]),
            _ => to.put(&PATH_OF_CHARGE, Spot::Heater, &[factor, charge]),
        };
    }

    pub(super) fn path_length(&self, to: &mut Working) {
        let mut terms = Vec::new();
        let mut length_before: Option<f64> = None;
        let heights = self.design.run_heights();
        for (index, (segment, height)) in self.path.segments.iter().zip(heights).enumerate() {
            let rise = length_before.replace(height).map_or(0.0, |before| height - before);
            if rise.abs() > 0.0 {
                terms.push((Term::At(Spot::Into(index)), rise.abs()));
            }
            terms.push((Term::At(Spot::Run(index)), segment.length));
        }
        to.sum(Total::Path, measure::LENGTH, terms);
    }

    /// Heat that the house needs on the day of the design (J).
    fn need(&self, to: &mut Working) -> f64 {
        let loss = self.loss(to);
        to.put(&HEAT_OF_A_DAY, Spot::House, &[loss])
    }

    fn loss(&self, to: &mut Working) -> f64 {
        let site = &self.design.site;
        let values = [site.heat_loss, site.room_temperature, site.outdoor_temperature];
        to.put(&HOUSE_LOSS, Spot::House, &values)
    }

    pub(super) fn house(&self, to: &mut Working, shown: Shown) {
        let fire = &self.design.fire;
        let (firings, charge) = (fire.firings_per_day, fire.charge);
        match shown {
            Shown::HouseLoss => {
                self.loss(to);
            }
            Shown::OwnSuction => self.own_suction(to),
            _ => {
                let (share, value, _) = self.efficiency(to);
                if shown == Shown::DayHeat {
                    to.put(&WOOD_HEAT, Spot::Heater, &[firings, charge, value, share]);
                    return;
                }
                let need = self.need(to);
                if shown == Shown::ChargeWanted {
                    to.put(&CHARGE_FOR, Spot::House, &[need, firings, value, share]);
                } else {
                    to.put(&FIRINGS_FOR, Spot::House, &[need, charge, value, share]);
                }
            }
        }
    }

    fn own_suction(&self, to: &mut Working) {
        let Some(height) = neutral_height(self.design) else { return };
        self.pressure(to);
        let site = &self.design.site;
        let outdoors = self.air(to, Spot::Outdoors, site.outdoor_temperature);
        let room = self.air(to, Spot::Room, site.room_temperature);
        to.put(&COLUMN_PULL, Spot::House, &[height, outdoors, room]);
    }

    pub(super) fn structure(&self, to: &mut Working, shown: Shown) {
        let structure = &self.analysis.structure;
        match shown {
            Shown::Mass => self.mass(to),
            Shown::Bearing => {
                let values = [structure.carried, structure.footprint];
                to.put(&GROUND_PRESSURE, Spot::Heater, &values);
            }
            Shown::SoilPressure => {
                let projection = self.design.support.footing_projection;
                let [along, deep] = structure.off_middle(projection);
                let [own, ground] = [structure.footing, structure.footing_ground];
                let values = [structure.carried, along, deep, own, ground];
                to.put(&SOIL_PRESSURE, Spot::Footing, &values);
            }
            _ => {
                let fire = &self.analysis.height_of_fire;
                let room = self.design.site.room_temperature;
                let walls = fire.runs.iter().map(|run| run.wall);
                let rise = walls.fold(room, f64::max) - room;
                let expansion = self.design.shell.core_material.expansion();
                let values = [expansion, structure.longest_core, rise];
                to.put(&THERMAL_GROWTH, Spot::Heater, &values);
            }
        }
    }

    fn mass(&self, to: &mut Working) {
        let shell = &self.design.shell;
        let core = shell.core_material.properties().density;
        let facing = shell.facing_material.properties().density;
        let mut terms = Vec::new();
        for amount in &self.analysis.structure.parts {
            let density = match amount.part {
                Part::Fill | Part::Base | Part::Chimney => continue,
                Part::Facing => facing,
                Part::Firebox | Part::Runs | Part::Baffles | Part::Cap => core,
            };
            let spot = Spot::Part(amount.part);
            terms.push((Term::At(spot), to.put(&MASS, spot, &[amount.volume, density])));
        }
        to.sum(Total::Heater, measure::MASS, terms);
    }
}
