//! Words of the page itself: buttons, headings, states.

use longsmoke::language::{said, say};

/// A text by its name, where it cannot be said yet.
pub type Text = fn() -> &'static str;

/// Texts by their names.
macro_rules! texts {
    ($($name:ident: $text:literal,)+) => {
        $(pub fn $name() -> &'static str {
            said($text)
        })+
    };
}

texts! {
    name_label: "Name of the design",
    unnamed: "Unnamed design",
    undo: "Undo",
    redo: "Redo",
    units: "Units",
    metric: "Metric",
    us: "US",
    theme: "Colors",
    theme_device: "As device",
    theme_light: "Light",
    theme_dark: "Dark",
    theme_bright: "Bright sun",
    share: "Copy link",
    shared: "Link copied",
    share_by_hand: "Copy this link",
    save_file: "Save file",
    open_file: "Open file",
    print: "Print",
    more_to_do: "More",
    save_as: "Save as",
    sheets_a4: "Sheets, A4",
    sheets_letter: "Sheets, Letter",
    cad: "Drawings for CAD",
    every_brick: "Every brick",
    course_plans: "Course plans",
    path_table: "The smoke path",
    materials: "Materials",
    result: "All figures",
    shelf: "Designs",
    shelf_own: "Copies on this device",
    shelf_empty: "None yet. A copy stays as it is while you go on.",
    shelf_keep: "Keep a copy of this design",
    shelf_kept: "Kept a copy of",
    shelf_open: "Open",
    shelf_remove: "Remove",
    shelf_removed: "Removed",
    shelf_full: "This browser has no room for it: save a file instead.",
    erase: "Erase everything on this device",
    erase_sure: "Erase all copies and what was saved: press again",
    erased: "Everything of Longsmoke is off this device, but for the design that is open.",
    keeping_failed: "This browser keeps nothing for this page: save a file.",
    too_much: "Not saved: this design holds more than could be opened again. Undo, or unpin designs.",
    no_link: "This design holds too much for a link. Save a file.",
    held: "Not saved: see below",
    linked: "Opened from a link. Your own design is kept on this device.",
    linked_alone: "Opened from a link.",
    back_to_own: "Back to my design",
    back_to_example: "To the example",
    keep_linked: "Keep this as mine",
    dismiss: "Close",
    replaced: "The design that you had before is kept beside this one. Undo leads back to it as long as this page is open; closing this message throws it away.",
    bring_back: "Bring it back",
    no_room: "This browser has no room to keep what you made of the design from the link, so it stays open. Save a file, or remove copies under Designs; whoever goes on all the same loses it.",
    no_room_beside: "This browser has no room to keep your own design beside this one, so nothing was changed. Save a file, or remove copies under Designs.",
    other_tab: "Another tab has saved another design of yours. Nothing is saved from here until you choose.",
    take_other: "Take that one",
    keep_mine: "Keep the one here",
    stored_unreadable: "A design that this device had kept cannot be read.",
    shows_before: "The page starts with the one that was saved before it.",
    shows_example: "The page starts with the example.",
    set_aside: "Its text is set aside until you close this message.",
    not_set_aside: "There is no room to set its text aside: save it before you change anything.",
    save_text: "Save its text",
    not_saved: "The browser did not save the file. Copy the link instead.",
    file_unreadable: "The browser could not read this file. Your design is as it was.",
    design_as_it_was: "Your design is as it was.",
    last_good: "The figures shown are those of the last design that worked.",
    nothing_to_show: "This design cannot be computed.",
    rest_missing: "What explains these answers could not be fetched: plots, the day, comparing, course plans.",
    fetch_again: "Try again",
    to_decisions: "Skip to the decisions",
    to_contents: "Skip to the list of sections",
    contents: "Sections",
    terms: "Words",
    terms_of: "Words of the trade here",
    walk: "Show me round",
    walk_skip: "Close",
    walk_back: "Back",
    walk_next: "Next",
    walk_end: "Done",
    to_section: "Drawing",
    to_path: "Smoke path",
    to_strip: "1 to 10 runs",
    to_plot: "Temperatures",
    to_ledger: "Draft",
    to_worth: "How sure",
    to_trials: "Other days",
    to_conditions: "Two days",
    to_envelope: "House",
    to_variants: "Other ways",
    to_operation: "Operation",
    to_route: "Standard route",
    to_workings: "Working",
    questions: "The three questions",
    decisions: "Decisions",
    advanced: "Finer figures",
    fewer: "one less",
    more: "one more",
    figures: "Key figures",
    margin: "Draft to spare",
    chimney_inlet: "Gas into the chimney",
    efficiency: "Heat kept",
    mouth_wall: "Wall at the mouth",
    dew_point: "Dew point of the gas",
    section: "Section, to scale",
    front: "From the front",
    plan: "From above, cut through a run",
    to_bricks: "Drag by whole bricks",
    enlarge: "Enlarge",
    front_and_plan: "Front and plan",
    path: "The smoke path, unrolled",
    legend: "Gas temperature from",
    plot: "Temperatures along the path",
    plot_table: "The same as a table",
    plot_cursor: "Place shown",
    plot_here: "Where it leaves",
    plot_gas: "Gas",
    plot_wall: "Inner wall",
    ledger: "What pulls, what holds back",
    ledger_item: "Item",
    ledger_pulls: "Pulls",
    ledger_holds: "Holds back",
    ledger_sum: "Sum",
    ledger_margin: "To spare",
    findings: "Findings",
    findings_coming: "Judging the fire, the day and what is known only roughly.",
    no_findings_here: "Nothing to look at.",
    always: "In any case",
    waiting: "Waiting for your last change",
    stopped: "This computation stopped. It starts again with your next change.",
    go_to: "Go to",
    try_it: "Try it",
    working: "Show the working",
    part_card: "One part by itself",
    part_walls: "Walls",
    part_around: "Clearances",
    run_gas: "Gas",
    run_to: "to",
    as_all: "As all runs",
    smaller: "smaller",
    larger: "larger",
    strip: "One to ten runs",
    strip_note: "Each at the excess air that you state; the last lines are another state, with the air left open. Choose one to take it.",
    compare: "With a day each, and which is the best",
    wide_table: "Wide table",
    variants: "Other ways to build it",
    cancel: "Cancel",
    canceled: "Canceled. It starts again with your next change.",
    start_again: "Start again",
    suggest: "Suggest",
    suggest_trials: "Must answer yes three times (none ticked: wherever a yes is found)",
    suggest_aims: "What counts (none ticked: all alike)",
    course_plan: "Plan of a course",
    course: "Course",
    course_below: "Below",
    course_above: "Above",
    course_laid: "Laid",
    sweep: "One or two inputs over their usual range",
    sweep_note: "All else stays as it is.",
    sweep_one: "Input",
    sweep_other: "And another",
    sweep_none: "none",
    pinned_note: "Pin up to four designs, to stand beside the one that is open. They are kept with it and in its file.",
    pin: "Pin this design",
    pin_copy: "Pin a copy",
    pin_name: "Name of pinned design",
    unpin: "Unpin",
    links_pinned: "Links carry the pinned designs too",
    take: "Take it",
    cursor: "Variant that is read",
    strip_runs: "Runs",
    strip_outlet: "Into chimney",
    strip_efficiency: "Heat kept",
    strip_margin: "To spare",
    strip_open: "Air open",
    strip_air: "Excess air",
    strip_wall: "At the mouth",
    strip_none: "cannot stand",
    strip_no_finding: "Nothing found",
    day: "The day",
    day_note: "A single firing in the cold heater, and the day that repeats itself when it is fired as often as stated above.",
    day_which: "Which day",
    day_repeating: "Once the days repeat",
    day_first: "First fire",
    day_last_good: "The figures here are those of the last design that had a day.",
    day_curves: "Hour by hour",
    day_cursor: "Time shown",
    day_table: "Hour by hour as a table",
    day_hour: "Hour",
    day_fire: "Fire",
    day_no_fire: "\u{2013}",
    day_gas: "With the gas",
    day_room: "To the room",
    day_face: "Hottest face",
    day_path: "Along the path after",
    day_mouth_wall: "Wall at the mouth",
    day_account: "Where the heat of the wood went",
    day_where: "Where",
    day_share: "Share",
    day_heat: "Heat",
    run: "run",
    runs: "runs",
    number_wanted: "A number is wanted here, not below 0.",
}

