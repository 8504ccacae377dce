//! How a figure came about: the functions that computed it, called once more on the same values,
//! with what was put in.

mod build;
mod draft;
mod heat;

use crate::analysis::conditions::DueForCleaning;
use crate::analysis::draft::Item;
use crate::analysis::extrapolation::Formula as Published;
use crate::analysis::otherwise::{fouled, half_charged};
use crate::analysis::path::{Path, path};
use crate::analysis::standard_route::sizes::{
    BLEED_AREA, FIREBOX_SURFACE, LEAST_FIREBOX_BASE, LEAST_FIREBOX_HEIGHT, PATH_OF_CHARGE,
};
use crate::analysis::standard_route::standard_route;
use crate::analysis::structure::Part;
use crate::analysis::{Analysis, Failure, State, analyze, detail};
use crate::design::Design;
use crate::physics::air::PRESSURE_AT_ALTITUDE;
use crate::physics::conduction::{CYLINDER_RESISTANCE, FILM_RESISTANCE, INNER_SURFACE};
use crate::physics::convection::{COOLED, RICHARDSON, TRANSFER_UNITS};
use crate::physics::expansion::{GROUND_PRESSURE, MASS, SOIL_PRESSURE, THERMAL_GROWTH};
use crate::physics::formula::Formula;
use crate::physics::gas::{DENSITY, STREAM_HEAT};
use crate::physics::geometry::{BASE, BLOCK_SURFACE, GLASS_SHARE, RATIO_OF_SIDES};
use crate::physics::house::{
    CHARGE_FOR, DAY, FIRINGS_FOR, HEAT_OF_A_DAY, HOUSE_LOSS, ROOM_RISE, WOOD_HEAT,
};
use crate::physics::pressure::{COLUMN_PULL, FLOW_SPEED, LOCAL_LOSS, MARGIN, ORIFICE_AREA};
use crate::physics::vapor::{DEW_POINT, PARTIAL_PRESSURE};
use crate::physics::wood::{
    EXCESS_AIR, FIRE_POWER, HIGHER_HEATING_VALUE, NET_HEAT, SHARE_OF_HIGHER,
    STOICHIOMETRIC_OXYGEN, USEFUL_SHARE,
};
use crate::rules::{
    Around, Burning, Day, FLUX_OF_GLASS, Finding, Hazard, InHouse, Judged, PATH_OF_DEFINITION,
    Place, REACH_OF_GLASS, Rule, STAYS_OPEN, Start, WANTED, conditions, wanted,
};
use crate::units::measure::Measure;

/// Every formula that a working may show.
pub const FORMULAS: &[&Formula] = &[
    &PRESSURE_AT_ALTITUDE,
    &DENSITY,
    &COLUMN_PULL,
    &FLOW_SPEED,
    &LOCAL_LOSS,
    &MARGIN,
    &WANTED,
    &STOICHIOMETRIC_OXYGEN,
    &EXCESS_AIR,
    &HIGHER_HEATING_VALUE,
    &NET_HEAT,
    &FIRE_POWER,
    &STREAM_HEAT,
    &USEFUL_SHARE,
    &SHARE_OF_HIGHER,
    &TRANSFER_UNITS,
    &COOLED,
    &PARTIAL_PRESSURE,
    &DEW_POINT,
    &CYLINDER_RESISTANCE,
    &FILM_RESISTANCE,
    &INNER_SURFACE,
    &BLOCK_SURFACE,
    &BASE,
    &RATIO_OF_SIDES,
    &GLASS_SHARE,
    &RICHARDSON,
    &BLEED_AREA,
    &FIREBOX_SURFACE,
    &LEAST_FIREBOX_BASE,
    &LEAST_FIREBOX_HEIGHT,
    &PATH_OF_CHARGE,
    &PATH_OF_DEFINITION,
    &FLUX_OF_GLASS,
    &REACH_OF_GLASS,
    &STAYS_OPEN,
    &ORIFICE_AREA,
    &HOUSE_LOSS,
    &HEAT_OF_A_DAY,
    &WOOD_HEAT,
    &CHARGE_FOR,
    &FIRINGS_FOR,
    &ROOM_RISE,
    &MASS,
    &GROUND_PRESSURE,
    &SOIL_PRESSURE,
    &THERMAL_GROWTH,
];

