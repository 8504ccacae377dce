//! The catalog of inputs: form, checks, file, schema and link all read it.

use super::brick::BrickFormat;
use super::building::{
    AirSupply, Below, BenchUse, Carrier, ChimneyCarrier, ChimneyKind, ChimneyPlace,
    CleanoutFace, Cleanouts, ConnectorKind, Damper, Floor, Foam, Protection, Seismic, Soil,
    Stated, VoidBelow,
};
use super::material::Material;
use super::{
    AirControl, ChimneyDuty, Design, Fire, FlueShape, Layout, Oven, RuleSet, RunOverride,
    SmokePath, Species, WallBehind,
};
use crate::units::{Quantity, kelvin, shown_within};
use std::ops::RangeInclusive;

/// Name of an input in code; `words` gives it a label and a help line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum FieldId {
    /// See `words` for its name.
    RuleSet,
    /// See `words` for its name.
    Altitude,
    /// See `words` for its name.
    OutdoorTemperature,
    /// See `words` for its name.
    RoomTemperature,
    /// See `words` for its name.
    HeatLoss,
    /// See `words` for its name.
    HouseSuction,
    /// See `words` for its name.
    WindPressure,
    /// See `words` for its name.
    Species,
    /// See `words` for its name.
    Moisture,
    /// See `words` for its name.
    Charge,
    /// See `words` for its name.
    BurnDuration,
    /// See `words` for its name.
    ExcessAir,
    /// See `words` for its name.
    Unburned,
    /// See `words` for its name.
    FiringsPerDay,
    /// See `words` for its name.
    FiringInterval,
    /// See `words` for its name.
    AirControl,
    /// See `words` for its name.
    Kindling,
    /// See `words` for its name.
    CharStart,
    /// See `words` for its name.
    CharRate,
    /// See `words` for its name.
    AfterOpening,
    /// See `words` for its name.
    FireboxWidth,
    /// See `words` for its name.
    FireboxDepth,
    /// See `words` for its name.
    FireboxHeight,
    /// See `words` for its name.
    FireboxWall,
    /// See `words` for its name.
    Crown,
    /// See `words` for its name.
    DoorWidth,
    /// See `words` for its name.
    DoorHeight,
    /// See `words` for its name.
    Glass,
    /// See `words` for its name.
    InletArea,
    /// See `words` for its name.
    InletCoefficient,
    /// See `words` for its name.
    FlameEmissivity,
    /// See `words` for its name.
    Layout,
    /// See `words` for its name.
    RunCount,
    /// See `words` for its name.
    RunLength,
    /// See `words` for its name.
    RunWidth,
    /// See `words` for its name.
    RunHeight,
    /// See `words` for its name.
    Baffle,
    /// See `words` for its name.
    PathRoughness,
    /// See `words` for its name.
    Reversal,
    /// See `words` for its name.
    Turn,
    /// See `words` for its name.
    Bleed,
    /// See `words` for its name.
    Bypass,
    /// See `words` for its name.
    OvenPlace,
    /// See `words` for its name.
    OvenWidth,
    /// See `words` for its name.
    OvenDepth,
    /// See `words` for its name.
    OvenHeight,
    /// See `words` for its name.
    OvenDoor,
    /// See `words` for its name.
    CoreMaterial,
    /// See `words` for its name.
    FacingMaterial,
    /// See `words` for its name.
    CoreThickness,
    /// See `words` for its name.
    Gap,
    /// See `words` for its name.
    FacingThickness,
    /// See `words` for its name.
    Cap,
    /// See `words` for its name.
    Base,
    /// See `words` for its name.
    InnerEmissivity,
    /// See `words` for its name.
    FrontInsulation,
    /// See `words` for its name.
    BackInsulation,
    /// See `words` for its name.
    SideInsulation,
    /// See `words` for its name.
    TopInsulation,
    /// See `words` for its name.
    FlueShape,
    /// See `words` for its name.
    FlueMaterial,
    /// See `words` for its name.
    Duty,
    /// See `words` for its name.
    MouthHeight,
    /// See `words` for its name.
    FlueWidth,
    /// See `words` for its name.
    FlueDepth,
    /// See `words` for its name.
    FlueWall,
    /// See `words` for its name.
    Insulation,
    /// See `words` for its name.
    OutdoorLength,
    /// See `words` for its name.
    FlueRoughness,
    /// See `words` for its name.
    MouthCoefficient,
    /// See `words` for its name.
    ConnectorLength,
    /// See `words` for its name.
    RatedTemperature,
    /// See `words` for its name.
    SideDistance,
    /// See `words` for its name.
    BehindDistance,
    /// See `words` for its name.
    FrontDistance,
    /// See `words` for its name.
    AboveDistance,
    /// See `words` for its name.
    WallBehind,
    /// See `words` for its name.
    WallGap,
    /// See `words` for its name.
    GapLow,
    /// See `words` for its name.
    GapHigh,
    /// See `words` for its name.
    Cleanouts,
    /// See `words` for its name.
    CleanoutFace,
    /// See `words` for its name.
    CleanoutSpace,
    /// See `words` for its name.
    ChimneyKind,
    /// See `words` for its name.
    MasonryWall,
    /// See `words` for its name.
    SootFire,
    /// See `words` for its name.
    FlueCleanout,
    /// See `words` for its name.
    ChimneyPlace,
    /// See `words` for its name.
    ConnectorKind,
    /// See `words` for its name.
    RoofHeight,
    /// See `words` for its name.
    NearRise,
    /// See `words` for its name.
    NearDistance,
    /// See `words` for its name.
    ChimneyDistance,
    /// See `words` for its name.
    ConnectorDistance,
    /// See `words` for its name.
    WallProtection,
    /// See `words` for its name.
    CeilingProtection,
    /// See `words` for its name.
    Floor,
    /// See `words` for its name.
    HearthFront,
    /// See `words` for its name.
    HearthSide,
    /// See `words` for its name.
    Below,
    /// See `words` for its name.
    VoidBelow,
    /// See `words` for its name.
    Carrier,
    /// See `words` for its name.
    ChimneyCarrier,
    /// See `words` for its name.
    FootingThickness,
    /// See `words` for its name.
    FootingProjection,
    /// See `words` for its name.
    FootingDepth,
    /// See `words` for its name.
    FrostDepth,
    /// See `words` for its name.
    Soil,
    /// See `words` for its name.
    Seismic,
    /// See `words` for its name.
    AirSupply,
    /// See `words` for its name.
    AirOpening,
    /// See `words` for its name.
    BenchUse,
    /// See `words` for its name.
    CoreBrick,
    /// See `words` for its name.
    CoreJoint,
    /// See `words` for its name.
    FacingBrick,
    /// See `words` for its name.
    FacingJoint,
    /// See `words` for its name.
    OwnBrickLength,
    /// See `words` for its name.
    OwnBrickWidth,
    /// See `words` for its name.
    OwnBrickHeight,
    /// See `words` for its name.
    Damper,
    /// See `words` for its name.
    DamperOpening,
    /// See `words` for its name.
    Foam,
    /// See `words` for its name.
    FoamCovered,
    /// See `words` for its name.
    Children,
}

