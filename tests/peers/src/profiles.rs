//! Times of moves from rest to rest, by another planner, printed as a table.
//!
//! The jerk is infinite, which the planner takes as such: it then plans trapezoids and triangles by
//! its second-order branch. Way, speed and acceleration go in as mm, mm/s and mm/s².
//!
//! The cases cover the axes of a board buffer: ways of 0.1 to 2,000 mm, speeds of 5 to 500 mm/s,
//! accelerations of 50 to 5,000 mm/s². Most ways are odd numbers on purpose, so that few times are
//! round.

use rsruckig::prelude::*;

/// In µm.
const WAYS: [u32; 9] = [
    100, 1_003, 4_999, 20_011, 77_777, 250_007, 611_953, 1_300_021, 2_000_000,
];
/// In mm/s.
const SPEEDS: [u32; 5] = [5, 40, 150, 250, 500];
/// In mm/s².
const ACCELERATIONS: [u32; 5] = [50, 240, 600, 1_700, 5_000];

/// Seconds from rest to rest.
fn duration(way_um: u32, speed: u32, acceleration: u32) -> Result<f64, String> {
    let mut planner = Ruckig::<1, ThrowErrorHandler>::new(None, 0.001);
    let mut input = InputParameter::new(None);
    input.target_position[0] = f64::from(way_um) / 1_000.0;
    input.max_velocity[0] = f64::from(speed);
    input.max_acceleration[0] = f64::from(acceleration);
    input.max_jerk[0] = f64::INFINITY;
    let mut trajectory = Trajectory::new(None);
    match planner.calculate(&input, &mut trajectory) {
        Ok(RuckigResult::Working | RuckigResult::Finished) => Ok(trajectory.get_duration()),
        other => Err(format!(
            "{way_um} µm, {speed} mm/s, {acceleration} mm/s²: {other:?}"
        )),
    }
}

fn main() -> Result<(), String> {
    println!("# Times of moves from rest to rest, kept as another planner gave them.");
    println!("# Tool: rsruckig 3.0.1 (crates.io, MIT), infinite jerk");
    println!("# Made by: cargo run --manifest-path tests/peers/Cargo.toml --bin profiles");
    println!("# Columns: way_um speed_um_s acceleration_mm_s2 duration_us");
    for way in WAYS {
        for speed in SPEEDS {
            for acceleration in ACCELERATIONS {
                let micros = duration(way, speed, acceleration)? * 1e6;
                println!("{way} {} {acceleration} {micros:.6}", speed * 1_000);
            }
        }
    }
    Ok(())
}
