//! Words of the page itself: buttons, headings, states.

pub const NAME_LABEL: &str = "Name of the design";
pub const UNNAMED: &str = "Unnamed design";
pub const UNDO: &str = "Undo";
pub const REDO: &str = "Redo";
pub const UNITS: &str = "Units";
pub const METRIC: &str = "Metric";
pub const US: &str = "US";
pub const THEME: &str = "Colors";
pub const THEME_DEVICE: &str = "As device";
pub const THEME_LIGHT: &str = "Light";
pub const THEME_DARK: &str = "Dark";
pub const SHARE: &str = "Copy link";
pub const SHARED: &str = "Link copied";
pub const SHARE_BY_HAND: &str = "Copy this link";
pub const SAVE_FILE: &str = "Save file";
pub const OPEN_FILE: &str = "Open file";
pub const SHELF: &str = "Designs";
pub const SHELF_OWN: &str = "Copies on this device";
pub const SHELF_EMPTY: &str = "None yet. A copy stays as it is while you go on.";
pub const SHELF_KEEP: &str = "Keep a copy of this design";
pub const SHELF_KEPT: &str = "Kept a copy of";
pub const SHELF_OPEN: &str = "Open";
pub const SHELF_REMOVE: &str = "Remove";
pub const SHELF_REMOVED: &str = "Removed";
pub const SHELF_FULL: &str = "This browser has no room for it: save a file instead.";
pub const ERASE: &str = "Erase everything on this device";
pub const ERASE_SURE: &str = "Erase all copies and what was saved: press again";
pub const ERASED: &str =
    "Everything of Longsmoke is off this device, but for the design that is open.";
pub const NOT_YET_KEPT: &str = "";
pub const KEEPING_FAILED: &str = "This browser keeps nothing for this page: save a file.";
pub const HELD: &str = "Not saved: see below";
pub const LINKED: &str = "Opened from a link. Your own design is kept on this device.";
pub const LINKED_ALONE: &str = "Opened from a link.";
pub const BACK_TO_OWN: &str = "Back to my design";
pub const BACK_TO_EXAMPLE: &str = "To the example";
pub const KEEP_LINKED: &str = "Keep this as mine";
pub const DISMISS: &str = "Close";
pub const REPLACED: &str = "The design that you had before is kept beside this one. Undo leads back to it as long as this page is open; closing this message throws it away.";
pub const BRING_BACK: &str = "Bring it back";
pub const OTHER_TAB: &str = "Another tab has saved another design of yours. Nothing is saved from here until you choose.";
pub const TAKE_OTHER: &str = "Take that one";
pub const KEEP_MINE: &str = "Keep the one here";
pub const STORED_UNREADABLE: &str = "A design that this device had kept cannot be read.";
pub const SHOWS_BEFORE: &str = "The page starts with the one that was saved before it.";
pub const SHOWS_EXAMPLE: &str = "The page starts with the example.";
pub const SET_ASIDE: &str = "Its text is set aside until you close this message.";
pub const NOT_SET_ASIDE: &str =
    "There is no room to set its text aside: save it before you change anything.";
pub const SAVE_TEXT: &str = "Save its text";
pub const UNREADABLE_FILE: &str = "unreadable-design.txt";
pub const NOT_SAVED: &str = "The browser did not save the file. Copy the link instead.";
pub const FILE_UNREADABLE: &str =
    "The browser could not read this file. Your design is as it was.";
pub const DESIGN_AS_IT_WAS: &str = "Your design is as it was.";
pub const LAST_GOOD: &str = "The figures shown are those of the last design that worked.";
pub const NOTHING_TO_SHOW: &str = "This design cannot be computed.";
pub const TO_DECISIONS: &str = "Skip to the decisions";
pub const QUESTIONS: &str = "The three questions";
pub const DECISIONS: &str = "Decisions";
pub const ADVANCED: &str = "Finer figures";
pub const FEWER: &str = "one less";
pub const MORE: &str = "one more";
pub const FIGURES: &str = "Key figures";
pub const MARGIN: &str = "Draft to spare";
pub const CHIMNEY_INLET: &str = "Gas into the chimney";
pub const EFFICIENCY: &str = "Heat kept";
pub const MOUTH_WALL: &str = "Wall at the mouth";
pub const DEW_POINT: &str = "Dew point of the gas";
pub const SECTION: &str = "Section, to scale";
pub const FRONT: &str = "From the front";
pub const PLAN: &str = "From above, cut through a run";
pub const PATH: &str = "The smoke path, unrolled";
pub const LEGEND: &str = "Gas temperature from";
pub const PLOT: &str = "Temperatures along the path";
pub const PLOT_TABLE: &str = "The same as a table";
pub const PLOT_HERE: &str = "Where it leaves";
pub const PLOT_GAS: &str = "Gas";
pub const PLOT_WALL: &str = "Inner wall";
pub const LEDGER: &str = "What pulls, what holds back";
pub const LEDGER_ITEM: &str = "Item";
pub const LEDGER_PULLS: &str = "Pulls";
pub const LEDGER_HOLDS: &str = "Holds back";
pub const LEDGER_SUM: &str = "Sum";
pub const LEDGER_MARGIN: &str = "To spare";
pub const FINDINGS: &str = "Findings";
pub const NO_FINDINGS_HERE: &str = "Nothing to look at.";
pub const ALWAYS: &str = "In any case";
pub const WAITING: &str = "Waiting for your last change";
pub const STOPPED: &str = "This computation stopped. It starts again with your next change.";
pub const GO_TO: &str = "Go to";
pub const TRY_IT: &str = "Try it";
pub const WORKING: &str = "Show the working";
pub const RUN_CARD: &str = "One run by itself";
pub const RUN_GAS: &str = "Gas";
pub const RUN_TO: &str = "to";
pub const AS_ALL: &str = "As all runs";
pub const SMALLER: &str = "smaller";
pub const LARGER: &str = "larger";
pub const STRIP: &str = "One to ten runs";
pub const STRIP_NOTE: &str = "Each at the excess air that you state; the last lines are another state, with the air left open. Choose one to take it.";
pub const COMPARE: &str = "With a day each, and which is the best";
pub const WIDE_TABLE: &str = "Wide table";
pub const VARIANTS: &str = "Other ways to build it";
pub const CANCEL: &str = "Cancel";
pub const SUGGEST: &str = "Suggest";
pub const SUGGEST_TRIALS: &str =
    "Must answer yes three times (none ticked: wherever a yes is found)";