/// The groups of the form, in the order in which a builder decides.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Group {
    /// House and site.
    Site,
    /// Wood and fire.
    Fire,
    /// Firebox and door.
    Firebox,
    /// Smoke path.
    Path,
    /// Shell.
    Shell,
    /// Chimney.
    Chimney,
    /// Surroundings.
    Surroundings,
    /// What carries the heater.
    Support,
}

impl Group {
    /// All groups in order.
    pub const ALL: [Self; 8] = [
        Self::Site,
        Self::Fire,
        Self::Firebox,
        Self::Path,
        Self::Shell,
        Self::Chimney,
        Self::Surroundings,
        Self::Support,
    ];
}

/// One input.
#[derive(Debug)]
pub struct Field {
    /// Its name in code.
    pub id: FieldId,
    /// Where it stands in the form.
    pub group: Group,
    /// Group and key in the file, with the unit in the name.
    pub path: &'static str,
    /// Key in links: short, never reused.
    pub link: &'static str,
    /// Folded away at first.
    pub advanced: bool,
    /// Number or choice.
    pub kind: Kind,
}

/// What an input holds.
#[derive(Debug)]
pub enum Kind {
    /// A number.
    Number(Number),
    /// One of several.
    Choice(Choice),
}

/// A number in SI base units, with what is allowed and what is usual.
#[derive(Debug)]
pub struct Number {
    /// Kind of quantity.
    pub quantity: Quantity,
    /// Refused outside.
    pub possible: RangeInclusive<f64>,
    /// A finding outside.
    pub usual: RangeInclusive<f64>,
    /// One step of an arrow key.
    pub step: f64,
    /// Reads it.
    pub get: fn(&Design) -> f64,
    /// Writes it.
    pub set: fn(&mut Design, f64),
}

impl Number {
    /// The possible value nearest to another (SI), in whole steps from 0.
    pub fn nearest(&self, value: f64) -> f64 {
        // By the whole number of steps in one, so that a hundredth stays a hundredth.
        let in_one = (1.0 / self.step).round().max(1.0);
        let stepped = (value / self.step).round() * (self.step * in_one).round() / in_one;
        stepped.clamp(*self.possible.start(), *self.possible.end())
    }
}

/// A choice by place in a list of keys.
#[derive(Debug)]
pub struct Choice {
    /// Keys in files and links.
    pub keys: &'static [&'static str],
    /// Reads it.
    pub get: fn(&Design) -> usize,
    /// Writes it.
    pub set: fn(&mut Design, usize),
}

/// Most runs that a design can have.
pub const MOST_RUNS: usize = 12;

fn usize_to_f64(count: usize) -> f64 {
    u32::try_from(count).map_or(f64::MAX, f64::from)
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held to 0..=12 before"
)]
fn f64_to_usize(value: f64) -> usize {
    value.round().clamp(0.0, 12.0) as usize
}

macro_rules! number {
    ($id:ident, $group:ident, $path:literal, $link:literal, $advanced:literal, $quantity:ident,
     $possible:expr, $usual:expr, $step:expr, $($field:ident).+) => {
        Field {
            id: FieldId::$id,
            group: Group::$group,
            path: $path,
            link: $link,
            advanced: $advanced,
            kind: Kind::Number(Number {
                quantity: Quantity::$quantity,
                possible: $possible,
                usual: $usual,
                step: $step,
                get: |design| design.$($field).+,
                set: |design, value| design.$($field).+ = value,
            }),
        }
    };
}

macro_rules! choice {
    ($id:ident, $group:ident, $path:literal, $link:literal, $advanced:literal, $choice:ident,
     $($field:ident).+) => {
        Field {
            id: FieldId::$id,
            group: Group::$group,
            path: $path,
            link: $link,
            advanced: $advanced,
            kind: Kind::Choice(Choice {
                keys: $choice::KEYS,
                get: |design| design.$($field).+.index(),
                set: |design, index| design.$($field).+ = $choice::at(index),
            }),
        }
    };
}