/// A figure whose working can be shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shown {
    /// What pulls at the height of the fire (Pa).
    Draft,
    /// What holds back (Pa).
    Losses,
    /// What is left (Pa).
    Margin,
    /// What is left as it is judged, on a day and at a start (Pa).
    Judged(Start, Day),
    /// What must be left when hot, on a day (Pa).
    Wanted(Day),
    /// Draft to spare at the height of the fire when due for cleaning, as it is judged (Pa).
    Due(Day),
    /// What must be to spare then (Pa).
    DueWanted(Day),
    /// Excess air (–).
    ExcessAir,
    /// Gas into the chimney (K).
    ChimneyInlet,
    /// Efficiency on the lower heating value (–).
    EfficiencyLower,
    /// Efficiency on the higher heating value (–).
    EfficiencyHigher,
    /// Dew point (K).
    DewPoint,
    /// Wall at the mouth (K).
    MouthWall,
    /// The same with half a charge (K).
    HalfChargeWall,
    /// Gas into a run, from 0 (m/s).
    Speed(usize),
    /// Air through its inlet (m/s).
    Inflow,
    /// Inner surface of the firebox (m2).
    FireboxSurface,
    /// Surface that the route asks for (m2).
    SurfaceAsked,
    /// Base of the firebox (m2).
    FireboxBase,
    /// Smallest base of the route (m2).
    BaseAsked,
    /// Smallest height of the route (m).
    HeightAsked,
    /// Longer side of the base over the other (–).
    BaseRatio,
    /// Glass over the surface of the firebox (–).
    GlassShare,
    /// Buoyancy over inertia in a run, from 0 (–).
    Buoyancy(usize),
    /// Bleed slot that the route asks for (m2).
    BleedAsked,
    /// What a shut damper must leave open (m2).
    DamperAsked,
    /// Opening that the air of the fire needs (m2).
    AirAsked,
    /// Distance that the glass asks for (m).
    GlassReach,
    /// Smoke path (m).
    PathLength,
    /// Shortest path of the route (m).
    ShortestPath,
    /// Shortest path of a masonry heater by definition (m).
    PathOfDefinition,
    /// Loss of the house (W).
    HouseLoss,
    /// Heat of the heater in a day (J).
    DayHeat,
    /// Charge that covers the house (kg).
    ChargeWanted,
    /// Firings that cover the house (–).
    FiringsWanted,
    /// Mass of the heater (kg).
    Mass,
    /// What the heater presses on its ground (Pa).
    Bearing,
    /// What its footing presses on the soil (Pa).
    SoilPressure,
    /// Growth of the core (m).
    Growth,
    /// Suction of the house by its own height (Pa).
    OwnSuction,
}

impl Shown {
    /// Those at the head of the page and of a report.
    pub const HEADLINES: [Self; 18] = [
        Self::Draft,
        Self::Losses,
        Self::Margin,
        Self::Wanted(Day::Design),
        Self::ExcessAir,
        Self::ChimneyInlet,
        Self::EfficiencyLower,
        Self::EfficiencyHigher,
        Self::DewPoint,
        Self::MouthWall,
        Self::Speed(0),
        Self::SurfaceAsked,
        Self::PathLength,
        Self::ShortestPath,
        Self::DayHeat,
        Self::ChargeWanted,
        Self::Mass,
        Self::SoilPressure,
    ];

    /// Name in messages.
    pub fn id(self) -> String {
        format!("{self:?}")
    }

