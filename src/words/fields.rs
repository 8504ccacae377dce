//! English names and help lines of the inputs.

use crate::design::field::FieldId;
use crate::language::said;

/// Label of an input.
#[expect(clippy::too_many_lines, reason = "one arm per input")]
pub fn label(id: FieldId) -> &'static str {
    let english = match id {
        FieldId::RuleSet => "Rules",
        FieldId::Altitude => "Altitude",
        FieldId::OutdoorTemperature => "Outdoor temperature",
        FieldId::RoomTemperature => "Room temperature",
        FieldId::HeatLoss => "Heat loss of the house",
        FieldId::HouseSuction => "Suction of the house",
        FieldId::WindPressure => "Wind onto the mouth",
        FieldId::Species => "Wood",
        FieldId::Moisture => "Moisture (wet basis)",
        FieldId::Charge => "Charge",
        FieldId::BurnDuration => "Burn duration",
        FieldId::ExcessAir => "Excess air ratio",
        FieldId::Unburned => "Left unburned",
        FieldId::FiringsPerDay => "Firings a day",
        FieldId::FiringInterval => "From firing to firing",
        FieldId::AirControl => "Air during the burn",
        FieldId::Kindling => "Kindling",
        FieldId::CharStart => "Flame until",
        FieldId::CharRate => "Rate of the char",
        FieldId::AfterOpening => "Opening after the fire",
        FieldId::FireboxWidth => "Firebox width",
        FieldId::FireboxDepth => "Firebox depth",
        FieldId::FireboxHeight => "Firebox height",
        FieldId::FireboxWall => "Firebox wall",
        FieldId::Crown => "Firebox crown",
        FieldId::DoorWidth => "Door width",
        FieldId::DoorHeight => "Door height",
        FieldId::Glass => "Glass in the door",
        FieldId::InletArea => "Air inlet",
        FieldId::InletCoefficient => "Air inlet loss",
        FieldId::FlameEmissivity => "Flame emissivity",
        FieldId::Layout => "Layout",
        FieldId::RunCount => "Runs",
        FieldId::RunLength => "Run length",
        FieldId::RunWidth => "Run width",
        FieldId::RunHeight => "Run height",
        FieldId::Baffle => "Baffle",
        FieldId::PathRoughness => "Roughness of the runs",
        FieldId::Reversal => "Reversal loss",
        FieldId::Turn => "Turn loss",
        FieldId::Bleed => "Bleed slot",
        FieldId::Bypass => "Bypass damper",
        FieldId::OvenPlace => "Oven in place of run",
        FieldId::OvenWidth => "Oven width",
        FieldId::OvenDepth => "Oven depth",
        FieldId::OvenHeight => "Oven height",
        FieldId::OvenDoor => "Oven door",
        FieldId::CoreMaterial => "Core material",
        FieldId::CoreThickness => "Core thickness",
        FieldId::Gap => "Gap",
        FieldId::FacingMaterial => "Facing material",
        FieldId::FacingThickness => "Facing thickness",
        FieldId::Cap => "Cap slab",
        FieldId::Base => "Base slab",
        FieldId::InnerEmissivity => "Wall emissivity",
        FieldId::FrontInsulation => "Insulation on the front",
        FieldId::BackInsulation => "Insulation on the back",
        FieldId::SideInsulation => "Insulation on the sides",
        FieldId::TopInsulation => "Insulation on the cap",
        FieldId::MouthHeight => "Chimney mouth height",
        FieldId::FlueShape => "Flue shape",
        FieldId::FlueWidth => "Flue width or diameter",
        FieldId::FlueDepth => "Flue depth",
        FieldId::FlueMaterial => "Flue material",
        FieldId::FlueWall => "Flue wall",
        FieldId::Insulation => "Flue insulation",
        FieldId::OutdoorLength => "Chimney outdoors",
        FieldId::FlueRoughness => "Roughness of the flue",
        FieldId::MouthCoefficient => "Mouth loss",
        FieldId::ConnectorLength => "Connector length",
        FieldId::RatedTemperature => "Chimney rating",
        FieldId::Duty => "Chimney duty",
        FieldId::SideDistance => "Clearance at the sides",
        FieldId::BehindDistance => "Clearance behind",
        FieldId::FrontDistance => "Clearance in front of the door",
        FieldId::AboveDistance => "Clearance above",
        FieldId::WallBehind => "Wall behind",
        FieldId::WallGap => "Gap to the wall behind",
        FieldId::GapLow => "Opening low in that gap",
        FieldId::GapHigh => "Opening high in that gap",
        FieldId::Cleanouts => "Cleanouts",
        FieldId::CleanoutFace => "Cleanouts open",
        FieldId::CleanoutSpace => "Space at the cleanouts",
        FieldId::ChimneyKind => "Kind of chimney",
        FieldId::ChimneyPlace => "Chimney stands",
        FieldId::SootFire => "Withstands a soot fire",
        FieldId::FlueCleanout => "Cleanout of the flue",
        FieldId::ConnectorKind => "Kind of connector",
        FieldId::RoofHeight => "Height of the roof",
        FieldId::NearRise => "Ridge above that",
        FieldId::NearDistance => "Distance to the ridge",
        FieldId::MasonryWall => "Masonry around the liner",
        FieldId::ChimneyDistance => "Clearance of the chimney",
        FieldId::ConnectorDistance => "Clearance of the connector",
        FieldId::Below => "Below the base slab",
        FieldId::VoidBelow => "Void below the base slab",
        FieldId::Floor => "Floor in front of the door",
        FieldId::HearthFront => "Hearth in front",
        FieldId::HearthSide => "Hearth beside the opening",
        FieldId::WallProtection => "Protection of walls",
        FieldId::CeilingProtection => "Protection of the ceiling",
        FieldId::Carrier => "Heater stands on",
        FieldId::ChimneyCarrier => "Chimney is carried",
        FieldId::FootingThickness => "Footing thickness",
        FieldId::FootingProjection => "Footing projection",
        FieldId::FootingDepth => "Footing depth",
        FieldId::FrostDepth => "Frost depth",
        FieldId::Soil => "Soil",
        FieldId::Seismic => "Earthquakes",
        FieldId::AirSupply => "Air for the fire",
        FieldId::AirOpening => "Opening for that air",
        FieldId::BenchUse => "Bench is for",
        FieldId::CoreBrick => "Brick of the core",
        FieldId::CoreJoint => "Joint of the core",
        FieldId::FacingBrick => "Brick of the facing",
        FieldId::FacingJoint => "Joint of the facing",
        FieldId::OwnBrickLength => "Own brick, length",
        FieldId::OwnBrickWidth => "Own brick, width",
        FieldId::OwnBrickHeight => "Own brick, height",
        FieldId::Damper => "Damper",
        FieldId::DamperOpening => "Opening left by the shut damper",
        FieldId::Foam => "Foam near the heater",
        FieldId::FoamCovered => "Foam is covered",
        FieldId::Children => "Small children",
    };
    said(english)
}