/// All inputs, in the order of the form.
pub static FIELDS: [Field; 124] = [
    choice!(RuleSet, Site, "site.rule_set", "rs", false, RuleSet, site.rule_set),
    number!(
        Altitude,
        Site,
        "site.altitude_m",
        "za",
        false,
        Length,
        -400.0..=4000.0,
        0.0..=2500.0,
        10.0,
        site.altitude
    ),
    number!(
        OutdoorTemperature,
        Site,
        "site.outdoor_celsius",
        "to",
        false,
        Temperature,
        kelvin(-50.0)..=kelvin(30.0),
        kelvin(-35.0)..=kelvin(20.0),
        1.0,
        site.outdoor_temperature
    ),
    number!(
        RoomTemperature,
        Site,
        "site.room_celsius",
        "tr",
        true,
        Temperature,
        kelvin(0.0)..=kelvin(35.0),
        kelvin(15.0)..=kelvin(25.0),
        1.0,
        site.room_temperature
    ),
    number!(
        HeatLoss,
        Site,
        "site.heat_loss_w_per_k",
        "ua",
        false,
        HeatLoss,
        5.0..=2000.0,
        20.0..=500.0,
        5.0,
        site.heat_loss
    ),
    number!(
        HouseSuction,
        Site,
        "site.house_suction_pascals",
        "ps",
        true,
        Pressure,
        0.0..=50.0,
        0.0..=8.0,
        1.0,
        site.house_suction
    ),
    number!(
        WindPressure,
        Site,
        "site.wind_pressure_pascals",
        "pw",
        true,
        Pressure,
        0.0..=60.0,
        0.0..=25.0,
        1.0,
        site.wind_pressure
    ),
    choice!(AirSupply, Site, "site.air_supply", "qa", false, AirSupply, site.air_supply),
    number!(
        AirOpening,
        Site,
        "site.air_opening_m2",
        "qo",
        false,
        Opening,
        0.0..=1.0,
        0.0..=0.1,
        0.001,
        site.air_opening
    ),
    choice!(Species, Fire, "fire.species", "sp", false, Species, fire.species),
    number!(
        Moisture,
        Fire,
        "fire.moisture_fraction",
        "mw",
        false,
        Share,
        0.0..=0.6,
        0.12..=0.20,
        0.01,
        fire.moisture_fraction
    ),
    number!(
        Charge,
        Fire,
        "fire.charge_kg",
        "mc",
        false,
        Mass,
        0.5..=80.0,
        5.0..=40.0,
        0.5,
        fire.charge
    ),
    number!(
        BurnDuration,
        Fire,
        "fire.burn_duration_s",
        "bd",
        false,
        Duration,
        1200.0..=14400.0,
        3480.0..=5880.0,
        60.0,
        fire.burn_duration
    ),
    number!(
        ExcessAir,
        Fire,
        "fire.excess_air_ratio",
        "xa",
        false,
        Ratio,
        1.05..=10.0,
        1.95..=3.95,
        0.05,
        fire.excess_air_ratio
    ),
    number!(
        Unburned,
        Fire,
        "fire.unburned_fraction",
        "uf",
        true,
        Share,
        0.0..=0.2,
        0.0..=0.05,
        0.005,
        fire.unburned_fraction
    ),
    number!(
        FiringsPerDay,
        Fire,
        "fire.firings_per_day",
        "fd",
        false,
        Count,
        1.0..=4.0,
        1.0..=3.0,
        1.0,
        fire.firings_per_day
    ),
    number!(
        FiringInterval,
        Fire,
        "fire.firing_interval_s",
        "fi",
        false,
        Hours,
        0.0..=86_400.0,
        0.0..=43_200.0,
        1800.0,
        fire.firing_interval
    ),
    choice!(AirControl, Fire, "fire.air", "ac", true, AirControl, fire.air),
    number!(
        Kindling,
        Fire,
        "fire.kindling_fraction",
        "bk",
        true,
        Share,
        0.02..=0.40,
        0.05..=0.25,
        0.01,
        fire.shape.kindling_fraction
    ),
    number!(
        CharStart,
        Fire,
        "fire.char_start_fraction",
        "bc",
        true,
        Share,
        0.45..=0.80,
        0.55..=0.80,
        0.01,
        fire.shape.char_start_fraction
    ),
    number!(
        CharRate,
        Fire,
        "fire.char_rate_ratio",
        "br",
        true,
        Share,
        0.02..=1.0,
        0.10..=0.50,
        0.05,
        fire.shape.char_rate_ratio
    ),
    number!(
        AfterOpening,
        Fire,
        "fire.after_opening_m2",
        "ao",
        true,
        Opening,
        0.0..=0.1,
        0.0..=0.003,
        0.0001,
        fire.after_opening
    ),
    number!(
        FireboxWidth,
        Firebox,
        "firebox.width_m",
        "fw",
        false,
        Size,
        0.10..=1.5,
        0.23..=0.90,
        0.01,
        firebox.width
    ),
    number!(
        FireboxDepth,
        Firebox,
        "firebox.depth_m",
        "fp",
        false,
        Size,
        0.10..=1.5,
        0.23..=0.90,
        0.01,
        firebox.depth
    ),
    number!(
        FireboxHeight,
        Firebox,
        "firebox.height_m",
        "fh",
        false,
        Size,
        0.15..=2.0,
        0.30..=1.20,
        0.01,
        firebox.height
    ),
    number!(
        FireboxWall,
        Firebox,
        "firebox.wall_thickness_m",
        "ft",
        true,
        Size,
        0.03..=0.5,
        0.06..=0.25,
        0.001,
        firebox.wall_thickness
    ),
    number!(
        Crown,
        Firebox,
        "firebox.crown_thickness_m",
        "fc",
        true,
        Size,
        0.03..=0.5,
        0.06..=0.20,
        0.001,
        firebox.crown_thickness
    ),
    number!(
        DoorWidth,
        Firebox,
        "firebox.door_width_m",
        "dw",
        false,
        Size,
        0.05..=1.5,
        0.20..=0.80,
        0.01,
        firebox.door_width
    ),
    number!(
        DoorHeight,
        Firebox,
        "firebox.door_height_m",
        "dh",
        false,
        Size,
        0.05..=2.0,
        0.20..=0.80,
        0.01,
        firebox.door_height
    ),
    number!(
        Glass,
        Firebox,
        "firebox.glass_fraction",
        "gf",
        false,
        Share,
        0.0..=1.0,
        0.0..=0.85,
        0.05,
        firebox.glass_fraction
    ),
    number!(
        InletArea,
        Firebox,
        "firebox.inlet_area_m2",
        "ai",
        false,
        Opening,
        0.0005..=0.2,
        0.005..=0.05,
        0.0005,
        firebox.inlet_area
    ),
    number!(
        InletCoefficient,
        Firebox,
        "firebox.inlet_coefficient",
        "ki",
        true,
        Ratio,
        1.0..=10.0,
        1.5..=4.0,
        0.1,
        firebox.inlet_coefficient
    ),
    number!(
        FlameEmissivity,
        Firebox,
        "firebox.flame_emissivity",
        "ef",
        true,
        Ratio,
        0.05..=0.95,
        0.3..=0.7,
        0.05,
        firebox.flame_emissivity
    ),
    choice!(Layout, Path, "path.layout", "ly", false, Layout, path.layout),
    Field {
        id: FieldId::RunCount,
        group: Group::Path,
        path: "path.run_count",
        link: "rn",
        advanced: false,
        kind: Kind::Number(Number {
            quantity: Quantity::Count,
            possible: 0.0..=12.0,
            usual: 1.0..=8.0,
            step: 1.0,
            get: |design| usize_to_f64(design.path.run_count),
            set: |design, value| design.path.run_count = f64_to_usize(value),
        }),
    },
    number!(
        RunLength,
        Path,
        "path.run_length_m",
        "rl",
        false,
        Length,
        0.2..=4.0,
        0.5..=2.0,
        0.05,
        path.run_length
    ),
    number!(
        RunWidth,
        Path,
        "path.run_width_m",
        "rw",
        false,
        Size,
        0.06..=0.8,
        0.12..=0.40,
        0.01,
        path.run_width
    ),
    number!(
        RunHeight,
        Path,
        "path.run_height_m",
        "rh",
        false,
        Size,
        0.06..=0.6,
        0.12..=0.40,
        0.01,
        path.run_height
    ),
    number!(
        Baffle,
        Path,
        "path.baffle_thickness_m",
        "bt",
        true,
        Size,
        0.02..=0.3,
        0.03..=0.13,
        0.001,
        path.baffle_thickness
    ),
    number!(
        PathRoughness,
        Path,
        "path.roughness_m",
        "rr",
        true,
        Size,
        0.0001..=0.01,
        0.001..=0.005,
        0.0005,
        path.roughness
    ),
    number!(
        Reversal,
        Path,
        "path.reversal_coefficient",
        "kr",
        true,
        Ratio,
        0.5..=10.0,
        2.0..=4.5,
        0.1,
        path.reversal_coefficient
    ),
    number!(
        Turn,
        Path,
        "path.turn_coefficient",
        "kt",
        true,
        Ratio,
        0.1..=5.0,
        0.8..=1.8,
        0.1,
        path.turn_coefficient
    ),
    number!(
        Bleed,
        Path,
        "path.bleed_m2",
        "ab",
        true,
        Opening,
        0.0..=0.02,
        0.0..=0.003,
        0.0001,
        path.bleed_area
    ),
    number!(
        Bypass,
        Path,
        "path.bypass_m2",
        "ap",
        true,
        Opening,
        0.0..=0.1,
        0.0..=0.05,
        0.0005,
        path.bypass_area
    ),
    Field {
        id: FieldId::OvenPlace,
        group: Group::Path,
        path: "path.oven_place",
        link: "ov",
        advanced: true,
        kind: Kind::Number(Number {
            quantity: Quantity::Count,
            possible: 0.0..=12.0,
            usual: 0.0..=12.0,
            step: 1.0,
            get: |design| usize_to_f64(design.path.oven.place),
            set: |design, value| design.path.oven.place = f64_to_usize(value),
        }),
    },
    number!(
        OvenWidth,
        Path,
        "path.oven_width_m",
        "ol",
        true,
        Size,
        0.2..=1.5,
        0.3..=0.9,
        0.01,
        path.oven.width
    ),
    number!(
        OvenDepth,
        Path,
        "path.oven_depth_m",
        "ow",
        true,
        Size,
        0.1..=1.2,
        0.25..=0.7,
        0.01,
        path.oven.depth
    ),
    number!(
        OvenHeight,
        Path,
        "path.oven_height_m",
        "oh",
        true,
        Size,
        0.1..=1.0,
        0.25..=0.5,
        0.01,
        path.oven.height
    ),
    number!(
        OvenDoor,
        Path,
        "path.oven_door_m2",
        "od",
        true,
        Opening,
        0.0..=0.5,
        0.0..=0.25,
        0.005,
        path.oven.door_area
    ),
    choice!(Cleanouts, Path, "path.cleanouts", "xc", false, Cleanouts, path.cleanouts),
    choice!(
        CleanoutFace,
        Path,
        "path.cleanout_face",
        "xf",
        true,
        CleanoutFace,
        path.cleanout_face
    ),
    number!(
        CleanoutSpace,
        Path,
        "path.cleanout_space_m",
        "xs",
        true,
        Size,
        0.0..=20.0,
        0.0..=5.0,
        0.05,
        path.cleanout_space
    ),
    choice!(
        CoreMaterial,
        Shell,
        "shell.core_material",
        "cm",
        false,
        Material,
        shell.core_material
    ),
    choice!(
        FacingMaterial,
        Shell,
        "shell.facing_material",
        "fm",
        false,
        Material,
        shell.facing_material
    ),
    number!(
        CoreThickness,
        Shell,
        "shell.core_thickness_m",
        "ct",
        true,
        Size,
        0.03..=0.5,
        0.05..=0.25,
        0.001,
        shell.core_thickness
    ),
    number!(
        Gap,
        Shell,
        "shell.gap_m",
        "cg",
        true,
        Size,
        0.0..=0.1,
        0.003..=0.03,
        0.001,
        shell.gap
    ),
    number!(
        FacingThickness,
        Shell,
        "shell.facing_thickness_m",
        "cf",
        false,
        Size,
        0.0..=0.6,
        0.05..=0.30,
        0.005,
        shell.facing_thickness
    ),
    number!(
        Cap,
        Shell,
        "shell.cap_thickness_m",
        "cc",
        true,
        Size,
        0.03..=0.6,
        0.08..=0.30,
        0.005,
        shell.cap_thickness
    ),
    number!(
        Base,
        Shell,
        "shell.base_thickness_m",
        "bs",
        true,
        Size,
        0.02..=1.0,
        0.10..=0.30,
        0.01,
        shell.base_thickness
    ),
    number!(
        InnerEmissivity,
        Shell,
        "shell.inner_emissivity",
        "ei",
        true,
        Ratio,
        0.5..=1.0,
        0.8..=0.95,
        0.01,
        shell.inner_emissivity
    ),
    number!(
        FrontInsulation,
        Shell,
        "shell.front_insulation_m",
        "nf",
        true,
        Size,
        0.0..=0.3,
        0.0..=0.1,
        0.005,
        shell.insulation.front
    ),
    number!(
        BackInsulation,
        Shell,
        "shell.back_insulation_m",
        "nb",
        true,
        Size,
        0.0..=0.3,
        0.0..=0.1,
        0.005,
        shell.insulation.back
    ),
    number!(
        SideInsulation,
        Shell,
        "shell.side_insulation_m",
        "ns",
        true,
        Size,
        0.0..=0.3,
        0.0..=0.1,
        0.005,
        shell.insulation.sides
    ),
    number!(
        TopInsulation,
        Shell,
        "shell.top_insulation_m",
        "nt",
        true,
        Size,
        0.0..=0.3,
        0.0..=0.1,
        0.005,
        shell.insulation.top
    ),
    choice!(BenchUse, Shell, "shell.bench_use", "qb", true, BenchUse, shell.bench_use),
    choice!(CoreBrick, Shell, "shell.core_brick", "kb", false, BrickFormat, shell.core_brick),
    choice!(
        FacingBrick,
        Shell,
        "shell.facing_brick",
        "kf",
        false,
        BrickFormat,
        shell.facing_brick
    ),
    number!(
        CoreJoint,
        Shell,
        "shell.core_joint_m",
        "kj",
        true,
        Size,
        0.0..=0.03,
        0.0..=0.0064,
        0.0005,
        shell.core_joint
    ),
    number!(
        FacingJoint,
        Shell,
        "shell.facing_joint_m",
        "kg",
        true,
        Size,
        0.0..=0.05,
        0.003..=0.015,
        0.0005,
        shell.facing_joint
    ),
    number!(
        OwnBrickLength,
        Shell,
        "shell.own_brick_length_m",
        "kl",
        true,
        Size,
        0.05..=0.6,
        0.18..=0.32,
        0.001,
        shell.own_brick.length
    ),
    number!(
        OwnBrickWidth,
        Shell,
        "shell.own_brick_width_m",
        "kw",
        true,
        Size,
        0.03..=0.4,
        0.08..=0.16,
        0.001,
        shell.own_brick.width
    ),
    number!(
        OwnBrickHeight,
        Shell,
        "shell.own_brick_height_m",
        "kh",
        true,
        Size,
        0.02..=0.3,
        0.03..=0.11,
        0.001,
        shell.own_brick.height
    ),
    choice!(FlueShape, Chimney, "chimney.shape", "fs", false, FlueShape, chimney.shape),
    choice!(
        FlueMaterial,
        Chimney,
        "chimney.wall_material",
        "wm",
        true,
        Material,
        chimney.wall_material
    ),
    choice!(Duty, Chimney, "chimney.duty", "cd", false, ChimneyDuty, chimney.duty),
    number!(
        MouthHeight,
        Chimney,
        "chimney.mouth_height_m",
        "hm",
        false,
        Length,
        1.0..=30.0,
        4.0..=15.0,
        0.1,
        chimney.mouth_height
    ),
    number!(
        FlueWidth,
        Chimney,
        "chimney.flue_width_m",
        "fx",
        false,
        Size,
        0.06..=0.8,
        0.13..=0.35,
        0.005,
        chimney.flue_width
    ),
    number!(
        FlueDepth,
        Chimney,
        "chimney.flue_depth_m",
        "fy",
        true,
        Size,
        0.06..=0.8,
        0.13..=0.35,
        0.005,
        chimney.flue_depth
    ),
    number!(
        FlueWall,
        Chimney,
        "chimney.wall_thickness_m",
        "wt",
        true,
        Size,
        0.0003..=0.5,
        0.0003..=0.25,
        0.001,
        chimney.wall_thickness
    ),
    number!(
        Insulation,
        Chimney,
        "chimney.insulation_thickness_m",
        "it",
        false,
        Size,
        0.0..=0.3,
        0.0..=0.1,
        0.005,
        chimney.insulation_thickness
    ),
    number!(
        OutdoorLength,
        Chimney,
        "chimney.outdoor_length_m",
        "lo",
        false,
        Length,
        0.0..=30.0,
        0.0..=10.0,
        0.1,
        chimney.outdoor_length
    ),
    number!(
        FlueRoughness,
        Chimney,
        "chimney.roughness_m",
        "cr",
        true,
        Size,
        0.0001..=0.01,
        0.001..=0.005,
        0.0005,
        chimney.roughness
    ),
    number!(
        MouthCoefficient,
        Chimney,
        "chimney.mouth_coefficient",
        "km",
        true,
        Ratio,
        0.0..=10.0,
        0.0..=1.5,
        0.1,
        chimney.mouth_coefficient
    ),
    number!(
        ConnectorLength,
        Chimney,
        "chimney.connector_length_m",
        "lc",
        true,
        Length,
        0.0..=5.0,
        0.0..=1.5,
        0.1,
        chimney.connector_length
    ),
    number!(
        RatedTemperature,
        Chimney,
        "chimney.rated_celsius",
        "tc",
        false,
        Temperature,
        kelvin(80.0)..=kelvin(1000.0),
        kelvin(300.0)..=kelvin(600.0),
        10.0,
        chimney.rated_temperature
    ),
    choice!(ChimneyKind, Chimney, "chimney.kind", "yk", false, ChimneyKind, chimney.kind),
    choice!(ChimneyPlace, Chimney, "chimney.place", "yp", false, ChimneyPlace, chimney.place),
    choice!(SootFire, Chimney, "chimney.soot_fire", "yf", false, Stated, chimney.soot_fire),
    choice!(FlueCleanout, Chimney, "chimney.cleanout", "yc", false, Stated, chimney.cleanout),
    choice!(
        ConnectorKind,
        Chimney,
        "chimney.connector_kind",
        "yx",
        false,
        ConnectorKind,
        chimney.connector_kind
    ),
    number!(
        RoofHeight,
        Chimney,
        "chimney.roof_height_m",
        "yr",
        false,
        Length,
        0.0..=30.0,
        0.0..=15.0,
        0.1,
        chimney.roof_height
    ),
    number!(
        NearRise,
        Chimney,
        "chimney.near_rise_m",
        "yh",
        true,
        Length,
        0.0..=30.0,
        0.0..=6.0,
        0.1,
        chimney.near_rise
    ),
    number!(
        NearDistance,
        Chimney,
        "chimney.near_distance_m",
        "yd",
        true,
        Length,
        0.0..=100.0,
        0.0..=10.0,
        0.1,
        chimney.near_distance
    ),
    number!(
        MasonryWall,
        Chimney,
        "chimney.masonry_wall_m",
        "ym",
        true,
        Size,
        0.0..=1.0,
        0.0..=0.4,
        0.005,
        chimney.masonry_wall
    ),
    choice!(Damper, Chimney, "chimney.damper", "qd", false, Damper, chimney.damper),
    number!(
        DamperOpening,
        Chimney,
        "chimney.damper_opening_m2",
        "qs",
        false,
        Opening,
        0.0..=0.2,
        0.0..=0.05,
        0.0005,
        chimney.damper_opening
    ),
    number!(
        SideDistance,
        Surroundings,
        "surroundings.side_m",
        "ds",
        false,
        Size,
        0.0..=20.0,
        0.05..=5.0,
        0.01,
        surroundings.side
    ),
    number!(
        BehindDistance,
        Surroundings,
        "surroundings.behind_m",
        "db",
        false,
        Size,
        0.0..=20.0,
        0.05..=5.0,
        0.01,
        surroundings.behind
    ),
    number!(
        FrontDistance,
        Surroundings,
        "surroundings.front_m",
        "df",
        false,
        Size,
        0.0..=20.0,
        0.3..=5.0,
        0.01,
        surroundings.front
    ),
    number!(
        AboveDistance,
        Surroundings,
        "surroundings.above_m",
        "da",
        false,
        Size,
        0.0..=20.0,
        0.1..=5.0,
        0.01,
        surroundings.above
    ),
    choice!(
        WallBehind,
        Surroundings,
        "surroundings.wall_behind",
        "vb",
        false,
        WallBehind,
        surroundings.wall_behind
    ),
    number!(
        WallGap,
        Surroundings,
        "surroundings.wall_gap_m",
        "vg",
        false,
        Size,
        0.0..=5.0,
        0.025..=2.0,
        0.005,
        surroundings.wall_gap
    ),
    number!(
        GapLow,
        Surroundings,
        "surroundings.gap_low_opening_m2",
        "vl",
        true,
        Opening,
        0.0..=2.0,
        0.0..=0.5,
        0.005,
        surroundings.gap_low_opening
    ),
    number!(
        GapHigh,
        Surroundings,
        "surroundings.gap_high_opening_m2",
        "vh",
        true,
        Opening,
        0.0..=2.0,
        0.0..=0.5,
        0.005,
        surroundings.gap_high_opening
    ),
    number!(
        ChimneyDistance,
        Surroundings,
        "surroundings.chimney_m",
        "dk",
        false,
        Size,
        0.0..=20.0,
        0.0..=5.0,
        0.005,
        surroundings.chimney
    ),
    number!(
        ConnectorDistance,
        Surroundings,
        "surroundings.connector_m",
        "dx",
        false,
        Size,
        0.0..=20.0,
        0.0..=5.0,
        0.01,
        surroundings.connector
    ),
    choice!(Below, Surroundings, "surroundings.below", "ub", false, Below, surroundings.below),
    choice!(
        VoidBelow,
        Surroundings,
        "surroundings.void_below",
        "uv",
        false,
        VoidBelow,
        surroundings.void_below
    ),
    choice!(Floor, Surroundings, "surroundings.floor", "uo", false, Floor, surroundings.floor),
    number!(
        HearthFront,
        Surroundings,
        "surroundings.hearth_front_m",
        "hf",
        false,
        Size,
        0.0..=20.0,
        0.0..=3.0,
        0.01,
        surroundings.hearth_front
    ),
    number!(
        HearthSide,
        Surroundings,
        "surroundings.hearth_side_m",
        "hs",
        false,
        Size,
        0.0..=20.0,
        0.0..=3.0,
        0.01,
        surroundings.hearth_side
    ),
    choice!(
        WallProtection,
        Surroundings,
        "surroundings.wall_protection",
        "pv",
        true,
        Protection,
        surroundings.wall_protection
    ),
    choice!(
        CeilingProtection,
        Surroundings,
        "surroundings.ceiling_protection",
        "pc",
        true,
        Protection,
        surroundings.ceiling_protection
    ),
    choice!(Foam, Surroundings, "surroundings.foam", "qf", false, Foam, surroundings.foam),
    choice!(
        FoamCovered,
        Surroundings,
        "surroundings.foam_covered",
        "qc",
        false,
        Stated,
        surroundings.foam_covered
    ),
    choice!(
        Children,
        Surroundings,
        "surroundings.children",
        "qk",
        false,
        Stated,
        surroundings.children
    ),
    choice!(Carrier, Support, "support.carrier", "gk", false, Carrier, support.carrier),
    choice!(
        ChimneyCarrier,
        Support,
        "support.chimney",
        "gh",
        false,
        ChimneyCarrier,
        support.chimney
    ),
    number!(
        FootingThickness,
        Support,
        "support.footing_thickness_m",
        "gt",
        false,
        Size,
        0.05..=3.0,
        0.2..=1.0,
        0.01,
        support.footing_thickness
    ),
    number!(
        FootingProjection,
        Support,
        "support.footing_projection_m",
        "gp",
        false,
        Size,
        0.0..=3.0,
        0.0..=1.0,
        0.01,
        support.footing_projection
    ),
    number!(
        FootingDepth,
        Support,
        "support.footing_depth_m",
        "gd",
        false,
        Length,
        0.0..=10.0,
        0.0..=4.0,
        0.1,
        support.footing_depth
    ),
    number!(
        FrostDepth,
        Support,
        "support.frost_depth_m",
        "gr",
        false,
        Length,
        0.0..=5.0,
        0.0..=3.0,
        0.1,
        support.frost_depth
    ),
    choice!(Soil, Support, "support.soil", "gs", false, Soil, support.soil),
    choice!(Seismic, Support, "support.seismic", "ge", true, Seismic, support.seismic),
];

