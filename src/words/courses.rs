//! What is said of courses: names, places to look at, materials, sizes that fit bricks.

use super::label;
use super::passage::Passage;
use super::sources::cited;
use crate::analysis::{Analysis, analyze};
use crate::courses::brick::{Bricks, is_whole};
use crate::courses::check::{Fault, Note, Report, Spot, check};
use crate::courses::lattice::{Rect, Way, meters};
use crate::courses::materials::{Cut, Tally, cuts, tallies};
use crate::courses::snap::{Change, snap};
use crate::courses::{
    Course, FRAME_GAP, Kind, LeftOut, Opening, Part, Plans, Space, Through, plans,
};
use crate::design::Design;
use crate::design::brick::BrickSize;
use crate::design::field::FieldId;
use crate::language::{English, said, say};
use crate::sources::{EN_15544_AIR_INLET, EN_15544_BLEED};
use crate::units::{Quantity, System, figure};

/// Heading.
pub const TITLE: English = English("Courses");
/// What goes with every plan.
pub const CAUTION: English = English(
    "A plan is no permit and no engineer's drawing: local code, the building official and a \
     qualified mason decide.",
);
/// Heading over the plans on paper.
pub const PLANS: English = English("Course plans");
/// How the plans on paper are read.
pub const HOW_TO_READ: English = English(
    "Every course from above, front at the bottom; courses that are laid alike share a plan, which \
     shows what stands beside the first of them in outline. A number in a piece is that of the list \
     of pieces cut and made to size. Tick a box when its course is laid.",
);

/// Name of a part.
pub fn part(part: Part) -> &'static str {
    let english = match part {
        Part::Firebox => "Firebox",
        Part::Fill => "Masonry below the runs",
        Part::Runs => "Runs",
        Part::Facing => "Facing",
        Part::Cap => "Cap slab",
    };
    said(english)
}

/// Name of a space.
pub fn space(space: Space) -> String {
    match space {
        Space::Firebox => said("firebox").into(),
        Space::Run(index) => say!("run {}", index + 1),
        Space::Turn(index) => say!("turn into run {}", index + 2),
        Space::WayUp => said("way up to run 1").into(),
        Space::WayDown => said("way down to run 1").into(),
    }
}

/// Name of an opening.
pub fn opening(opening: Opening) -> String {
    match opening {
        Opening::Door => said("loading door").into(),
        Opening::Cleanout(index) => say!("cleanout of run {}", index + 1),
        Opening::Connector => said("connector").into(),
        Opening::OvenDoor => said("door of the oven").into(),
        Opening::BleedSlot => said("bleed slot").into(),
        Opening::Bypass => said("bypass").into(),
        Opening::Air => said("duct for outdoor air").into(),
        Opening::WayToRuns => said("way to run 1").into(),
    }
}

/// What no input places.
pub fn left_out(what: LeftOut) -> String {
    let english = match what {
        LeftOut::NoRoom(of) => {
            return say!("No room in the walls of the firebox: {}.", opening(of));
        }
        LeftOut::Cleanouts => {
            "Cleanouts in the front of the runs where the firebox stands before them."
        }
        LeftOut::DuctToConnector => {
            "The duct from bleed slot or bypass to the connector: no input says which way it takes."
        }
        LeftOut::DuctToBench => {
            "The duct from the top of the firebox to the cap slab of the bench and down into its first run: \
             no input says which way it takes."
        }
        LeftOut::WayToRuns => "The way from the firebox to the first run.",
        LeftOut::AirInlet => "The air inlet, which is in the frame of the door.",
        LeftOut::OvenDoor => "The door of the oven behind the firebox.",
    };
    said(english).to_owned()
}

/// A course with the heights between which it lies.
pub fn title(plans: &Plans, course: &Course, system: System) -> String {
    let size = |steps: i32| figure(meters(steps), Quantity::Size, system);
    say!(
        "{}, course {}, from {} to {} above the floor of the firebox",
        body(plans, course.part, course.body),
        course.number,
        size(course.bottom + course.bed),
        size(course.top()),
    )
}

/// Name of a part, told from another of its kind.
fn body(plans: &Plans, of: Part, body: usize) -> String {
    let is_other = |course: &&Course| course.part == of && course.body != body;
    if plans.courses.iter().any(|course| is_other(&course)) {
        let which = if body == 0 { said("firebox") } else { said("bench") };
        say!("{} of the {which}", part(of))
    } else {
        part(of).to_owned()
    }
}