    /// All figures of a design with so many runs.
    pub fn of(runs: usize) -> Vec<Self> {
        let each = |shown: fn(usize) -> Self| (0..runs).map(shown);
        let apart = |shown: &Self| matches!(shown, Self::Speed(_) | Self::Buoyancy(_));
        let others = Self::ALL.into_iter().filter(|shown| !apart(shown));
        others.chain(each(Self::Speed)).chain(each(Self::Buoyancy)).collect()
    }

    /// All, of the runs the first.
    pub const ALL: [Self; 47] = [
        Self::Draft,
        Self::Losses,
        Self::Margin,
        Self::Judged(Start::Hot, Day::Design),
        Self::Judged(Start::Hot, Day::Mild),
        Self::Judged(Start::Cold, Day::Design),
        Self::Judged(Start::Cold, Day::Mild),
        Self::Wanted(Day::Design),
        Self::Wanted(Day::Mild),
        Self::ExcessAir,
        Self::ChimneyInlet,
        Self::EfficiencyLower,
        Self::EfficiencyHigher,
        Self::DewPoint,
        Self::MouthWall,
        Self::Speed(0),
        Self::Inflow,
        Self::FireboxSurface,
        Self::SurfaceAsked,
        Self::FireboxBase,
        Self::BaseAsked,
        Self::HeightAsked,
        Self::PathLength,
        Self::ShortestPath,
        Self::PathOfDefinition,
        Self::HouseLoss,
        Self::DayHeat,
        Self::ChargeWanted,
        Self::FiringsWanted,
        Self::Mass,
        Self::Bearing,
        Self::SoilPressure,
        Self::Growth,
        Self::OwnSuction,
        Self::Speed(1),
        Self::BaseRatio,
        Self::GlassShare,
        Self::Buoyancy(0),
        Self::BleedAsked,
        Self::DamperAsked,
        Self::AirAsked,
        Self::GlassReach,
        Self::HalfChargeWall,
        Self::Due(Day::Design),
        Self::Due(Day::Mild),
        Self::DueWanted(Day::Design),
        Self::DueWanted(Day::Mild),
    ];
}

/// Where a formula is used.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spot {
    /// The site.
    Site,
    /// Outdoors.
    Outdoors,
    /// The room.
    Room,
    /// The wood.
    Wood,
    /// The air inlet.
    Inlet,
    /// The firebox.
    Firebox,
    /// A run, from 0.
    Run(usize),
    /// Into a run, from 0.
    Into(usize),
    /// Out of the last run.
    OutOfRuns,
    /// The last third of the last run.
    LastCell,
    /// The connector.
    Connector,
    /// The chimney indoors.
    ChimneyIndoors,
    /// The chimney outdoors.
    ChimneyOutdoors,
    /// The mouth.
    Mouth,
    /// The wall of the flue.
    FlueWall,
    /// The wool around it.
    Wool,
    /// The film outside.
    OutsideFilm,
    /// A part of the heater.
    Part(Part),
    /// The heater.
    Heater,
    /// The footing.
    Footing,
    /// The house.
    House,
}

/// A term of a sum.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Term {
    /// An item of the draft ledger.
    Item(Item),
    /// Something at a place.
    At(Spot),
    /// What holds back as it was entered.
    Losses,
    /// Suction that is judged with beyond what was entered.
    MoreSuction,
    /// Heat of the wood.
    Wood,
    /// Heat of the air.
    Air,
    /// What stays unburned.
    Unburned,
    /// Heat into the walls of the firebox.
    Walls,
    /// Heat through the glass.
    Glass,
    /// Heat through the metal of the door.
    Door,
}

/// What a sum yields.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Total {
    /// All that pulls.
    Draft,
    /// Turns, friction of a kind.
    Losses,
    /// Heat left in the gas out of the firebox.
    FireboxGas,
    /// Resistance around the flue.
    Resistance,
    /// Smoke path.
    Path,
    /// Mass of the heater.
    Heater,
}