/// Where a text that cannot be read is saved.
pub const UNREADABLE_FILE: &str = "unreadable-design.txt";

/// When the design was last kept.
pub fn kept_at(time: &str) -> String {
    say!("Saved {time}")
}

/// The same without room for the one before.
pub fn kept_alone(time: &str) -> String {
    say!("Saved {time}, without room for the version before")
}

/// When a design from a link was last kept, which is gone with the tab.
pub fn kept_in_tab(time: &str) -> String {
    say!("Saved in this tab {time}")
}

/// Name of a copy of what was made of a design from a link.
pub fn from_a_link(name: &str) -> String {
    say!("{name} (from a link)")
}

/// Where such a copy is.
pub fn shelved(name: &str) -> String {
    say!("What you made of the design from the link is kept as a copy, under Designs: {name}.")
}

/// Name of a copy of an own design that another took the place of.
pub fn from_before(name: &str) -> String {
    say!("{name} (from before)")
}

/// Where the one is that was kept before this one.
pub fn earlier(name: &str) -> String {
    say!("The one that was kept until now is a copy, under Designs: {name}.")
}

/// Inputs that a file left out.
pub fn missing(count: usize) -> String {
    match count {
        1 => say!("{count} input was not in the file. It takes its usual value."),
        _ => say!("{count} inputs were not in the file. They take their usual values."),
    }
}

/// Entries that are refused.
pub fn refused(count: usize) -> String {
    match count {
        1 => say!("{count} entry refused: go to"),
        _ => say!("{count} entries refused: go to"),
    }
}

/// The same at the head of a group.
pub fn refused_here(count: usize) -> String {
    say!("{count} refused")
}

/// How far a computation has come.
pub fn progress(done: usize, total: usize) -> String {
    say!("Computing {done} of {total}")
}

/// The allowed range of a number.
pub fn allowed(range: &str) -> String {
    let to = said(" to ");
    let ends: Vec<String> = range.split(to).map(|end| end.replace(' ', "\u{a0}")).collect();
    let range = ends.join(&[" ", to.trim(), "\u{a0}"].concat());
    say!("From {range}.")
}