/// What a course takes.
pub fn counted(course: &Course) -> String {
    let count = |wanted: &dyn Fn(&Kind, bool) -> bool| {
        course.pieces.iter().filter(|piece| wanted(&piece.kind, piece.is_cut)).count()
    };
    let many = [
        (
            count(&|kind, cut| *kind == Kind::Brick && !cut),
            said("whole bricks"),
            said("whole brick"),
        ),
        (count(&|_, cut| cut), said("cut bricks"), said("cut brick")),
        (count(&|kind, _| *kind == Kind::Slab), said("slabs"), said("slab")),
        (count(&|kind, _| *kind == Kind::Lintel), said("lintels"), said("lintel")),
        (
            count(&|kind, _| *kind == Kind::Block),
            said("stones or cast pieces"),
            said("stone or cast piece"),
        ),
    ];
    let told = many.into_iter().filter(|(count, ..)| *count > 0);
    let told = told
        .map(|(count, many, one)| format!("{count} {}", if count == 1 { one } else { many }));
    told.collect::<Vec<_>>().join(", ")
}

/// Where the openings of a course are set out: from the outer corner of its own masonry in front at the
/// left, to the right along front and back, to the back along the sides. None where it has none.
pub fn openings(plans: &Plans, course: &Course, system: System) -> Option<String> {
    let own = course.region.rects().iter().chain(course.open.iter().map(|(_, rect)| rect));
    let own = own.copied().reduce(Rect::join)?;
    let size = |steps: i32| figure(meters(steps), Quantity::Size, system);
    let mut told: Vec<String> = Vec::new();
    for (of, rect) in &course.open {
        let is_here =
            |through: &&Through| through.opening == *of && through.rect.overlaps(*rect);
        let way = plans.through.iter().find(is_here).map_or(Way::Deep, |through| through.way);
        let (name, middle) = (opening(*of), [rect.left + rect.right, rect.front + rect.back]);
        let [is_right, is_back] =
            [own.left + own.right < middle[0], own.front + own.back < middle[1]];
        let (from, wide) = match way {
            Way::Deep => (size(rect.left - own.left), size(rect.width())),
            Way::Along => (size(rect.front - own.front), size(rect.depth())),
        };
        let line = match (way, is_back, is_right) {
            (Way::Deep, false, _) => say!("{name}, front, {from} to the right, {wide} wide"),
            (Way::Deep, true, _) => say!("{name}, back, {from} to the right, {wide} wide"),
            (Way::Along, _, false) => {
                say!("{name}, left side, {from} to the back, {wide} wide")
            }
            (Way::Along, _, true) => {
                say!("{name}, right side, {from} to the back, {wide} wide")
            }
        };
        if !told.contains(&line) {
            told.push(line);
        }
    }
    let all = told.join("; ");
    (!all.is_empty()).then(|| {
        say!("Open, from the outer corner of these courses in front at the left: {all}.")
    })
}

/// What a course takes, how many bricks are laid when it is, and where it is open.
pub fn up_to(plans: &Plans, at: usize, system: System) -> String {
    let bricks = |course: &Course| {
        course.pieces.iter().filter(|piece| piece.kind == Kind::Brick).count()
    };
    let laid: usize = plans.courses.iter().take(at + 1).map(bricks).sum();
    let all: usize = plans.courses.iter().map(bricks).sum();
    let takes = plans.courses.get(at).map(counted).unwrap_or_default();
    let laid = say!("{takes}. Bricks up to here: {laid} of {all}, cut pieces counted each.");
    let open = plans.courses.get(at).and_then(|course| openings(plans, course, system));
    open.map_or(laid.clone(), |open| format!("{laid} {open}"))
}

/// What stands below a plan on paper.
#[derive(Clone, Debug, Default)]
pub struct Plate {
    /// Part and courses.
    pub name: String,
    /// A box for each course with its number among all and the height at which it begins.
    pub places: String,
    /// What each takes.
    pub takes: String,
}