/// The input of a name.
///
/// # Panics
///
/// Never: a test holds that every name is in the catalog.
pub fn field(id: FieldId) -> &'static Field {
    FIELDS.iter().find(|field| field.id == id).unwrap_or(&FIELDS[0])
}

/// What is wrong with a design.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Problem {
    /// The input to look at.
    pub field: FieldId,
    /// What is wrong with it.
    pub kind: ProblemKind,
}

/// Kinds of problem with an input.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ProblemKind {
    /// Outside the possible range (SI).
    OutOfRange {
        /// The value that was given.
        value: f64,
        /// Lowest possible.
        low: f64,
        /// Highest possible.
        high: f64,
    },
    /// The chimney mouth must stand above the top of the heater, at this height at least (m).
    MouthBelowHeater(f64),
    /// The part outdoors must not be longer than the chimney, this long at most (m).
    OutdoorsLongerThanChimney(f64),
    /// A day's firings must follow one another within the day, this far apart at most (s).
    FiringsBeyondDay(f64),
    /// A firing must burn out before the next one (s).
    FiringsOverlap(f64),
    /// The door must fit into the wall of the firebox, this size at most (m).
    DoorLargerThanFirebox(f64),
    /// A bench has no oven.
    OvenInBench,
    /// The door of the oven must fit into its front, this size at most (m2).
    DoorLargerThanOven(f64),
}

