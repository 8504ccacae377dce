//! Walls of connector and chimney.

use super::sections::sheet;
use super::{Maker, Zone};
use crate::analysis::chimney::{CELLS, FILM_INDOORS, FILM_OUTDOORS, girth};
use crate::analysis::day::layers::{Back, Layer, Layers, Ply};
use crate::analysis::factors::Factors;
use crate::design::material::{
    MINERAL_WOOL_CONDUCTIVITY, MINERAL_WOOL_HEAT_CAPACITY, Properties,
};

impl Maker<'_> {
    pub(super) fn connector(&mut self) -> usize {
        let layer = sheet();
        let ambient = self.design.site.room_temperature;
        let film = self.setup.factors.outside_film;
        let layers = Layers::new(&[layer], None, Back::Room { ratio: 1.0, ambient, film });
        let chimney = &self.design.chimney;
        let area = chimney.connector_length * girth(chimney);
        self.place(layers, area, Zone::Connector)
    }

    /// Walls of a part of the chimney, a wall per cell.
    pub(super) fn flue(&mut self, length: f64, zone: Zone) -> Vec<usize> {
        let chimney = &self.design.chimney;
        let site = &self.design.site;
        let Factors { flue_conductivity, outside_film, .. } = self.setup.factors;
        let (film, ambient) = match zone {
            Zone::Outdoors => (FILM_OUTDOORS, site.outdoor_temperature),
            _ => (FILM_INDOORS, site.room_temperature),
        };
        let inner = chimney.hydraulic_diameter();
        let ratio = |depth: f64| 1.0 + 2.0 * depth / inner;
        let wall = chimney.wall_thickness;
        let outer = wall + chimney.insulation_thickness;
        let material = chimney.wall_material.properties();
        let material =
            Properties { conductivity: material.conductivity * flue_conductivity, ..material };
        let mut layers = vec![
            Layer::plane(&material, wall, self.resolution.flue_nodes)
                .of(Ply::Liner)
                .spreading(1.0, ratio(wall)),
        ];
        if chimney.insulation_thickness > 0.0 {
            layers.push(Layer {
                ply: Ply::Wool,
                thickness: chimney.insulation_thickness,
                conductivity: MINERAL_WOOL_CONDUCTIVITY * flue_conductivity,
                rows: &[],
                scale: 1.0,
                volumetric_heat_capacity: MINERAL_WOOL_HEAT_CAPACITY,
                spread: (ratio(wall), ratio(outer)),
                nodes: self.resolution.flue_nodes,
                growth: 1.0,
            });
        }
        let area = length / f64::from(CELLS) * girth(chimney);
        let back = Back::Film { conductance: film * outside_film * ratio(outer), ambient };
        (0..CELLS).map(|_| self.place(Layers::new(&layers, None, back), area, zone)).collect()
    }
}
