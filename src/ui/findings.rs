//! The findings, by question, each with what, where, why, what to do, and who says so.

use super::dom::{Tag, button, tag, watch};
use super::icon::{Mark, icon};
use super::remedies::Remedies;
use super::signal::{Memo, RwSignal};
use super::sources::Cited;
use super::uncertainty::Worth;
use super::working::Working;
use super::workspace::{Shown, Workspace};
use super::{Known, browser, decisions, texts};
use longsmoke::design::field::{Kind, field};
use longsmoke::language::English;
use longsmoke::rules::{Finding, Lever, Question, levers};
use longsmoke::study::remedy::Key;
use longsmoke::units::System;
use longsmoke::words;
use std::time::Duration;

/// How long findings wait at the start for those that come later.
const PATIENCE: Duration = Duration::from_secs(8);

pub fn findings(workspace: Workspace, known: &Known) -> Tag {
    let Known { worth, working, cited, .. } = *known;
    let below = Below { remedies: Remedies::new(workspace), working, cited };
    let below = RwSignal::new(below);
    let always = words::CAUTIONS.map(English::said).into_iter().skip(1);
    let always = always.map(|caution| tag("li").text(caution));
    let weight = move || {
        let say =
            |shown: &Shown, system| words::structure::weight(&shown.analysis.structure, system);
        workspace.read(say)
    };
    let scope = move || {
        let say =
            |shown: &Shown, _| words::structure::scope(shown.design.site.rule_set).to_owned();
        workspace.read(say)
    };
    let here = [tag("li").live_text(weight), tag("li").live_text(scope)];
    let always = tag("section")
        .class("answered")
        .child(tag("h3").text(texts::always()))
        .child(tag("ul").class("always").children(here).children(always));
    let lists = move || workspace.lists.get();
    let all = tag("div")
        .live_attr("hidden", move || (!lists()).then(String::new))
        .children(Question::ALL.map(|question| answered(workspace, (worth, below), question)))
        .child(always);
    let coming = tag("p")
        .class("help")
        .live_attr("hidden", move || lists().then(String::new))
        .text(texts::findings_coming());
    list_soon(workspace);
    tag("section")
        .class("findings")
        .id("findings")
        .attr("aria-labelledby", "findings-title")
        .child(tag("h2").id("findings-title").text(texts::findings()))
        .child(coming)
        .child(all)
}

/// Lists findings once all are known, so that none moves the others while they are read; where that
/// takes long, without those to come.
fn list_soon(workspace: Workspace) {
    let list = move || workspace.lists.set(true);
    browser::after(PATIENCE, list);
    watch(move || {
        let is_judged = workspace.awaited.with(|tasks| !tasks.is_empty());
        if is_judged && !workspace.waits.get() && !workspace.lists.get_untracked() {
            list();
        }
    });
}

/// What stands below a finding as soon as it is known.
#[derive(Clone, Copy)]
struct Below {
    remedies: Remedies,
    working: Working,
    cited: Cited,
}

/// A finding of a question by its place in the list, with its number in the drawing: what shows
/// it stands still while others change.
#[derive(Clone, Copy)]
struct Nth {
    below: RwSignal<Below>,
    question: Question,
    /// And whether it is of the design before, and judged anew.
    found: Memo<Option<(usize, Finding, bool)>>,
    said: Memo<Option<words::Text>>,
}

/// The findings of a question, numbered as in the drawing.
fn with_mine<T>(
    workspace: Workspace,
    question: Question,
    read: impl FnOnce(&mut dyn Iterator<Item = (usize, &Finding)>) -> T,
) -> Option<T> {
    workspace.shown.with(|shown| {
        let numbered = (1_usize..).zip(shown.as_ref()?.listed.iter());
        Some(read(&mut numbered.filter(|(_, finding)| finding.rule.question() == question)))
    })
}

fn answered(
    workspace: Workspace,
    (worth, below): (Worth, RwSignal<Below>),
    question: Question,
) -> Tag {
    let count = move || with_mine(workspace, question, |mine| mine.count()).unwrap_or_default();
    let nothing = tag("p")
        .class("help")
        .live_attr("hidden", move || (count() > 0).then(String::new))
        .text(texts::no_findings_here());
    let nth = move |index| {
        let found = Memo::new(move |_| {
            let nth = with_mine(workspace, question, |mine| {
                mine.nth(index).map(|(number, finding)| (number, *finding))
            });
            let (number, finding) = nth.flatten()?;
            let is_new = |shown: &Shown| shown.findings.contains(&finding);
            let is_new = workspace.shown.with(|shown| shown.as_ref().is_some_and(is_new));
            Some((number, finding, !is_new))
        });
        let said = Memo::new(move |_| {
            let (_, finding, _) = found.get()?;
            Some(words::finding(&finding, workspace.system.get()))
        });
        finding_view(Nth { below, question, found, said })
    };
    let list = tag("ul").class("list").repeat(count, nth);
    let yes = tag("p").attr("data-testid", &format!("cases-{}", question.id()));
    let yes = worth.line(yes, "band", move |found, _| found.yes(question).map(str::to_owned));
    tag("section")
        .class("answered")
        .id(&format!("findings-{}", question.id()))
        .attr("tabindex", "-1")
        .child(tag("h3").text(words::question(question)))
        .child(yes)
        .child(nothing)
        .child(list)
}