/// Shortest chimney above the connector that can be analyzed (m).
const SHORTEST_CHIMNEY: f64 = 0.3;

/// Checks one number against its possible range.
pub fn check_number(id: FieldId, number: &Number, value: f64) -> Option<Problem> {
    let (low, high) = (*number.possible.start(), *number.possible.end());
    let slack = |limit: f64| slack(number, limit);
    let whole = number.quantity != Quantity::Count || (value - value.round()).abs() < 1e-9;
    if (low - slack(low)..=high + slack(high)).contains(&value) && whole {
        return None;
    }
    Some(Problem { field: id, kind: ProblemKind::OutOfRange { value, low, high } })
}

/// A hair, so that a limit that a field shows is not refused when it is typed again.
fn slack(number: &Number, limit: f64) -> f64 {
    let hair = 1e-9 * (number.possible.end() - number.possible.start());
    hair.max(shown_within(limit, number.quantity).min(1e-3 * limit.abs()))
}

/// Everything that keeps a design from being analyzed; empty for a good one.
pub fn check(design: &Design) -> Vec<Problem> {
    let numbers = FIELDS.iter().filter_map(|field| match &field.kind {
        Kind::Number(number) => check_number(field.id, number, (number.get)(design)),
        Kind::Choice(_) => None,
    });
    let mut problems: Vec<Problem> =
        numbers.chain(design.path.overrides.iter().flat_map(check_override)).collect();
    if problems.is_empty() {
        problems.extend(check_geometry(design));
    }
    problems
}