/// A step of a working.
#[derive(Clone, Debug, PartialEq)]
pub enum Step {
    /// A formula with its values put in.
    Formula {
        /// The formula.
        formula: &'static Formula,
        /// Where it is used.
        spot: Spot,
        /// Its values, in the order of its symbols (SI).
        values: Vec<f64>,
        /// What it yields (SI).
        result: f64,
    },
    /// A sum.
    Sum {
        /// What it yields.
        total: Total,
        /// What is added up, signed (SI).
        terms: Vec<(Term, f64)>,
        /// In which unit.
        measure: Measure,
        /// What it yields (SI).
        result: f64,
    },
}

impl Step {
    /// What it yields (SI).
    pub const fn result(&self) -> f64 {
        match self {
            Self::Formula { result, .. } | Self::Sum { result, .. } => *result,
        }
    }

    /// In which unit.
    pub const fn measure(&self) -> Measure {
        match self {
            Self::Formula { formula, .. } => formula.result.measure,
            Self::Sum { measure, .. } => *measure,
        }
    }
}

/// The steps to a figure; the last one yields it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Working {
    /// The steps.
    pub steps: Vec<Step>,
}

impl Working {
    /// The figure (SI); none where there is no step.
    pub fn result(&self) -> Option<f64> {
        self.steps.last().map(Step::result)
    }

    fn put(&mut self, formula: &'static Formula, spot: Spot, values: &[f64]) -> f64 {
        let result = formula.of(values);
        self.steps.push(Step::Formula { formula, spot, values: values.to_vec(), result });
        result
    }

    fn sum(&mut self, total: Total, measure: Measure, terms: Vec<(Term, f64)>) -> f64 {
        let result = terms.iter().map(|(_, value)| value).sum();
        self.steps.push(Step::Sum { total, terms, measure, result });
        result
    }
}

/// A design with all from which its figures are worked out.
pub struct Inputs<'a> {
    design: &'a Design,
    analysis: Analysis,
    path: Path,
    state: State,
}

impl<'a> Inputs<'a> {
    /// Computes the design once more.
    ///
    /// # Errors
    ///
    /// [`Failure`]: why it could not be computed.
    pub fn new(design: &'a Design) -> Result<Self, Failure> {
        let (path, state) = detail(design)?;
        Ok(Self { design, analysis: analyze(design)?, path, state })
    }

    /// How a figure came about; without steps where the design has no such figure.
    pub fn working(&self, shown: Shown) -> Working {
        let mut working = Working::default();
        let to = &mut working;
        match shown {
            Shown::Draft => self.draft(to),
            Shown::Losses => self.losses(to),
            Shown::Margin => self.margin(to),
            Shown::Judged(start, day) => self.judged(to, start, day),
            Shown::Wanted(day) => self.wanted(to, day),
            Shown::ExcessAir => self.excess_air(to),
            Shown::ChimneyInlet => self.chimney_inlet(to),
            Shown::EfficiencyLower => {
                self.efficiency(to);
            }
            Shown::EfficiencyHigher => self.efficiency_higher(to),
            Shown::DewPoint => self.dew_point(to),
            Shown::MouthWall => self.mouth_wall(to),
            Shown::HalfChargeWall => {
                return of_another(&half_charged(self.design), Shown::MouthWall);
            }
            Shown::Due(day) => {
                return of_another(&fouled(self.design), Shown::Judged(Start::Hot, day));
            }
            Shown::DueWanted(day) => {
                return of_another(&fouled(self.design), Shown::Wanted(day));
            }
            Shown::Speed(run) => self.speed(to, run),
            Shown::Inflow => self.inflow(to),
            Shown::AirAsked => self.air_asked(to),
            Shown::FireboxSurface
            | Shown::SurfaceAsked
            | Shown::FireboxBase
            | Shown::BaseAsked
            | Shown::HeightAsked
            | Shown::BaseRatio
            | Shown::GlassShare
            | Shown::BleedAsked
            | Shown::ShortestPath
            | Shown::PathOfDefinition
            | Shown::DamperAsked
            | Shown::GlassReach => self.route(to, shown),
            Shown::Buoyancy(run) => self.buoyancy(to, run),
            Shown::PathLength => self.path_length(to),
            Shown::HouseLoss
            | Shown::DayHeat
            | Shown::ChargeWanted
            | Shown::FiringsWanted
            | Shown::OwnSuction => self.house(to, shown),
            Shown::Mass | Shown::Bearing | Shown::SoilPressure | Shown::Growth => {
                self.structure(to, shown);
            }
        }
        working
    }
}