/// What is said below the plan of courses that are laid alike.
pub fn plate(plans: &Plans, places: &[usize], system: System) -> Plate {
    let laid = || places.iter().filter_map(|at| Some((at + 1, plans.courses.get(*at)?)));
    let length = |steps: i32| figure(meters(steps), Quantity::Size, system);
    let numbers: Vec<String> = laid().map(|(_, course)| course.number.to_string()).collect();
    let (is_one, numbers) = (numbers.len() == 1, numbers.join(", "));
    let starts = laid().map(|(number, course)| {
        format!("\u{25a1} {number}: {}", length(course.bottom + course.bed))
    });
    let starts = starts.collect::<Vec<_>>().join("; ");
    let Some((_, course)) = laid().next() else {
        return Plate::default();
    };
    let part = body(plans, course.part, course.body);
    let (high, takes) = (length(course.height), counted(course));
    let open = openings(plans, course, system);
    let takes =
        if is_one { say!("{high} high: {takes}.") } else { say!("Each {high} high: {takes}.") };
    let takes = open.map_or(takes.clone(), |open| format!("{takes} {open}"));
    Plate {
        name: if is_one {
            say!("{part}, course {numbers}")
        } else {
            say!("{part}, courses {numbers}")
        },
        places: say!("Begins at {starts}"),
        takes,
    }
}

fn size(size: [i32; 3], system: System) -> String {
    size.map(|side| figure(meters(side), Quantity::Size, system)).join(" x ")
}

fn kind(kind: Kind) -> &'static str {
    let english = match kind {
        Kind::Brick => "brick",
        Kind::Slab => "slab",
        Kind::Lintel => "lintel",
        Kind::Block => "stone or cast piece",
    };
    said(english)
}

/// Courses, materials, cuts, places to look at, sizes that fit bricks, and all courses in order.
pub fn passage(design: &Design, analysis: &Analysis, plans: &Plans, system: System) -> Passage {
    beside_plans(design, analysis, plans, system).folded(in_order(plans, system))
}

/// The same without the list of all courses, which the plans make needless.
pub fn beside_plans(
    design: &Design,
    analysis: &Analysis,
    plans: &Plans,
    system: System,
) -> Passage {
    let bricks = plans.bricks;
    let report = check(plans);
    let tallies = tallies(design, &analysis.structure, plans);
    let whole: usize = tallies.iter().map(|tally| tally.whole).sum();
    let cut: usize = tallies.iter().map(|tally| tally.cut).sum();
    let start = say!(
        "{} courses of all parts with {whole} whole and {cut} cut bricks, without waste. {}",
        plans.courses.len(),
        proof(&report),
    );
    let gap = figure(design.shell.gap, Quantity::Size, system);
    let passage = Passage::new(TITLE).text(CAUTION).text(start).text(say!(
        "Where core and facing are nearest, a gap of {gap} stays free, or takes a slip layer; the frame \
         of the door takes {} at either side. Slabs and lintels expand: bed them so that they can move.",
        figure(FRAME_GAP, Quantity::Size, system),
    ));
    let passage = passage.list(odd_walls(design, bricks, system));
    let passage = materials(passage, &tallies, system);
    let passage = passage
        .folded(cut_list(&cuts(plans), system))
        .folded(places(plans, &report, system))
        .folded(snapped(design, analysis, bricks, system));
    let passage = passage.list(sketched(plans, system));
    let missing = plans.left_out.iter().map(|what| left_out(*what));
    passage.folded(Passage::new(said("Not in the plans")).list(missing))
}

/// Openings whose section is designed and whose place is not: where the plans put them.
fn sketched(plans: &Plans, system: System) -> Vec<String> {
    let mut told: Vec<Opening> = Vec::new();
    let mut lines = Vec::new();
    for through in &plans.through {
        let Through { opening: of, way, rect, bottom, top, area } = *through;
        if area.is_none() || told.contains(&of) {
            continue;
        }
        told.push(of);
        let length = |steps: i32| figure(meters(steps), Quantity::Size, system);
        let wide = way.other().turn(rect).width();
        let from = match of {
            Opening::Air => cited(&EN_15544_AIR_INLET),
            Opening::BleedSlot => cited(&EN_15544_BLEED),
            _ => said("common practice, no source").to_owned(),
        };
        lines.push(say!(
            "No input places this, the plans put it where the wall is free, and elsewhere will do if \
             its section stays: {}, {} wide and {} high, from {} above the floor of the firebox \
             [{from}].",
            opening(of),
            length(wide),
            length(top - bottom),
            length(bottom),
        ));
    }
    lines
}

