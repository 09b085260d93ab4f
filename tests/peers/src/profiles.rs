//! Times and places of moves from rest to rest, by another planner, printed as a table.
//!
//! Where there is no limit of jerk it is infinite, which the planner takes as such: it then plans
//! trapezoids and triangles by its second-order branch. Way, speed, acceleration and jerk go in as
//! mm, mm/s, mm/s² and mm/s³.
//!
//! The cases cover the axes of a board buffer: ways of 0.1 to 2,000 mm, speeds of 5 to 500 mm/s,
//! accelerations of 50 to 5,000 mm/s², jerks of 120 to 50,000 mm/s³ or none. Most ways are odd
//! numbers on purpose, so that few times are round.

use rsruckig::prelude::*;

/// In µm.
const WAYS: [u32; 9] = [
    100, 1_003, 4_999, 20_011, 77_777, 250_007, 611_953, 1_300_021, 2_000_000,
];
/// In mm/s.
const SPEEDS: [u32; 5] = [5, 40, 150, 250, 500];
/// In mm/s².
const ACCELERATIONS: [u32; 5] = [50, 240, 600, 1_700, 5_000];
/// In mm/s³. None is infinite.
const JERKS: [Option<u32>; 4] = [None, Some(120), Some(4_000), Some(50_000)];
/// Eighths of the time at which the place is asked.
const EIGHTHS: [u32; 4] = [1, 2, 3, 6];

/// One move, in the units of the table.
struct Move {
    way: u32,
    speed: u32,
    acceleration: u32,
    jerk: Option<u32>,
}

impl Move {
    /// Time from rest to rest in µs, and places at the eighths of it in µm.
    fn plan(&self) -> Result<(f64, Vec<f64>), String> {
        let mut planner = Ruckig::<1, ThrowErrorHandler>::new(None, 0.001);
        let mut input = InputParameter::new(None);
        input.target_position[0] = f64::from(self.way) / 1_000.0;
        input.max_velocity[0] = f64::from(self.speed);
        input.max_acceleration[0] = f64::from(self.acceleration);
        input.max_jerk[0] = self.jerk.map_or(f64::INFINITY, f64::from);
        let mut trajectory = Trajectory::new(None);
        match planner.calculate(&input, &mut trajectory) {
            Ok(RuckigResult::Working | RuckigResult::Finished) => {}
            other => {
                let Move { way, speed, acceleration, jerk } = self;
                return Err(format!(
                    "{way} µm, {speed} mm/s, {acceleration} mm/s², {jerk:?} mm/s³: {other:?}"
                ));
            }
        }
        let duration = trajectory.get_duration();
        let place = |eighths: u32| {
            let [mut place, mut speed, mut acceleration] =
                [0; 3].map(|_| DataArrayOrVec::<f64, 1>::new(None, 0.0));
            trajectory.at_time(
                duration * f64::from(eighths) / 8.0,
                &mut Some(&mut place),
                &mut Some(&mut speed),
                &mut Some(&mut acceleration),
                &mut None,
                &mut None,
            );
            place[0] * 1e3
        };
        Ok((duration * 1e6, EIGHTHS.map(place).to_vec()))
    }

    /// One line of the table.
    fn row(&self) -> Result<String, String> {
        let (micros, places) = self.plan()?;
        let jerk = self.jerk.map_or("-".to_owned(), |jerk| jerk.to_string());
        let places: Vec<_> = places.iter().map(|place| format!("{place:.3}")).collect();
        Ok(format!(
            "{} {} {} {jerk} {micros:.6} {}",
            self.way,
            self.speed * 1_000,
            self.acceleration,
            places.join(" ")
        ))
    }
}

fn main() -> Result<(), String> {
    println!("# Moves from rest to rest, kept as another planner gave them.");
    println!("# Tool: rsruckig 3.0.1 (crates.io, MIT); - is infinite jerk");
    println!("# Made by: cargo run --manifest-path tests/peers/Cargo.toml --bin profiles");
    println!(
        "# Columns: way_um speed_um_s acceleration_mm_s2 jerk_mm_s3 duration_us, \
         place_um after 1, 2, 3 and 6 eighths of it"
    );
    for jerk in JERKS {
        for way in WAYS {
            for speed in SPEEDS {
                for acceleration in ACCELERATIONS {
                    let case = Move { way, speed, acceleration, jerk };
                    println!("{}", case.row()?);
                }
            }
        }
    }
    Ok(())
}
