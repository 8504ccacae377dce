//! The draft ledger: what pulls and what holds back, item by item.

use super::texts;
use super::workspace::{Shown, Workspace};
use leptos::prelude::*;
use longsmoke::analysis::draft::Entry;
use longsmoke::units::{Quantity, number, unit_of};
use longsmoke::words;

#[component]
pub fn LedgerView(shown: Memo<Option<Shown>>) -> impl IntoView {
    let workspace: Workspace = expect_context();
    let entries = Memo::new(move |_| {
        shown.with(|shown| {
            let fire = shown.as_ref().map(|shown| &shown.analysis.height_of_fire);
            fire.map(|fire| fire.ledger.clone()).unwrap_or_default()
        })
    });
    let total = move |read: fn(&longsmoke::analysis::HeightOfFire) -> f64| {
        shown.with(|shown| {
            let value = read(&shown.as_ref()?.analysis.height_of_fire);
            Some(number(value, Quantity::Pressure, workspace.system.get()))
        })
    };
    let unit = move || unit_of(Quantity::Pressure, workspace.system.get()).symbol;
    view! {
        <section class="ledger" aria-labelledby="ledger-title">
            <h2 id="ledger-title">{texts::LEDGER}</h2>
            <table data-testid="ledger">
                <thead>
                    <tr>
                        <th scope="col">{texts::LEDGER_ITEM}</th>
                        <th scope="col">{texts::LEDGER_PULLS} ", " {unit}</th>
                        <th scope="col">{texts::LEDGER_HOLDS} ", " {unit}</th>
                    </tr>
                </thead>
                <tbody>{move || entries.get().into_iter().map(line).collect_view()}</tbody>
                <tfoot>
                    <tr>
                        <th scope="row">{texts::LEDGER_SUM}</th>
                        <td>{move || total(|fire| fire.draft)}</td>
                        <td>{move || total(|fire| fire.losses)}</td>
                    </tr>
                    <tr class="margin">
                        <th scope="row">{texts::LEDGER_MARGIN} ", " {unit}</th>
                        <td colspan="2">{move || total(|fire| fire.margin)}</td>
                    </tr>
                </tfoot>
            </table>
        </section>
    }
}

fn line(entry: Entry) -> impl IntoView {
    let workspace: Workspace = expect_context();
    let value = number(entry.pascals.abs(), Quantity::Pressure, workspace.system.get());
    let pulls = entry.pascals > 0.0;
    view! {
        <tr>
            <th scope="row">{words::item(entry.item)}</th>
            <td>{pulls.then(|| value.clone())}</td>
            <td>{(!pulls).then_some(value)}</td>
        </tr>
    }
}