/// Walls for whose thickness every brick is cut.
fn odd_walls(design: &Design, bricks: Bricks, system: System) -> Vec<String> {
    let size = |length: f64| figure(length, Quantity::Size, system);
    let (fire, shell) = (&design.firebox, &design.shell);
    let walls = [
        (FieldId::FireboxWall, fire.wall_thickness, bricks.core),
        (FieldId::CoreThickness, shell.core_thickness, bricks.core),
        (FieldId::FacingThickness, shell.facing_thickness, bricks.facing),
    ];
    let odd = walls.into_iter().filter_map(|(id, thickness, brick)| {
        let brick = brick.filter(|brick| thickness > 0.0 && !is_whole(*brick, thickness))?;
        let BrickSize { length, width, height } = brick.size;
        Some(say!(
            "{}: {} is no size of its brick, which is {} on edge, {} along the wall or {} across \
             it; each is cut for it. Take another brick or another thickness.",
            label(id),
            size(thickness),
            size(height),
            size(width),
            size(length),
        ))
    });
    odd.collect()
}

fn proof(report: &Report) -> String {
    if report.faults.is_empty() {
        said(
            "Checked: bricks and joints fill the masonry, none overlap, the way of the gas is \
             clear.",
        )
        .into()
    } else {
        let spots = report.faults.iter().map(fault);
        say!(
            "The plans are wrong; do not build by them: {}",
            spots.collect::<Vec<_>>().join(" ")
        )
    }
}

fn fault(fault: &Fault) -> String {
    let (what, spot) = match fault {
        Fault::Overlap(spot) => (said("two pieces overlap"), spot),
        Fault::Outside(spot) => (said("a piece stands outside"), spot),
        Fault::Hole(spot) => (said("a hole is left"), spot),
        Fault::Blocked(spot, _) => (said("the gas is blocked"), spot),
        Fault::Gap(spot) => (said("a course does not lie on the next"), spot),
        Fault::Hanging(spot) => (said("nothing carries it"), spot),
        Fault::Crossing(spot) => (said("two parts cross"), spot),
        Fault::Closed(spot, _) => (said("an opening is closed"), spot),
        Fault::Narrow(spot, _) => (said("an opening is too narrow"), spot),
    };
    say!("{}, course {}: {what}.", part(spot.part), spot.course)
}

fn materials(passage: Passage, tallies: &[Tally], system: System) -> Passage {
    let weight = |mass: f64| figure(mass, Quantity::Weight, system);
    let rows = tallies.iter().map(|tally| {
        vec![
            part(tally.part).to_owned(),
            tally.whole.to_string(),
            tally.cut.to_string(),
            tally.bricks.to_string(),
            (tally.slabs + tally.lintels).to_string(),
            weight(tally.mass),
            weight(tally.estimated_mass),
            weight(tally.by_mortar),
            weight(tally.by_volume),
        ]
    });
    let heads = [
        said("Part"),
        said("Whole bricks"),
        said("Cut bricks"),
        said("Bricks to take"),
        said("Slabs, lintels"),
        said("Mass as laid"),
        said("Mass by volume"),
        said("By mortar"),
        said("By other volume"),
    ];
    let (mortar, ties) = tallies
        .iter()
        .fold((0.0, 0), |sum, tally| (sum.0 + tally.mortar_mass, sum.1 + tally.ties));
    passage.table(&heads, rows).text(say!(
        "Joints and beds take {} of mortar, without waste; {ties} ties, where they reach the core. \
         Mass by volume takes mortar for brick and leaves out openings but for the door.",
        weight(mortar),
    ))
}

fn cut_list(cuts: &[Cut], system: System) -> Passage {
    let rows = cuts.iter().zip(1_usize..).map(|(cut, number)| {
        vec![
            number.to_string(),
            part(cut.part).to_owned(),
            kind(cut.kind).to_owned(),
            size(cut.size, system),
            cut.count.to_string(),
        ]
    });
    Passage::new(said("Cut and made to size"))
        .text(said("The numbers stand in the plans, where a piece has room for one."))
        .table(
            &[
                said("No."),
                said("Part"),
                said("Piece"),
                said("Length, width, height"),
                said("Count"),
            ],
            rows,
        )
}