/// Help line of an input.
#[expect(clippy::too_many_lines, reason = "one arm per input")]
pub fn help(id: FieldId) -> &'static str {
    let english = match id {
        FieldId::RuleSet => {
            "Whose clearance rules are applied. Local code decides in any case."
        }
        FieldId::Altitude => "Height of the house above the sea. Thin air pulls less.",
        FieldId::OutdoorTemperature => "The coldest day for which the heater is meant.",
        FieldId::RoomTemperature => {
            "Temperature of the room with the heater, and of its masonry before the fire."
        }
        FieldId::HeatLoss => "Heat that the house loses per degree between inside and outside.",
        FieldId::WindPressure => {
            "Pressure by which wind falls onto the mouth: 0 where it stands free above the roof; after EN 13384-1 (from memory) 25 Pa (0.10 in w.c.) inland and 40 Pa (0.16 in w.c.) at the coast where it does not."
        }
        FieldId::HouseSuction => {
            "Pressure by which the house itself and its fans pull against the chimney. The draft to spare is judged with at least 4 Pa (0.016 in w.c.); the firing day of the design uses what is entered."
        }
        FieldId::Species => "Composition of the wood.",
        FieldId::Moisture => {
            "Water as a share of the moist wood. Meters for builders often show it as a share of the dry wood: 20 % there is 17 % here."
        }
        FieldId::Charge => "Moist wood of one firing.",
        FieldId::BurnDuration => "Time in which the charge burns down to embers.",
        FieldId::ExcessAir => {
            "Air that passes the fire over the air that the wood needs. The draft to spare is judged at it."
        }
        FieldId::Unburned => {
            "Share of the heat that leaves as carbon monoxide, soot and charcoal."
        }
        FieldId::FiringsPerDay => "On the coldest days.",
        FieldId::FiringInterval => {
            "From one firing of the day to the next; 0 spreads them evenly."
        }
        FieldId::AirControl => {
            "Whether the excess air is held at its figure or left to the draft with the air open."
        }
        FieldId::Kindling => "Share of the burn until the flame stands.",
        FieldId::CharStart => "Share of the burn after which the flame gives way to char.",
        FieldId::CharRate => "How fast the char burns, as a share of the flame's rate.",
        FieldId::AfterOpening => {
            "Free opening that stays through damper and door after the fire. Air through it carries heat up the chimney."
        }
        FieldId::FireboxWidth | FieldId::OvenWidth => "Inside, along the runs.",
        FieldId::FireboxDepth | FieldId::OvenDepth => "Inside, front to back.",
        FieldId::FireboxHeight | FieldId::OvenHeight => "Inside, floor to ceiling.",
        FieldId::FireboxWall => "Thickness of the firebox walls, without facing.",
        FieldId::Crown => "Thickness of the slab between the firebox and what lies above it.",
        FieldId::DoorWidth => "Opening of the loading door.",
        FieldId::DoorHeight => "Opening of the loading door, sill to lintel.",
        FieldId::Glass => "Glass as a share of the door.",
        FieldId::InletArea => "Free area through which the fire takes its air when fully open.",
        FieldId::InletCoefficient => {
            "How much the air inlet holds back: a number of times the push of the air that moves through it."
        }
        FieldId::FlameEmissivity => "How strongly the flame radiates, 1 being a black body.",
        FieldId::Layout => "Where the runs lie.",
        FieldId::RunCount => {
            "Number of horizontal runs that the smoke passes one after another."
        }
        FieldId::RunLength => "Inside, from end wall to end wall.",
        FieldId::RunWidth => "Inside, across the flow, front to back.",
        FieldId::RunHeight => {
            "Inside, from baffle to baffle. The slot at each reversal is as long as the run is high."
        }
        FieldId::Baffle => "Thickness of the baffle between two runs.",
        FieldId::PathRoughness => {
            "Mean roughness of the walls: smooth fireclay 2 mm (0.08 in), brickwork 3 mm (0.12 in)."
        }
        FieldId::Reversal => {
            "How much a reversal between two runs holds back: a number of times the push of the moving gas. Authors differ: 2.0 to 4.5."
        }
        FieldId::Turn => {
            "How much a turn of 90 degrees holds back: a number of times the push of the moving gas."
        }
        FieldId::Bleed => {
            "Slot from the top of the firebox to the connector that lets gas out even with all runs cold: about 1 cm² per kilogram (0.07 in² per pound) of charge. It costs some 3 points of the heat."
        }
        FieldId::Bypass => {
            "Opening from the firebox to the connector that is opened to light a cold heater and shut when it draws."
        }
        FieldId::OvenPlace => {
            "Number of the run that is an oven through which the smoke passes; 0 for none. A bench has none."
        }
        FieldId::OvenDoor => "Area of the metal door of the oven, at the front.",
        FieldId::CoreMaterial => "Material of firebox, runs and baffles.",
        FieldId::CoreThickness => "Thickness of the walls around the runs, without facing.",
        FieldId::Gap => {
            "Space between core and facing, where the core reaches farthest. The facing rises straight, \
             so beside what is narrower of the core it stands farther off."
        }
        FieldId::FacingMaterial => "Material of the outer shell.",
        FieldId::FacingThickness => "Thickness of the outer shell.",
        FieldId::Cap => "Thickness of the slab that closes the heater at the top.",
        FieldId::Base => {
            "Concrete slab below the heater. Over a ventilated void it gives off heat below; without one it is computed as giving off none, and gets hotter."
        }
        FieldId::InnerEmissivity => "How well the inner walls take up radiation.",
        FieldId::FrontInsulation => {
            "Insulating board around the door; 0 leaves the front free to the room."
        }
        FieldId::BackInsulation => {
            "Insulating board on the back; 0 leaves it free. Behind it the masonry gets hotter."
        }
        FieldId::SideInsulation => {
            "Insulating board on both sides, where the runs end; 0 leaves them free."
        }
        FieldId::TopInsulation => "Insulating board on the cap slab; 0 leaves it free.",
        FieldId::MouthHeight => {
            "Height of the mouth above the floor of the firebox. The house fixes it."
        }
        FieldId::FlueShape => "Round or rectangular.",
        FieldId::FlueWidth => "Inside.",
        FieldId::FlueDepth => "Inside, for a rectangular flue.",
        FieldId::FlueMaterial => "Material of the wall or liner of the flue.",
        FieldId::FlueWall => "Thickness of the wall or liner of the flue.",
        FieldId::Insulation => "Thickness of mineral wool around the flue.",
        FieldId::OutdoorLength => {
            "Length of the chimney that stands outdoors or in an unheated attic."
        }
        FieldId::FlueRoughness => {
            "Mean roughness of the flue: clay liner 1.5 mm (0.06 in), brickwork 5 mm (0.2 in)."
        }
        FieldId::MouthCoefficient => {
            "How much a cap at the mouth holds back: a number of times the push of the moving gas; 0 for an open mouth."
        }
        FieldId::ConnectorLength => {
            "Length of the bare steel pipe from the last run to the chimney."
        }
        FieldId::RatedTemperature => "Gas temperature for which the chimney is rated.",
        FieldId::Duty => "Whether condensate may run in the chimney.",
        FieldId::SideDistance => "From the facing to the nearest thing that can burn.",
        FieldId::BehindDistance => "From the back to the nearest thing that can burn.",
        FieldId::FrontDistance => "From the loading door to the nearest thing that can burn.",
        FieldId::AboveDistance => "From the cap slab up to the ceiling.",
        FieldId::WallBehind => {
            "Wall of the house that the back of the heater faces. The day shows how hot its face gets at most."
        }
        FieldId::WallGap => "From the back to the wall behind, where there is one.",
        FieldId::GapLow => {
            "Free area through which room air enters at the foot of the gap; with 0 the gap counts as blocked. The air flows freely when the openings at foot and top each have half of the gap's own section and it is at least 25 mm (1 in) wide."
        }
        FieldId::GapHigh => {
            "Free area through which the air leaves at the top of the gap; with 0 the gap counts as blocked."
        }
        FieldId::Cleanouts => "Ends of the runs at which a brush gets in.",
        FieldId::CleanoutFace => "Face of the heater in which the cleanout doors are.",
        FieldId::CleanoutSpace => {
            "Free space in front of the cleanout doors, to whatever stands there."
        }
        FieldId::ChimneyKind => {
            "A tested system keeps the distance and the class on its label."
        }
        FieldId::ChimneyPlace => "A chimney in an outside wall counts as in the house.",
        FieldId::SootFire => {
            "Class G in Europe; in North America a clay liner in masonry, or a metal chimney tested for it (type HT)."
        }
        FieldId::FlueCleanout => {
            "Whether a cleanout lies at most 150 mm (6 in) above the foot of the flue."
        }
        FieldId::ConnectorKind => {
            "The steel pipe from the last run to the chimney, as wide as the flue. A tested pipe keeps the distance on its label."
        }
        FieldId::RoofHeight => {
            "Highest point at which the chimney passes through the roof, above the floor of the firebox; 0 when not known."
        }
        FieldId::NearRise => {
            "How far the ridge, or whatever is highest near the mouth, stands above that point; 0 when nothing does."
        }
        FieldId::NearDistance => "From the mouth, level, to that ridge.",
        FieldId::MasonryWall => {
            "Solid masonry around the liner of a masonry chimney. It weighs; it is not counted as insulation."
        }
        FieldId::ChimneyDistance => {
            "From the chimney to the nearest wood: framing, floors, roof. Open to the air, not filled."
        }
        FieldId::ConnectorDistance => "From the connector to the nearest thing that can burn.",
        FieldId::Below => {
            "What lies under the base slab, as deep as the heat gets: foam under a floor slab and forms left in place count."
        }
        FieldId::VoidBelow => "A void with openings on two sides, so that air moves through.",
        FieldId::Floor => "Whether the floor in front of the loading door can burn.",
        FieldId::HearthFront => "Floor that cannot burn, from the door opening into the room.",
        FieldId::HearthSide => "Floor that cannot burn, to each side of the door opening.",
        FieldId::WallProtection => {
            "Built in front of what can burn at the sides and behind. Ventilated: 25 mm (1 in) of air behind it, open at top and bottom, on spacers that cannot burn."
        }
        FieldId::CeilingProtection => "Built below a ceiling that can burn, in the same ways.",
        FieldId::Carrier => "What carries the heater. An engineer decides.",
        FieldId::ChimneyCarrier => {
            "Beside the heater on a footing of its own, or by the heater."
        }
        FieldId::FootingThickness => "Thickness of the concrete footing.",
        FieldId::FootingProjection => {
            "By how much the footing is wider than the heater, on every side."
        }
        FieldId::FootingDepth => "Underside of the footing below the ground outdoors.",
        FieldId::FrostDepth => {
            "How deep the ground freezes; 0 where it does not. The building official knows."
        }
        FieldId::Soil => "Soil below the footing.",
        FieldId::Seismic => "Seismic design category of the site. The building official knows.",
        FieldId::AirSupply => {
            "A tight house lets too little in through its leaks, and a fan in kitchen or bath takes even that."
        }
        FieldId::AirOpening => {
            "Free area between the bars of the opening, or of the duct where it is narrowest."
        }
        FieldId::BenchUse => "What the top of a bench is for, where the runs are one.",
        FieldId::CoreBrick | FieldId::FacingBrick => "Where it is laid in brick.",
        FieldId::CoreJoint | FieldId::FacingJoint => "Mortar between two bricks.",
        FieldId::OwnBrickLength | FieldId::OwnBrickWidth | FieldId::OwnBrickHeight => {
            "Your own or salvaged brick, cleaned, without mortar."
        }
        FieldId::Damper => "A plate that closes the way to the chimney when the fire is out.",
        FieldId::DamperOpening => {
            "What the shut damper leaves open, a notch or a hole in it, so that the gas of embers gets out."
        }
        FieldId::Foam => {
            "Foam or sheeting in the wall behind the heater or in what faces it, within a hand's breadth of the surface."
        }
        FieldId::FoamCovered => {
            "Whether 13 mm (1/2 in) of gypsum board or as much lies over the foam."
        }
        FieldId::Children => {
            "Whether small children live or visit where they can touch the heater."
        }
    };
    said(english)
}