fn check_override(own: &RunOverride) -> Vec<Problem> {
    let sizes = [
        (FieldId::RunLength, own.length),
        (FieldId::RunWidth, own.width),
        (FieldId::RunHeight, own.height),
    ];
    let check = |(id, value): (FieldId, Option<f64>)| match &field(id).kind {
        Kind::Number(number) => check_number(id, number, value?),
        Kind::Choice(_) => None,
    };
    sizes.into_iter().filter_map(check).collect()
}

fn check_geometry(design: &Design) -> Vec<Problem> {
    let Design { firebox, chimney, .. } = design;
    let lowest_mouth = design.top_height() + SHORTEST_CHIMNEY;
    let start = design.run_heights().last().copied().unwrap_or(firebox.height);
    let longest = chimney.mouth_height - start;
    let problem = |field, kind| Problem { field, kind };
    let mut problems = Vec::new();
    if chimney.mouth_height < lowest_mouth {
        problems
            .push(problem(FieldId::MouthHeight, ProblemKind::MouthBelowHeater(lowest_mouth)));
    } else if longest < chimney.outdoor_length {
        problems.push(problem(
            FieldId::OutdoorLength,
            ProblemKind::OutdoorsLongerThanChimney(longest),
        ));
    }
    problems.extend(check_firings(&design.fire));
    problems.extend(check_oven(&design.path));
    if firebox.width < firebox.door_width {
        problems.push(problem(
            FieldId::DoorWidth,
            ProblemKind::DoorLargerThanFirebox(firebox.width),
        ));
    }
    if firebox.height < firebox.door_height {
        problems.push(problem(
            FieldId::DoorHeight,
            ProblemKind::DoorLargerThanFirebox(firebox.height),
        ));
    }
    problems
}

