use longsmoke::analysis::day::{Resolution, Setup, day};
use longsmoke::design::{Design, document};
fn main() {
    let mut design = Design::demonstration();
    if let Some(file) = std::env::args().nth(1) {
        if file != "-" {
            design = document::read(&std::fs::read_to_string(file).unwrap()).unwrap().design;
        }
    }
    let factor: u32 = std::env::args().nth(2).map_or(1, |x| x.parse().unwrap());
    let resolution =
        if factor == 0 { Resolution::STANDARD } else { Resolution::STANDARD.finer(factor) };
    let mut setup = Setup { resolution, ..Setup::STANDARD };
    if let Some(flow) = std::env::args().nth(3) {
        setup.after_flow = Some(flow.parse().unwrap());
    }
    let start = std::time::Instant::now();
    let day = day(&design, &setup);
    println!("time {:?}", start.elapsed());
    match day {
        Ok(day) => {
            println!(
                "rounds {} residual {:e} half {:?} quarter {:?}",
                day.periodic_rounds,
                day.periodic_residual,
                day.hours_to_half,
                day.hours_to_quarter
            );
            for state in [&day.first_fire, &day.periodic] {
                let e = state.energy;
                println!(
                    "eff {:.4} mean chimney {:.1} runs {:?} missing {:e}",
                    state.efficiency_lower,
                    state.burn_mean.chimney_inlet - 273.15,
                    state.burn_mean.runs_celsius,
                    e.missing() / e.wood_joules
                );
                println!("{e:#?}");
                println!("{:?} {:?}", state.peak, state.draft);
            }
            let s = &day.periodic.series;
            println!("steps {}", s.time_s.len());
            for i in 0..s.time_s.len() {
                println!(
                    "{:8.0} wood {:7.0} stack {:7.0} room {:6.0} surf {:5.1} fb {:6.1} ch {:5.1} mw {:5.1} margin {:5.1} flow {:.5}",
                    s.time_s[i],
                    s.wood_watts[i],
                    s.stack_watts[i],
                    s.room_watts[i],
                    s.surface_celsius[i],
                    s.firebox_outlet_celsius[i],
                    s.chimney_inlet_celsius[i],
                    s.mouth_wall_celsius[i],
                    s.margin_pascals[i],
                    s.gas_flow_kg_per_s[i]
                );
            }
        }
        Err(e) => println!("{e:?}"),
    }
}