impl Nth {
    fn below(self) -> Below {
        self.below.get_untracked()
    }

    fn read<T>(self, read: impl FnOnce(usize, &Finding, System) -> T) -> Option<T> {
        let (number, finding, _) = self.found.get()?;
        Some(read(number, &finding, self.below().remedies.workspace.system.get()))
    }

    fn text(self, class: &str, part: fn(words::Text) -> String) -> Tag {
        tag("p").class(class).live_text(move || self.said.get().map(part))
    }

    /// Its name where remedies are sought for it.
    fn key(self) -> Option<Key> {
        self.read(|_, finding, _| (!levers(finding).is_empty()).then(|| Key::of(finding)))
            .flatten()
    }

    fn lever(self) -> Option<Lever> {
        self.read(|_, finding, _| finding.lever).flatten()
    }
}

fn finding_view(nth: Nth) -> Tag {
    let workspace = nth.below().remedies.workspace;
    let mark = move || nth.read(|_, finding, _| Mark::from(finding.severity));
    let enter = move |_| workspace.marked.set(nth.read(|_, finding, _| finding.place));
    let severity = tag("p").class("severity").live_of(
        move || nth.read(|number, finding, _| (number, finding.severity, finding.place)),
        |line, shown| {
            let Some((number, severity, place)) = *shown else { return line };
            line.child(tag("span").class("number").text(&number.to_string()))
                .child(icon(severity.into()))
                .text(words::severity(severity))
                .child(tag("span").class("place").text(&words::place(place)))
        },
    );
    let cited = nth.below().cited;
    let source = move || nth.read(|_, finding, _| cited.line(finding.source));
    let source = tag("p").class("source").live_text(source);
    tag("li")
        .live_attr("class", move || {
            let place = nth.read(|_, finding, _| finding.place);
            let is_meant = place.is_some() && workspace.marked.get() == place;
            let meant = if is_meant { " meant" } else { "" };
            let is_stale = nth.found.get().is_some_and(|(_, _, is_stale)| is_stale);
            let stale = if is_stale { " stale" } else { "" };
            Some(format!("finding {}{meant}{stale}", mark()?.class()))
        })
        .live_attr("data-rule", move || nth.read(|_, finding, _| finding.rule.id().to_owned()))
        .on("pointerenter", enter)
        .on("pointerleave", move |_| workspace.marked.set(None))
        .on("focusin", enter)
        .on("focusout", move |_| workspace.marked.set(None))
        .child(severity)
        .child(nth.text("title", |text| text.title))
        .child(nth.text("reason", |text| text.reason.to_owned()))
        .child(nth.text("remedy", |text| text.remedy.to_owned()))
        .child(nth.below().remedies.view(nth.question, move || nth.key()))
        .child(nth.below().working.below(move || nth.read(|_, finding, _| *finding)))
        .child(go_to(nth))
        .child(source)
}

/// Opens the decision that mends a finding.
fn go_to(nth: Nth) -> Tag {
    let workspace = nth.below().remedies.workspace;
    let go = move || {
        if let Some(lever) = nth.lever() {
            decisions::go_to(workspace, lever.field);
        }
    };
    let name =
        move || Some(format!("{}: {}", texts::go_to(), words::label(nth.lever()?.field)));
    let way = move || Some(arrow(nth.lever()?).to_owned());
    button(go)
        .class("go")
        .live_attr("hidden", move || nth.lever().is_none().then(String::new))
        .live_text(name)
        .child(tag("span").attr("aria-hidden", "true").live_text(way))
}

/// Which way to move a number; a choice has no way.
fn arrow(lever: Lever) -> &'static str {
    match (&field(lever.field).kind, lever.raise) {
        (Kind::Number(_), true) => " \u{2191}",
        (Kind::Number(_), false) => " \u{2193}",
        (Kind::Choice(_), _) => "",
    }
}