fn check_oven(path: &SmokePath) -> Option<Problem> {
    path.oven_index()?;
    let Oven { width, height, door_area, .. } = path.oven;
    if path.layout == Layout::Bench {
        return Some(Problem { field: FieldId::OvenPlace, kind: ProblemKind::OvenInBench });
    }
    let front = width * height;
    (front < door_area).then_some(Problem {
        field: FieldId::OvenDoor,
        kind: ProblemKind::DoorLargerThanOven(front),
    })
}

const SECONDS_PER_DAY: f64 = 86_400.0;

/// Firings of a day must not overlap, nor reach into the first one of the next day.
fn check_firings(fire: &Fire) -> Option<Problem> {
    let problem = |kind| Some(Problem { field: FieldId::FiringInterval, kind });
    if fire.firings_per_day < 1.5 || fire.firing_interval <= 0.0 {
        return None;
    }
    if fire.firing_interval < fire.burn_duration {
        return problem(ProblemKind::FiringsOverlap(fire.burn_duration));
    }
    let longest = (SECONDS_PER_DAY - fire.burn_duration) / (fire.firings_per_day - 1.0);
    if longest < fire.firing_interval {
        return problem(ProblemKind::FiringsBeyondDay(longest));
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn keys_are_unique_and_ranges_nested() {
        let paths: HashSet<_> = FIELDS.iter().map(|field| field.path).collect();
        let links: HashSet<_> = FIELDS.iter().map(|field| field.link).collect();
        assert_eq!((paths.len(), links.len()), (FIELDS.len(), FIELDS.len()));
        for each in &FIELDS {
            assert_eq!(field(each.id).path, each.path);
            if let Kind::Number(number) = &each.kind {
                assert!(number.possible.start() <= number.usual.start(), "{}", each.path);
                assert!(number.usual.end() <= number.possible.end(), "{}", each.path);
            }
        }
    }

    #[test]
    fn demonstration_is_good() {
        assert_eq!(check(&Design::demonstration()), Vec::new());
    }

    #[test]
    fn the_nearest_value_is_a_whole_step_within_the_possible() {
        let Kind::Number(length) = &field(FieldId::RunLength).kind else {
            panic!("a length is a number");
        };
        let nearest = |value| length.nearest(value);
        assert_eq!(nearest(1.9512).to_bits(), 1.95_f64.to_bits());
        assert_eq!(nearest(-3.0).to_bits(), length.possible.start().to_bits());
        assert_eq!(nearest(1e9).to_bits(), length.possible.end().to_bits());
    }

    #[test]
    fn refuses_what_cannot_be_built() {
        let mut design = Design::demonstration();
        design.chimney.mouth_height = 2.0;
        assert_eq!(check(&design)[0].field, FieldId::MouthHeight);
        design = Design::demonstration();
        design.fire.charge = f64::NAN;
        assert_eq!(check(&design)[0].field, FieldId::Charge);
        design = Design::demonstration();
        design.path.overrides = vec![RunOverride { length: Some(9.0), ..Default::default() }];
        assert_eq!(check(&design)[0].field, FieldId::RunLength);
    }
}