pub const SUGGEST_AIMS: &str = "What counts (none ticked: all alike)";
pub const SWEEP: &str = "One or two inputs over their usual range";
pub const SWEEP_NOTE: &str = "All else stays as it is.";
pub const SWEEP_ONE: &str = "Input";
pub const SWEEP_OTHER: &str = "And another";
pub const SWEEP_NONE: &str = "none";
pub const PINNED_NOTE: &str = "Keep copies of designs under Designs, then tick up to three to stand beside the one that is open.";
pub const STRIP_RUNS: &str = "Runs";
pub const STRIP_OUTLET: &str = "Into chimney";
pub const STRIP_EFFICIENCY: &str = "Heat kept";
pub const STRIP_MARGIN: &str = "To spare";
pub const STRIP_OPEN: &str = "Air open";
pub const STRIP_AIR: &str = "Excess air";
pub const STRIP_WALL: &str = "At the mouth";
pub const STRIP_NONE: &str = "cannot stand";
pub const STRIP_NO_FINDING: &str = "Nothing found";
pub const DAY: &str = "The day";
pub const DAY_NOTE: &str = "A single firing in the cold heater, and the day that repeats itself when it is fired as often as stated above.";
pub const DAY_WHICH: &str = "Which day";
pub const DAY_REPEATING: &str = "Once the days repeat";
pub const DAY_FIRST: &str = "First fire";
pub const DAY_LAST_GOOD: &str = "The figures here are those of the last design that had a day.";
pub const DAY_CURVES: &str = "Hour by hour";
pub const DAY_CURSOR: &str = "Time shown";
pub const DAY_TABLE: &str = "Hour by hour as a table";
pub const DAY_HOUR: &str = "Hour";
pub const DAY_FIRE: &str = "Fire";
pub const DAY_NO_FIRE: &str = "\u{2013}";
pub const DAY_GAS: &str = "With the gas";
pub const DAY_ROOM: &str = "To the room";
pub const DAY_FACE: &str = "Hottest face";
pub const DAY_PATH: &str = "Along the path after";
pub const DAY_MOUTH_WALL: &str = "Wall at the mouth";
pub const DAY_ACCOUNT: &str = "Where the heat of the wood went";
pub const DAY_WHERE: &str = "Where";
pub const DAY_SHARE: &str = "Share";
pub const DAY_HEAT: &str = "Heat";
pub const CONDITIONS_FIRE: &str = "Fire";
pub const RUN: &str = "run";
pub const RUNS: &str = "runs";

/// When the design was last kept.
pub fn kept_at(time: &str) -> String {
    format!("Saved {time}")
}

/// The same without room for the one before.
pub fn kept_alone(time: &str) -> String {
    format!("Saved {time}, without room for the version before")
}

/// Inputs that a file left out.
pub fn missing(count: usize) -> String {
    let inputs = if count == 1 { "input was" } else { "inputs were" };
    let take = if count == 1 { "It takes its" } else { "They take their" };
    format!("{count} {inputs} not in the file. {take} usual values.")
}

/// Entries that are refused.
pub fn refused(count: usize) -> String {
    let entries = if count == 1 { "entry" } else { "entries" };
    format!("{count} {entries} refused: go to")
}

/// The same at the head of a group.
pub fn refused_here(count: usize) -> String {
    format!("{count} refused")
}

/// How far a computation has come.
pub fn progress(done: usize, total: usize) -> String {
    format!("Computing {done} of {total}")
}

/// Takes a design that was suggested.
pub fn take(number: usize) -> String {
    format!("Take design {number}")
}

/// The allowed range of a number.
pub fn allowed(range: &str) -> String {
    format!("From {}.", range.replace(' ', "\u{a0}").replace("\u{a0}to\u{a0}", " to\u{a0}"))
}
