//! Choices on what stands around the heater, what lies below it and what carries it.

use super::choices;

choices! {
    /// What the builder knows of a thing that can be right or wrong.
    Stated {
        /// Nothing is stated.
        NotStated = "not_stated",
        /// It is so.
        Yes = "yes",
        /// It is not so.
        No = "no",
    }
}

choices! {
    /// Where the air for the fire comes from.
    AirSupply {
        /// Nothing is stated.
        NotStated = "not_stated",
        /// From the room, which lets it in through its leaks.
        Leaks = "through_leaks",
        /// From the room, through an opening to outdoors.
        Opening = "through_opening",
        /// Through a duct from outdoors to the firebox.
        Duct = "through_duct",
    }
}

choices! {
    /// Damper between heater and chimney.
    Damper {
        /// Nothing is stated.
        NotStated = "not_stated",
        /// There is none.
        Missing = "no_damper",
        /// There is one.
        Fitted = "damper",
    }
}

choices! {
    /// What the top of a bench is for.
    BenchUse {
        /// Nothing is stated.
        NotStated = "not_stated",
        /// To sit on.
        Seat = "seat",
        /// To lie and sleep on.
        Bed = "bed",
    }
}

choices! {
    /// Foam or sheeting near the face of a wall, a floor or a ceiling by the heater.
    Foam {
        /// Nothing is stated.
        NotStated = "not_stated",
        /// There is none.
        Missing = "no_foam",
        /// EPS, XPS.
        Polystyrene = "polystyrene",
        /// PUR, PIR.
        Polyurethane = "polyurethane",
        /// Vapor barrier, kraft facing.
        Membrane = "membrane",
    }
}

choices! {
    /// What lies below the base slab.
    Below {
        /// Nothing is stated.
        NotStated = "not_stated",
        /// Masonry, concrete or earth alone.
        Mineral = "mineral",
        /// Foam, also below a slab.
        Foam = "foam",
        /// Wood, formwork or framing.
        Wood = "wood",
    }
}

choices! {
    /// What separates the base slab from what lies below.
    VoidBelow {
        /// Nothing, or a void without openings.
        Closed = "no_void",
        /// A void through which air moves.
        Ventilated = "ventilated",
    }
}

choices! {
    /// Floor in front of the loading door.
    Floor {
        /// Nothing is stated.
        NotStated = "not_stated",
        /// Nothing of it can burn.
        Mineral = "mineral_floor",
        /// It can burn beyond the hearth.
        Combustible = "combustible_floor",
    }
}

choices! {
    /// Protection built in front of what can burn, rows of NFPA 211 table 12.6.2.1.
    Protection {
        /// None.
        Bare = "bare",
        /// Row a: 3 1/2 in of masonry against it.
        Masonry = "masonry_tight",
        /// Row b: 1/2 in of board over 1 in of mineral wool against it.
        BoardOnWool = "board_on_wool",
        /// Row c: sheet over 1 in of mineral wool, ventilated.
        SheetOnWool = "sheet_on_wool_vented",
        /// Row d: 3 1/2 in of masonry, ventilated.
        MasonryVented = "masonry_vented",
        /// Row e: sheet, ventilated.
        Sheet = "sheet_vented",
        /// Row f: 1/2 in of board, ventilated.
        Board = "board_vented",
        /// Row g: two sheets, ventilated between and behind.
        TwoSheets = "two_sheets_vented",
        /// Row h: 1 in of mineral wool between two sheets, ventilated.
        WoolBetweenSheets = "wool_between_sheets_vented",
    }
}

choices! {
    /// How the chimney is made.
    ChimneyKind {
        /// Nothing is stated.
        NotStated = "not_stated",
        /// Masonry around a liner.
        Lined = "lined",
        /// Masonry without a liner.
        Unlined = "unlined",
        /// A tested system, with its own distance.
        System = "system",
    }
}

choices! {
    /// Where the chimney stands.
    ChimneyPlace {
        /// Nothing is stated.
        NotStated = "not_stated",
        /// In the house or in an outside wall.
        Inside = "inside",
        /// Wholly outside.
        Outside = "outside",
    }
}

choices! {
    /// The pipe from heater to chimney.
    ConnectorKind {
        /// Nothing is stated.
        NotStated = "not_stated",
        /// Single-wall steel.
        SingleWall = "single_wall",
        /// A tested pipe, with its own distance.
        Tested = "tested_pipe",
    }
}

choices! {
    /// At which ends the runs can be swept.
    Cleanouts {
        /// Nothing is stated.
        NotStated = "not_stated",
        /// At both ends of every run.
        BothEnds = "both_ends",
        /// At one end of every run.
        OneEnd = "one_end",
        /// At none.
        Missing = "no_cleanouts",
    }
}

choices! {
    /// Face in which the cleanouts open.
    CleanoutFace {
        /// In the side faces.
        Sides = "at_sides",
        /// In the front.
        Front = "at_front",
        /// In the back.
        Rear = "at_rear",
    }
}

choices! {
    /// What carries the heater.
    Carrier {
        /// Nothing is stated.
        NotStated = "not_stated",
        /// A footing of its own.
        Footing = "own_footing",
        /// Walls on a footing of their own.
        Walls = "support_walls",
        /// The slab of the house.
        HouseSlab = "house_slab",
        /// Wood framing.
        Framing = "framing",
    }
}

choices! {
    /// What carries the chimney.
    ChimneyCarrier {
        /// It stands beside the heater on its own.
        Beside = "beside",
        /// The heater.
        Heater = "on_heater",
    }
}

choices! {
    /// Soil below the footing, rows of IRC table R401.4.1.
    Soil {
        /// Nothing is stated.
        NotStated = "not_stated",
        /// Crystalline bedrock.
        Bedrock = "bedrock",
        /// Sedimentary and foliated rock.
        SoftRock = "soft_rock",
        /// Sandy gravel and gravel.
        Gravel = "gravel",
        /// Sand, silty and clayey sand and gravel.
        Sand = "sand",
        /// Clay and silt.
        Clay = "clay",
    }
}

choices! {
    /// Seismic design category of the site.
    Seismic {
        /// Nothing is stated.
        NotStated = "not_stated",
        /// A, B or C.
        Low = "seismic_low",
        /// D0, D1 or D2.
        High = "seismic_high",
        /// E.
        Extreme = "seismic_extreme",
    }
}
