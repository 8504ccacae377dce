//! Designs to begin with. All of them are invented; each is the demonstration with what makes it
//! another heater.

use super::{AirSupply, BenchUse, Design, Layout, Material};
use crate::units::kelvin;

/// A design to begin with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Example {
    /// The demonstration.
    Farmhouse,
    /// A small heater with three runs.
    Cabin,
    /// Runs at floor level.
    Bench,
    /// Eight runs, which draw too little.
    TallStack,
    /// Thick stone around the core.
    StoneFaced,
    /// A tight house with a fan, air from outside.
    TightHouse,
}

impl Example {
    /// All of them, the demonstration first.
    pub const ALL: [Self; 6] = [
        Self::Farmhouse,
        Self::Cabin,
        Self::Bench,
        Self::TallStack,
        Self::StoneFaced,
        Self::TightHouse,
    ];

    /// Name in commands.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Farmhouse => "farmhouse",
            Self::Cabin => "cabin",
            Self::Bench => "bench",
            Self::TallStack => "tall-stack",
            Self::StoneFaced => "stone-faced",
            Self::TightHouse => "tight-house",
        }
    }

    /// The one of that name.
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|example| example.id() == id)
    }

    /// The design, without a name of its own.
    pub fn design(self) -> Design {
        let mut design = Design::demonstration();
        match self {
            Self::Farmhouse => {}
            Self::Cabin => cabin(&mut design),
            Self::Bench => bench(&mut design),
            Self::TallStack => tall_stack(&mut design),
            Self::StoneFaced => stone_faced(&mut design),
            Self::TightHouse => tight_house(&mut design),
        }
        design
    }
}

fn cabin(design: &mut Design) {
    design.site.outdoor_temperature = kelvin(-10.0);
    design.site.heat_loss = 45.0;
    design.site.altitude = 300.0;
    design.fire.charge = 6.5;
    design.firebox.width = 0.32;
    design.firebox.depth = 0.30;
    design.firebox.height = 0.48;
    design.firebox.door_width = 0.26;
    design.firebox.door_height = 0.26;
    design.firebox.inlet_area = 0.009;
    design.path.run_count = 3;
    design.path.run_length = 1.9;
    design.path.run_width = 0.12;
    design.path.run_height = 0.13;
    design.chimney.mouth_height = 6.0;
    design.chimney.roof_height = 4.8;
    design.chimney.flue_width = 0.16;
}

fn bench(design: &mut Design) {
    design.fire.charge = 9.0;
    design.path.layout = Layout::Bench;
    design.path.run_count = 3;
    design.path.run_length = 2.4;
    design.path.run_width = 0.20;
    design.path.run_height = 0.16;
    design.path.bypass_area = 0.012;
    design.firebox.height = 0.52;
    design.shell.bench_use = BenchUse::Seat;
    design.shell.cap_thickness = 0.20;
    // Cool gas, which a bench makes, dries a flue that keeps warm.
    design.chimney.insulation_thickness = 0.08;
}

fn tall_stack(design: &mut Design) {
    design.path.run_count = 8;
    design.path.run_length = 1.6;
    design.path.run_width = 0.12;
    design.path.run_height = 0.14;
    design.chimney.mouth_height = 5.6;
    design.chimney.roof_height = 4.4;
    design.chimney.flue_width = 0.16;
}

fn stone_faced(design: &mut Design) {
    design.path.run_count = 6;
    design.path.run_length = 1.8;
    design.path.bypass_area = 0.012;
    design.shell.facing_material = Material::Granite;
    design.shell.facing_thickness = 0.18;
    design.chimney.insulation_thickness = 0.06;
    design.chimney.connector_length = 0.55;
    design.chimney.mouth_height = 9.0;
    design.chimney.roof_height = 7.6;
}

fn tight_house(design: &mut Design) {
    design.site.air_supply = AirSupply::Duct;
    design.site.house_suction = 8.0;
    design.site.heat_loss = 60.0;
    design.fire.charge = 11.0;
    design.fire.firings_per_day = 1.0;
    design.path.run_width = 0.12;
    design.path.run_height = 0.20;
    design.path.bypass_area = 0.012;
    design.chimney.flue_width = 0.16;
    design.chimney.insulation_thickness = 0.06;
}