/// How a figure of another design came about; without steps where it could not be computed.
fn of_another(design: &Design, shown: Shown) -> Working {
    Inputs::new(design).map(|inputs| inputs.working(shown)).unwrap_or_default()
}

/// What the analysis holds of a figure (SI), to hold its working against; none where the design
/// has no such figure, or where it is an input or no figure of the analysis.
pub fn figure_of(shown: Shown, design: &Design, analysis: &Analysis) -> Option<f64> {
    let fire = &analysis.height_of_fire;
    let route = standard_route(design, &path(design));
    let structure = &analysis.structure;
    let house = &analysis.house;
    let judged = |start, day| {
        let all = conditions(design, analysis);
        all.into_iter().find(|each| each.start == start && each.day == day)
    };
    let due = |day| {
        let DueForCleaning { design_day, mild_day } = analysis.conditions.due_for_cleaning?;
        Some(match day {
            Day::Design => design_day,
            Day::Mild => mild_day,
        })
    };
    match shown {
        Shown::Draft => Some(fire.draft),
        Shown::Losses => Some(fire.losses),
        Shown::Margin => Some(fire.margin),
        Shown::Judged(start, day) => judged(start, day).map(|each| each.margin),
        Shown::Wanted(day) => judged(Start::Hot, day).map(|each| each.wanted),
        Shown::ExcessAir => Some(fire.excess_air_ratio),
        Shown::ChimneyInlet => Some(fire.chimney_inlet),
        Shown::EfficiencyLower => Some(fire.efficiency_lower),
        Shown::EfficiencyHigher => Some(fire.efficiency_higher),
        Shown::DewPoint => Some(fire.dew_point),
        Shown::MouthWall => Some(fire.chimney_mouth_wall),
        Shown::Due(day) => due(day).map(|state| state.margin),
        Shown::DueWanted(day) => due(day).map(|state| wanted(state.losses)),
        Shown::HalfChargeWall => analysis.conditions.half_charge.map(|half| half.wall),
        Shown::Speed(run) => fire.runs.get(run).map(|run| run.velocity),
        Shown::FireboxSurface => Some(design.firebox.surface()),
        Shown::SurfaceAsked => Some(route.firebox.surface),
        Shown::BaseAsked => Some(route.firebox.least_base),
        Shown::HeightAsked => Some(route.firebox.least_height),
        Shown::Buoyancy(run) => fire.runs.get(run).map(|run| run.richardson),
        Shown::BleedAsked => Some(route.bleed_area),
        Shown::PathLength => Some(fire.path_length),
        Shown::ShortestPath => Some(route.shortest_path),
        Shown::HouseLoss => Some(house.design_loss),
        Shown::DayHeat => Some(DAY * house.mean_output),
        Shown::ChargeWanted => house.charge_that_covers,
        Shown::FiringsWanted => house.firings_that_cover,
        Shown::Mass => Some(structure.heater),
        Shown::Bearing => Some(structure.bearing),
        Shown::SoilPressure => Some(structure.soil),
        Shown::Inflow
        | Shown::FireboxBase
        | Shown::BaseRatio
        | Shown::GlassShare
        | Shown::PathOfDefinition
        | Shown::DamperAsked
        | Shown::AirAsked
        | Shown::GlassReach
        | Shown::Growth
        | Shown::OwnSuction => None,
    }
}