/// Where the geometry leaves no better way, course by course.
fn places(plans: &Plans, report: &Report, system: System) -> Passage {
    let mut points = Vec::new();
    let told = |spot: &Spot| (spot.part, spot.body, spot.course);
    for of in Part::ALL {
        for (what, wanted) in [
            (said("joints lie over joints"), 0),
            (said("pieces are smaller than a quarter of a brick"), 1),
            (said("pieces stand out from what carries them"), 2),
        ] {
            let spots = report.notes.iter().filter_map(|note| match (note, wanted) {
                (Note::Unbroken(spot, _), 0)
                | (Note::Small(spot), 1)
                | (Note::Overhang(spot, _), 2) => Some(told(spot)),
                _ => None,
            });
            let spots: Vec<_> = spots.filter(|spot| spot.0 == of).collect();
            let mut courses: Vec<_> = spots.iter().map(|spot| (spot.1, spot.2)).collect();
            courses.sort_unstable();
            courses.dedup();
            if let Some((first, _)) = courses.first() {
                let numbers = courses.iter().map(|(_, number)| number.to_string());
                let numbers = numbers.collect::<Vec<_>>().join(", ");
                let name = body(plans, of, *first);
                points.push(say!("{name}: {} {what}, in courses {numbers}.", spots.len()));
            }
        }
    }
    let passage = Passage::new(said("Places to look at"));
    if points.is_empty() {
        return passage.text(said("None."));
    }
    let quarter = plans.bricks.core.map(|brick| 0.25 * (brick.size.length - 3.0 * brick.joint));
    let lap = quarter.map(|lap| figure(lap, Quantity::Size, system)).unwrap_or_default();
    passage
        .text(say!(
            "Joints should keep a quarter of a brick from those of the course below, {lap} in the \
             core. The size of the parts leaves no better row here; sizes that fit bricks, below, \
             mend most of it."
        ))
        .list(points)
}

/// Sizes that fit bricks, and what they change.
fn snapped(design: &Design, before: &Analysis, bricks: Bricks, system: System) -> Passage {
    let snapped = snap(design, bricks);
    let passage = Passage::new(said("Sizes that fit the bricks"));
    if snapped.changes.is_empty() {
        return passage.text(said("Walls, courses and half bricks fit as they are."));
    }
    let size = |length: f64| figure(length, Quantity::Size, system);
    let name = |change: &Change| match change.run {
        Some(run) => say!("{} of run {}", label(change.field), run + 1),
        None => label(change.field).to_owned(),
    };
    let rows = snapped
        .changes
        .iter()
        .map(|change| vec![name(change), size(change.from), size(change.to)])
        .filter(|row| row.get(1) != row.get(2));
    let passage = passage
        .text(said(
            "Walls as thick as bricks, heights in whole courses, lengths in half bricks:",
        ))
        .table(&[said("Size"), said("Now"), said("Fits")], rows);
    let after = match analyze(&snapped.design) {
        Ok(after) => after,
        Err(failure) => return passage.text(super::failure(&failure, system)),
    };
    let cut = |design: &Design, analysis: &Analysis| {
        let tallies = tallies(design, &analysis.structure, &plans(design, bricks));
        tallies.iter().map(|tally| tally.cut).sum::<usize>().to_string()
    };
    let show = |value: fn(&Analysis) -> f64, quantity| {
        [before, &after].map(|analysis| figure(value(analysis), quantity, system))
    };
    let row = |name: &str, [now, then]: [String; 2]| vec![name.to_owned(), now, then];
    passage.table(
        &[said("At the height of the fire"), said("Now"), said("Fits")],
        [
            row(
                said("Gas out of the last run"),
                show(|a| a.height_of_fire.runs_outlet, Quantity::Temperature),
            ),
            row(
                said("Gas into the chimney"),
                show(|a| a.height_of_fire.chimney_inlet, Quantity::Temperature),
            ),
            row(said("Draft to spare"), show(|a| a.height_of_fire.margin, Quantity::Pressure)),
            row(
                said("Mass without chimney and base"),
                show(|a| a.structure.heater, Quantity::Weight),
            ),
            row(said("Cut bricks"), [cut(design, before), cut(&snapped.design, &after)]),
        ],
    )
}

/// All courses in the order in which they are laid.
fn in_order(plans: &Plans, system: System) -> Passage {
    let mut sum = 0;
    let rows = plans.courses.iter().map(|course| {
        sum += course.pieces.iter().filter(|piece| piece.kind == Kind::Brick).count();
        let mut open: Vec<String> =
            course.open.iter().map(|(each, _)| opening(*each)).collect();
        open.dedup();
        vec![
            body(plans, course.part, course.body),
            course.number.to_string(),
            figure(meters(course.bottom + course.bed), Quantity::Size, system),
            figure(meters(course.height), Quantity::Size, system),
            counted(course),
            open.join(", "),
            sum.to_string(),
        ]
    });
    let heads = [
        said("Part"),
        said("Course"),
        said("Begins at"),
        said("Height"),
        said("Pieces"),
        said("Open for"),
        said("Bricks up to here"),
    ];
    Passage::new(said("Course by course")).table(&heads, rows)
}