/// The figures behind a draft with little to spare.
const fn of_draft(judged: Judged) -> &'static [Shown] {
    match (judged.day, judged.due) {
        (Day::Design, false) => {
            &[Shown::Judged(Start::Hot, Day::Design), Shown::Wanted(Day::Design)]
        }
        (Day::Mild, false) => &[Shown::Judged(Start::Hot, Day::Mild), Shown::Wanted(Day::Mild)],
        (Day::Design, true) => &[Shown::Due(Day::Design), Shown::DueWanted(Day::Design)],
        (Day::Mild, true) => &[Shown::Due(Day::Mild), Shown::DueWanted(Day::Mild)],
    }
}

/// The figures behind a finding, what was found first; none where it rests on what was entered, or
/// on the firing day and its many steps.
pub fn behind(finding: &Finding) -> Vec<Shown> {
    if let (Rule::GasSlow | Rule::GasFast, Place::Run(run)) = (finding.rule, finding.place) {
        return vec![Shown::Speed(run)];
    }
    let slow = Rule::OutsideFormula(Published::ForcedConvection);
    if let (true, Place::Run(run)) = (finding.rule == slow, finding.place) {
        return vec![Shown::Buoyancy(run)];
    }
    let shown: &[Shown] = match finding.rule {
        Rule::DraftNegative(judged) | Rule::DraftReserveSmall(judged) => of_draft(judged),
        Rule::ColdStartWeak(judged) => match judged.day {
            Day::Design => &[Shown::Judged(Start::Cold, Day::Design)],
            Day::Mild => &[Shown::Judged(Start::Cold, Day::Mild)],
        },
        Rule::GasAboveChimneyRating(_)
        | Rule::GasWasteful(_)
        | Rule::GasWarm(_)
        | Rule::GasCool(_) => &[Shown::ChimneyInlet],
        Rule::ChimneyWallWet(Burning::Charge) => &[Shown::MouthWall, Shown::DewPoint],
        Rule::ChimneyWallFreezing(Burning::Charge) => &[Shown::MouthWall],
        Rule::ChimneyWallWet(Burning::HalfCharge) => &[Shown::HalfChargeWall, Shown::DewPoint],
        Rule::ChimneyWallFreezing(Burning::HalfCharge) => &[Shown::HalfChargeWall],
        Rule::ChimneyWallWet(Burning::LastChar | Burning::WholeBurn) => &[Shown::DewPoint],
        Rule::FireboxSmall | Rule::FireboxLarge => {
            &[Shown::FireboxSurface, Shown::SurfaceAsked]
        }
        Rule::FireboxBaseSmall => &[Shown::FireboxBase, Shown::BaseAsked],
        Rule::FireboxLow => &[Shown::HeightAsked],
        Rule::FireboxNarrow => &[Shown::BaseRatio],
        Rule::GlassLarge => &[Shown::GlassShare],
        Rule::Around(Around::BleedSmall) => &[Shown::BleedAsked],
        Rule::Around(Around::DamperTight | Around::DamperOpeningSmall) => &[Shown::DamperAsked],
        Rule::Around(Around::AirOpeningSmall) => &[Shown::AirAsked],
        Rule::Around(Around::GlassNear) => &[Shown::GlassReach],
        Rule::InletFast => &[Shown::Inflow],
        Rule::PathShort => &[Shown::PathLength, Shown::ShortestPath],
        Rule::NoRuns => &[Shown::ShortestPath],
        Rule::HouseNotCovered => {
            &[Shown::DayHeat, Shown::HouseLoss, Shown::ChargeWanted, Shown::FiringsWanted]
        }
        Rule::InHouse(InHouse::SuctionLow) => &[Shown::OwnSuction],
        Rule::Around(Around::MassSmall) => &[Shown::Mass],
        Rule::Around(Around::OnFraming) => &[Shown::Bearing],
        Rule::Around(Around::SoilOverloaded) => &[Shown::SoilPressure],
        Rule::Around(Around::PathOfDefinition) => &[Shown::PathLength, Shown::PathOfDefinition],
        Rule::Around(Around::GapSmall) | Rule::AtTheEdge(Hazard::Growth, _) => &[Shown::Growth],
        _ => &[],
    };
    shown.to_vec()
}
